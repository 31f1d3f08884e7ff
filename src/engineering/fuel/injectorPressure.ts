/**
 * Injector flow at another pressure or in another fluid.   Q2 = Q1·√(ρ2·Δp2 / (ρ1·Δp1))
 *   Q1   mass flow as tested         kg/s   1e-5 … 0.2
 *   Δp1  pressure across, as tested  Pa     2e4 … 2e6
 *   ρ1   density, as tested          kg/m³  600 … 900
 *   Δp2  pressure across, in use     Pa     2e4 … 2e6
 *   ρ2   density, in use             kg/m³  600 … 900
 *   Q2   mass flow in use            kg/s
 * Errors: `out-of-range`. Limits: turbulent flow through the same orifice; the pressure is across the injector.
 * Source: Bosch Motorsport “Special (Basic Information)”, for the pressure; orifice equation for the density.
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { PSI } from '../exactUnits.ts'
import { boschInjectors, CC_PER_MINUTE } from './sources.ts'

const orifice: Source = { title: 'Orifice equation, mass flow ∝ √(ρ·Δp)', where: 'ISO 5167-1', how: 'memory' }
const pumpNote: Source = {
  title: 'Workshop note “The Fuel Pump”: 450 cc/min at 42 psi becomes 500.6 at 52 psi',
  where: 'memweb.newsguy.com/~gtfour/fuelpump.html',
  how: 'read',
}

export const injectorPressure = calculation({
  id: 'injector-pressure',
  title: 'Injector flow at another pressure or in another fluid',
  inputs: {
    flow: quantity('massFlow', {
      symbol: 'Q1',
      min: 1e-5,
      max: 0.2,
      plausible: [1e-3, 0.03],
      about: 'static mass flow as tested',
    }),
    testPressure: quantity('pressureDifference', {
      symbol: 'Δp1',
      min: 2e4,
      max: 2e6,
      plausible: [2e5, 5e5],
      about: 'pressure across the injector in that test',
    }),
    testDensity: quantity('density', {
      symbol: 'ρ1',
      min: 600,
      max: 900,
      plausible: [670, 800],
      about: 'density of the test fluid',
    }),
    pressure: quantity('pressureDifference', {
      symbol: 'Δp2',
      min: 2e4,
      max: 2e6,
      plausible: [1e5, 6e5],
      about: 'pressure across the injector in use: rail less manifold',
    }),
    density: quantity('density', {
      symbol: 'ρ2',
      min: 600,
      max: 900,
      plausible: [700, 800],
      about: 'density of the fuel in use',
    }),
  },
  outputs: { flowInUse: result('massFlow', { symbol: 'Q2', about: 'static mass flow in use' }) },
  formula: '{flowInUse} = {flow} × √({density} × {pressure} / ({testDensity} × {testPressure}))',
  sources: [boschInjectors, orifice],
  cautions: ['A rail that is not referenced to the manifold loses the boost pressure across the injector.'],
  limits: [
    'The same orifice, flow turbulent and not vaporising. Volume flow at one pressure falls with density, mass flow rises with it.',
  ],
  checks: [
    {
      inputs: {
        flow: 450 * CC_PER_MINUTE * 744,
        testPressure: 42 * PSI,
        testDensity: 744,
        pressure: 52 * PSI,
        density: 744,
      },
      output: 'flowInUse',
      expected: 500.6 * CC_PER_MINUTE * 744,
      tolerance: { rel: 3e-4 },
      because: 'printed 500.6; its factor is printed 1.11265 where the root is 1.11270',
      source: pumpNote,
      evidence: 'published',
    },
    {
      inputs: { flow: 0.005, testPressure: 3e5, testDensity: 684, pressure: 3e5, density: 684 },
      output: 'flowInUse',
      expected: 0.005,
      tolerance: { rel: 1e-12 },
      because: 'nothing changed, nothing changes',
      source: orifice,
      evidence: 'law',
    },
    {
      inputs: { flow: 0.005, testPressure: 1e5, testDensity: 684, pressure: 4e5, density: 684 },
      output: 'flowInUse',
      expected: 0.01,
      tolerance: { rel: 1e-12 },
      because: 'four times the pressure, twice the flow',
      source: orifice,
      evidence: 'law',
    },
  ],
  compute: ({ flow, testPressure, testDensity, pressure, density }) => ({
    flowInUse: flow * Math.sqrt((density * pressure) / (testDensity * testPressure)),
  }),
})
