import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild } from '../../demo/index.ts'
import { type Build, emptyBuild } from '../model/build.ts'
import { daysBetween } from './arrival.ts'
import { largeBuild } from './large.testing.ts'
import { planTo } from './plan.ts'
import { chanceBuild, leastFor, MINUTE, ordersOf, smallBuild, walk } from './small.testing.ts'

const today = '2025-06-01'
const jobsOf = (plan: Awaited<ReturnType<typeof planTo>>) =>
  plan.steps.flatMap((step) => (step.kind === 'job' ? [step.id] : []))
/** What the plan leaves open: what was open and no job had to do with. */
const leastOfAll = (build: Build): number => {
  const standing = (id: string) => build.collections.accesses[id]!.isOpen === true
  const needed = new Set(Object.values(build.collections.jobs).flatMap(({ accesses }) => accesses ?? []))
  const reach = (id: string): string[] => [id, ...(build.collections.accesses[id]!.requires ?? []).flatMap(reach)]
  const used = new Set([...needed].flatMap(reach))
  return Math.min(
    ...[...ordersOf(build, Object.keys(build.collections.jobs))].map((order) =>
      leastFor(build, order, (id) => !standing(id) || used.has(id)),
    ),
  )
}

/** Made so that the order in which the jobs are listed opens every access at least twice. */
const TWICE: readonly { name: string; build: Build; best: number; listed: number }[] = [
  {
    // Stands, wheels, stands, wheels: once each is enough, 55 + 20 min.
    name: 'on the wheels and on stands by turns',
    build: smallBuild(
      [
        ['stands', 30, 25],
        ['wheels', 10, 10, { excludes: ['stands'] }],
      ],
      [
        ['J1', ['stands']],
        ['J2', ['wheels']],
        ['J3', ['stands']],
        ['J4', ['wheels']],
      ],
    ),
    best: 75,
    listed: 150,
  },
  {
    // The engine must run once before the inlet comes off and once after it: battery on twice, all else once.
    name: 'battery off under the inlet, engine run before and after',
    build: smallBuild(
      [
        ['battery-off', 5, 10],
        ['battery-on', 5, 5, { excludes: ['battery-off'] }],
        ['inlet-off', 60, 90, { requires: ['battery-off'] }],
      ],
      [
        ['J1', ['battery-on']],
        ['J2', ['inlet-off'], ['J1']],
        ['J3', ['battery-on'], ['J2']],
        ['J4', ['inlet-off']],
        ['J5', ['battery-on']],
        ['J6', ['battery-off']],
      ],
    ),
    best: 15 + 2 * 10 + 150,
    listed: 3 * 15 + 3 * 10 + 2 * 150,
  },
  {
    // Wheels before the tank and after it; what is drained waits for the engine to have run.
    name: 'tank, coolant and engine',
    build: smallBuild(
      [
        ['stands', 30, 25],
        ['wheels', 2, 3, { excludes: ['stands'] }],
        ['tank-empty', 50, 20, { requires: ['stands'] }],
        ['coolant-out', 30, 50],
        ['running', 3, 2, { requires: ['wheels'], excludes: ['coolant-out', 'tank-empty'] }],
      ],
      [
        ['J1', ['tank-empty']],
        ['J2', ['running']],
        ['J3', ['coolant-out']],
        ['J4', ['running'], ['J1']],
        ['J5', ['tank-empty', 'coolant-out']],
        ['J6', ['running'], ['J5', 'J3']],
      ],
    ),
    best: 55 + 5 + 70 + 80 + 5,
    listed: 2 * 55 + 2 * 5 + 2 * 70 + 2 * 80 + 3 * 5,
  },
]

/** How often each access is opened when the list is worked from the top, closing only what has to be. */
const openedAsListed = (build: Build): Record<string, number> => {
  const all = build.collections.accesses
  const counts: Record<string, number> = Object.fromEntries(Object.keys(all).map((id) => [id, 0]))
  const reach = (id: string): string[] => [id, ...(all[id]!.requires ?? []).flatMap(reach)]
  let open: string[] = []
  const bars = (a: string, b: string) => all[a]!.excludes?.includes(b) || all[b]!.excludes?.includes(a)
  for (const { accesses } of Object.values(build.collections.jobs)) {
    const needed = [...new Set((accesses ?? []).flatMap(reach))]
    open = open.filter((id) => !reach(id).some((mine) => needed.some((other) => bars(mine, other))))
    for (const id of needed) if (!open.includes(id)) counts[id]!++
    open = [...new Set([...open, ...needed])]
  }
  return counts
}

