/**
 * Density of moist air.   ρ = (p − pv)/(Rd·T) + pv/(Rv·T), pv = φ·ps(T)
 *   p   pressure             Pa     2e4 … 1e6
 *   T   temperature          K      233.15 … 473.15
 *   φ   relative humidity    1      0 … 1
 *   pv  vapour pressure      Pa
 *   ρ   density              kg/m³
 *   xd  share of dry air     1
 * Errors: `out-of-range`, `inconsistent-inputs` (vapour above the whole pressure). Limits: ideal gases; ps of Wexler and Greenspan over water.
 * Source: 40 CFR 86.344-79 [read]; gas constants of dry air and water vapour [from memory].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { AIR_CONSTANT } from './sources.ts'

const cfr: Source = {
  title: '40 CFR 86.344-79, humidity: saturation pressure of Wexler and Greenspan',
  where: 'law.cornell.edu',
  how: 'read',
}
/** Kept values, HAPropsSI: real-gas moist air after ASHRAE RP-1485. */
const coolProp: Source = { title: 'CoolProp 8.0.0', where: 'HAPropsSI, (1 + W)/V', how: 'computed' }
const VAPOUR_CONSTANT = 461.52
const B = -12.150799
const F = [
  -8.49922e3, -7.4231865e3, 96.1635147, 2.4917646e-2, -1.3160119e-5, -1.1460454e-8, 2.1701289e-11, -3.610258e-15,
  3.8504519e-18, -1.4317e-21,
] as const

/** Pa of water vapour over water, K. */
export const saturationPressure = (temperature: number): number =>
  Math.exp(F.reduce((sum, factor, i) => sum + factor * temperature ** (i - 2), B * Math.log(temperature)))

const row = (temperature: number, humidity: number, expected: number) => ({
  inputs: { pressure: 101325, temperature, humidity },
  output: 'density' as const,
  expected,
  tolerance: { rel: 8e-4 },
  because: 'real gas against ideal gas, under 0.08 %',
  source: coolProp,
  evidence: 'library' as const,
})

export const humidAirDensity = calculation({
  id: 'humid-air-density',
  title: 'Density of moist air',
  inputs: {
    pressure: quantity('pressureAbsolute', {
      symbol: 'p',
      min: 2e4,
      max: 1e6,
      plausible: [5e4, 4e5],
      about: 'absolute pressure of the air',
    }),
    temperature: quantity('temperature', {
      symbol: 'T',
      min: 233.15,
      max: 473.15,
      plausible: [243, 400],
      about: 'temperature of the air',
    }),
    humidity: quantity('ratio', { symbol: 'φ', min: 0, max: 1, about: 'relative humidity, 0 for dry air' }),
  },
  outputs: {
    vapour: result('pressureAbsolute', { symbol: 'pv', about: 'partial pressure of the water vapour' }),
    density: result('density', { symbol: 'ρ', about: 'density of the moist air' }),
    dryShare: result('ratio', { symbol: 'xd', about: 'share of dry air by mass: only it burns fuel' }),
  },
  constants: {
    dryConstant: AIR_CONSTANT,
    vapourConstant: {
      symbol: 'Rv',
      value: VAPOUR_CONSTANT,
      unit: 'J/(kg·K)',
      source: { title: 'R/M of water, 8.314462/0.01801528', how: 'computed' },
    },
  },
  formula:
    '{vapour} = {humidity} × ps({temperature}), ps by Wexler and Greenspan\n{density} = ({pressure} − {vapour}) / ({dryConstant} × {temperature}) + {vapour} / ({vapourConstant} × {temperature})\n{dryShare} = ({pressure} − {vapour}) / ({dryConstant} × {temperature} × {density})',
  sources: [cfr],
  cautions: [],
  limits: ['Ideal gases, under 0.1 % off at a car’s pressures; vapour over water, not ice.'],
  conditions: [
    {
      at: 'humidity',
      holds: (given) => given.humidity * saturationPressure(given.temperature) < given.pressure,
      says: 'So much water vapour does not fit into air of this pressure.',
      todo: 'Enter the relative humidity of the air outside, not that after compression.',
    },
  ],
  checks: [
    {
      inputs: { pressure: 101325, temperature: 288.15, humidity: 0 },
      output: 'density',
      expected: 1.225,
      tolerance: { abs: 6e-5 },
      because: 'printed to four digits',
      source: { title: 'ISO 2533 / ICAO Doc 7488, standard atmosphere at sea level', how: 'memory' },
      evidence: 'published',
    },
    row(293.15, 0.5, 1.199359276772362),
    row(303.15, 0.8, 1.1500561793629094),
    row(313.15, 0.3, 1.1181708908738348),
  ],
  compute: ({ pressure, temperature, humidity }) => {
    const vapour = humidity * saturationPressure(temperature)
    const dry = (pressure - vapour) / (AIR_CONSTANT.value * temperature)
    const density = dry + vapour / (VAPOUR_CONSTANT * temperature)
    return { vapour, density, dryShare: dry / density }
  },
})
