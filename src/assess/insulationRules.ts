/**
 * Rule `insulation-class`: the insulation of each wire against the heat about it, whatever it carries itself: the air of
 * each place it passes, and the hottest neighbour it touches in a bundle. Wires that carry enough to be judged by their
 * own current, and those behind a fuse, hear of hot air from `conductor-temperature` and `fuse-against-conductor`.
 */
import { steadyTemperature } from '../engineering/electrical/steadyTemperature.ts'
import type { Build, Wire } from '../model/build.ts'
import { mendedWires } from './conductorRules.ts'
import type { Context } from './context.ts'
import type { Finding } from './finding.ts'
import { amps, celsius, finding, own, restrictedWire, wireName } from './make.ts'
import { type Place, placesOf } from './network/places.ts'
import { lasts } from './network/warming.ts'
import { protectedBy } from './protection.ts'
import { CLASS_SOURCE, CLASS_TEMPERATURE, conductorFacts } from './wireData.ts'

/** K above the class that insulation stands for 240 h. ISO 6722-1, short-term ageing [from memory]. */
const SHORT_TERM = 25
/** A, as in `conductor-temperature`. */
const JUDGED_FROM = 1

interface Heat {
  readonly kelvin: number
  readonly place: Place
  /** Neighbour that gives it off, and what it carries; none: the air itself. */
  readonly from?: { readonly wire: string; readonly current: number; readonly name: string }
}

export const insulationFindings = (context: Context): Finding[] => {
  const { build, cases } = context
  const behindFuse = new Set([...protectedBy(context).values()].flat())
  const lasting = cases.filter(({ solved, kase }) => solved && lasts(kase))
  const neighbours = hottestInRuns(context)
  const mended = mendedWires(context)
  return Object.values(build.collections.wires).flatMap((wire): Finding[] => {
    if (!wire.insulation || restrictedWire(build, wire.id)) return []
    const limit = CLASS_TEMPERATURE[wire.insulation]
    const judgedElsewhere =
      behindFuse.has(wire.id) || lasting.some(({ currents }) => Math.abs(currents[wire.id] ?? 0) >= JUDGED_FROM)
    let worst: Heat | undefined
    for (const place of placesOf(build, wire)) {
      const candidates: Heat[] = []
      if (place.ambient !== undefined && !judgedElsewhere) candidates.push({ kelvin: place.ambient, place })
      const beside = (place.run === undefined ? undefined : neighbours.get(place.run))?.find(
        ({ wire: other }) => other !== wire.id,
      )
      if (beside) candidates.push({ kelvin: beside.kelvin, place, from: beside })
      for (const heat of candidates) if (heat.kelvin > limit && heat.kelvin > (worst?.kelvin ?? 0)) worst = heat
    }
    // A neighbour that is itself too thin has its own finding, and mending it cools them all: told once, there.
    return worst && !(worst.from && mended.has(worst.from.wire)) ? [tooHot(build, wire, limit, worst)] : []
  })
}

interface Neighbour {
  readonly wire: string
  /** K at the surface of its insulation. */
  readonly kelvin: number
  readonly current: number
  readonly name: string
}
/** The two hottest surfaces of each run over all cases that last: two, so that each wire finds one that is not its own. */
const hottestInRuns = ({ build, cases }: Context): Map<string, Neighbour[]> => {
  const hottest = new Map<string, Neighbour[]>()
  for (const { solved, kase, bundles, currents } of cases) {
    if (!solved || !lasts(kase)) continue
    for (const { run, wires, factor } of bundles.values()) {
      const ambient = own(build.collections.zones, own(build.collections.runs, run)?.zone ?? '')?.ambient?.value
      if (ambient === undefined || factor === undefined) continue
      for (const id of wires) {
        const wire = own(build.collections.wires, id)
        const facts = wire && conductorFacts(wire)
        const current = Math.abs(currents[id] ?? 0)
        // One that finds no steady temperature is a finding of its own, and the worst there is.
        const kelvin = facts && steadyTemperature(facts, current / factor, ambient)?.surface
        if (kelvin === undefined) continue
        const here = (hottest.get(run) ?? []).filter(({ wire: other, kelvin: its }) => other !== id || its > kelvin)
        if (!here.some(({ wire: other }) => other === id)) here.push({ wire: id, kelvin, current, name: kase.name })
        hottest.set(run, here.sort((a, b) => b.kelvin - a.kelvin).slice(0, 2))
      }
    }
  }
  return hottest
}

const tooHot = (build: Build, wire: Wire, limit: number, { kelvin, place, from }: Heat): Finding => {
  const about = wireName(build, wire.id)
  const better = Object.entries(CLASS_TEMPERATURE).find(([, temperature]) => temperature >= kelvin)
  const fit = better && `fit insulation of class ${better[0]} or higher on ${wire.id}`
  const ways = from
    ? [`move ${from.wire} out of the bundle`, `make ${from.wire} thicker`, fit]
    : [fit, `take ${wire.id} along a cooler path`]
  return finding({
    rule: 'insulation-class',
    verdict: kelvin > limit + SHORT_TERM ? 'no-go' : 'marginal',
    system: 'electrical',
    subject: `wires/${wire.id}`,
    about,
    zone: place.zone,
    says: from
      ? `${about}, class ${wire.insulation} (${celsius(limit)}), lies beside ${from.wire} in ${place.name}, whose insulation is at ${celsius(kelvin)} outside with ${amps(from.current)} in “${from.name}”.`
      : `${about}, class ${wire.insulation} (${celsius(limit)}), passes ${place.name}, where the air reaches ${celsius(kelvin)}.`,
    todo: `${ways
      .filter((way) => way !== undefined)
      .join(', or ')
      .replace(/^./, (first) => first.toUpperCase())}.`,
    working: [
      `${celsius(kelvin)} against ${celsius(limit)}; for 240 h it stands ${SHORT_TERM} K more (ISO 6722-1, short-term ageing [from memory]).`,
      `Source: ${CLASS_SOURCE}`,
    ],
  })
}
