/**
 * The injectors’ circuit with other coils in it: volts at them held on, and what wires and fuses on the way then carry.
 * All held on at once is what full load comes to near the duty limit, and what a wire must stand.
 */
import { RATINGS } from '../../engineering/electrical/fuseGates.ts'
import type { Build, OperatingCase, Wire } from '../../model/build.ts'
import { deviceName, endpointOf, own, wireName } from '../make.ts'
import { allowance } from '../network/allowance.ts'
import { chain, type Solved, solveCase } from '../solveCases.ts'
import { CLASS_TEMPERATURE, conductorFacts, hottestZone, SIZES } from '../wireData.ts'

/** The thermal model may differ from safety tables by a fifth in current: the limit of `conductor-current`. */
const IN_HAND = 0.8
/** Share of a fuse’s rating that a steady load may take in a warm place. Common practice, no published source. */
const FUSE_SHARE = 0.75

/** Share of its rating that a fuse never opens at: 110 %, ISO 8820. */
const HELD = 1.1

interface WireThere {
  readonly id: string
  readonly current: number
  readonly material: Wire['material']
  readonly area: number
  readonly limit: number
  readonly ambient: number
}
const carriesAt = (area: number, { material, limit, ambient }: WireThere): number => {
  const facts = conductorFacts({ area: { value: area as never }, material })
  return facts === undefined ? 0 : (allowance(facts, limit, ambient).allowed ?? 0)
}
const carries = (wire: WireThere): number => carriesAt(wire.area, wire)
const sizeFor = (wire: WireThere, current: number): number | undefined =>
  SIZES.find(({ area }) => area >= wire.area && carriesAt(area, wire) >= current)?.area

export interface Carried {
  /** At the first injector’s supply, all held on, V. */
  readonly volts: number
  /** Nearest to its limit of the wires that carry injectors only; undefined where none can be judged. */
  readonly wire:
    | {
        readonly name: string
        readonly current: number
        readonly allowed: number
        /** m², smallest size that carries it with what is kept in hand; undefined where the wire will do, or none does. */
        readonly wanted: number | undefined
      }
    | undefined
  readonly fuse:
    | {
        readonly name: string
        readonly rating: number
        readonly current: number
        /** Smallest blade fuse that would keep the current; undefined: none does. */
        readonly wanted: number | undefined
        /** Wires that would not hold 110 % of that fuse, and the size, m², that would. */
        readonly behind: readonly string[]
        readonly behindSize: number | undefined
      }
    | undefined
  /** Wires that could not be judged, by name, for want of section, metal, insulation or heat of their place. */
  readonly unjudged: readonly string[]
}

/** Each injector’s first load drawn as `ohms`; the outputs that drive them held on in that case. */
const held = (build: Build, kase: OperatingCase, injectors: readonly string[], ohms: number) => {
  const devices = { ...build.collections.devices }
  for (const id of injectors) {
    const device = own(devices, id)
    const load = device?.loads?.[0]
    if (!device || !load) continue
    devices[id] = {
      ...device,
      loads: [
        { ...load, duty: 1, law: { type: 'resistance', resistance: { value: ohms } } },
        ...device.loads!.slice(1),
      ] as typeof device.loads,
    }
  }
  const outputs = { ...kase.outputs }
  for (const output of Object.values(build.collections.outputs))
    if (output.drives !== undefined && injectors.includes(output.drives)) outputs[output.id] = 1
  return { build: { ...build, collections: { ...build.collections, devices } }, kase: { ...kase, outputs } }
}

/** Undefined where the case, the injectors or their solved volts are wanting. `ohms`: what each circuit then has, coil and all. */
export const carried = (
  build: Build,
  full: Solved | undefined,
  injectors: readonly string[],
  ohms: number,
): Carried | undefined => {
  const first = own(build.collections.devices, injectors[0] ?? '')
  const load = first?.loads?.[0]
  if (!full || !first || !load) return undefined
  const trial = held(build, full.kase, injectors, ohms)
  const solved = solveCase(trial.build, trial.kase)
  const volts = solved.voltages[endpointOf(first.id, load.from)]
  if (!solved.solved || volts == null) return undefined
  const each = injectors.map((id) => Math.abs(solved.elements.get(solved.bound.loadElement(id, load.id)) ?? 0))
  const total = each.reduce((sum, current) => sum + current, 0)
  const steps = injectors.flatMap((id) =>
    (['up', 'down'] as const).flatMap((direction) =>
      chain(solved, solved.bound.nodeOf(endpointOf(id, direction === 'up' ? load.from : load.to)), direction),
    ),
  )
  // What carries more than the injectors feeds others as well: the electrical findings judge it.
  const theirs = [
    ...new Map(steps.filter(({ current }) => current < 1.05 * total).map((step) => [step.element, step])).values(),
  ]
  const unjudged: string[] = []
  const wires: WireThere[] = []
  let fuse: { readonly name: string; readonly rating: number; readonly current: number } | undefined
  for (const { element, current } of theirs) {
    const device = own(build.collections.devices, element)
    if (device?.spec.kind === 'fuse' && device.spec.rating) {
      const rating = device.spec.rating.value
      if (!fuse || current / rating > fuse.current / fuse.rating)
        fuse = { name: deviceName(build, device.id), rating, current }
    }
    if (!element.startsWith('wire:')) continue
    const id = element.slice('wire:'.length)
    const found = own(build.collections.wires, id)
    if (!found) continue
    const facts = conductorFacts(found)
    const place = hottestZone(build, found)
    if (!facts || !place || !found.insulation) unjudged.push(wireName(build, id))
    else
      wires.push({
        id,
        current,
        material: found.material,
        area: found.area?.value ?? 0,
        limit: CLASS_TEMPERATURE[found.insulation],
        ambient: place.ambient,
      })
  }
  const tightest = [...wires].sort((a, b) => b.current / carries(b) - a.current / carries(a))[0]
  const larger = fuse && RATINGS.blade.find((rating) => fuse.current <= FUSE_SHARE * rating)
  // Behind one fuse each wire must hold it without end, also the thin ones of a single injector.
  const behind = larger === undefined ? [] : wires.filter((wire) => carries(wire) < HELD * larger)
  return {
    volts,
    wire: tightest && {
      name: wireName(build, tightest.id),
      current: tightest.current,
      allowed: carries(tightest) * IN_HAND,
      wanted:
        tightest.current <= carries(tightest) * IN_HAND ? undefined : sizeFor(tightest, tightest.current / IN_HAND),
    },
    fuse: fuse && {
      ...fuse,
      wanted: larger,
      behind: behind.map(({ id }) => id).sort(),
      behindSize: behind.length === 0 ? undefined : sizeFor(behind[0]!, HELD * larger!),
    },
    unjudged,
  }
}
export const fuseIsShort = ({ fuse }: Carried): boolean => fuse !== undefined && fuse.current > FUSE_SHARE * fuse.rating
