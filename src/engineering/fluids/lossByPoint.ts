/**
 * Pressure lost in a part of which one point is known: a filter, a valve.   Δp2 = Δp1·(ρ2/ρ1)·(Q2/Q1)²
 *   Q1   flow of the known point       m³/s   1e-8 … 1
 *   Δp1  loss at that point            Pa     0 … 2e6
 *   ρ1   density at that point         kg/m³  0.1 … 1500
 *   Q2   flow in use                   m³/s   0 … 1
 *   ρ2   density in use                kg/m³  0.1 … 1500
 *   Δp2  loss in use                   Pa
 * Errors: `out-of-range`. Limits: turbulent, the part unchanged; a fine filter runs nearer to flow to the power 1.
 * Source: IEC 60534-2-1, flow coefficient Kv [from memory].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { fluidsLibrary, waterDensity } from './sources.ts'

export const lossByPoint = calculation({
  id: 'loss-by-point',
  title: 'Pressure lost in a filter or valve, from one known point',
  inputs: {
    knownFlow: quantity('volumeFlow', { symbol: 'Q1', min: 1e-8, max: 1, about: 'flow at which the loss is known' }),
    knownLoss: quantity('pressureDifference', { symbol: 'Δp1', min: 0, max: 2e6, about: 'loss at that flow' }),
    knownDensity: quantity('density', { symbol: 'ρ1', min: 0.1, max: 1500, about: 'density of what flowed then' }),
    flow: quantity('volumeFlow', { symbol: 'Q2', min: 0, max: 1, about: 'flow in use' }),
    density: quantity('density', { symbol: 'ρ2', min: 0.1, max: 1500, about: 'density of what flows in use' }),
  },
  outputs: { loss: result('pressureDifference', { symbol: 'Δp2', about: 'pressure lost in use' }) },
  formula: '{loss} = {knownLoss} × ({density} / {knownDensity}) × ({flow} / {knownFlow})²',
  sources: [waterDensity],
  cautions: ['A filter that has done its miles loses more than its sheet says: measure before and after it.'],
  limits: [
    'Turbulent flow through the same part. A fine filter runs nearer to flow to the power 1: above the known point this is then too high, below it too low.',
  ],
  checks: [
    {
      inputs: { knownFlow: 165 / 3600, knownLoss: 1e5, knownDensity: 999.10329075702327, flow: 0.1, density: 965.4 },
      output: 'loss',
      expected: 4.6e5,
      tolerance: { rel: 5e-3 },
      because: 'Kv printed to three digits',
      source: waterDensity,
      evidence: 'published',
    },
    {
      inputs: {
        knownFlow: 164.9954763704956 / 3600,
        knownLoss: 1e5,
        knownDensity: 999.10329075702327,
        flow: 0.1,
        density: 965.4,
      },
      output: 'loss',
      expected: 4.6e5,
      tolerance: { rel: 2e-3 },
      because: 'Kv rests on 10 significant digits, its water density on the standard’s rounding',
      source: fluidsLibrary,
      evidence: 'library',
    },
  ],
  compute: ({ knownFlow, knownLoss, knownDensity, flow, density }) => ({
    loss: knownLoss * (density / knownDensity) * (flow / knownFlow) ** 2,
  }),
})
