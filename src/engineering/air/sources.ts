/** What the air calculations share: the exponent of air, its source, and the condition that pressure does not fall. */
import type { Constant, Source } from '../calculation.ts'

export const cengelBoles: Source = { title: 'Çengel & Boles, Thermodynamics: An Engineering Approach', how: 'memory' }
export const AIR_EXPONENT: Constant = {
  symbol: 'k',
  value: 1.4,
  unit: '1',
  source: { ...cengelBoles, where: 'table A-2, air at 300 K' },
}

export const AIR_CONSTANT: Constant = {
  symbol: 'R',
  value: 287.055,
  unit: 'J/(kg·K)',
  source: { title: 'R/M of dry air, 8.314462/0.0289645; molar mass as 40 CFR 86.344-79 [read]', how: 'computed' },
}
/** W/(kg/s·K) of dry air: 1005 at 300 K, 1009 at 350 K, 1014 at 400 K; the middle of what a charge cooler sees, ± 0.5 %. */
export const AIR_HEAT: Constant = {
  symbol: 'cp',
  value: 1008,
  unit: 'J/(kg·K)',
  source: { title: 'Incropera & DeWitt, table A.4: 1007 at 300 K, 1009 at 350 K, 1014 at 400 K', how: 'memory' },
}
/** The customary form of a turbocharger maker’s matching notes, with its worked example. */
export const turboMatching: Source = {
  title:
    'Turbocharger matching, worked example: 400 hp, 12:1, 0.55 lb/(hp·h): 44.0 lb/min; 122 in³, 7200 1/min, 0.92, 130 °F: 41.1 psi',
  where: 'performancespecialties.wordpress.com/2011/08/10/turbocharger-math',
  how: 'read',
}

export const pressureRises = {
  at: 'outletPressure',
  holds: (given: { readonly pressure: number; readonly outletPressure: number }): boolean =>
    given.outletPressure >= given.pressure,
  says: 'The pressure out is below the pressure in, which is no compression.',
  todo: 'Enter both as absolute pressures, not one as gauge.',
} as const
