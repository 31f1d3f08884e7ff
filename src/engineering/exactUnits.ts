import type { Source } from './calculation.ts'

/**
 * Exact SI factors of the units in which worked figures are printed: inch, pound and mile by the international agreement
 * of 1959, standard gravity by ISO 80000-3.
 */
export const INCH = 0.0254
export const MILE = 1609.344
export const MPH: number = MILE / 3600
export const POUND = 0.45359237
/** m/s² */
export const G = 9.80665
export const GRAVITY: Source = { title: 'Standard gravity, ISO 80000-3: 9.80665 m/s²', how: 'memory' }
export const POUND_FORCE: number = POUND * G
export const PSI: number = POUND_FORCE / INCH ** 2
/** rad/s in one turn a minute. */
export const RPM: number = Math.PI / 30
export const DEGREE: number = Math.PI / 180
