/** What the air calculations share: the exponent of air, its source, and the condition that pressure does not fall. */
import type { Constant, Source } from '../calculation.ts'

export const cengelBoles: Source = { title: 'Çengel & Boles, Thermodynamics: An Engineering Approach', how: 'memory' }
export const AIR_EXPONENT: Constant = {
  symbol: 'k',
  value: 1.4,
  unit: '1',
  source: { ...cengelBoles, where: 'table A-2, air at 300 K' },
}

export const pressureRises = {
  at: 'outletPressure',
  holds: (given: { readonly pressure: number; readonly outletPressure: number }): boolean =>
    given.outletPressure >= given.pressure,
  says: 'The pressure out is below the pressure in, which is no compression.',
  todo: 'Enter both as absolute pressures, not one as gauge.',
} as const
