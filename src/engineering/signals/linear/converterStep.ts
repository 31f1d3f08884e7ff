/**
 * Step of a converter.   q = V / 2^N
 *   V  full scale       V  0.1 … 100
 *   N  number of bits   1  1 … 24
 *   q  step             V
 *   n  quantisation noise, rms   V
 * Errors: `out-of-range`, `not-whole`. Limits: ideal converter, code = floor(reading·2^N); a count by 2^N − 1 differs by 0.1 % at 10 bits.
 * Source: definition; noise q/√12, Analog Devices MT-001 [from memory].
 */
import { calculation, quantity, result, type Source } from '../../calculation.ts'

const utility: Source = {
  title: 'Notes on quantisation: 12 bit, 3.3 V: step 0.806 mV, noise 0.233 mV',
  where: 'utility text pages; the same in Analog Devices MT-001',
  how: 'read',
}
const inputs = { fullScale: 3.3, bits: 12 }

export const converterStep = calculation({
  id: 'converter-step',
  title: 'Step of a converter',
  inputs: {
    fullScale: quantity('voltage', { symbol: 'V', min: 0.1, max: 100, plausible: [1, 30], about: 'full scale' }),
    bits: quantity('ratio', { symbol: 'N', min: 1, max: 24, plausible: [8, 16], whole: true, about: 'number of bits' }),
  },
  outputs: {
    step: result('voltage', { symbol: 'q', about: 'step' }),
    noise: result('voltage', { symbol: 'n', about: 'quantisation noise, rms' }),
  },
  formula: '{step} = {fullScale} / 2^{bits}\n{noise} = {step} / √12',
  sources: [utility],
  cautions: [],
  limits: ['Ideal converter; real ones add their non-linearity and noise.'],
  checks: [
    {
      inputs,
      output: 'step',
      expected: 0.806e-3,
      tolerance: { abs: 5.1e-7 },
      because: 'printed to three digits',
      source: utility,
      evidence: 'published',
    },
    {
      inputs,
      output: 'noise',
      expected: 0.233e-3,
      tolerance: { abs: 5.1e-7 },
      because: 'printed to three digits',
      source: utility,
      evidence: 'published',
    },
  ],
  compute: ({ fullScale, bits }) => {
    const step = fullScale / 2 ** bits
    return { step, noise: step / Math.sqrt(12) }
  },
})
