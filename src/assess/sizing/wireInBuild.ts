/** The smallest conductor that a wire of the build could be, for what it carries, where it lies and what protects it. */

import type { JudgedFuse, Stall } from '../../engineering/electrical/protection/judgeProtection.ts'
import { type ConductorChoice, chooseConductor } from '../../engineering/electrical/sizing/chooseConductor.ts'
import { chooseFuse, type FuseChoice } from '../../engineering/electrical/sizing/chooseFuse.ts'
import type { Build, Wire } from '../../model/build.ts'
import { type Problem, Refusal, refuse } from '../../units/problem.ts'
import { type Context, contextOf } from '../context.ts'
import { deviceIdOf, list, own, restrictedWire } from '../make.ts'
import { type FuseDevice, fuseOf, judgedFuse, lastingCases, ratingOf } from '../protection/facts.ts'
import { feedsRestricted, reachOf } from '../protection/reach.ts'
import { heldMotors } from '../protection/stalls.ts'
import { CLASS_TEMPERATURE, hottestZone, wireLength, zonesOfUnknownHeat } from '../wireData.ts'
import { COPPER_SIZES } from './candidates.ts'
import { loadCurrent } from './loadCurrent.ts'

export interface SizedWire {
  readonly wire: Wire
  /** A, and the case or the load that asks for it. */
  readonly current: number
  readonly because: string
  readonly length: number
  readonly ambient: number
  readonly zone: string
  readonly bundleShare: number
  readonly fuse?: FuseAbove | undefined
  readonly choice: ConductorChoice
}

/** The fuse above a wire, with the smallest that would carry all that passes it. */
export interface FuseAbove {
  readonly device: string
  readonly name: string
  /** A, for which the wire is sized: as fitted, or as wished. */
  readonly rating: number
  readonly fitted: number
  /** A through it, of everything behind it. */
  readonly load: number
  /** Absent: how hot it gets where the fuse stands is not entered, or an airbag or anti-lock circuit hangs on it. */
  readonly smallest?: FuseChoice
}
export interface SizeWish {
  /** V that may be lost over the wire; not asked when left out. */
  readonly dropLimit?: number | undefined
  /** A, in place of what the build says that it carries. */
  readonly current?: number | undefined
  /** A, in place of the rating of the fuse above it. */
  readonly rating?: number | undefined
}

/** V at which a load’s own draw is reckoned where no case feeds it. Common practice, no published source. */
const CHARGE_VOLTS = 14.4

const sized = (context: Context, wire: Wire, { dropLimit, current: wished, rating }: SizeWish): SizedWire => {
  const { build } = context
  if (restrictedWire(build, wire.id))
    throw refuse(
      'restricted',
      `${wire.id} belongs to an airbag or anti-lock circuit, which is never sized here.`,
      'Leave it to a specialist.',
      `wires/${wire.id}`,
    )
  const cases = lastingCases(context)
  let current = 0
  let because = ''
  for (const { currents, kase } of cases) {
    const amperes = Math.abs(currents[wire.id] ?? 0)
    if (amperes > current) [current, because] = [amperes, `solved in “${kase.name}”`]
  }
  for (const end of [wire.from, wire.to]) {
    const device = own(build.collections.devices, deviceIdOf(end))
    for (const load of device?.loads ?? []) {
      if (!load.law || ![load.from, load.to].some((pin) => end === `${device!.id}.${pin}`)) continue
      const amperes = loadCurrent(load.law, CHARGE_VOLTS)
      if (amperes > current) [current, because] = [amperes, `${device!.name} itself at ${CHARGE_VOLTS} V`]
    }
  }
  const modelled = current
  if (wished !== undefined) [current, because] = [wished, 'as you say']
  const place = hottestZone(build, wire)
  const length = wireLength(build, wire)
  const cold = zonesOfUnknownHeat(build, wire)
  // Of several fuses that can feed it, the largest lets the most through.
  const fuse = reachOf(context)
    .filter(({ below }) => below.some((each) => each.wire === wire.id))
    .flatMap(({ fuse: id }) => fuseOf(build, id) ?? [])
    .reduce<FuseDevice | undefined>(
      (most, each) => (most && (ratingOf(most) ?? 0) >= (ratingOf(each) ?? 0) ? most : each),
      undefined,
    )
  const judged = fuse === undefined ? undefined : judgedFuse(build, fuse)
  const factors = cases.flatMap(({ bundles }) =>
    (wire.path ?? []).map((run) => {
      const bundle = bundles.get(run)
      return bundle?.wires.some((other) => other !== wire.id) ? bundle.factor : 1
    }),
  )
  const gaps = [
    ...(factors.includes(undefined)
      ? [`division of a bundle on its way, which holds more wires than any figure knows`]
      : []),
    ...(current > 0 ? [] : [`a case in which ${wire.id} carries current, or what its load draws`]),
    ...(length === undefined ? [`length of ${wire.id}, or a path whose runs have lengths`] : []),
    ...(wire.insulation ? [] : [`insulation class of ${wire.id}`]),
    ...(cold.length > 0 || !place
      ? [`ambient temperature of ${cold.length > 0 ? list(cold) : `a zone that ${wire.id} passes`}`]
      : []),
    ...(judged?.gaps ?? []),
  ]
  if (gaps.length > 0 || length === undefined || !wire.insulation || !place)
    throw new Refusal(
      gaps.map(
        (gap): Problem => ({
          code: 'missing-data',
          path: `wires/${wire.id}`,
          says: `${wire.id} cannot be sized without the ${gap}.`,
          todo: `Enter the ${gap}.`,
        }),
      ),
    )
  const share = Math.min(1, ...factors.map((factor) => factor ?? 0))
  return {
    wire,
    current,
    because,
    length,
    ambient: place.ambient,
    zone: place.name,
    bundleShare: share,
    fuse: fuse && judged?.fuse && aboveIt(context, fuse, judged.fuse, rating, current - modelled),
    choice: chooseConductor(
      {
        current,
        length,
        joints: 0,
        dropLimit,
        ambient: place.ambient,
        limit: CLASS_TEMPERATURE[wire.insulation],
        bundleShare: share,
        fuse: judged?.fuse && { ...judged.fuse, rating: rating ?? judged.fuse.rating },
        stalls: fuse && stallsIn(context, fuse.id, wire.id),
      },
      COPPER_SIZES,
    ),
  }
}

