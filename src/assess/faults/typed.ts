/** What a meter's figure is called: its kind, its plain unit, and the unit in which somebody typed it. */
import { findUnit } from '../../units/find.ts'
import { toUnit } from '../../units/format.ts'

export type MeterQuantity = 'volts' | 'ohms' | 'amps'

export const UNIT = { volts: 'V', ohms: 'Ω', amps: 'A' } as const
export const KIND = { volts: 'voltage', ohms: 'resistance', amps: 'current' } as const

/**
 * `value` (V, Ω or A) as it was typed: `210 mV`, `4.7 kΩ`. Undefined where no unit was typed, or one that is plain or not
 * of the kind: whoever asks then shows it as a meter would.
 */
export const asTyped = (value: number, quantity: MeterQuantity, unit: string | undefined): string | undefined => {
  if (unit === undefined || unit === UNIT[quantity] || !findUnit(KIND[quantity], unit)) return undefined
  const shown = Number(toUnit(KIND[quantity], unit, value as never).toPrecision(6))
  return `${Math.abs(shown) >= 1e6 ? shown.toPrecision(6) : shown} ${unit}`
}

/** As typed, else with four digits in the plain unit: for a sentence about a reading. */
export const typedText = (value: number, quantity: MeterQuantity, unit?: string): string =>
  asTyped(value, quantity, unit) ?? `${Number(value.toPrecision(4))} ${UNIT[quantity]}`

/** Worth of the last digit, where a value turns out to be meant `instead`: the sign turned, or a thousand times as much. */
export const stepOf = (step: number | undefined, value: number, instead: number): { readonly step?: number } =>
  step === undefined ? {} : { step: value === 0 ? step : step * Math.abs(instead / value) }
