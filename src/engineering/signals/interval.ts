/** Closed intervals of SI values: what a worst-case calculation carries instead of a single number. */
import { refuse } from '../../units/problem.ts'

export interface Interval {
  readonly low: number
  /** May be `Infinity` for the resistance of an open circuit. */
  readonly high: number
}

export const exactly = (value: number): Interval => ({ low: value, high: value })

/** A value with a relative tolerance (0.01 is ± 1 %). Refuses a tolerance that reaches the value itself. */
export function within(nominal: number, tolerance: number): Interval {
  if (!(tolerance >= 0) || !(tolerance < 1))
    throw refuse('out-of-range', `A tolerance of ${tolerance} is outside 0 … 1.`, 'Enter it as a share: 0.01 for 1 %.')
  return { low: nominal * (1 - tolerance), high: nominal * (1 + tolerance) }
}

/** Resistances side by side, any of which may be infinite; zero when one is zero. */
export function sideBySide(...resistances: readonly number[]): number {
  let conductance = 0
  for (const resistance of resistances) {
    if (resistance === 0) return 0
    conductance += 1 / resistance
  }
  return conductance === 0 ? Number.POSITIVE_INFINITY : 1 / conductance
}
