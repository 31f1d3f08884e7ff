/** Exact factors of the trade's units, and inputs that several calculations of speed share. */
import { quantity } from '../../calculation.ts'

export const INCH = 0.0254
export const MILE = 1609.344
export const MPH = MILE / 3600
export const RPM = (2 * Math.PI) / 60

export const rollingRadius = (symbol = 'r', about = 'rolling radius of the driven tyre, loaded') =>
  quantity('length', { symbol, min: 0.1, max: 1, plausible: [0.22, 0.45], about })
