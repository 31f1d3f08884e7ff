/**
 * The one table of units:  SI = x · times / per + offset.
 *
 * `times` and `per` are kept apart because most factors are a ratio of two numbers that binary floating point holds
 * exactly (an inch is 127/5000 m); 1.1 mm and 6 in are then the doubles nearest to 0.0011 m and 0.1524 m.
 *
 * Every factor follows from exact definitions; none is a rounded figure:
 * - inch 25.4 mm, foot 0.3048 m, mile 1609.344 m, pound 0.453 592 37 kg (international yard and pound, 1959);
 * - standard gravity 9.806 65 m/s² and standard atmosphere 101 325 Pa (SI brochure, 9th edition; CGPM 1901 and 1954);
 * - US gallon 231 in³ and imperial gallon 4.546 09 l (NIST SP 811 (2008), appendix B.8);
 * - conventional columns: mercury 13 595.1 kg/m³, water 1000 kg/m³, both at standard gravity (ISO 80000-4, from memory);
 * - hp is mechanical, 550 ft·lbf/s; PS is metric, 75 kgf·m/s.
 * A bare `gal`, `ton` and `mil` are left out on purpose: none says which one it is.
 */
import { KINDS, type Kind } from './kinds.ts'
import { symbolKey } from './symbols.ts'

export interface Unit {
  readonly symbol: string
  readonly kind: Kind
  readonly times: number
  readonly per: number
  readonly offset: number
  readonly aliases: readonly string[]
}

const POUND = 0.45359237
const GRAVITY = 9.80665
const POUND_FORCE = 4.4482216152605
const INCH = 0.0254
const FOOT = 0.3048
const SQUARE_INCH = 0.00064516
const CUBIC_INCH = 1.6387064e-5
const CUBIC_FOOT = 0.028316846592
const US_GALLON_LITRES = 3.785411784
const IMPERIAL_GALLON_LITRES = 4.54609
const MECHANICAL_HORSEPOWER = 550 * FOOT * POUND_FORCE
const MERCURY_MILLIMETRE = 133.322387415
const WATER_INCH = 249.08891

type Row = readonly [symbol: string, times: number, per?: number, ...aliases: string[]]

const PRESSURES: readonly Row[] = [
  ['Pa', 1],
  ['hPa', 100],
  ['mbar', 100, 1, 'millibar'],
  ['kPa', 1000],
  ['bar', 1e5, 1, 'bars'],
  ['MPa', 1e6],
  ['psi', POUND_FORCE, SQUARE_INCH, 'lbf/in²', 'lb/in²', 'lb/sq in'],
  ['atm', 101325],
  ['mmHg', MERCURY_MILLIMETRE, 1, 'mm Hg'],
  ['inHg', MERCURY_MILLIMETRE * 25.4, 1, '"Hg', 'in Hg'],
  ['inH2O', WATER_INCH, 1, 'inH₂O', '"H2O', 'in wg', 'inWC'],
  ['kgf/cm²', 98066.5, 1, 'kg/cm²', 'kp/cm²'],
]

