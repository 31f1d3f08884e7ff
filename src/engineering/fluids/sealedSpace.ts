/**
 * Pressure in a shut space above a liquid, warmed.   p2 = (p1 − pv1)·(V1/V2)·(T2/T1) + pv2
 *   p1   pressure when it was shut  Pa  20000 … 300000
 *   V1   space then                 m³  1e-6 … 10
 *   T1   temperature then           K   230 … 400
 *   pv1  vapour pressure then       Pa  0 … 300000
 *   V2   space after                m³  1e-9 … 10
 *   T2   temperature after          K   230 … 400
 *   pv2  vapour pressure after      Pa  0 … 300000
 *   p2   pressure after             Pa
 *   Δp   rise                       Pa
 * Errors: `out-of-range`, `inconsistent-inputs` (vapour alone above the pressure it was shut at).
 * Limits: ideal gas, the space full of vapour, walls that do not give. Source: ideal gas and Dalton’s law [from memory].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { PSI } from '../exactUnits.ts'

const dalton: Source = {
  title: 'Dalton’s law: air as an ideal gas, with the vapour pressure of the liquid beside it',
  where: 'Çengel & Boles, chapters on gas mixtures and on gas-vapour mixtures',
  how: 'memory',
}
const example: Source = {
  title: 'Worked example: a litre of air at 1 atm over a litre of water at 20 °C, shut and warmed to 50 °C: 1.197 atm',
  where: 'physics.stackexchange.com, question 256841',
  how: 'read',
}
const ashrae: Source = {
  title:
    'ASHRAE, HVAC Systems and Equipment, closed expansion tank: 3000 gal from 40 to 220 °F, 24.7 to 39.7 psi: 578 gal',
  where: 'hydronic systems, example 1',
  how: 'memory',
}
const ATMOSPHERE = 101325
const GALLON = 3.785411784e-3
/** Growth of that example less that of its steel: 3000·((0.01677/0.01602 − 1) − 3·6.5e-6·180), gal. */
const GROWTH = 3000 * (0.01677 / 0.01602 - 1 - 3 * 6.5e-6 * 180)
/** Gas of a tank of 578 gal shut at 14.7 psi, once filled to 24.7 psi, gal. */
const GAS = (578 * 14.7) / 24.7

const temperature = (symbol: string, about: string) => quantity('temperature', { symbol, min: 230, max: 400, about })
const vapour = (symbol: string, about: string) => quantity('pressureAbsolute', { symbol, min: 0, max: 3e5, about })

export const sealedSpace = calculation({
  id: 'sealed-space',
  title: 'Pressure in a shut space above a liquid that warms',
  inputs: {
    pressure: quantity('pressureAbsolute', {
      symbol: 'p1',
      min: 2e4,
      max: 3e5,
      plausible: [6e4, 2.5e5],
      about: 'absolute pressure when it was shut',
    }),
    space: quantity('volume', {
      symbol: 'V1',
      min: 1e-6,
      max: 10,
      plausible: [1e-4, 0.2],
      about: 'gas above the liquid when it was shut',
    }),
    temperature: temperature('T1', 'temperature when it was shut'),
    vapour: vapour('pv1', 'vapour pressure of the liquid then, 0 where it is not counted'),
    spaceAfter: quantity('volume', {
      symbol: 'V2',
      min: 1e-9,
      max: 10,
      plausible: [1e-5, 0.2],
      about: 'gas above the liquid after: less what the liquid grew',
    }),
    temperatureAfter: temperature('T2', 'temperature after'),
    vapourAfter: vapour('pv2', 'vapour pressure of the liquid after, 0 where it is not counted'),
  },
  outputs: {
    pressureAfter: result('pressureAbsolute', { symbol: 'p2', about: 'absolute pressure after' }),
    rise: result('pressureDifference', { symbol: 'Δp', about: 'above the pressure when it was shut' }),
  },
  formula:
    '{pressureAfter} = ({pressure} − {vapour}) × ({space} / {spaceAfter}) × ({temperatureAfter} / {temperature}) + {vapourAfter}\n{rise} = {pressureAfter} − {pressure}',
  sources: [dalton],
  cautions: ['What is shut and warm throws liquid and vapour when opened: let it cool first.'],
  limits: ['Ideal gas; the space is full of vapour both times; walls that do not give. Dissolved air is not counted.'],
  conditions: [
    {
      at: 'vapour',
      holds: ({ pressure, vapour: at }) => at < pressure,
      says: 'The vapour pressure is at or above the pressure at which it was shut: the liquid boiled then.',
      todo: 'Look at the temperature when it was shut, and whether the pressure is absolute.',
    },
  ],
  checks: [
    {
      inputs: {
        pressure: ATMOSPHERE,
        space: 1e-3,
        temperature: 293.15,
        vapour: (17.5 / 760) * ATMOSPHERE,
        spaceAfter: 1e-3,
        temperatureAfter: 323.15,
        vapourAfter: (92.5 / 760) * ATMOSPHERE,
      },
      output: 'pressureAfter',
      expected: 1.197 * ATMOSPHERE,
      tolerance: { rel: 1.5e-3 },
      because: 'its vapour pressure is rounded to 0.121 atm on the way',
      source: example,
      evidence: 'published',
    },
    {
      inputs: {
        pressure: 24.7 * PSI,
        space: GAS * GALLON,
        temperature: 300,
        vapour: 0,
        spaceAfter: (GAS - GROWTH) * GALLON,
        temperatureAfter: 300,
        vapourAfter: 0,
      },
      output: 'pressureAfter',
      expected: 39.7 * PSI,
      tolerance: { rel: 1e-3 },
      because: 'tank printed to three digits, gas at one temperature',
      source: ashrae,
      evidence: 'published',
    },
  ],
  compute: ({ pressure, space, temperature: before, vapour: at, spaceAfter, temperatureAfter, vapourAfter }) => {
    const pressureAfter = ((pressure - at) * space * temperatureAfter) / (spaceAfter * before) + vapourAfter
    return { pressureAfter, rise: pressureAfter - pressure }
  },
})
