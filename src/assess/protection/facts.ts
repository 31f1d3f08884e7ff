/** A fuse and a conductor of the build as the law of protection takes them, or the data that they lack. */
import type { FuseType } from '../../engineering/electrical/fuseGates.ts'
import type { JudgedFuse, JudgedWire } from '../../engineering/electrical/protection/judgeProtection.ts'
import { wireInputs } from '../../engineering/electrical/wireInputs.ts'
import type { Build, Device, Wire } from '../../model/build.ts'
import type { Context } from '../context.ts'
import { amps, deviceZone, list, own } from '../make.ts'
import { allowance } from '../network/allowance.ts'
import { CLASS_TEMPERATURE, conductorFacts, hottestZone, OVERLOAD_RISE, zonesOfUnknownHeat } from '../wireData.ts'

type FuseSpec = Extract<Device['spec'], { kind: 'fuse' }>
const TYPE: Record<NonNullable<FuseSpec['pattern']>, FuseType | undefined> = {
  blade: 'blade',
  'mini blade': 'blade',
  'high-current blade': 'maxi',
  'bolt-down': 'bolt-down',
  glass: undefined,
}

export type FuseDevice = Device & { readonly spec: FuseSpec }
export const fuseOf = (build: Build, id: string): FuseDevice | undefined => {
  const device = own(build.collections.devices, id)
  return device?.spec.kind === 'fuse' ? (device as FuseDevice) : undefined
}

export const ratingOf = ({ spec }: FuseDevice): number | undefined =>
  spec.rating !== undefined && spec.rating.value > 0 && Number.isFinite(spec.rating.value)
    ? spec.rating.value
    : undefined

/** Its name with its rating, said once. */
export const ratedName = ({ name }: FuseDevice, rating: number): string =>
  name.includes(amps(rating)) ? name : `${name}, ${amps(rating)}`

/** Its name without its rating, where a sentence gives another. */
export const plainName = ({ name }: FuseDevice, rating: number): string => name.replace(`, ${amps(rating)}`, '')

export const judgedFuse = (
  build: Build,
  fuse: FuseDevice,
): { readonly fuse?: JudgedFuse; readonly gaps: readonly string[] } => {
  const rating = ratingOf(fuse)
  const type = fuse.spec.pattern === undefined ? undefined : TYPE[fuse.spec.pattern]
  const gaps = [
    ...(rating === undefined ? [`rating of ${fuse.name}`] : []),
    ...(type === undefined
      ? [
          fuse.spec.pattern === undefined
            ? `type of ${fuse.name} (blade, high-current blade, bolt-down)`
            : `time-current gates of ${fuse.name}: none are read for a ${fuse.spec.pattern} fuse, a blade fuse has them`,
        ]
      : []),
  ]
  if (rating === undefined || type === undefined) return { gaps }
  const zone = deviceZone(build, fuse.id)
  return {
    gaps,
    fuse: {
      type,
      rating,
      ambient: zone === undefined ? undefined : own(build.collections.zones, zone)?.ambient?.value,
      breakingCapacity: fuse.spec.breakingCapacity?.value,
    },
  }
}

/** Cases that last: a steady temperature says nothing about cranking, and a reversed battery is no service. */
export const lastingCases = ({ cases }: Context) =>
  cases.filter(
    ({ solved, kase }) =>
      solved && kase.engine !== 'cranking' && kase.battery !== 'reversed' && kase.supply === undefined,
  )

/** The air that nobody entered: of the zones on its way by their names, else a zone at all. */
const airOf = (build: Build, wire: Wire): string => {
  const zones = zonesOfUnknownHeat(build, wire)
  return zones.length > 0
    ? `ambient temperature of ${list([...new Set(zones)])}`
    : `zone of ${wire.id}, by its path or the devices at its ends`
}

const within = ({ min, max }: { readonly min: number; readonly max: number }, value: number): boolean =>
  value >= min && value <= max

const rises = new WeakMap<Context['circuit'], ReadonlyMap<string, number>>()

/** K by which each conductor's own current warms it, at most, in a case that lasts; added to the hottest place on its way. */
const risesOf = (context: Context): ReadonlyMap<string, number> => {
  const before = rises.get(context.circuit)
  if (before) return before
  const found = new Map<string, number>()
  for (const { bound, temperatures } of lastingCases(context))
    for (const { wire, ambient } of bound.wires)
      found.set(wire.id, Math.max(found.get(wire.id) ?? 0, (temperatures[wire.id] ?? ambient) - ambient))
  rises.set(context.circuit, found)
  return found
}

export const judgedWire = (
  context: Context,
  wire: Wire,
): { readonly wire?: JudgedWire; readonly gaps: readonly string[] } => {
  const { build } = context
  const facts = conductorFacts(wire)
  const place = hottestZone(build, wire)
  const gaps = [
    ...(wire.area ? [] : [`cross-section of ${wire.id}`]),
    ...(wire.material ? [] : [`material of ${wire.id}`]),
    ...(wire.insulation ? [] : [`insulation class of ${wire.id}`]),
    ...(place ? [] : [airOf(build, wire)]),
  ]
  if (!facts || !wire.area || !wire.insulation || !place) return { gaps }
  // Beyond what the heat balance knows nothing is claimed.
  if (!within(wireInputs.resistance, facts.resistance) || !within(wireInputs.outerDiameter, facts.outerDiameter))
    return { gaps: [`cross-section of ${wire.id} that a car’s wire can have`] }
  if (!within(wireInputs.ambient, place.ambient))
    return { gaps: [`ambient temperature of ${place.name} that a car’s zone can have`] }
  const start = place.ambient + (risesOf(context).get(wire.id) ?? 0)
  let share = 1
  for (const { bundles } of lastingCases(context))
    for (const run of wire.path ?? []) {
      const bundle = bundles.get(run)
      // Alone in its run it shares its air with nobody.
      if (bundle?.wires.some((other) => other !== wire.id)) share = Math.min(share, bundle.factor ?? 0)
    }
  return { gaps, wire: judgedAs(facts, wire.area.value, wire.insulation, place.ambient, start, share) }
}

export const judgedAs = (
  facts: NonNullable<ReturnType<typeof conductorFacts>>,
  area: number,
  insulation: NonNullable<Wire['insulation']>,
  ambient: number,
  start: number,
  share: number,
): JudgedWire => {
  const limit = CLASS_TEMPERATURE[insulation]
  return {
    metal: facts.metal,
    area,
    resistance: facts.resistance,
    conductorDiameter: facts.conductorDiameter,
    outerDiameter: facts.outerDiameter,
    ambient,
    // Whole kelvins upwards: figures are remembered, and a wire hotter than its class is another rule's finding.
    start: Math.min(Math.ceil(start), limit),
    limit,
    shortTermLimit: limit + OVERLOAD_RISE,
    share,
    published: allowance(facts, limit, ambient).published,
  }
}
