/**
 * Static flow of an injector from a bench test with a test fluid.   Q = (m/t)·√(ρ2·Δp2 / (ρ1·Δp1))
 *   m    mass caught                    kg     1e-5 … 10
 *   t    time held open                 s      1 … 3600
 *   ρ1   density of the test fluid      kg/m³  600 … 900
 *   Δp1  pressure across, on the bench  Pa     2e4 … 2e6
 *   ρ2   density of the fuel in use     kg/m³  600 … 900
 *   Δp2  pressure across, in use        Pa     2e4 … 2e6
 *   q    mass flow on the bench         kg/s
 *   Q    mass flow in use               kg/s
 * Errors: `out-of-range`. Limits: held open, turbulent; viscosity of the test fluid near to that of petrol.
 * Source: Bosch Motorsport “Special (Basic Information)” for the pressure; orifice equation for the density.
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { PSI } from '../exactUnits.ts'
import { boschInjectors, CC_PER_MINUTE } from './sources.ts'

const pumpNote: Source = {
  title: 'Workshop note “The Fuel Pump”: 450 cc/min at 42 psi becomes 500.6 at 52 psi',
  where: 'memweb.newsguy.com/~gtfour/fuelpump.html',
  how: 'read',
}

export const benchStaticFlow = calculation({
  id: 'bench-static-flow',
  title: 'Injector static flow from a bench test',
  inputs: {
    mass: quantity('mass', { symbol: 'm', min: 1e-5, max: 10, plausible: [0.02, 1], about: 'mass caught, weighed' }),
    time: quantity('time', { symbol: 't', min: 1, max: 3600, plausible: [10, 300], about: 'time held open' }),
    testDensity: quantity('density', {
      symbol: 'ρ1',
      min: 600,
      max: 900,
      plausible: [670, 800],
      about: 'density of the test fluid at its temperature',
    }),
    testPressure: quantity('pressureDifference', {
      symbol: 'Δp1',
      min: 2e4,
      max: 2e6,
      plausible: [2e5, 5e5],
      about: 'pressure across the injector on the bench',
    }),
    density: quantity('density', {
      symbol: 'ρ2',
      min: 600,
      max: 900,
      plausible: [700, 800],
      about: 'density of the fuel in use',
    }),
    pressure: quantity('pressureDifference', {
      symbol: 'Δp2',
      min: 2e4,
      max: 2e6,
      plausible: [1e5, 6e5],
      about: 'pressure across the injector in use: rail less manifold',
    }),
  },
  outputs: {
    benchFlow: result('massFlow', { symbol: 'q', about: 'mass flow on the bench' }),
    flow: result('massFlow', { symbol: 'Q', about: 'static mass flow in use' }),
  },
  formula:
    '{benchFlow} = {mass} / {time}\n{flow} = {benchFlow} × √({density} × {pressure} / ({testDensity} × {testPressure}))',
  sources: [boschInjectors],
  cautions: [
    'Test with an injector test fluid (n-heptane or a calibration oil of high flash point), never with petrol: a spray of petrol on a bench is a fire or an explosion waiting for a spark.',
    'Outdoors or under extraction, catch in closed glass, no lamp or heater near, extinguisher at hand, eyes covered. n-Heptane burns too.',
  ],
  limits: ['Held fully open; a coil not made for it overheats within a minute at full voltage.'],
  checks: [
    {
      inputs: {
        mass: 450 * CC_PER_MINUTE * 744 * 60,
        time: 60,
        testDensity: 744,
        testPressure: 42 * PSI,
        density: 744,
        pressure: 52 * PSI,
      },
      output: 'flow',
      expected: 500.6 * CC_PER_MINUTE * 744,
      tolerance: { rel: 3e-4 },
      because: 'printed 500.6; its factor is printed 1.11265 where the root is 1.11270',
      source: pumpNote,
      evidence: 'published',
    },
    {
      inputs: { mass: 0.684, time: 60, testDensity: 684, testPressure: 3e5, density: 684, pressure: 3e5 },
      output: 'benchFlow',
      expected: 1000 * CC_PER_MINUTE * 684,
      tolerance: { rel: 1e-9 },
      because: 'printed conversion of n-heptane: 684 g/min is 1000 cm³/min',
      source: boschInjectors,
      evidence: 'published',
    },
  ],
  compute: ({ mass, time, testDensity, testPressure, density, pressure }) => {
    const benchFlow = mass / time
    return { benchFlow, flow: benchFlow * Math.sqrt((density * pressure) / (testDensity * testPressure)) }
  },
})
