import { unit as mathjsUnit } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { fromUnit, KINDS, type Kind, toUnit, unitsOf } from './index.ts'
import { keysOf, siToUnit, UNITS, unitToSi } from './table.ts'

const kinds = Object.keys(KINDS) as Kind[]

/**
 * NIST SP 811 (2008), appendix B.8, as printed; * marks a factor printed bold, which is exact. `read` was seen in a
 * public transcription of B.8 as code, not on the page of NIST itself; `memory` was not. Every printed factor also
 * follows from the definitions named in table.ts, so a slip of memory in a digit would fail here.
 */
const NIST: readonly (readonly [name: string, kind: Kind, unit: string, printed: string, seen: 'read' | 'memory'])[] = [
  ['psi (pound-force per square inch)', 'pressureDifference', 'psi', '6.894757e3', 'read'],
  ['inch of mercury, conventional', 'pressureDifference', 'inHg', '3.386389e3', 'read'],
  ['inch of water, conventional', 'pressureDifference', 'inH2O', '2.490889e2', 'read'],
  ['millimetre of mercury, conventional', 'pressureDifference', 'mmHg', '1.333224e2', 'read'],
  ['kilogram-force per square centimetre*', 'pressureDifference', 'kgf/cm²', '9.80665e4', 'read'],
  ['atmosphere, standard*', 'pressureAbsolute', 'atm', '1.01325e5', 'memory'],
  ['bar*', 'pressureAbsolute', 'bar', '1.0e5', 'memory'],
  ['pound, avoirdupois', 'mass', 'lb', '4.535924e-1', 'read'],
  ['ounce, avoirdupois', 'mass', 'oz', '2.834952e-2', 'memory'],
  ['pound-force', 'force', 'lbf', '4.448222', 'read'],
  ['kilogram-force*', 'force', 'kgf', '9.80665', 'read'],
  ['pound-force foot', 'torque', 'lbf·ft', '1.355818', 'memory'],
  ['pound-force inch', 'torque', 'lbf·in', '1.129848e-1', 'memory'],
  ['kilogram-force metre*', 'torque', 'kgf·m', '9.80665', 'read'],
  ['horsepower (550 ft·lbf/s)', 'power', 'hp', '7.456999e2', 'read'],
  ['horsepower (metric)', 'power', 'PS', '7.354988e2', 'read'],
  ['kilowatt hour*', 'energy', 'kWh', '3.6e6', 'read'],
  ['gallon (US)', 'volume', 'US gal', '3.785412e-3', 'memory'],
  ['gallon (Canadian and UK, imperial)*', 'volume', 'imp gal', '4.54609e-3', 'memory'],
  ['cubic inch', 'volume', 'in³', '1.638706e-5', 'memory'],
  ['gallon (US) per minute', 'volumeFlow', 'US gal/min', '6.309020e-5', 'memory'],
  ['cubic foot per minute', 'volumeFlow', 'cfm', '4.719474e-4', 'read'],
  ['pound per hour', 'massFlow', 'lb/h', '1.259979e-4', 'memory'],
  ['pound per minute', 'massFlow', 'lb/min', '7.559873e-3', 'memory'],
  ['pound per horsepower hour', 'specificFuelConsumption', 'lb/(hp·h)', '1.689659e-7', 'memory'],
  ['pound per cubic foot', 'density', 'lb/ft³', '1.601846e1', 'memory'],
  ['foot*', 'length', 'ft', '3.048e-1', 'memory'],
  ['inch*', 'length', 'in', '2.54e-2', 'read'],
  ['mil (0.001 in)*', 'length', 'thou', '2.54e-5', 'read'],
  ['mile*', 'length', 'mile', '1.609344e3', 'read'],
  ['square inch*', 'area', 'in²', '6.4516e-4', 'memory'],
  ['mile per hour*', 'speed', 'mph', '4.4704e-1', 'memory'],
  ['kilometre per hour', 'speed', 'km/h', '2.777778e-1', 'read'],
  ['acceleration of free fall, standard*', 'acceleration', 'g₀', '9.80665', 'read'],
  ['revolution per minute', 'angularSpeed', 'rpm', '1.047198e-1', 'memory'],
  ['degree', 'angle', '°', '1.745329e-2', 'memory'],
  ['centipoise*', 'dynamicViscosity', 'cP', '1.0e-3', 'memory'],
  ['centistokes*', 'kinematicViscosity', 'cSt', '1.0e-6', 'memory'],
  ['ampere hour*', 'charge', 'Ah', '3.6e3', 'memory'],
  ['degree Fahrenheit (difference)', 'temperatureDifference', '°F', '5.555556e-1', 'memory'],
]

