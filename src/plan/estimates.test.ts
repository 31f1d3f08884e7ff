import { describe, expect, it } from 'vitest'
import { type Activity, chanceWithin, criticalPath } from './criticalPath.ts'
import { seeded } from './random.ts'
import { betaShare, drawTime, expectedTime, remaining, shareWithin, timeAt, variance } from './threePoint.ts'
import { hoursText, readWorkTime } from './workTime.ts'

const activities = (rows: readonly (readonly [string, string, number, number, number])[]): Activity[] =>
  rows.map(([id, before, least, likely, most]) => ({
    id,
    before: before === '' ? [] : before.split(' '),
    least,
    likely,
    most,
  }))

describe('three estimates', () => {
  // University of North Carolina at Greensboro, SCM 304, unit 6.3.1: times in weeks.
  const greensboro = activities([
    ['A', '', 6, 7, 14],
    ['B', '', 8, 10, 12],
    ['C', 'A', 2, 3, 4],
    ['D', 'A', 6, 7, 8],
    ['E', 'B C', 5, 5.5, 9],
    ['F', 'B C', 5, 7, 9],
    ['G', 'D E', 4, 6, 8],
    ['H', 'F', 2.5, 3, 3.5],
  ])
  it('give the printed means and variances', () => {
    expect(greensboro.map(expectedTime)).toEqual([8, 10, 3, 7, 6, 7, 6, 3])
    for (const [i, printed] of [1.78, 0.44, 0.11, 0.11, 0.44, 0.44, 0.44, 0.03].entries())
      expect(variance(greensboro[i]!)).toBeCloseTo(printed, 2)
  })
  it('give the printed critical path of 23 weeks', () => {
    const path = criticalPath(greensboro)
    expect(path.path).toEqual(['A', 'C', 'E', 'G'])
    expect(path.time).toBe(23)
    expect(path.variance).toBeCloseTo(2.778, 3)
    // Computed from them: P(T ≤ 25) = 0.8849.
    expect(chanceWithin(path, 25)).toBeCloseTo(0.8849, 4)
    expect(path.slack.F).toBe(2)
    expect(path.slack.A).toBe(0)
  })
  // flylib.com, management-science text: only the arithmetic along its printed critical path 1-3-5-7, 24 days.
  it('give the printed 24 days, variance 5 and 0.9633 of a second text', () => {
    const chain = activities([
      ['1', '', 5, 8, 17],
      ['3', '1', 3, 5, 7],
      ['5', '3', 4, 6, 8],
      ['7', '5', 3, 4, 5],
    ])
    const path = criticalPath(chain)
    expect([path.time, path.variance]).toEqual([24, expect.closeTo(5, 9)])
    expect(chanceWithin(path, 28)).toBeCloseTo(0.9633, 3)
  })
  // Network of Render and Stair, Quantitative Analysis [from memory]; times are fixed, so only the path is asked.
  it('give the critical path of the foundry, A-C-E-G-H in 15 weeks', () => {
    const fixed = (id: string, before: string, time: number) => [id, before, time, time, time] as const
    const path = criticalPath(
      activities([
        fixed('A', '', 2),
        fixed('B', '', 3),
        fixed('C', 'A', 2),
        fixed('D', 'B', 4),
        fixed('E', 'C', 4),
        fixed('F', 'C', 3),
        fixed('G', 'D E', 5),
        fixed('H', 'F G', 2),
      ]),
    )
    expect([path.path.join('-'), path.time]).toEqual(['A-C-E-G-H', 15])
    expect([chanceWithin(path, 15), chanceWithin(path, 14.9)]).toEqual([1, 0])
  })
  it('follow the beta distribution in its closed forms', () => {
    // I_x(1, b) = 1 − (1 − x)^b; I_x(a, 1) = x^a; I_x(2, 3) by its polynomial; half at the middle when a = b.
    for (const x of [0.05, 0.3, 0.7, 0.95]) {
      expect(betaShare(x, 1, 5)).toBeCloseTo(1 - (1 - x) ** 5, 12)
      expect(betaShare(x, 5, 1)).toBeCloseTo(x ** 5, 12)
      expect(betaShare(x, 2, 3)).toBeCloseTo(6 * x ** 2 - 8 * x ** 3 + 3 * x ** 4, 12)
    }
    expect(betaShare(0.5, 3, 3)).toBeCloseTo(0.5, 12)
    // Least = likely: α = 1, β = 5, so 80 % at 1 − 0.2^(1/5).
    expect(timeAt({ least: 0, likely: 0, most: 1 }, 0.8)).toBeCloseTo(1 - 0.2 ** 0.2, 9)
  })
  it('are drawn so that mean and 80 % come out', () => {
    const estimate = { least: 1800, likely: 3600, most: 9000 }
    const random = seeded(7)
    const drawn = Array.from({ length: 20_000 }, () => drawTime(estimate, random)).sort((a, b) => a - b)
    expect(drawn.reduce((sum, time) => sum + time, 0) / drawn.length / expectedTime(estimate)).toBeCloseTo(1, 2)
    expect(shareWithin(estimate, drawn[16_000]!)).toBeCloseTo(0.8, 2)
  })
  it('leave less as time goes in, and nothing that is known beyond the longest', () => {
    const estimate = { least: 1800, likely: 3600, most: 9000 }
    expect(remaining(estimate, 0)!.expected).toBe(expectedTime(estimate))
    const late = remaining(estimate, 5400)!
    expect(late.expected).toBeGreaterThan(0)
    expect(late.expected).toBeLessThan(late.mostly)
    expect(5400 + late.mostly).toBeLessThan(9000)
    // Against numbers drawn: the mean of those above 5400 s.
    const random = seeded(9)
    const above = Array.from({ length: 40_000 }, () => drawTime(estimate, random)).filter((time) => time > 5400)
    const mean = above.reduce((sum, time) => sum + time, 0) / above.length - 5400
    expect(Math.abs(late.expected - mean) / mean).toBeLessThan(0.05)
    expect(remaining(estimate, 9000)).toBeUndefined()
  })
})

describe('a time of work', () => {
  it.each([
    ['2h', 7200],
    ['90 min', 5400],
    ['1 h 30', 5400],
    ['2.5', 9000],
    ['0,5 h', 1800],
  ])('reads %s', (text, seconds) => expect(readWorkTime(text).value).toBe(seconds))
  it.each(['a weekend', '2 days', '3 evenings', '', '0', '-1 h', '1:30', 'two hours', '2.5 m', '1e999 h'])(
    'refuses “%s” and says how to write it',
    (text) => expect(() => readWorkTime(text)).toThrow(/is not a time of work in hours or minutes\. Write it as 2 h/),
  )
  it('is written in hours and minutes', () => {
    expect([0, 20, 5400, 7200, 90_000].map((time) => hoursText(time).replace(/\u202f/g, ' '))).toEqual([
      '0 min',
      'under a minute',
      '1 h 30 min',
      '2 h',
      '25 h',
    ])
  })
})
