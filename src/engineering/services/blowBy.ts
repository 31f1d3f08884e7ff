/**
 * Blow-by that a crankcase breather has to pass.   Q = x·ṁ·R·T/p
 *   ṁ   air flow of the engine         kg/s  0 … 2
 *   x   blow-by as share of that       1     0 … 0.2
 *   T   temperature of the gas         K     250 … 450
 *   p   pressure of the crankcase      Pa    3e4 … 2e5
 *   mb  blow-by by mass                kg/s
 *   Q   blow-by by volume              m³/s
 *   ρ   its density                    kg/m³
 * Errors: `out-of-range`. Limits: gas as air; the turbocharger’s own leak adds to it.
 * Source: law of gases; share 0.5 to 2 % of the charge [read].
 */

import { AIR_CONSTANT } from '../air/sources.ts'
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { incropera } from './sources.ts'

/** Share of the air that passes the rings. */
export const BLOW_BY = {
  value: 0.0125,
  plusMinus: 0.0075,
  source: {
    title: 'Blow-by: 0.5 to 2 % of the gas at best sealing; below 1 % where nothing is worn',
    where: 'de.zxc.wiki/wiki/Blowby',
    how: 'read',
  },
} as const
const table: Source = { ...incropera, where: 'table A.4, air at 350 K: 0.9950 kg/m³' }

export const blowBy = calculation({
  id: 'blow-by',
  title: 'Blow-by that a crankcase breather has to pass',
  inputs: {
    air: quantity('massFlow', {
      symbol: 'ṁ',
      min: 0,
      max: 2,
      plausible: [0.005, 0.5],
      about: 'air flow of the engine',
    }),
    share: quantity('ratio', {
      symbol: 'x',
      min: 0,
      max: 0.2,
      plausible: [0.003, 0.05],
      about: 'blow-by as a share of the air by mass',
    }),
    temperature: quantity('temperature', {
      symbol: 'T',
      min: 250,
      max: 450,
      plausible: [320, 420],
      about: 'temperature of the gas in the crankcase',
    }),
    pressure: quantity('pressureAbsolute', {
      symbol: 'p',
      min: 3e4,
      max: 2e5,
      plausible: [6e4, 1.1e5],
      about: 'absolute pressure in the crankcase',
    }),
  },
  outputs: {
    mass: result('massFlow', { symbol: 'mb', about: 'blow-by by mass' }),
    volume: result('volumeFlow', { symbol: 'Q', about: 'blow-by by volume' }),
    density: result('density', { symbol: 'ρ', about: 'its density' }),
  },
  constants: { gas: AIR_CONSTANT },
  formula: '{mass} = {share} × {air}\n{density} = {pressure} / ({gas} × {temperature})\n{volume} = {mass} / {density}',
  sources: [BLOW_BY.source],
  cautions: [
    'Blow-by is fuel, water and soot in oil mist: it burns, and makes ill where it enters the cabin. An open breather may be unlawful.',
  ],
  limits: [
    'The gas counts as air, within a few per cent. A worn engine, or one just built whose rings have not bedded in, has several times as much.',
    'A turbocharger’s bearings leak gas into their drain, which adds to this.',
  ],
  checks: [
    {
      inputs: { air: 0.0995, share: 0.01, temperature: 350, pressure: 101325 },
      output: 'volume',
      expected: 0.001,
      tolerance: { rel: 0.015 },
      because: 'the table’s density is 1.4 % under the law of gases at this pressure',
      source: table,
      evidence: 'published',
    },
  ],
  compute: ({ air, share, temperature, pressure }) => {
    const density = pressure / (AIR_CONSTANT.value * temperature)
    return { mass: share * air, volume: (share * air) / density, density }
  },
})
