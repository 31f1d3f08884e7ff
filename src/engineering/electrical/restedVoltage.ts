/** State of charge of a 12 V flooded lead-acid battery from its rested voltage, by the published table. */
import type { Source } from '../calculation.ts'

export const bci: Source = {
  title: 'BCI table of open-circuit voltage, flooded, 26.7 °C',
  where: 'discoverbattery.com, FAQ 120',
  how: 'read',
}
/** V; state of charge. */
const ROWS = [
  [11.89, 0],
  [12.06, 0.25],
  [12.24, 0.5],
  [12.45, 0.75],
  [12.65, 1],
] as const
/** ± of the state of charge: sources span ± 0.1 V at half charge (12.1 … 12.3 V, read). */
export const CHARGE_SPREAD = 0.14

/** 0 … 1, straight between rows; a voltage above the table's is a full battery, one below it an empty one. `volts` V at rest. */
export const chargeAtRest = (volts: number): number => {
  const above = ROWS.findIndex(([v]) => v >= volts)
  if (above < 0) return 1
  if (above === 0) return 0
  const [[v0, s0], [v1, s1]] = [ROWS[above - 1]!, ROWS[above]!]
  return s0 + ((s1 - s0) * (volts - v0)) / (v1 - v0)
}

/** V at rest, the other way round; `charge` 0 … 1. Good to 0.1 V; absorbed glass mat stands 0.15 V higher when full. */
export const restedAt = (charge: number): number => {
  const i = Math.min(ROWS.length - 2, Math.max(0, ROWS.findIndex(([, s]) => s >= charge) - 1))
  const [[v0, s0], [v1, s1]] = [ROWS[i]!, ROWS[i + 1]!]
  return v0 + ((charge - s0) * (v1 - v0)) / (s1 - s0)
}