describe('the order with the fewest hours of opening and closing', () => {
  it.each(TWICE)('is proven where the listed order opens things twice: $name', async ({ build, best, listed }) => {
    const plan = await planTo(build, { today })
    expect(plan.proven).toBe(true)
    expect(plan.openings / MINUTE).toBe(best)
    expect(plan.bound / MINUTE).toBe(best)
    expect(plan.asListed / MINUTE).toBe(listed)
    for (const times of Object.values(openedAsListed(build))) expect(times).toBeGreaterThanOrEqual(2)
    expect(leastOfAll(build) / MINUTE).toBe(best)
    expect(walk(build, plan.steps)).toEqual({ wrong: [], openings: best * MINUTE, open: [] })
  })

  it('equals the best of all orders and of all ways to leave things open, on forty builds of chance', async () => {
    for (let seed = 1; seed <= 40; seed++) {
      const build = chanceBuild(6, seed)
      const plan = await planTo(build, { today })
      const walked = walk(build, plan.steps)
      expect(plan.problems, `seed ${seed}`).toEqual([])
      expect(walked.wrong, `seed ${seed}`).toEqual([])
      expect(walked.openings, `seed ${seed}`).toBeCloseTo(plan.openings, 6)
      expect(plan.proven, `seed ${seed}`).toBe(true)
      expect(plan.openings, `seed ${seed}`).toBeCloseTo(leastOfAll(build), 6)
    }
  })

  it('keeps what many jobs need, shows a bound that holds and reports on its way', async () => {
    const build = largeBuild(200, 2)
    const seen: number[] = []
    const plan = await planTo(build, { today, within: 3, progress: ({ cost, bound }) => seen.push(cost - bound) })
    expect(jobsOf(plan)).toHaveLength(200)
    const walked = walk(build, plan.steps)
    expect(walked.wrong).toEqual([])
    expect(walked.openings).toBeCloseTo(plan.openings, 6)
    expect(plan.bound).toBeLessThanOrEqual(plan.openings)
    expect(plan.gap).toBeCloseTo((plan.openings - plan.bound) / plan.openings, 9)
    expect(plan.gap).toBeLessThan(0.1)
    expect(plan.openings).toBeLessThan(0.5 * plan.asListed)
    expect(plan.took).toBeLessThan(10)
    expect(seen.every((gap) => gap >= -1e-6)).toBe(true)
    expect(seen.length).toBeGreaterThan(5)
  })

  it('gives a whole order when it is cancelled', async () => {
    const build = largeBuild(120, 3)
    const stop = new AbortController()
    const plan = await planTo(build, { today, within: 60, signal: stop.signal, progress: () => stop.abort() })
    expect(plan.cancelled).toBe(true)
    expect(plan.took).toBeLessThan(20)
    expect(jobsOf(plan)).toHaveLength(120)
    expect(walk(build, plan.steps).wrong).toEqual([])
  })

  it('draws brackets that hold the jobs that need them and never cross within a depth', async () => {
    const build = demoBuild()
    const plan = await planTo(build, { today, milestone: 'first-start' })
    const order = jobsOf(plan)
    order.forEach((id, at) => {
      for (const access of build.collections.jobs[id]!.accesses ?? [])
        expect(
          plan.brackets.some((b) => b.id === access && b.from <= at && at <= b.to),
          `${id} in ${access}`,
        ).toBe(true)
    })
    for (const a of plan.brackets)
      for (const b of plan.brackets)
        if (a !== b && a.depth === b.depth) expect(a.to < b.from || b.to < a.from, `${a.id} ${b.id}`).toBe(true)
  })

  it('takes in the jobs of the milestone, of those before it, and all that they need', async () => {
    const build = smallBuild(
      [],
      [
        ['J1', [], undefined, { milestone: 'm1' }],
        ['J2', [], ['J3'], { milestone: 'm2' }],
        ['J3', [], ['J4'], { milestone: 'm3' }],
        ['J4', [], undefined, { status: 'done' }],
        ['J5', [], undefined, { milestone: 'm3' }],
        ['J6', []],
      ],
    )
    for (const [i, id] of ['m1', 'm2', 'm3'].entries()) build.collections.milestones[id] = { id, name: id, order: i }
    expect(jobsOf(await planTo(build, { today, milestone: 'm2' })).sort()).toEqual(['J1', 'J2', 'J3'])
    expect(jobsOf(await planTo(build, { today })).sort()).toEqual(['J1'])
    expect(jobsOf(await planTo(build, { today, milestone: null })).sort()).toEqual(['J1', 'J2', 'J3', 'J5', 'J6'])
    await expect(planTo(build, { today, milestone: 'moon' })).rejects.toThrow(/There is no milestone “moon”/)
  })
})

