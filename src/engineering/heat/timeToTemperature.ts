/**
 * Time until a mass of liquid reaches a temperature.   t = τ·ln((T∞ − T0)/(T∞ − T))
 *   m   mass                     kg        1e-7 … 1000
 *   c   specific heat            J/(kg·K)  100 … 1e4
 *   K1  to the warm side         W/K       0 … 1e5
 *   T1  warm side                K         220 … 700
 *   K2  to the cold side         W/K       0 … 1e5
 *   T2  cold side                K         220 … 700
 *   P   heat put in besides      W         -1e6 … 1e6
 *   T0  at the start             K         220 … 700
 *   T   to be reached            K         220 … 700
 *   t   time                     s
 * Errors: `out-of-range`, `inconsistent-inputs` (it settles before). Limits: as the temperature of a liquid that stores heat.
 * Source: Incropera & DeWitt, chapter 5, lumped capacitance [from memory].
 */
import { calculation, result } from '../calculation.ts'
import { temperatureInput } from './sources.ts'
import { lumped, storedHeat, storeInputs } from './storedHeat.ts'

export const timeToTemperature = calculation({
  id: 'time-to-temperature',
  title: 'Time until a liquid that stores heat reaches a temperature',
  inputs: { ...storeInputs, reached: temperatureInput('T', 'temperature to be reached') },
  outputs: { time: result('time', { symbol: 't', about: 'time until then' }) },
  formula:
    'T∞ = ({warmConductance} × {warmSide} + {coldConductance} × {coldSide} + {heat}) / ({warmConductance} + {coldConductance})\n{time} = {mass} × {specificHeat} / ({warmConductance} + {coldConductance}) × ln((T∞ − {start}) / (T∞ − {reached}))',
  sources: [lumped],
  cautions: [],
  limits: [
    'Liquid well mixed, metal and hoses not counted (they add to the store); conductances and both sides constant.',
  ],
  conditions: [
    {
      at: 'reached',
      holds: ({ warmConductance, warmSide, coldConductance, coldSide, heat, start, reached }) => {
        const end =
          (warmConductance * warmSide + coldConductance * coldSide + heat) / (warmConductance + coldConductance)
        return (end - start) * (end - reached) > 0 && Math.abs(end - reached) <= Math.abs(end - start)
      },
      says: 'It settles before it gets there, or goes the other way.',
      todo: 'Nothing, if that temperature was a limit: it is not reached.',
    },
  ],
  checks: [
    {
      inputs: (() => {
        const { time: _time, ...rest } = storedHeat.checks[0]!.inputs
        return { ...rest, reached: 472.15 }
      })(),
      output: 'time',
      expected: 5.2,
      tolerance: { abs: 0.05 },
      because: 'printed to two digits; the arithmetic gives 5.17',
      source: { ...lumped, where: 'example 5.1, thermocouple junction, 25 to 199 °C in gas at 200 °C' },
      evidence: 'published',
    },
  ],
  compute: ({ mass, specificHeat, warmConductance, warmSide, coldConductance, coldSide, heat, start, reached }) => {
    const sum = warmConductance + coldConductance
    const end = (warmConductance * warmSide + coldConductance * coldSide + heat) / sum
    return { time: ((mass * specificHeat) / sum) * Math.log((end - start) / (end - reached)) }
  },
})
