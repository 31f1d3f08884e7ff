import { describe, expect, it } from 'vitest'
import { type Build, emptyBuild } from '../model/build.ts'
import { dayAfter, daysBetween } from './arrival.ts'
import { forecastOf } from './forecast.ts'
import { biasOf, outcomesOf, paceOf, weeksOf } from './history.ts'
import { planTo } from './plan.ts'
import { normal, seeded } from './random.ts'
import { minutes, smallBuild } from './small.testing.ts'
import { drawTime, gamma } from './threePoint.ts'

const today = '2025-06-01'

/** A builder with habits nobody is told: weeks so long, jobs so much slower than thought. */
const builderOf = (seed: number) => {
  const random = seeded(seed)
  const mean = (2 + 6 * random()) * 3600
  const idle = 0.25 * random()
  const slow = Math.exp(0.1 + 0.35 * normal(random))
  const scatter = 0.1 + 0.2 * random()
  return {
    random,
    week: () => (random() < idle ? 0 : (mean * gamma(random, 3)) / 3),
    time: (estimate: { least: number; likely: number; most: number }) =>
      drawTime(estimate, random) * slow * Math.exp(scatter * normal(random)),
  }
}

const withHistory = (seed: number, weeks: number, done: number, open: number) => {
  const builder = builderOf(seed)
  const build = emptyBuild(`Builder ${seed}`)
  const { jobs, records } = build.collections
  for (let week = 0; week < weeks; week++) {
    const hours = builder.week()
    if (hours > 0)
      records[`S-${week}`] = {
        id: `S-${week}`,
        kind: 'sitting',
        title: 'Sitting',
        when: `${dayAfter(today, -7 * week - 3)}T19:00:00Z`,
        hours: { value: hours },
      }
  }
  for (let i = 0; i < done + open; i++) {
    const likely = 20 + 100 * builder.random()
    const time = minutes(likely * 0.6, likely, likely * (1.5 + builder.random()))
    const estimate = { least: time.least.value, likely: time.likely.value, most: time.most.value }
    jobs[`J${i}`] = {
      id: `J${i}`,
      title: `Job ${i}`,
      time,
      ...(i < done ? { status: 'done', spent: { value: builder.time(estimate) } } : { status: 'to do' }),
    }
  }
  /** What then happens, in days. */
  const truth = (): number => {
    let left = Object.values(jobs)
      .filter(({ status }) => status === 'to do')
      .reduce(
        (sum, { time }) =>
          sum + builder.time({ least: time!.least.value, likely: time!.likely.value, most: time!.most.value }),
        0,
      )
    for (let week = 0; ; week++) {
      const hours = builder.week()
      if (left <= hours) return 7 * week + (7 * left) / hours
      left -= hours
    }
  }
  return { build, truth }
}

