/** What to drive so that slope and dead time come apart: load steps for the volts, throttle and speed for the pulses. */
import type { InjectorWindow } from './types.ts'

export const PULSE_RATIO = 4
const VOLTS_APART = 1

export interface Reach {
  /** Voltages at which the pulses span the ratio. */
  readonly wide: readonly number[]
  /** Largest pulse over smallest, at the voltage where it is largest. */
  readonly ratio: number
  readonly span: number
  readonly pulses: readonly [number, number]
}

export function reachOf(windows: readonly InjectorWindow[], knots: readonly number[]): Reach {
  const unknown = windows.filter(({ log }) => log === 'unknown')
  const ratios = knots.map((volts) => {
    const pulses = unknown.filter(({ voltage }) => Math.abs(voltage - volts) <= 0.3).map(({ pulse }) => pulse)
    return pulses.length < 2 ? 1 : Math.max(...pulses) / Math.min(...pulses)
  })
  const all = unknown.map(({ pulse }) => pulse)
  return {
    wide: knots.filter((_, i) => ratios[i]! >= PULSE_RATIO),
    ratio: Math.max(1, ...ratios),
    span: knots.length === 0 ? 0 : knots.at(-1)! - knots[0]!,
    pulses: [Math.min(...all), Math.max(...all)],
  }
}

const ms = (time: number): string => `${(time * 1e3).toFixed(1)} ms`

export function nextDriving(reach: Reach, hold: number): string[] {
  const seconds = Math.ceil(hold)
  const out: string[] = []
  if (reach.span < VOLTS_APART || reach.wide.length < 2)
    out.push(
      `At one throttle and speed, held for ${4 * seconds} s: switch headlamps, heated screen, blower and fans on for ${seconds} s, off for ${seconds} s, and again. The volts step by a volt or more while the air stays; do it at idle, at a cruise and at a high load.`,
    )
  if (reach.ratio < PULSE_RATIO || reach.wide.length < 2)
    out.push(
      `Hold loads from idle to the longest pulse that is safe, ${seconds} s each, with the loads on and again with them off: the pulses of the unknown set must span four to one at two voltages${Number.isFinite(reach.pulses[0]) ? ` (now ${ms(reach.pulses[0])} to ${ms(reach.pulses[1])}, ${reach.ratio.toFixed(1)} to one at one voltage)` : ''}.`,
    )
  return out
}
