/**
 * Slope and dead time of an injector from a bench test of pulses: mass per pulse against pulse width at one voltage and
 * one pressure. Straight line by least squares; slope m and time offset X after SAE J1832 [from memory].
 * Test with an injector test fluid, never with petrol.
 */
import { type Problem, Refusal } from '../../units/problem.ts'
import { linearFit, studentT95 } from '../numerics/linearFit.ts'

export interface BenchPoint {
  /** Commanded pulse, s. */
  readonly pulse: number
  /** Caught mass over count of pulses, kg. */
  readonly mass: number
}
export interface BenchPulses {
  /** kg/s in the test fluid at the test pressure; ± half width of a 95 % interval. */
  readonly slope: { readonly value: number; readonly plusMinus: number }
  /** s at the test voltage. */
  readonly deadTime: { readonly value: number; readonly plusMinus: number }
  /** s: shorter pulses left the line by more than 5 % and were not fitted; undefined when none did. */
  readonly bendBelow?: number
  readonly used: number
}
/** Limit of the linear flow range: SAE J1832 [from memory]. */
const LINEAR = 0.05

/** Throws `Refusal`: fewer than four points, or no line of fuel rising with pulse. */
export const benchPulses = (points: readonly BenchPoint[]): BenchPulses => {
  const problems: Problem[] = []
  if (points.length < 4)
    problems.push({
      code: 'too-few-points',
      says: `${points.length} pulse widths give no interval.`,
      todo: 'Run at least four, from the shortest the engine uses to a long one.',
    })
  points.forEach(({ pulse, mass }, index) => {
    if (!(pulse > 0 && mass >= 0))
      problems.push({
        code: 'bad-point',
        line: index + 1,
        says: `Point ${index + 1} is ${pulse} s and ${mass} kg a pulse.`,
        todo: 'Enter pulses above 0 and masses of 0 or more.',
      })
  })
  if (problems.length > 0) throw new Refusal(problems)
  let kept = [...points].sort((a, b) => a.pulse - b.pulse)
  let bendBelow: number | undefined
  for (;;) {
    const fit = linearFit(
      kept.map(({ pulse }) => [1, pulse]),
      kept.map(({ mass }) => mass),
    )
    const [offset, slope] = fit?.coefficients ?? []
    if (!fit || offset === undefined || slope === undefined || !(slope > 0))
      throw new Refusal([
        {
          code: 'no-line',
          says: 'The caught mass does not rise with the pulse.',
          todo: 'Look at the columns, and whether the injector fired at all.',
        },
      ])
    // Short pulses bend first: the shortest is left out while it misses the line of the longer ones.
    const rest = kept.slice(1)
    const longer =
      rest.length < 4
        ? undefined
        : linearFit(
            rest.map(({ pulse }) => [1, pulse]),
            rest.map(({ mass }) => mass),
          )
    const shortest = kept[0]!
    if (longer) {
      const line = longer.coefficients[0]! + longer.coefficients[1]! * shortest.pulse
      if (line <= 0 || Math.abs(shortest.mass / line - 1) > LINEAR) {
        kept = rest
        bendBelow = rest[0]!.pulse
        continue
      }
    }
    const spread = Math.sqrt(fit.chiSquared / fit.freedom) * studentT95(fit.freedom)
    const deadTime = -offset / slope
    // X = −a/b: var X = (var a + X²·var b + 2·X·cov(a, b))/b², first order.
    const variance =
      (fit.covariance[0]![0]! + deadTime ** 2 * fit.covariance[1]![1]! + 2 * deadTime * fit.covariance[0]![1]!) /
      slope ** 2
    return {
      slope: { value: slope, plusMinus: spread * Math.sqrt(fit.covariance[1]![1]!) },
      deadTime: { value: deadTime, plusMinus: spread * Math.sqrt(Math.max(variance, 0)) },
      ...(bendBelow === undefined ? {} : { bendBelow }),
      used: kept.length,
    }
  }
}