const ROWS: Readonly<Record<Kind, readonly Row[]>> = {
  ratio: [
    ['', 1, 1, '1', ':1', 'λ', 'lambda'],
    ['%', 1, 100, 'percent', 'pct'],
    ['‰', 1, 1000],
    ['ppm', 1, 1e6],
  ],
  angle: [
    ['rad', 1],
    ['mrad', 1, 1000],
    ['°', Math.PI, 180, 'deg', 'degree', 'degrees'],
  ],
  length: [
    ['m', 1, 1, 'metre', 'metres', 'meter', 'meters'],
    ['µm', 1, 1e6, 'micron', 'microns'],
    ['mm', 1, 1000],
    ['cm', 1, 100],
    ['km', 1000],
    ['in', 127, 5000, '"', 'inch', 'inches'],
    ['ft', 381, 1250, "'", 'foot', 'feet'],
    ['mile', 201168, 125, 'miles', 'mi'],
    ['thou', 127, 5e6],
  ],
  area: [
    ['m²', 1, 1, 'sq m'],
    ['mm²', 1, 1e6, 'sq mm', 'mm sq', 'mmq'],
    ['cm²', 1, 1e4, 'sq cm'],
    ['in²', 16129, 2.5e7, 'sq in'],
    ['ft²', 145161, 1562500, 'sq ft'],
  ],
  volume: [
    ['m³', 1, 1, 'cu m'],
    ['l', 1, 1000, 'L', 'litre', 'litres', 'liter', 'liters', 'ltr', 'dm³'],
    ['ml', 1, 1e6, 'mL'],
    ['cc', 1, 1e6, 'cm³', 'ccm'],
    ['mm³', 1, 1e9],
    ['in³', CUBIC_INCH, 1, 'cu in', 'cuin', 'cui'],
    ['US gal', US_GALLON_LITRES, 1000, 'gal US', 'US gallon', 'US gallons'],
    ['imp gal', IMPERIAL_GALLON_LITRES, 1000, 'UK gal', 'gal imp', 'imperial gallon', 'imperial gallons'],
  ],
  mass: [
    ['kg', 1],
    ['g', 1, 1000],
    ['mg', 1, 1e6],
    ['t', 1000, 1, 'tonne', 'tonnes'],
    ['lb', 45359237, 1e8, 'lbs', 'lbm', 'pound', 'pounds'],
    ['oz', 45359237, 1.6e9, 'ounce', 'ounces'],
  ],
  time: [
    ['s', 1, 1, 'sec', 'secs', 'second', 'seconds'],
    ['ms', 1, 1000, 'msec'],
    ['µs', 1, 1e6, 'usec'],
    ['min', 60, 1, 'mins', 'minute', 'minutes'],
    ['h', 3600, 1, 'hr', 'hrs', 'hour', 'hours'],
    ['day', 86400, 1, 'd', 'days'],
  ],
  speed: [
    ['m/s', 1],
    ['km/h', 5, 18, 'kmh', 'kph'],
    ['mph', 44704, 1e5, 'mile/h', 'miles/h'],
    ['ft/s', 381, 1250, 'fps'],
  ],
  acceleration: [
    ['m/s²', 1, 1, 'm/s/s'],
    ['g₀', 980665, 1e5, 'g', 'gn'],
  ],
  angularSpeed: [
    ['rad/s', 1],
    ['rpm', Math.PI, 30, 'r/min', 'rev/min', 'revs/min', 'U/min'],
    ['1/min', Math.PI, 30, 'min⁻¹'],
    ['rev/s', 2 * Math.PI, 1, 'r/s'],
  ],
  frequency: [
    ['Hz', 1, 1, '1/s'],
    ['kHz', 1000],
    ['MHz', 1e6],
  ],
  force: [
    ['N', 1],
    ['kN', 1000],
    ['lbf', POUND_FORCE],
    ['kgf', 980665, 1e5, 'kp'],
  ],
  torque: [
    ['N·m', 1, 1, 'Nm'],
    ['lbf·ft', POUND_FORCE * FOOT, 1, 'ft·lbf', 'ft-lb', 'lb-ft', 'ft-lbs', 'lbs-ft'],
    ['lbf·in', POUND_FORCE * INCH, 1, 'in·lbf', 'in-lb', 'lb-in', 'in-lbs'],
    ['kgf·m', GRAVITY, 1, 'kg·m', 'mkg', 'kp·m'],
  ],
  energy: [
    ['J', 1],
    ['mJ', 1, 1000],
    ['kJ', 1000],
    ['MJ', 1e6],
    ['Wh', 3600],
    ['kWh', 3.6e6],
  ],
  power: [
    ['W', 1],
    ['mW', 1, 1000],
    ['kW', 1000],
    ['MW', 1e6],
    ['hp', MECHANICAL_HORSEPOWER, 1, 'bhp'],
    ['PS', 75 * GRAVITY, 1, 'cv'],
  ],
  pressureAbsolute: PRESSURES,
  pressureGauge: PRESSURES,
  pressureDifference: PRESSURES,
  stress: [
    ['Pa', 1],
    ['MPa', 1e6, 1, 'N/mm²'],
    ['GPa', 1e9, 1, 'kN/mm²'],
    ['psi', POUND_FORCE, SQUARE_INCH, 'lbf/in²'],
    ['ksi', 1000 * POUND_FORCE, SQUARE_INCH],
  ],
  temperature: [['K', 1, 1, 'kelvin']],
  temperatureDifference: [
    ['K', 1, 1, 'kelvin', 'ΔK'],
    ['°C', 1, 1, 'Δ°C', 'ΔC', 'C', 'degC', 'delta °C'],
    ['°F', 5, 9, 'Δ°F', 'ΔF', 'F', 'degF', 'delta °F'],
  ],
  massFlow: [
    ['kg/s', 1],
    ['g/s', 1, 1000],
    ['mg/s', 1, 1e6],
    ['g/min', 1, 60000],
    ['kg/min', 1, 60],
    ['kg/h', 1, 3600],
    ['lb/h', POUND, 3600, 'lbs/h', 'lbm/h', 'pph'],
    ['lb/min', POUND, 60, 'lbs/min', 'lbm/min'],
    ['lb/s', POUND, 1, 'lbs/s'],
  ],
  volumeFlow: [
    ['m³/s', 1],
    ['m³/h', 1, 3600],
    ['l/s', 1, 1000],
    ['l/min', 1, 60000, 'lpm', 'ltr/min', 'litres/min'],
    ['l/h', 1, 3.6e6, 'lph', 'ltr/h', 'litres/h'],
    ['cc/min', 1, 6e7, 'cm³/min', 'ccm/min', 'ccm'],
    ['ml/min', 1, 6e7],
    ['US gal/h', US_GALLON_LITRES, 3.6e6, 'gal US/h'],
    ['US gal/min', US_GALLON_LITRES, 60000],
    ['imp gal/h', IMPERIAL_GALLON_LITRES, 3.6e6, 'UK gal/h'],
    ['cfm', CUBIC_FOOT, 60, 'ft³/min', 'cu ft/min'],
  ],
  density: [
    ['kg/m³', 1],
    ['g/cc', 1000, 1, 'g/cm³', 'g/ml'],
    ['kg/l', 1000],
    ['g/l', 1],
    ['lb/ft³', POUND, CUBIC_FOOT],
  ],
  dynamicViscosity: [
    ['Pa·s', 1],
    ['mPa·s', 1, 1000],
    ['cP', 1, 1000, 'cps'],
  ],
  kinematicViscosity: [
    ['m²/s', 1],
    ['mm²/s', 1, 1e6],
    ['cSt', 1, 1e6],
  ],
  specificHeat: [
    ['J/(kg·K)', 1, 1, 'J/kg/K'],
    ['kJ/(kg·K)', 1000, 1, 'kJ/kg/K'],
  ],
  specificEnergy: [
    ['J/kg', 1],
    ['kJ/kg', 1000],
    ['MJ/kg', 1e6],
    ['kWh/kg', 3.6e6],
  ],
  specificFuelConsumption: [
    ['kg/J', 1],
    ['µg/J', 1, 1e9],
    ['g/kWh', 1, 3.6e9, 'g/(kW·h)'],
    ['kg/kWh', 1, 3.6e6, 'kg/(kW·h)'],
    ['lb/(hp·h)', POUND, MECHANICAL_HORSEPOWER * 3600, 'lb/hp/h', 'lb/(hp·hr)', 'lb/(bhp·h)', 'lb/(bhp·hr)'],
  ],
  heatCapacityRate: [
    ['W/K', 1, 1, 'W/°C'],
    ['kW/K', 1000, 1, 'kW/°C'],
  ],
  voltage: [
    ['V', 1, 1, 'volt', 'volts', 'VDC'],
    ['mV', 1, 1000],
    ['kV', 1000],
  ],
  current: [
    ['A', 1, 1, 'amp', 'amps', 'ampere', 'amperes'],
    ['mA', 1, 1000],
    ['µA', 1, 1e6],
  ],
  resistance: [
    ['Ω', 1, 1, 'R'],
    ['µΩ', 1, 1e6],
    ['mΩ', 1, 1000],
    ['kΩ', 1000, 1, 'k'],
    ['MΩ', 1e6, 1, 'Meg'],
  ],
  resistancePerLength: [
    ['Ω/m', 1],
    ['mΩ/m', 1, 1000],
    ['Ω/km', 1, 1000],
    ['Ω/ft', 1250, 381],
    ['mΩ/ft', 5, 1524],
    ['Ω/1000ft', 5, 1524, 'Ω/kft'],
  ],
  charge: [
    ['C', 1, 1, 'A·s'],
    ['Ah', 3600, 1, 'A·h'],
    ['mAh', 18, 5, 'mA·h'],
  ],
  capacitance: [
    ['F', 1],
    ['mF', 1, 1000],
    ['µF', 1, 1e6],
    ['nF', 1, 1e9],
    ['pF', 1, 1e12],
  ],
  inductance: [
    ['H', 1],
    ['mH', 1, 1000],
    ['µH', 1, 1e6],
  ],
  jouleIntegral: [['A²·s', 1, 1, 'A²s']],
}

