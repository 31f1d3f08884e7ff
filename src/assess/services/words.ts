/** How findings of oil, exhaust and cabin services put figures, and the cautions that travel with them. */
import { RPM } from '../../engineering/exactUnits.ts'
import type { Known } from '../chain/chain.ts'
import { HOT_CAUTION } from '../make.ts'

export const OIL_CAUTION =
  'Hot oil burns, and burns with a flame on hot metal: engine off and cool before a pipe is opened; catch what drains; used oil is waste.'
export const FUMES_CAUTION =
  'Exhaust gas kills in a closed room: run the engine outside, and mend every leak before anyone sits in the cabin.'
export const BELT_CAUTION = 'A belt pulls fingers in: engine off and key out before a hand goes near it.'
export { HOT_CAUTION }
export const OIL_BASE = { system: 'services', subject: 'sheet/oil', cautions: [OIL_CAUTION, HOT_CAUTION] } as const

const withSpread = ({ value, plusMinus }: Known, unit: string, scale: number, digits: number): string =>
  `${(value / scale).toFixed(digits)}${plusMinus / scale >= 0.5 * 10 ** -digits ? ` ± ${(plusMinus / scale).toFixed(digits)}` : ''} ${unit}`
export const bar = (figure: Known): string => withSpread(figure, 'bar', 1e5, 2)
export const millibar = (figure: Known): string => withSpread(figure, 'mbar', 100, 0)
export const litresPerMinute = (figure: Known, digits = 1): string => withSpread(figure, 'l/min', 1e-3 / 60, digits)
export const kilowatt = (figure: Known): string => withSpread(figure, 'kW', 1e3, 1)
export const newtonMetres = (figure: Known): string => withSpread(figure, 'N·m', 1, 1)
export const millimetres = (figure: Known): string => withSpread(figure, 'mm', 1e-3, 0)
/** Coarse: a range by law and not by measurement. */
export const degrees = (kelvin: number): string => `${Math.round(kelvin - 273.15)} °C`
export const revs = (speed: number): string => `${(speed / RPM).toFixed(0)} rpm`
