/** Rule `conductor-temperature`: the steady current of every case that lasts against what the wire's place allows. */
import { run, working, workingLines } from '../engineering/calculation.ts'
import { conductorCurrent } from '../engineering/electrical/conductorCurrent.ts'
import type { Wire } from '../model/build.ts'
import type { Context } from './context.ts'
import type { Finding } from './finding.ts'
import {
  amps,
  BATTERY_CAUTION,
  celsius,
  finding,
  HOT_CAUTION,
  list,
  restrictedWire,
  squareMillimetres,
  wireName,
} from './make.ts'
import { protectedBy } from './protection.ts'
import {
  CLASS_SOURCE,
  CLASS_TEMPERATURE,
  type ConductorFacts,
  conductorFacts,
  hottestZone,
  SIZES,
  zonesOfUnknownHeat,
} from './wireData.ts'

const known = new Map<string, number | undefined>()

/** A that brings the wire to `limit` K in air of `ambient` K; undefined where the air is as hot as the limit. */
export const capacity = (facts: ConductorFacts, limit: number, ambient: number): number | undefined => {
  const key = `${facts.metal} ${facts.resistance} ${facts.conductorDiameter} ${facts.outerDiameter} ${limit} ${ambient}`
  if (known.has(key)) return known.get(key)
  const value =
    limit <= ambient
      ? undefined
      : run(conductorCurrent, {
          temperature: limit,
          metal: facts.metal,
          resistance: facts.resistance,
          conductorDiameter: facts.conductorDiameter,
          outerDiameter: facts.outerDiameter,
          ambient,
        }).outputs.current
  // A heat balance takes sixty bisections and a loom has few kinds of wire: remembered, as a pure function may be.
  if (known.size > 5000) known.clear()
  known.set(key, value)
  return value
}

/** The model may differ from safety tables by a fifth in current (conductor-current, its limits). */
const MODEL_MARGIN = 0.8

export const conductorFindings = (context: Context): Finding[] => {
  const { build, cases } = context
  // A wire behind a fuse is asked for the same data by `fuse-against-conductor`.
  const behindFuse = new Set([...protectedBy(context).values()].flat())
  const unjudged = (
    wire: Wire,
    { current, name }: { readonly current: number; readonly name: string },
    place: ReturnType<typeof hottestZone>,
  ): Finding => {
    const about = wireName(build, wire.id)
    const cold = zonesOfUnknownHeat(build, wire)
    const missing = list([
      ...(wire.insulation ? [] : [`insulation class of ${wire.id}`]),
      ...(cold.length > 0
        ? [`ambient temperature of ${list(cold)}`]
        : place
          ? []
          : [`ambient temperature of a zone that ${wire.id} passes`]),
    ])
    return finding({
      rule: 'conductor-temperature',
      verdict: 'unknown',
      system: 'electrical',
      subject: `wires/${wire.id}`,
      about,
      zone: place?.zone,
      says: `${about} carries ${amps(current)} in “${name}”; whether it stays cool enough cannot be judged without the ${missing}.`,
      todo: `Enter the ${missing}.`,
      missing,
    })
  }
  return Object.values(build.collections.wires).flatMap((wire): Finding[] => {
    if (restrictedWire(build, wire.id)) return []
    let worst = { current: 0, name: '' }
    for (const solved of cases) {
      // Cranking and jump starting last seconds; a steady temperature would say nothing about them.
      if (!solved.solved || solved.kase.engine === 'cranking' || solved.kase.battery === 'reversed') continue
      const current = Math.abs(solved.currents[wire.id] ?? 0)
      if (current > worst.current) worst = { current, name: solved.kase.name }
    }
    const facts = conductorFacts(wire)
    const place = hottestZone(build, wire)
    if (worst.current < 1 || !facts || !wire.area) return []
    if (!place || !wire.insulation) return behindFuse.has(wire.id) ? [] : [unjudged(wire, worst, place)]
    const limit = CLASS_TEMPERATURE[wire.insulation]
    const carries = capacity(facts, limit, place.ambient)
    if (carries !== undefined && worst.current <= MODEL_MARGIN * carries)
      return zonesOfUnknownHeat(build, wire).length === 0 || behindFuse.has(wire.id)
        ? []
        : [unjudged(wire, worst, place)]
    const over = carries === undefined || worst.current > carries
    const bigger = SIZES.find(
      (size) =>
        size.area > wire.area!.value &&
        (capacity(conductorFacts({ area: { value: size.area }, material: 'copper' })!, limit, place.ambient) ?? 0) *
          MODEL_MARGIN >=
          worst.current,
    )
    return [
      finding({
        rule: 'conductor-temperature',
        verdict: over ? 'no-go' : 'marginal',
        system: 'electrical',
        subject: `wires/${wire.id}`,
        about: wireName(build, wire.id),
        zone: place.zone,
        says: `${wireName(build, wire.id)}, ${squareMillimetres(wire.area.value)}, carries ${amps(worst.current)} in “${worst.name}” and ${carries === undefined ? `may carry nothing at ${celsius(place.ambient)}` : `reaches ${celsius(limit)} at ${amps(carries)}`} in ${place.name}.`,
        todo: bigger
          ? `Fit ${bigger.size} in place of ${squareMillimetres(wire.area.value)} on ${wire.id}.`
          : `Take ${wire.id} along a cooler path, or share its current.`,
        working: [
          `Current of ${wire.id} in “${worst.name}”, solved over the whole network: ${amps(worst.current)}`,
          ...(carries === undefined
            ? []
            : workingLines(
                working(conductorCurrent, {
                  temperature: limit,
                  metal: facts.metal,
                  resistance: facts.resistance,
                  conductorDiameter: facts.conductorDiameter,
                  outerDiameter: facts.outerDiameter,
                  ambient: place.ambient,
                }),
              )),
          `Marginal from ${MODEL_MARGIN * 100} % on: the balance differs from safety tables by up to a fifth.`,
          `Source: ${CLASS_SOURCE}; resistance ${facts.from}; diameters ${facts.diametersFrom}`,
        ],
        cautions: [BATTERY_CAUTION, HOT_CAUTION],
      }),
    ]
  })
}