/** Only a temperature has a zero of its own elsewhere; a difference of temperatures never gets the offset. */
const TEMPERATURES: readonly Unit[] = [
  { symbol: '°C', kind: 'temperature', times: 1, per: 1, offset: 273.15, aliases: ['C', 'degC', 'celsius'] },
  {
    symbol: '°F',
    kind: 'temperature',
    times: 5,
    per: 9,
    offset: 273.15 - 160 / 9,
    aliases: ['F', 'degF', 'fahrenheit'],
  },
]

const unitsByKind = (kind: Kind): readonly Unit[] => [
  ...(kind === 'temperature' ? TEMPERATURES : []),
  ...ROWS[kind].map(([symbol, times, per = 1, ...aliases]) => ({ symbol, kind, times, per, offset: 0, aliases })),
]

/** Every unit, kind by kind, in the order in which menus show them. */
export const UNITS = Object.fromEntries(
  (Object.keys(KINDS) as Kind[]).map((kind) => [kind, unitsByKind(kind)]),
) as Readonly<Record<Kind, readonly Unit[]>>

/** Every spelling a unit answers to, as keys of `symbolKey`. */
export const keysOf = (unit: Unit): readonly string[] => [unit.symbol, ...unit.aliases].map(symbolKey)

/** SI value of x in this unit. */
export const unitToSi = (unit: Unit, x: number): number => (x * unit.times) / unit.per + unit.offset

/** x in this unit of an SI value. */
export const siToUnit = (unit: Unit, si: number): number => ((si - unit.offset) * unit.per) / unit.times

/** SI size of a difference (a ±, a step) of x in this unit: never the offset. */
export const spanToSi = (unit: Unit, x: number): number => (x * unit.times) / unit.per

/** x in this unit of an SI difference: never the offset. */
export const siToSpan = (unit: Unit, si: number): number => (si * unit.per) / unit.times
