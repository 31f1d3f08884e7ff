/**
 * Rule `conductor-temperature`: the steady current of every case that lasts against what the wire may carry in each place
 * on its way, in its bundle there. The lower of heat balance and published rating decides.
 */
import { working, workingLines } from '../engineering/calculation.ts'
import { bundleFactor } from '../engineering/electrical/bundleFactor.ts'
import { conductorCurrent } from '../engineering/electrical/conductorCurrent.ts'
import type { Conductor } from '../engineering/electrical/conductorTable.ts'
import { publishedRating } from '../engineering/electrical/publishedRating.ts'
import { steadyTemperature } from '../engineering/electrical/steadyTemperature.ts'
import type { Build, OperatingCase, Wire } from '../model/build.ts'
import type { Context } from './context.ts'
import type { Finding } from './finding.ts'
import { amps, BATTERY_CAUTION, celsius, finding, HOT_CAUTION, list, own, restrictedWire, wireName } from './make.ts'
import { type Allowance, allowance } from './network/allowance.ts'
import type { Bundle } from './network/bundles.ts'
import { airInputs } from './network/capacity.ts'
import { type Place, placesOf } from './network/places.ts'
import { lasts } from './network/warming.ts'
import { lastingCurrents } from './protection/opening.ts'
import { protectedBy } from './protection.ts'
import {
  CLASS_SOURCE,
  CLASS_TEMPERATURE,
  type ConductorFacts,
  conductorFacts,
  hottestZone,
  sizeName,
  sizesLike,
  zonesOfUnknownHeat,
} from './wireData.ts'

export { capacity } from './network/capacity.ts'

/** The model may differ from safety tables by a fifth in current (conductor-current, its limits). */
const MODEL_MARGIN = 0.8
/** A. Below it no wire of a car's loom warms enough to matter. */
const JUDGED_FROM = 1

interface Load {
  readonly current: number
  readonly name: string
  readonly bundles: ReadonlyMap<string, Bundle>
}
interface Judged extends Allowance {
  readonly load: Load
  readonly place: Place & { readonly ambient: number }
  readonly bundle: Bundle | undefined
  /** Current over what is allowed. */
  readonly use: number
}

/** The case and place that load the wire most, of the places whose heat is entered. */
const worstOf = (
  facts: ConductorFacts,
  limit: number,
  places: readonly Place[],
  loads: readonly Load[],
): Judged | undefined => {
  let worst: Judged | undefined
  for (const load of loads)
    for (const place of places) {
      const { ambient } = place
      if (ambient === undefined) continue
      const bundle = place.run === undefined ? undefined : load.bundles.get(place.run)
      const share = bundle?.factor ?? 1
      const may = allowance(facts, limit, ambient, share, Math.max(1, bundle?.wires.length ?? 1))
      const use = may.allowed === undefined ? Number.POSITIVE_INFINITY : load.current / may.allowed
      if (!worst || use > worst.use) worst = { ...may, load, place: { ...place, ambient }, bundle, use }
    }
  return worst
}

interface Answer {
  readonly findings: Finding[]
  /** Size that each wire with a no-go here should have, by wire. */
  readonly mended: ReadonlyMap<string, Conductor>
}
const answers = new WeakMap<Context, Answer>()
/** Once an assessment: what other rules suggest begins with these wires mended. */
const answerOf = (context: Context): Answer => {
  const known = answers.get(context)
  if (known) return known
  const made = judgeAll(context)
  answers.set(context, made)
  return made
}
export const conductorFindings = (context: Context): Finding[] => answerOf(context).findings
export const mendedWires = (context: Context): Answer['mended'] => answerOf(context).mended

