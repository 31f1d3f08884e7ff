/** Trends: a slope with its interval; scatter is no trend; too few readings say how many are missing. */
import { expect, it } from 'vitest'
import { demoBuild } from '../../../demo/index.ts'
import { emptyBuild } from '../../model/build.ts'
import { trendOf, WATCHED } from './trends.ts'

const [crank] = WATCHED
const of = (values: readonly number[], plusMinus?: number) => {
  const build = emptyBuild('e')
  values.forEach((value, i) => {
    const id = `M-${i}`
    build.collections.readings[id] = {
      id,
      subject: 'crank volts',
      quantity: 'voltage',
      value,
      ...(plusMinus === undefined ? {} : { plusMinus }),
      when: new Date(Date.UTC(2026, 0, 1 + 30 * i)).toISOString(),
    }
  })
  return trendOf(build, crank!)
}

it('finds the slope of a straight line exactly, and says what to look at', () => {
  const { slope, verdict, says } = of([10.8, 10.6, 10.4, 10.2])
  expect(slope!.value).toBeCloseTo(-0.2, 10)
  expect(slope!.plusMinus).toBeLessThan(1e-6)
  expect(verdict).toBe('marginal')
  expect(says).toMatch(/falls by .* earth strap/)
  expect(of([10, 10.2, 10.4]).verdict).toBe('sound')
})
it('gives the interval of ordinary least squares', () => {
  // By hand: x 0…4, y 1, 3, 2, 5, 4: slope 0.8, s² = 3.6/3, Sxx = 10, t(3) = 3.182, so ± 3.182·√0.12 = 1.102.
  const { slope, verdict, says } = of([1, 3, 2, 5, 4])
  expect(slope!.value).toBeCloseTo(0.8, 9)
  expect(slope!.plusMinus).toBeCloseTo(1.102, 3)
  expect(verdict).toBe('unknown')
  expect(says).toMatch(/No trend that scatter does not explain, and none that it rules out/)
})
it('takes the instrument’s ± where it is more than the scatter', () => {
  expect(of([10.8, 10.6, 10.4], 1)).toMatchObject({ verdict: 'unknown', missing: 'more readings, further apart' })
  expect(of([10.5, 10.5, 10.5, 10.5, 10.5], 0.02).verdict).toBe('sound')
})
it('says how many readings are missing', () => {
  expect(of([])).toMatchObject({ verdict: 'unknown', missing: '3 more readings, on other days' })
  expect(of([10, 10])).toMatchObject({ verdict: 'unknown', missing: '1 more reading, on other days' })
  expect(trendOf(demoBuild(), crank!).points).toHaveLength(3)
})