describe('parts that are not here', () => {
  const build = (): Build => {
    const made = smallBuild(
      [
        ['stands', 30, 25],
        ['wheels', 10, 10, { excludes: ['stands'] }],
      ],
      [
        ['J1', ['stands'], undefined, { needs: { parts: ['late'] } }],
        ['J2', ['stands']],
        ['J3', ['wheels']],
        ['J4', ['wheels'], undefined, { needs: { parts: ['soon'] } }],
        ['J5', [], undefined, { needs: { parts: ['someday'] } }],
      ],
    )
    const { parts } = made.collections
    parts.late = { id: 'late', name: 'Late', status: 'ordered', due: '2025-07-20' }
    parts.soon = { id: 'soon', name: 'Soon', status: 'ordered', due: '2025-06-03' }
    parts.someday = { id: 'someday', name: 'Someday', status: 'wanted' }
    return made
  }
  it('hold their jobs behind work that can be done, in the order in which they are due', async () => {
    const plan = await planTo(build(), { today })
    expect(plan.proven).toBe(true)
    const order = jobsOf(plan)
    expect(new Set(order.slice(0, 2))).toEqual(new Set(['J2', 'J3']))
    expect(order.slice(2)).toEqual(['J4', 'J1', 'J5'])
    // Stands first would be 75 min without the parts; they cost one more change: stands, wheels, stands.
    expect(plan.openings / MINUTE).toBe(55 + 20 + 55)
    expect(plan.steps.filter(({ kind }) => kind === 'wait')).toHaveLength(3)
  })
  it('stand in the same way in the order of 200 jobs, whatever search found it', async () => {
    const made = largeBuild(200, 6, 0.4)
    const due = ['2025-06-10', '2025-07-01', '2025-09-01', undefined]
    due.forEach((day, i) => {
      const id = `P${i}`
      made.collections.parts[id] = { id, name: id, status: 'ordered', ...(day === undefined ? {} : { due: day }) }
      for (const job of Object.values(made.collections.jobs).filter((_, at) => at % 23 === 5 * i))
        job.needs = { ...job.needs, parts: [id] }
    })
    const pace = 6 * 3600
    const plan = await planTo(made, { today, pace, within: 4 })
    expect(walk(made, plan.steps).wrong).toEqual([])
    expect(jobsOf(plan)).toHaveLength(200)
    // Nobody waits while there is a job whose part is here and whose needs are done.
    let clock = 0
    const done = new Set<string>()
    const { jobs } = made.collections
    const arrives = (id: string): number =>
      Math.max(
        0,
        ...(jobs[id]!.needs?.parts ?? []).map((part) => {
          const day = made.collections.parts[part]!.due
          return day === undefined ? 1e12 : (daysBetween(today, day) * pace) / 7
        }),
      )
    for (const step of plan.steps) {
      if (step.kind !== 'job') continue
      if (arrives(step.id) > clock) {
        const idle = Object.values(jobs).filter(
          ({ id, needs }) =>
            !done.has(id) && (needs?.jobs ?? []).every((other) => done.has(other)) && arrives(id) <= clock,
        )
        expect(idle.map(({ id }) => id)).toEqual([])
      }
      clock = Math.max(clock, arrives(step.id)) + step.time
      done.add(step.id)
    }
  })
  it('do not hold a job that is reached after its part has come, at the builder’s pace', async () => {
    const made = build()
    made.collections.jobs.J3!.time = { least: { value: 3600 }, likely: { value: 3600 }, most: { value: 3600 } }
    // 30 min a day: an hour of other work is two days, and the part is due in two.
    const plan = await planTo(made, { today, pace: 7 * 1800 })
    const order = jobsOf(plan)
    expect(order.indexOf('J4')).toBe(order.indexOf('J3') + 1)
    expect(plan.steps.some((step) => step.kind === 'wait' && step.parts.some(({ part }) => part === 'soon'))).toBe(
      false,
    )
  })
})

describe('every build', () => {
  it('is planned when it is empty', async () => {
    const plan = await planTo(emptyBuild('Empty'), { today })
    expect(plan.steps).toEqual([])
    expect([plan.openings, plan.bound, plan.gap, plan.proven]).toEqual([0, 0, 0, true])
  })
  it('is planned when half its data is missing, and the stand-ins are named and marked', async () => {
    const build = halfBuild()
    const plan = await planTo(build, { today, milestone: 'inspection' })
    const untimed = Object.values(build.collections.jobs).filter(
      ({ status, time, id }) =>
        status !== 'done' && status !== 'closed' && time === undefined && jobsOf(plan).includes(id),
    )
    expect(untimed.length).toBeGreaterThan(5)
    expect(plan.unknown.filter(({ code }) => code === 'no-time').map(({ path }) => path)).toEqual(
      untimed.map(({ id }) => `jobs/${id}/time`),
    )
    for (const step of plan.steps)
      if (step.kind === 'job') expect(step.known).toBe(!untimed.some(({ id }) => id === step.id))
    expect(walk(build, plan.steps).wrong).toEqual([])
  })
})