/** Motors behind the fuse, each held fast: what check judges, sizing satisfies. */
const stallsIn = (context: Context, fuse: string, wire: string): Stall[] =>
  heldMotors(context).flatMap(({ name, currents }) => {
    const [throughFuse, inWire] = [currents.get(fuse), currents.get(`wire:${wire}`)]
    return throughFuse === undefined || inWire === undefined ? [] : [{ name, throughFuse, inWire }]
  })

/** `more`: A by which its load differs from what the build says. */
const aboveIt = (
  context: Context,
  { id, name }: FuseDevice,
  { type, rating: fitted, ambient }: JudgedFuse,
  rating: number | undefined,
  more: number,
): FuseAbove => {
  const carried = lastingCases(context).map(({ elements }) => Math.abs(elements.get(id) ?? 0))
  const load = Math.max(0, Math.max(0, ...carried) + more)
  return {
    device: id,
    name,
    rating: rating ?? fitted,
    fitted,
    load,
    // One that an airbag or anti-lock circuit hangs on as well is never sized.
    ...(ambient === undefined || feedsRestricted(context, id)
      ? {}
      : { smallest: chooseFuse({ type, current: load, ambient }) }),
  }
}

/** Refuses an unknown or restricted wire, and one of which a datum is missing, naming it. */
export const sizeWire = (build: Build, id: string, wish: SizeWish = {}): SizedWire => {
  const wire = own(build.collections.wires, id)
  if (!wire)
    throw refuse('no-wire', `There is no wire ${id}.`, 'Name a wire of the build, such as W-104.', `wires/${id}`)
  return sized(contextOf(build), wire, wish)
}

/** Every wire that ends at the device and carries its load. */
export const sizeWiresOf = (build: Build, id: string, wish: SizeWish = {}): readonly SizedWire[] => {
  const device = own(build.collections.devices, id)
  if (!device) throw refuse('no-device', `There is no device ${id}.`, 'Name a device of the build.', `devices/${id}`)
  const pins = new Set((device.loads ?? []).flatMap(({ from, to }) => [`${id}.${from}`, `${id}.${to}`]))
  const wires = Object.values(build.collections.wires).filter(({ from, to }) => pins.has(from) || pins.has(to))
  if (wires.length === 0)
    throw refuse(
      'no-wire',
      `${device.name} has no load with a wire on it.`,
      'Enter what it draws, between which pins, and its wires.',
      `devices/${id}`,
    )
  const context = contextOf(build)
  return wires.map((wire) => sized(context, wire, wish))
}
