/**
 * B value of a thermistor from two readings, and its temperature by the B form.   B = ln(R1/R2) / (1/T1 − 1/T2),
 * 1/T = 1/T1 + ln(R/R1)/B
 *   R1  resistance, colder         Ω  1 … 1e7
 *   T1  temperature, colder        K  200 … 500
 *   R2  resistance, warmer         Ω  1 … 1e7
 *   T2  temperature, warmer        K  200 … 500
 *   R   resistance now             Ω  1 … 1e7
 *   B   B value                    K
 *   T   temperature now            K
 * Errors: `out-of-range`, `inconsistent-inputs` (the second reading is not the warmer one with less resistance). Limits: a
 *   B curve errs by kelvins away from its two readings; three readings do far better.
 * Source: the definition on every NTC data sheet (IEC 60539-1 [from memory]).
 */
import { calculation, quantity, result } from '../../calculation.ts'
import { semitec, vishayNtc, ZERO_CELSIUS } from '../sources.ts'

export const thermistorBeta = calculation({
  id: 'thermistor-beta',
  title: 'B value of a thermistor from two readings',
  inputs: {
    colderResistance: quantity('resistance', {
      symbol: 'R1',
      min: 1,
      max: 1e7,
      about: 'resistance at the colder reading',
    }),
    colder: quantity('temperature', {
      symbol: 'T1',
      min: 200,
      max: 500,
      plausible: [230, 380],
      about: 'colder temperature',
    }),
    warmerResistance: quantity('resistance', {
      symbol: 'R2',
      min: 1,
      max: 1e7,
      about: 'resistance at the warmer reading',
    }),
    warmer: quantity('temperature', {
      symbol: 'T2',
      min: 200,
      max: 500,
      plausible: [270, 425],
      about: 'warmer temperature',
    }),
    resistance: quantity('resistance', { symbol: 'R', min: 1, max: 1e7, about: 'resistance now' }),
  },
  outputs: {
    beta: result('temperatureDifference', { symbol: 'B', about: 'B value' }),
    temperature: result('temperature', { symbol: 'T', about: 'temperature now' }),
  },
  formula:
    '{beta} = ln({colderResistance} / {warmerResistance}) / (1/{colder} − 1/{warmer})\n1/{temperature} = 1/{colder} + ln({resistance} / {colderResistance}) / {beta}',
  sources: [{ title: 'IEC 60539-1, directly heated NTC thermistors: definition of the B value', how: 'memory' }],
  cautions: [],
  limits: [
    'Away from the two readings the B form errs by kelvins (103AT: +2.5 K at −20 °C); take three readings where it matters.',
  ],
  conditions: [
    {
      at: 'warmer',
      holds: (given) => given.warmer > given.colder && given.warmerResistance < given.colderResistance,
      says: 'The second reading is not warmer with less resistance.',
      todo: 'Enter the colder reading first; an NTC thermistor falls when warmed.',
    },
  ],
  checks: [
    {
      inputs: {
        colderResistance: 10000,
        colder: 25 + ZERO_CELSIUS,
        warmerResistance: 1451,
        warmer: 85 + ZERO_CELSIUS,
        resistance: 10000,
      },
      output: 'beta',
      expected: 3435,
      tolerance: { abs: 1 },
      because: 'printed to 1 K, resistance to four digits',
      source: semitec,
      evidence: 'published',
    },
    {
      inputs: {
        colderResistance: 10000,
        colder: 25 + ZERO_CELSIUS,
        warmerResistance: 1070.3,
        warmer: 85 + ZERO_CELSIUS,
        resistance: 10000,
      },
      output: 'beta',
      expected: 3977,
      tolerance: { abs: 1 },
      because: 'printed to 1 K; resistance by the sheet’s own R–T coefficients',
      source: vishayNtc,
      evidence: 'published',
    },
  ],
  compute: ({ colderResistance, colder, warmerResistance, warmer, resistance }) => {
    const beta = Math.log(colderResistance / warmerResistance) / (1 / colder - 1 / warmer)
    return { beta, temperature: 1 / (1 / colder + Math.log(resistance / colderResistance) / beta) }
  },
})
