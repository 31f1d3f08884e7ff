/** Slosh in a tank, which the damping of its gauge must hide, and what that slowness costs. */
import { refuse } from '../../../units/problem.ts'

const GRAVITY = 9.80665

/**
 * Hz of the first slosh of liquid `depth` m deep in a tank `length` m long in the direction it sloshes.
 * f = √(g·k·tanh(k·h))/2π, k = π/L: linear waves between walls (novasolver.jp, sloshing [read]). Baffles break it up.
 */
export function sloshFrequency(length: number, depth: number): number {
  if (!(length > 0) || !(depth > 0))
    throw refuse(
      'out-of-range',
      `A slosh in ${length} m × ${depth} m of liquid has no frequency.`,
      'Enter both above 0.',
    )
  const k = Math.PI / length
  return Math.sqrt(GRAVITY * k * Math.tanh(k * depth)) / (2 * Math.PI)
}

/** m³ by which the damped gauge lags while the tank empties at `flow` m³/s; after filling it has come within 5 % in 3 time constants. */
export const dampingLag = (flow: number, time: number): number => flow * time