const judgeAll = (context: Context): Answer => {
  const { build } = context
  const mended = new Map<string, Conductor>()
  // A wire behind a fuse is asked for the same data by `fuse-against-conductor`.
  const behindFuse = new Set([...protectedBy(context).values()].flat())
  const lasting = context.cases.filter(({ solved, kase }) => solved && lasts(kase))
  const unrest = lasting.flatMap(({ kase, restless }) => (restless === undefined ? [] : [restlessCase(kase, restless)]))
  const cases = lasting.map((solved) => ({ ...solved, lasts: lastingCurrents(context, solved) }))
  const judged = Object.values(build.collections.wires).flatMap((wire): Finding[] => {
    if (restrictedWire(build, wire.id)) return []
    const loads = cases
      .map(({ currents, kase, bundles, lasts }) => ({
        // A fuse that opens ends it; `fuse-in-service` has that.
        current: lasts(wire.id, Math.abs(currents[wire.id] ?? 0)),
        name: kase.name,
        bundles,
      }))
      .filter(({ current }) => current >= JUDGED_FROM)
      .sort((a, b) => b.current - a.current)
    const facts = conductorFacts(wire)
    const most = loads[0]
    if (!most || !facts || !wire.area) return []
    if (!wire.insulation || !hottestZone(build, wire))
      return behindFuse.has(wire.id) ? [] : [unjudged(build, wire, most)]
    const limit = CLASS_TEMPERATURE[wire.insulation]
    const worst = worstOf(facts, limit, placesOf(build, wire), loads)
    if (!worst) return []
    const crowd = worst.bundle && worst.bundle.factor === undefined ? worst.bundle : undefined
    if (crowd) return [unjudged(build, wire, worst.load, `what ${crowd.wires.length} loaded wires in one bundle do`)]
    const fits = worst.use <= 1 && worst.load.current <= MODEL_MARGIN * worst.balance!
    if (fits)
      return zonesOfUnknownHeat(build, wire).length === 0 || behindFuse.has(wire.id)
        ? []
        : [unjudged(build, wire, most)]
    const alone = allowance(facts, limit, worst.place.ambient)
    const stranger = worst.bundle?.unknown ?? []
    // Only what is not known of its neighbours makes it too hot: that is no verdict on this wire.
    if (stranger.length > 0 && alone.allowed !== undefined && holds(alone, worst.load.current))
      return [unjudged(build, wire, worst.load, `cross-section and material of ${list(stranger)}`)]
    const bigger = coolEnough(wire.area.value, limit, worst)
    if (bigger && worst.use > 1) mended.set(wire.id, bigger)
    return [tooHot(build, wire, facts, limit, worst, bigger)]
  })
  return { findings: [...unrest, ...judged], mended }
}

/** The thinnest copper that stands the current where the wire is tried hardest. */
const coolEnough = (area: number, limit: number, { load, place, bundle }: Judged): Conductor | undefined =>
  sizesLike(area).find((size) => {
    if (size.area <= area) return false
    const copper = conductorFacts({ area: { value: size.area }, material: 'copper' })!
    const [share, count] = [bundle?.factor ?? 1, Math.max(1, bundle?.wires.length ?? 1)]
    return holds(allowance(copper, limit, place.ambient, share, count), load.current)
  })

const restlessCase = (kase: OperatingCase, kelvin: number): Finding =>
  finding({
    rule: 'conductor-temperature',
    verdict: 'unknown',
    system: 'electrical',
    subject: `cases/${kase.id}`,
    about: kase.name,
    says: `The wires come to no steady temperature in “${kase.name}”: from one turn to the next they move by ${kelvin.toFixed(0)} K.`,
    todo: 'Mend the faults that this case shows first, above all a wire far too thin or a short.',
    missing: `a steady state of “${kase.name}”`,
  })

const holds = ({ allowed, balance }: Allowance, current: number): boolean =>
  allowed !== undefined && current <= allowed && current <= MODEL_MARGIN * balance!

const unjudged = (build: Build, wire: Wire, { current, name }: Load, lacks?: string): Finding => {
  const about = wireName(build, wire.id)
  const place = hottestZone(build, wire)
  const cold = zonesOfUnknownHeat(build, wire)
  const missing =
    lacks ??
    list([
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
    todo: lacks?.startsWith('what') ? `Split the bundle that ${wire.id} lies in.` : `Enter the ${missing}.`,
    missing,
  })
}