describe('the forecast', () => {
  it('keeps its 80 % dates for 70 to 90 % of 200 simulated builders, and its 50 % dates for 40 to 60 %', async () => {
    let kept = 0
    let half = 0
    for (let seed = 1; seed <= 200; seed++) {
      const { build, truth } = withHistory(seed, 16, 15, 30)
      const { dates } = forecastOf(build, await planTo(build, { today, milestone: null }), { today, seed })
      const day = truth()
      if (day <= daysBetween(today, dates!.in80)) kept++
      if (day <= daysBetween(today, dates!.in50)) half++
    }
    expect(kept).toBeGreaterThanOrEqual(140)
    expect(kept).toBeLessThanOrEqual(180)
    expect(half).toBeGreaterThanOrEqual(80)
    expect(half).toBeLessThanOrEqual(120)
  })

  it('is the same for the same seed, and speaks one sentence with two dates', async () => {
    const { build } = withHistory(3, 10, 8, 12)
    const plan = await planTo(build, { today })
    const [first, again] = [forecastOf(build, plan, { today, seed: 5 }), forecastOf(build, plan, { today, seed: 5 })]
    expect(first).toEqual(again)
    expect(first.sentence).toBe(
      `All jobs: as likely as not by ${first.dates!.in50}, and in eight of ten cases by ${first.dates!.in80}.`,
    )
    expect(first.dates!.in50 < first.dates!.in80).toBe(true)
    expect(first.pace).toMatchObject({ from: 'sittings' })
  })

  it('says that the hours are unknown where they are, and what would tell', async () => {
    const build = smallBuild([], [['J1', []]])
    const none = forecastOf(build, await planTo(build, { today }), { today })
    expect(none.dates).toBeUndefined()
    expect(none.unknown.map(({ code }) => code)).toEqual(['no-pace'])
    const said = forecastOf(build, await planTo(build, { today }), { today, pace: 3600 })
    expect(said.dates).toBeDefined()
    expect(said.pace).toEqual({ mean: 3600, from: 'said', weeks: 0 })
    expect(forecastOf(build, await planTo(build, { today }), { today, pace: 0.01 }).sentence).toMatch(/twenty years/)
    const empty = emptyBuild('Empty')
    expect(forecastOf(empty, await planTo(empty, { today }), { today, pace: 3600 }).sentence).toMatch(/nothing is left/)
  })

  it('moves with more hours, a late part and a dropped job, and names what holds it', async () => {
    const build = smallBuild(
      [],
      [
        ['J1', [], undefined, { time: minutes(60, 120, 240) }],
        ['J2', [], undefined, { time: minutes(30, 60, 90), needs: { parts: ['propshaft'] } }],
        ['J3', [], ['J2'], { time: minutes(500, 600, 700) }],
        ['J4', [], undefined, { needs: { parts: ['ghost'] } }],
      ],
    )
    build.collections.parts.propshaft = { id: 'propshaft', name: 'Propshaft', status: 'ordered', due: '2025-06-20' }
    const pace = 7 * 3600
    const plan = await planTo(build, { today, pace })
    const base = forecastOf(build, plan, { today, pace })
    expect(
      base.holds
        .map(({ id }) => id)
        .slice(0, 2)
        .sort(),
    ).toEqual(['J3', 'propshaft'])
    expect(base.supposed.map(({ part }) => part)).toEqual(['ghost'])
    expect(base.sentence).toMatch(/if a part without a date is here when needed\.$/)
    const days = (forecast: typeof base) => daysBetween(today, forecast.dates!.in50)
    // J2 cannot begin before the part is here; the two jobs from it take eleven hours, one a day.
    expect(days(base)).toBeGreaterThanOrEqual(19 + 8)
    expect(days(forecastOf(build, plan, { today, pace: 4 * pace }))).toBeLessThan(days(base))
    const late = days(forecastOf(build, plan, { today, pace, late: { propshaft: 30 } }))
    expect(Math.abs(late - days(base) - 30)).toBeLessThanOrEqual(3)
    expect(days(forecastOf(build, plan, { today, pace, drop: ['J3'] }))).toBeLessThan(days(base) - 5)
    expect(() => forecastOf(build, plan, { today, pace, drop: ['J9'] })).toThrow(/There is no job “J9”/)
    expect(() => forecastOf(build, plan, { today, pace, late: { moon: 3 } })).toThrow(/There is no part “moon”/)
  })
})

describe('what the build tells of its builder', () => {
  it('is hours by week, idle weeks too', () => {
    const build: Build = emptyBuild('B')
    for (const [i, when] of ['2025-05-31', '2025-05-30', '2025-05-12', '2025-07-01'].entries())
      build.collections.records[`S${i}`] = {
        id: `S${i}`,
        kind: 'sitting',
        title: 'Sitting',
        when: `${when}T20:00:00Z`,
        hours: { value: 3600 },
      }
    expect(weeksOf(build, today)).toEqual([3600, 0, 7200])
    expect(paceOf(build, today)).toBe(3600)
    expect(paceOf(emptyBuild('E'), today)).toBeUndefined()
  })
  it('draws the bias towards none the less it has seen', () => {
    const outcomes = (count: number) =>
      Array.from({ length: count }, (_, i) => ({ job: `${i}`, ratio: Math.log(2), spread: 0 }))
    const means = [0, 1, 5, 50].map((count) => biasOf(outcomes(count)).mean)
    expect(means[0]).toBe(0)
    expect(means[1]).toBeGreaterThan(0.2)
    expect(means[1]).toBeLessThan(means[2]!)
    expect(means[3]).toBeCloseTo(Math.log(2), 2)
    // One job: precision-weighted mean of log 2 with variance 0.09 and 0 with variance 0.25.
    expect(means[1]).toBeCloseTo(Math.log(2) / 0.09 / (1 / 0.09 + 1 / 0.25), 9)
  })
  it('leaves out jobs without a time, without hours, or still open', () => {
    const build = smallBuild(
      [],
      [
        ['J1', [], undefined, { status: 'done', spent: { value: 4200 } }],
        ['J2', [], undefined, { status: 'doing', spent: { value: 4200 } }],
        ['J3', [], undefined, { status: 'done' }],
        ['J4', [], undefined, { status: 'done', spent: { value: 60 }, time: undefined }],
      ],
    )
    expect(outcomesOf(build)).toEqual([{ job: 'J1', ratio: expect.closeTo(Math.log(4200 / 2000), 9), spread: 0.2 }])
  })
})