describe('factors against NIST SP 811 (2008), appendix B.8', () => {
  it.each(NIST)('%s', (_name, kind, unit, printed) => {
    const digits = printed.split('e')[0]?.replace('.', '').length ?? 0
    // The printed figure is the true one rounded to its last digit; 735.49875 W is a tie, which NIST rounds up.
    const lastDigit = 10 ** (Math.floor(Math.log10(Number(printed))) - digits + 1)
    expect(Math.abs(fromUnit(kind, unit, 1) - Number(printed))).toBeLessThanOrEqual(0.5 * lastDigit * (1 + 1e-6))
  })

  // SP 811 B.8: T/K = t/°C + 273.15 and T/K = (t/°F + 459.67)/1.8.
  it('degree Celsius and degree Fahrenheit by their formulae', () => {
    for (const t of [-40, 0, 32, 98.6, 212]) {
      expect(fromUnit('temperature', '°C', t)).toBeCloseTo(t + 273.15, 10)
      expect(fromUnit('temperature', '°F', t)).toBeCloseTo((t + 459.67) / 1.8, 10)
    }
    expect(toUnit('temperature', '°F', fromUnit('temperature', '°C', -40))).toBeCloseTo(-40, 10)
  })
})

/** Second opinion where mathjs holds the exact definition too (its gallon and inHg are rounded, so they are left out). */
const MATHJS: readonly (readonly [Kind, string, string, string])[] = [
  ['length', 'in', 'inch', 'm'],
  ['length', 'ft', 'foot', 'm'],
  ['length', 'mile', 'mile', 'm'],
  ['length', 'thou', 'mil', 'm'],
  ['mass', 'lb', 'lbm', 'kg'],
  ['mass', 'oz', 'oz', 'kg'],
  ['force', 'lbf', 'lbf', 'N'],
  ['force', 'kgf', 'kgf', 'N'],
  ['torque', 'lbf·ft', 'lbf ft', 'N m'],
  ['speed', 'mph', 'mile/hour', 'm/s'],
  ['speed', 'km/h', 'km/hour', 'm/s'],
  ['pressureDifference', 'bar', 'bar', 'Pa'],
  ['pressureDifference', 'atm', 'atm', 'Pa'],
  ['energy', 'kWh', 'kW hour', 'J'],
  ['charge', 'Ah', 'A hour', 'C'],
  ['specificFuelConsumption', 'g/kWh', 'g/(kW hour)', 'kg/J'],
  ['resistancePerLength', 'Ω/ft', 'ohm/foot', 'ohm/m'],
]

it.each(MATHJS)('%s: %s equals mathjs %s', (kind, unit, theirs, si) => {
  expect(fromUnit(kind, unit, 1) / mathjsUnit(`1 ${theirs}`).toNumber(si)).toBeCloseTo(1, 12)
})

describe('the table as a whole', () => {
  it.each(kinds)('%s: no spelling stands for two units, the SI unit is there', (kind) => {
    const owner = new Map<string, string>()
    for (const unit of UNITS[kind])
      for (const key of keysOf(unit)) {
        expect(owner.get(key) ?? unit.symbol, `${key} in ${kind}`).toBe(unit.symbol)
        owner.set(key, unit.symbol)
      }
    const si = KINDS[kind].si === '1' ? '' : KINDS[kind].si
    expect(fromUnit(kind, si, 1)).toBe(1)
  })

  it.each(kinds)('%s: every unit rises with its number and comes back', (kind) => {
    for (const unit of UNITS[kind]) {
      const steps = [-40, -1, 0, 0.5, 1, 20, 3000]
      const values = steps.map((x) => unitToSi(unit, x))
      values.forEach((value, index) => {
        if (index > 0) expect(value).toBeGreaterThan(values[index - 1] as number)
        expect(siToUnit(unit, value)).toBeCloseTo(steps[index] as number, 9)
      })
    }
  })

  it('offers a menu for every kind, and AWG among the areas', () => {
    for (const kind of kinds) expect(unitsOf(kind).length).toBeGreaterThan(0)
    expect(unitsOf('area')).toContain('AWG')
  })

  it('gives an offset to temperatures and to nothing else', () => {
    const offset = kinds.filter((kind) => UNITS[kind].some((unit) => unit.offset !== 0))
    expect(offset).toEqual(['temperature'])
  })
})