const tooHot = (
  build: Build,
  wire: Wire,
  facts: ConductorFacts,
  limit: number,
  worst: Judged,
  bigger: Conductor | undefined,
): Finding => {
  const { load, place, bundle, allowed, balance, published } = worst
  const { current } = load
  const area = wire.area!.value
  const [share, count] = [bundle?.factor ?? 1, Math.max(1, bundle?.wires.length ?? 1)]
  const through = placeName(build, place)
  const cooler = Object.entries(CLASS_TEMPERATURE).find(
    ([, temperature]) =>
      temperature > limit && holds(allowance(facts, temperature, place.ambient, share, count), current),
  )
  const ways = [
    bigger && `fit ${bigger.size} in place of ${sizeName(area)} on ${wire.id}`,
    count > 1 && holds(allowance(facts, limit, place.ambient), current)
      ? `move it out of the bundle through ${through}`
      : undefined,
    !bigger && cooler ? `fit insulation of class ${cooler[0]} on ${wire.id}` : undefined,
  ].filter((way): way is string => typeof way === 'string')
  const settles = steadyTemperature(facts, current / share, place.ambient)?.temperature
  const byTable = allowed !== undefined && published !== undefined && published < balance!
  const bundled = count > 1 ? ` among ${count} loaded wires` : ''
  const may =
    allowed === undefined
      ? `may carry nothing at ${celsius(place.ambient)}`
      : byTable
        ? `may carry ${amps(allowed)}${bundled}, as its table has it,`
        : `reaches ${celsius(limit)} at ${amps(allowed)}${bundled}`
  return finding({
    rule: 'conductor-temperature',
    verdict: worst.use > 1 ? 'no-go' : 'marginal',
    system: 'electrical',
    subject: `wires/${wire.id}`,
    about: wireName(build, wire.id),
    zone: place.zone,
    says: `${wireName(build, wire.id)}, ${sizeName(area)}, carries ${amps(current)} in “${load.name}” and ${may} in ${place.name}${settles === undefined ? '; it finds no steady temperature and burns' : ''}.`,
    todo:
      ways.length === 0 && settles === undefined
        ? `Find what draws ${amps(current)} over ${wire.id} before anything else: no size of wire stands it.`
        : ways.length === 0
          ? `Take ${wire.id} along a cooler path, or share its current.`
          : `${ways.join(', or ').replace(/^./, (first) => first.toUpperCase())}.`,
    working: [
      `Current of ${wire.id} in “${load.name}”, solved over the whole network with warm wires: ${amps(current)}${settles === undefined ? '' : `, which settles at ${celsius(settles)} in ${place.name} (${celsius(place.ambient)})`}`,
      ...(balance === undefined ? [] : workingLines(working(conductorCurrent, airInputs(facts, limit, place.ambient)))),
      ...(bundle && count > 1
        ? [
            `In the bundle: ${list(bundle.wires)}, each above 30 % of what it may carry there (IEC 60364-5-52, clause 523.5 [from memory]).`,
            ...workingLines(working(bundleFactor, { wires: count, loading: bundle.loading })),
            `Heat balance in the bundle: ${amps(balance ?? 0)}`,
          ]
        : []),
      ...(published === undefined
        ? []
        : workingLines(
            working(publishedRating, {
              size: facts.size!,
              temperature: limit,
              ambient: place.ambient,
              wires: count,
            }),
          )),
      `The lower of heat balance and published rating decides; marginal from ${MODEL_MARGIN * 100} % of the balance on, for it differs from safety tables by up to a fifth.`,
      `Source: ${CLASS_SOURCE}; resistance ${facts.from}; diameters ${facts.diametersFrom}`,
    ],
    cautions: [BATTERY_CAUTION, HOT_CAUTION],
  })
}

const placeName = (build: Build, place: Place): string =>
  (place.run === undefined ? undefined : own(build.collections.runs, place.run)?.name) ??
  `the ${place.name.toLowerCase()}`