describe('bad data is named and the rest is planned', () => {
  const codes = async (build: Build) => {
    const plan = await planTo(build, { today })
    return { plan, codes: plan.problems.map(({ code, path }) => `${code} ${path}`) }
  }
  it('a circle of needs', async () => {
    const { plan, codes: found } = await codes(
      smallBuild(
        [],
        [
          ['J1', [], ['J3']],
          ['J2', [], ['J1']],
          ['J3', [], ['J2']],
          ['J4', [], ['J3']],
          ['J5', [], ['J5']],
        ],
      ),
    )
    expect(found.sort()).toEqual(['circle jobs/J1/needs/jobs', 'circle jobs/J5/needs/jobs'])
    expect(plan.problems.map(({ says }) => says).join()).toMatch(/J1, J2 and J3 need each other/)
    expect(jobsOf(plan)).toHaveLength(5)
    expect(jobsOf(plan).indexOf('J4')).toBeGreaterThan(jobsOf(plan).indexOf('J3'))
  })
  it('accesses that exclude themselves, require what they exclude, require each other, or are not listed', async () => {
    const { plan, codes: found } = await codes(
      smallBuild(
        [
          ['self', 1, 1, { excludes: ['self'] }],
          ['odd', 1, 1, { requires: ['base'], excludes: ['base'] }],
          ['base', 1, 1],
          ['ring1', 1, 1, { requires: ['ring2'] }],
          ['ring2', 1, 1, { requires: ['ring1'] }],
          ['lost', 1, 1, { requires: ['nowhere'] }],
        ],
        [
          ['J1', ['self']],
          ['J2', ['odd']],
          ['J3', ['ring1']],
          ['J4', ['lost', 'gone']],
          ['J5', ['base'], ['J2']],
        ],
      ),
    )
    expect(found.sort()).toEqual([
      'access-circle accesses/ring1/requires',
      'cannot-be-done jobs/J2/accesses',
      'excludes-itself accesses/self/excludes',
      'no-access accesses/lost/requires',
      'no-access jobs/J4/accesses',
      'requires-excluded accesses/odd/requires',
    ])
    expect(plan.setAside.map(({ id }) => id)).toEqual(['J2'])
    expect(plan.problems.find(({ code }) => code === 'cannot-be-done')!.says).toMatch(/The place of J5 in the order/)
    expect(jobsOf(plan).sort()).toEqual(['J1', 'J3', 'J4', 'J5'])
  })
  it('a job whose accesses exclude each other, through what they require', async () => {
    const { plan } = await codes(
      smallBuild(
        [
          ['stands', 30, 25],
          ['wheels', 1, 1, { excludes: ['stands'] }],
          ['tank-out', 5, 5, { requires: ['stands'] }],
        ],
        [
          ['J1', ['tank-out', 'wheels']],
          ['J2', ['tank-out']],
        ],
      ),
    )
    expect(plan.setAside).toEqual([
      { id: 'J1', title: 'Do J1', why: 'it needs tank-out and wheels open together, and they exclude each other' },
    ])
    expect(jobsOf(plan)).toEqual(['J2'])
  })
  it('a part nobody lists, a job nobody lists, times in the wrong order, an overrun, and two open that cannot be', async () => {
    const build = smallBuild(
      [
        ['stands', 30, 25, { isOpen: true }],
        ['wheels', 1, 1, { excludes: ['stands'], isOpen: true }],
      ],
      [
        ['J1', [], undefined, { needs: { parts: ['ghost'] } }],
        ['J2', [], ['J99']],
        ['J3', [], undefined, { time: { least: { value: 9 }, likely: { value: 5 }, most: { value: 6 } } }],
        ['J4', [], undefined, { status: 'doing', spent: { value: 99999 } }],
        ['J5', []],
      ],
    )
    const { plan, codes: found } = await codes(build)
    expect(found.sort()).toEqual([
      'no-job jobs/J2/needs/jobs',
      'no-part jobs/J1/needs/parts',
      'open-excluded accesses/wheels/isOpen',
      'times-crossed jobs/J3/time',
    ])
    expect(plan.unknown.map(({ code, path }) => `${code} ${path}`)).toEqual([
      'no-time jobs/J3/time',
      'time-overrun jobs/J4/time',
    ])
    expect(jobsOf(plan).at(-1)).toBe('J1')
    expect(jobsOf(plan)).toHaveLength(5)
  })
})
