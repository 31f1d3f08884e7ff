/**
 * A fan at another speed or density.   Q2 = Q1·r, Δp2 = Δp1·r²·ρ2/ρ1, P2 = P1·r³·ρ2/ρ1
 *   Q1   flow known            m³/s   0 … 20
 *   Δp1  pressure known        Pa     0 … 5000
 *   P1   power known           W      0 … 2e4
 *   r    speed ratio           1      0.05 … 3
 *   ρ1   density then          kg/m³  0.3 … 2
 *   ρ2   density now           kg/m³  0.3 … 2
 *   Q2   flow                  m³/s
 *   Δp2  pressure              Pa
 *   P2   power                 W
 * Errors: `out-of-range`. Limits: the same fan at the same point of its curve; a direct-current fan’s speed goes about with its voltage.
 * Source: fan laws [read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'

const laws: Source = {
  title:
    'Fan laws, homework with answers: 6000 cfm, 4 in of water, 6 hp at 2000 1/min; 4500 cfm, 2.25 in, 2.53 hp at 1500 1/min',
  where: 'scribd.com/doc/262289512, question 1',
  how: 'read',
}
const CFM = 0.3048 ** 3 / 60
const INCH_OF_WATER = 249.08891
const known = {
  flow: 6000 * CFM,
  pressure: 4 * INCH_OF_WATER,
  power: 6 * 745.7,
  ratio: 0.75,
  knownDensity: 1.2,
  density: 1.2,
}

export const fanSpeed = calculation({
  id: 'fan-speed',
  title: 'A fan at another speed',
  inputs: {
    flow: quantity('volumeFlow', { symbol: 'Q1', min: 0, max: 20, about: 'flow of a known point' }),
    pressure: quantity('pressureDifference', { symbol: 'Δp1', min: 0, max: 5000, about: 'pressure at that point' }),
    power: quantity('power', { symbol: 'P1', min: 0, max: 2e4, about: 'power at that point, 0 if of no interest' }),
    ratio: quantity('ratio', {
      symbol: 'r',
      min: 0.05,
      max: 3,
      plausible: [0.4, 1.2],
      about: 'speed now over speed then; of a direct-current fan about its volts now over its volts then',
    }),
    knownDensity: quantity('density', { symbol: 'ρ1', min: 0.3, max: 2, about: 'density of the air then' }),
    density: quantity('density', { symbol: 'ρ2', min: 0.3, max: 2, about: 'density of the air now' }),
  },
  outputs: {
    newFlow: result('volumeFlow', { symbol: 'Q2', about: 'flow' }),
    newPressure: result('pressureDifference', { symbol: 'Δp2', about: 'pressure' }),
    newPower: result('power', { symbol: 'P2', about: 'power' }),
  },
  formula:
    '{newFlow} = {flow} × {ratio}\n{newPressure} = {pressure} × {ratio}² × {density} / {knownDensity}\n{newPower} = {power} × {ratio}³ × {density} / {knownDensity}',
  sources: [laws],
  cautions: ['A fan may start by itself with the ignition off: battery off before hands are near it.'],
  limits: [
    'The same fan, the same point of its curve. That speed goes with volts is good to some per cent (common practice).',
  ],
  checks: [
    {
      inputs: known,
      output: 'newFlow',
      expected: 4500 * CFM,
      tolerance: { rel: 1e-6 },
      because: 'exact',
      source: laws,
      evidence: 'published',
    },
    {
      inputs: known,
      output: 'newPressure',
      expected: 2.25 * INCH_OF_WATER,
      tolerance: { rel: 1e-6 },
      because: 'exact',
      source: laws,
      evidence: 'published',
    },
    {
      inputs: known,
      output: 'newPower',
      expected: 2.53 * 745.7,
      tolerance: { rel: 2e-3 },
      because: 'printed to three digits',
      source: laws,
      evidence: 'published',
    },
  ],
  compute: ({ flow, pressure, power, ratio, knownDensity, density }) => ({
    newFlow: flow * ratio,
    newPressure: (pressure * ratio ** 2 * density) / knownDensity,
    newPower: (power * ratio ** 3 * density) / knownDensity,
  }),
})
