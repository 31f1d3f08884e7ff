/**
 * Room that warming coolant asks for.   ΔV = V·(ρ1/ρ2 − 1)
 *   V   coolant cold     m³  1e-5 … 1
 *   x   glycol by volume   1   0 … 0.6
 *   T1  cold             K   278 … 394
 *   T2  hot              K   278 … 394
 *   ΔV  growth           m³
 * Errors: `out-of-range`. Limits: the metal grows too (about 0.2 % by volume over 80 K of aluminium) and is not counted.
 * Source: ASHRAE Fundamentals, density of ethylene glycol solutions [read].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { ashrae, densityOf, glycolInput } from './sources.ts'

const temperature = (symbol: string, about: string) => quantity('temperature', { symbol, min: 278, max: 394, about })

export const coolantExpansion = calculation({
  id: 'coolant-expansion',
  title: 'Room that warming coolant asks for',
  inputs: {
    volume: quantity('volume', {
      symbol: 'V',
      min: 1e-5,
      max: 1,
      plausible: [0.002, 0.03],
      about: 'coolant in the whole system, cold',
    }),
    glycol: glycolInput,
    cold: temperature('T1', 'temperature at which it is filled'),
    hot: temperature('T2', 'temperature it reaches'),
  },
  outputs: { growth: result('volume', { symbol: 'ΔV', about: 'growth; below 0 it shrinks' }) },
  formula: '{growth} = {volume} × (ρ({glycol}, {cold}) / ρ({glycol}, {hot}) − 1)',
  sources: [ashrae],
  cautions: ['Fill and look at the level cold. Never open a hot system.'],
  limits: ['Tables differ, so the growth is good to about 10 %; growth of the metal is not counted.'],
  checks: [
    {
      inputs: { volume: 1, glycol: 0.4728, cold: 293.15, hot: 353.15 },
      output: 'growth',
      expected: 1079 / 1042 - 1,
      tolerance: { abs: 2.5e-3 },
      because: 'printed to 1 kg/m³, 0.1 % each; sources differ: 3.3, 3.55 and 3.75 % (CoolProp)',
      source: {
        title: 'Ethylene glycol and water properties, mass fraction 0.5: 1079 at 20 °C, 1042 at 80 °C',
        where: 'corecheminc.com',
        how: 'read',
      },
      evidence: 'published',
    },
    {
      inputs: { volume: 1, glycol: 0, cold: 293.15, hot: 368.15 },
      output: 'growth',
      expected: 998.2 / 961.9 - 1,
      tolerance: { abs: 6e-4 },
      because: 'table by 0.01 lb/ft³',
      source: { title: 'Steam tables, water at 20 and 95 °C: 998.2 and 961.9 kg/m³', how: 'memory' },
      evidence: 'published',
    },
  ],
  compute: ({ volume, glycol, cold, hot }) => ({
    growth: volume * (densityOf(glycol, cold) / densityOf(glycol, hot) - 1),
  }),
})
