/** What one wire carries, alone in free air and by its table; remembered, since a loom has few kinds of wire. */
import { run } from '../../engineering/calculation.ts'
import { conductorCurrent } from '../../engineering/electrical/conductorCurrent.ts'
import type { ConductorFacts } from '../wireData.ts'

const known = new WeakMap<ConductorFacts, Map<number, Map<number, number | undefined>>>()

/** A that brings the wire, alone in still air of `ambient` K, to `limit` K; undefined where the air is as hot as the limit. */
export const capacity = (facts: ConductorFacts, limit: number, ambient: number): number | undefined => {
  const byLimit = known.get(facts) ?? new Map<number, Map<number, number | undefined>>()
  known.set(facts, byLimit)
  const byAmbient = byLimit.get(limit) ?? new Map<number, number | undefined>()
  byLimit.set(limit, byAmbient)
  if (byAmbient.has(ambient)) return byAmbient.get(ambient)
  const value = limit <= ambient ? undefined : run(conductorCurrent, airInputs(facts, limit, ambient)).outputs.current
  byAmbient.set(ambient, value)
  return value
}

export const airInputs = (facts: ConductorFacts, temperature: number, ambient: number) => ({
  temperature,
  metal: facts.metal,
  resistance: facts.resistance,
  conductorDiameter: facts.conductorDiameter,
  outerDiameter: facts.outerDiameter,
  ambient,
})
