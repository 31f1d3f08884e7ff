/**
 * Direct-current resistance of a conductor that no table lists.   R = ρ20·L/A·(1 + α20·(T − 293.15 K))
 *   M  metal                   one of copper, aluminium, copper-clad aluminium
 *   L  length of the metal     m   0 … 1e3
 *   A  cross-section           m²  1e-9 … 1e-3
 *   T  conductor temperature   K   220 … 500
 *   R  resistance              Ω
 * Errors: `out-of-range`, `unknown-choice`. Limits: direct current; solid or metal area of the strands, lay not counted.
 *   A listed conductor takes its table's maximum instead (tableResistance.ts).
 * Source: IEC 60028 for copper's resistivity; aluminium 61 % IACS and copper-clad aluminium 15A from memory; coefficients, handbook table 30.1.
 */
import { awgArea } from '../../units/awg.ts'
import { calculation, choice, quantity, result } from '../calculation.ts'
import { astmB258, astmB566, faa, handbook, iec60028, METAL_NAMES, METALS, warmer } from './sources.ts'

const THOUSAND_FEET = 304.8
const nbs = { title: 'NBS Handbook 100 (1966), copper wire tables', how: 'memory' } as const

export const conductorResistance = calculation({
  id: 'conductor-resistance',
  title: 'Resistance of a conductor',
  inputs: {
    metal: choice(METAL_NAMES, { symbol: 'M', about: 'metal of the conductor' }),
    length: quantity('length', {
      symbol: 'L',
      min: 0,
      max: 1e3,
      plausible: [0.02, 30],
      about: 'length of the metal, out and back if both are meant',
    }),
    area: quantity('area', {
      symbol: 'A',
      min: 1e-9,
      max: 1e-3,
      plausible: [2e-7, 1.2e-4],
      about: 'metal cross-section',
    }),
    temperature: quantity('temperature', {
      symbol: 'T',
      min: 220,
      max: 500,
      plausible: [233, 423],
      about: 'conductor temperature',
    }),
  },
  outputs: { resistance: result('resistance', { symbol: 'R', about: 'direct-current resistance' }) },
  formula: '{resistance} = ρ20({metal}) × {length} / {area} × (1 + α20({metal}) × ({temperature} − 293.15 K))',
  sources: [iec60028, handbook, { title: 'IEC 60889, aluminium 0.028264 Ω·mm²/m', how: 'memory' }, astmB566],
  cautions: ['Copper-clad aluminium sold as copper has about 1.55 times the resistance of copper (from memory).'],
  limits: [
    'Direct current; metal area, lay of strands and joints not counted. ρ20 copper 1/58 Ω·mm²/m, aluminium 0.028264, copper-clad aluminium 0.02676; α20 0.00393, 0.00403 and 0.00404 1/K.',
  ],
  checks: [
    {
      inputs: { metal: 'copper', length: THOUSAND_FEET, area: awgArea(10), temperature: 293.15 },
      output: 'resistance',
      expected: 0.9989,
      tolerance: { rel: 1e-4 },
      because: 'four digits',
      source: { ...nbs, where: 'AWG 10, Ω/1000 ft' },
      evidence: 'published',
    },
    {
      inputs: { metal: 'copper', length: THOUSAND_FEET, area: awgArea(20), temperature: 293.15 },
      output: 'resistance',
      expected: 10.15,
      tolerance: { rel: 5e-4 },
      because: 'four digits',
      source: { title: 'Wire table at wp.1728.org', where: 'AWG 20, Ω/1000 ft', how: 'read' },
      evidence: 'published',
    },
    {
      inputs: { metal: 'copper', length: THOUSAND_FEET, area: awgArea(30), temperature: 293.15 },
      output: 'resistance',
      expected: 103.2,
      tolerance: { rel: 5e-4 },
      because: 'four digits; area by the gauge formula',
      source: astmB258,
      evidence: 'published',
    },
    {
      inputs: { metal: 'copper', length: 58, area: 1e-6, temperature: 273.15 + 105 },
      output: 'resistance',
      expected: (234.5 + 105) / 254.5,
      tolerance: { rel: 2e-4 },
      because: 'its factor (234.5 + T)/254.5 and α20 agree to 1 in 10 000',
      source: { ...faa, where: 'paragraph 11-66, page 11-22' },
      evidence: 'published',
    },
    {
      inputs: { metal: 'copper', length: 2, area: 1e-6, temperature: 293.15 },
      output: 'resistance',
      expected: 2 / 58,
      tolerance: { rel: 1e-12 },
      because: 'twice the metre, twice the resistance',
      source: iec60028,
      evidence: 'law',
    },
  ],
  compute: ({ metal, length, area, temperature }) => ({
    resistance: ((METALS[metal].rho * length) / area) * warmer(metal, temperature),
  }),
})
