/**
 * Heat that goes into the coolant.   Q = P·b·H·s
 *   P   power                 W     0 … 2e6
 *   b   specific consumption  kg/J  4e-8 … 3e-7
 *   H   heating value         J/kg  1.5e7 … 5e7
 *   s   share to the coolant  1     0.05 … 0.5
 *   Pf  heat of the fuel      W
 *   Q   heat to the coolant   W
 * Errors: `out-of-range`, `inconsistent-inputs` (more work than fuel). Limits: steady; the share falls with load and rises at part load.
 * Source: Heywood, table 12.1: spark ignition at maximum power, coolant 17 to 26 % of the fuel [from memory].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'

export const heywoodHeat: Source = {
  title:
    'Heywood, Internal Combustion Engine Fundamentals (1988), energy balance at maximum power: coolant 17 to 26 % of the fuel, oil and other 3 to 10 %',
  where: 'table 12.1',
  how: 'memory',
}
/** Middle and half width of Heywood’s range, at maximum power. */
export const SHARE = { value: 0.215, plusMinus: 0.045 } as const
/**
 * Anywhere below maximum power sources disagree: Heywood’s 17 % as the least, and a textbook’s heat balance of a petrol engine over speed, more
 * than 35 % at low speed and 25 % at high at full throttle [read, student.infinitycodestudio.com, figure 11.2], as the most.
 */
export const PART_SHARE = { value: 0.26, plusMinus: 0.09 } as const

export const coolantHeat = calculation({
  id: 'coolant-heat',
  title: 'Heat that goes into the coolant',
  inputs: {
    power: quantity('power', { symbol: 'P', min: 0, max: 2e6, plausible: [5e3, 8e5], about: 'power at the crank' }),
    specificConsumption: quantity('specificFuelConsumption', {
      symbol: 'b',
      min: 4e-8,
      max: 3e-7,
      plausible: [6e-8, 1.3e-7],
      about: 'fuel actually used per work',
    }),
    heatingValue: quantity('specificEnergy', {
      symbol: 'H',
      min: 1.5e7,
      max: 5e7,
      plausible: [1.9e7, 4.5e7],
      about: 'lower heating value of the fuel',
    }),
    share: quantity('ratio', {
      symbol: 's',
      min: 0.05,
      max: 0.5,
      plausible: [0.15, 0.35],
      about: 'share of the fuel’s heat that the coolant takes',
    }),
  },
  outputs: {
    fuel: result('power', { symbol: 'Pf', about: 'heat of the fuel burnt' }),
    heat: result('power', { symbol: 'Q', about: 'heat into the coolant' }),
  },
  formula: '{fuel} = {power} × {specificConsumption} × {heatingValue}\n{heat} = {fuel} × {share}',
  sources: [heywoodHeat],
  cautions: [],
  limits: [
    'At maximum power. At part load the share is larger, at a lower heat; late ignition moves heat to the exhaust.',
  ],
  conditions: [
    {
      at: 'specificConsumption',
      holds: ({ specificConsumption, heatingValue }) => specificConsumption * heatingValue > 1,
      says: 'The engine would give more work than its fuel holds: an efficiency over 1.',
      todo: 'Look at the unit of the specific consumption: g/(kW·h), not g/(hp·h) or a flow.',
    },
  ],
  checks: [
    {
      inputs: {
        power: 327.4 * ((1750 * 2 * Math.PI) / 60),
        specificConsumption: 15 / 3600 / (327.4 * ((1750 * 2 * Math.PI) / 60)),
        heatingValue: 42e6,
        share: 0.287,
      },
      output: 'heat',
      expected: (16 / 60) * 4190 * (65.8 - 20.8),
      tolerance: { rel: 2e-3 },
      because: 'share rounded to three digits; the heat from the water’s side, 50.3 kW',
      source: {
        title: 'Engine test: 15 kg/h at 42 MJ/kg, 327.4 N·m at 1750 1/min, 16 kg/min of water from 20.8 to 65.8 °C',
        where: 'homework.zookal.com, problem 4',
        how: 'read',
      },
      evidence: 'published',
    },
  ],
  compute: ({ power, specificConsumption, heatingValue, share }) => {
    const fuel = power * specificConsumption * heatingValue
    return { fuel, heat: fuel * share }
  },
})
