/** Quantities as a person writes them: `mm2(2.5)` is stored as 2.5e-6 m² and remembers that mm² was typed. */
import type { Measure } from '../src/model/measure.ts'
import type { Kind, Of } from '../src/units/kinds.ts'

/** Twelve digits: more than any figure here holds, fewer than the last bits of a decimal factor disturb. */
const tidy = (value: number): number => Number(value.toPrecision(12))

const unit =
  <K extends Kind>(_kind: K, symbol: string, factor: number, offset = 0) =>
  (value: number, plusMinus?: number): Measure<K> => ({
    value: tidy(value * factor + offset) as Of<K>,
    ...(plusMinus === undefined ? {} : { plusMinus: tidy(plusMinus * factor) }),
    unit: symbol,
  })

export const m = unit('length', 'm', 1)
export const km = unit('length', 'km', 1e3)
export const mm = unit('length', 'mm', 1e-3)
export const mm2 = unit('area', 'mm²', 1e-6)
export const cm2 = unit('area', 'cm²', 1e-4)
export const litres = unit('volume', 'l', 1e-3)
export const cubicCentimetres = unit('volume', 'cc', 1e-6)
export const kg = unit('mass', 'kg', 1)
export const milliseconds = unit('time', 'ms', 1e-3)
export const hours = unit('time', 'h', 3600)
export const minutes = unit('time', 'min', 60)
export const rpm = unit('angularSpeed', '1/min', (2 * Math.PI) / 60)
export const watts = unit('power', 'W', 1)
export const kilowatts = unit('power', 'kW', 1e3)
export const barGauge = unit('pressureGauge', 'bar', 1e5)
export const millibarAcross = unit('pressureDifference', 'mbar', 100)
export const barAcross = unit('pressureDifference', 'bar', 1e5)
export const kilopascals = unit('pressureAbsolute', 'kPa', 1e3)
export const kilopascalsAcross = unit('pressureDifference', 'kPa', 1e3)
export const megapascals = unit('stress', 'MPa', 1e6)
export const celsius = unit('temperature', '°C', 1, 273.15)
export const gramsPerMinute = unit('massFlow', 'g/min', 1e-3 / 60)
export const gramsPerSecond = unit('massFlow', 'g/s', 1e-3)
export const squareMillimetresPerSecond = unit('kinematicViscosity', 'mm²/s', 1e-6)
export const litresPerHour = unit('volumeFlow', 'l/h', 1e-3 / 3600)
export const litresPerMinute = unit('volumeFlow', 'l/min', 1e-3 / 60)
export const cubicMetresPerSecond = unit('volumeFlow', 'm³/s', 1)
export const kilometresPerHour = unit('speed', 'km/h', 1 / 3.6)
export const pascalsAcross = unit('pressureDifference', 'Pa', 1)
export const seconds = unit('time', 's', 1)
export const kgPerM3 = unit('density', 'kg/m³', 1)
export const gramsPerKilowattHour = unit('specificFuelConsumption', 'g/(kW·h)', 1e-3 / 3.6e6)
export const wattsPerKelvin = unit('heatCapacityRate', 'W/K', 1)
export const ratio = unit('ratio', '1', 1)
export const newtons = unit('force', 'N', 1)
export const newtonMetres = unit('torque', 'N·m', 1)
export const degrees = unit('angle', '°', Math.PI / 180)
export const volts = unit('voltage', 'V', 1)
export const amps = unit('current', 'A', 1)
export const ohms = unit('resistance', 'Ω', 1)
export const kiloohms = unit('resistance', 'kΩ', 1e3)
export const milliohms = unit('resistance', 'mΩ', 1e-3)
export const millihenries = unit('inductance', 'mH', 1e-3)
export const hertz = unit('frequency', 'Hz', 1)
export const millijoules = unit('energy', 'mJ', 1e-3)
export const ampHours = unit('charge', 'A·h', 3600)
