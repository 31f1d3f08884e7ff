/** A remark as likelihoods of the faults: asked of the model where it can answer, else by the list of remarks. */
import { withTies } from '../../engineering/electrical/faults/effects.ts'
import type { Hypothesis } from '../../engineering/electrical/faults/hypothesis.ts'
import { spreadFault } from '../../engineering/electrical/faults/predict.ts'
import { prepare } from '../../engineering/electrical/network/network.ts'
import type { Device } from '../../model/build.ts'
import { refuse } from '../../units/problem.ts'
import { deviceIdOf, own } from '../make.ts'
import { nominalVolts } from './nominal.ts'
import { type Asked, REMARKS, type Remark } from './remarks.ts'
import { fusesOf, type ReadySearch } from './start.ts'
import type { RemarkEvidence } from './types.ts'

/**
 * Shares of its healthy volts between which people come to say that a load works as it should, or does not work at all.
 * Common practice, no published source.
 */
const WORKS = [0.8, 0.9] as const
const STOPS = [0.35, 0.25] as const
/** A relay surely pulls in at its stated volts, and hardly below this share of them. */
const PULLS_IN = 0.85
/** Of the range of ohms that a fault may have, on a log scale: the middles of its thirds. */
const THIRDS = [-2 / 3, 2 / 3] as const
/** V across a fuse from which it is blown. */
const BLOWN = 1

interface WholeCar {
  readonly healthy: Float64Array
  /** By fault: the car at the middle of its range of ohms, and where it has one at the other thirds. */
  readonly rows: readonly (readonly Float64Array[])[]
  readonly place: ReadonlyMap<string, number>
}

/** What the whole car does under each fault, solved once, when a remark first asks. */
const wholeCar = new WeakMap<ReadySearch, WholeCar>()
const rowsOf = (ready: ReadySearch): WholeCar => {
  const known = wholeCar.get(ready)
  if (known) return known
  const { network } = ready.car
  const { hypotheses, problem } = ready.search
  const nodes = [
    ...new Set(
      network.elements.flatMap((element) =>
        ready.solved.bound.loads.has(element.id) ||
        /#(coil|solenoid|motor)$/.test(element.id) ||
        own(ready.build.collections.devices, element.id)?.spec.kind === 'fuse'
          ? [element.a, element.b]
          : [],
      ),
    ),
  ]
  const prepared = prepare(
    withTies(
      network,
      hypotheses.flatMap(({ effects }) => effects),
    ),
  )
  const thirds = hypotheses.flatMap(({ effects }, h) =>
    effects.some((effect) => 'within' in effect)
      ? THIRDS.map((shift) => ({ h, effects: effects.map((effect) => spreadFault(effect, shift)) }))
      : [],
  )
  const [healthy, ...solved] = nominalVolts(
    prepared,
    [{ effects: [] }, ...hypotheses, ...thirds],
    nodes,
    fusesOf(ready.build, network.elements),
    problem.fuseBlowsAt,
  )
  const rows = hypotheses.map((_, h) => [solved[h]!])
  thirds.forEach(({ h }, k) => {
    rows[h]!.push(solved[hypotheses.length + k]!)
  })
  const made = { healthy: healthy!, rows, place: new Map(nodes.map((node, k) => [node, k])) }
  wholeCar.set(ready, made)
  return made
}

const remarkOf = (key: string): Remark => {
  const remark = REMARKS.find((each) => each.key === key)
  if (!remark)
    throw refuse(
      'unknown-remark',
      `“${key}” is no remark of the list.`,
      `Use one of: ${REMARKS.map((r) => r.key).join(', ')}.`,
    )
  return remark
}

/** Elements that the question is about, by device. */
const elementsOf = (ready: ReadySearch, device: string, asks: Asked): string[] => {
  if (asks === 'blown' || asks === 'whole') return [device]
  if (asks === 'pulls in' || asks === 'does not pull in') return [`${device}#coil`, `${device}#solenoid`]
  const loads = own(ready.build.collections.devices, device)?.loads ?? []
  return [...loads.map(({ id }) => `${device}#${id}`), `${device}#motor`]
}

/** 0 at `from`, 1 at `to`, straight between. */
const ramp = (x: number, [from, to]: readonly [number, number]): number =>
  Math.min(1, Math.max(0, (x - from) / (to - from)))

interface Chances {
  readonly healthy: number
  readonly faults: readonly number[]
}

/** How likely the answer is to be yes, 0 … 1; undefined: the model cannot say. */
const answers = (ready: ReadySearch, device: string, asks: Asked): Chances | undefined => {
  const car = rowsOf(ready)
  const { place } = car
  const spec = own(ready.build.collections.devices, device)?.spec
  const element = elementsOf(ready, device, asks)
    .flatMap((id) => ready.car.elements.get(id) ?? [])
    .sort((p, q) => Math.abs(across(car.healthy, place, q)) - Math.abs(across(car.healthy, place, p)))[0]
  if (!element) return undefined
  const sound = Math.abs(across(car.healthy, place, element))
  if ((asks === 'works' || asks === 'weak' || asks === 'does not work') && sound < 1) return undefined
  const pullIn = (spec?.kind === 'relay' || spec?.kind === 'starter' ? spec.pullIn?.value : undefined) ?? 0.5 * sound
  const chance = (row: Float64Array, fault: Hypothesis | undefined): number => {
    const opened = fault?.effects.some((effect) => effect.kind === 'open' && effect.element === element.id) === true
    const volts = Math.abs(across(row, place, element))
    const share = volts / sound
    const pulls = opened ? 0 : ramp(volts, [PULLS_IN * pullIn, pullIn])
    switch (asks) {
      case 'works':
        return opened ? 0 : ramp(share, WORKS)
      case 'does not work':
        return opened ? 1 : ramp(share, STOPS)
      case 'weak':
        return !opened && share < 0.97 && share > 0.1 ? 1 : 0
      case 'pulls in':
        return pulls
      case 'does not pull in':
        return 1 - pulls
      case 'blown':
        return opened || volts > BLOWN ? 1 : 0
      default:
        return !opened && volts < BLOWN ? 1 : 0
    }
  }
  return {
    healthy: chance(car.healthy, undefined),
    faults: car.rows.map((rows, h) => {
      const fault = ready.search.hypotheses[h]!
      return rows.reduce((sum, row) => sum + chance(row, fault), 0) / rows.length
    }),
  }
}
const across = (row: Float64Array, place: ReadonlyMap<string, number>, { a, b }: { a: string; b: string }): number =>
  (row[place.get(a) ?? -1] || 0) - (row[place.get(b) ?? -1] || 0)

/** Probability of the remark under each fault, up to a factor. Throws `Refusal` on a remark that makes no sense here. */
export const remarkLikelihoods = (ready: ReadySearch, { remark: key, about }: RemarkEvidence): number[] => {
  const remark = remarkOf(key)
  const { devices, wires } = ready.build.collections
  if (remark.about && about === undefined)
    throw refuse('remark-about', `“${remark.says}” needs to say what it is about.`, 'Name the device or wire.')
  if (about !== undefined && remark.about && !own(devices, about) && !own(wires, about))
    throw refuse('unknown-device', `There is no device or wire ${about}.`, 'Name one of the build.')
  if (about !== undefined && own(devices, about)?.restricted)
    throw refuse('restricted', `${about} is never part of a fault search.`, 'Leave it to somebody qualified for it.')
  const { hypotheses } = ready.search
  if (remark.asks && about !== undefined) {
    const yes = answers(ready, about, remark.asks)
    if (!yes)
      throw refuse(
        'remark-cannot',
        `What ${own(devices, about)?.name ?? about} does in “${ready.solved.kase.name}” is not known to the model.`,
        'Enter what it draws, or leave this remark out.',
      )
    const right = remark.right ?? 0.9
    const said = (chance: number): number => right * chance + (1 - right) * (1 - chance)
    // One that comes and goes may have been there or not.
    return hypotheses.map(({ intermittent }, h) =>
      intermittent ? (said(yes.faults[h]!) + said(yes.healthy)) / 2 : said(yes.faults[h]!),
    )
  }
  return hypotheses.map((hypothesis) => practice(ready, remark, hypothesis, about))
}

const practice = (ready: ReadySearch, remark: Remark, hypothesis: Hypothesis, about: string | undefined): number => {
  const part = ready.parts.get(hypothesis.part)
  let ratio = (part && remark.ratios?.[part.kind]) ?? 1
  if (hypothesis.intermittent) ratio *= remark.comesAndGoes ?? 1
  if (about === undefined || !part) return ratio
  const wire = own(ready.build.collections.wires, about)
  const isItself = part.kind === 'wire' ? part.wires.includes(about) : part.devices.includes(about)
  const touches = wire
    ? part.wires.includes(about) ||
      part.devices.some((id) => [wire.from, wire.to].some((end) => deviceIdOf(end) === id))
    : part.devices.includes(about) ||
      part.wires.some((id) => {
        const each = own(ready.build.collections.wires, id)
        return each !== undefined && [each.from, each.to].some((end) => deviceIdOf(end) === about)
      })
  if (part.kind === 'wire' && isItself) return ratio * (remark.itself ?? 1)
  return touches ? ratio * (remark.near ?? 1) : ratio
}

/** Something to look at or listen to before any probe. */
export interface Look {
  readonly about: string
  readonly asks: 'works' | 'clicks' | 'whole'
  /** The remarks that answer it, and how likely each is under each fault. */
  readonly answers: readonly { readonly remark: string; readonly chances: readonly number[] }[]
}

const ANSWERS: Readonly<Record<Look['asks'], readonly string[]>> = {
  works: ['works', 'weak-too', 'dead-too'],
  clicks: ['relay-clicks', 'relay-silent'],
  whole: ['fuse-whole', 'fuse-blown'],
}
/** Of what a person sees or hears without a tool. */
const LOOKED_AT: Partial<Record<Device['spec']['kind'], Look['asks']>> = {
  lamp: 'works',
  motor: 'works',
  heater: 'works',
  pump: 'works',
  relay: 'clicks',
  fuse: 'whole',
}
/** Difference between the chances of two faults below which a look does not tell them apart. */
const SAME = 0.1

const looksMade = new WeakMap<ReadySearch, readonly Look[]>()

/** Loads, relays and fuses of the car that some of the faults take with them and others do not. */
export const looksOf = (ready: ReadySearch): readonly Look[] => {
  const known = looksMade.get(ready)
  if (known) return known
  // Turned both ways by the controller, a motor holds still where it should be: nobody sees that it works.
  const turned = new Set(
    Object.values(ready.build.collections.outputs).flatMap(({ driver, drives }) =>
      driver === 'half bridge' && drives !== undefined ? [drives] : [],
    ),
  )
  const made = Object.values(ready.build.collections.devices).flatMap(({ id, spec, restricted }): Look[] => {
    const asks = LOOKED_AT[spec.kind]
    if (!asks || restricted || turned.has(id) || id === ready.start.complaint.device) return []
    const sound = answers(ready, id, remarkOf(ANSWERS[asks][0]!).asks!)
    // What does nothing in the healthy car either tells nothing by that.
    if (!sound || sound.healthy < 1 || Math.max(...sound.faults) - Math.min(...sound.faults) < SAME) return []
    const rows = ANSWERS[asks].map((remark) => remarkLikelihoods(ready, { kind: 'remark', remark, about: id }))
    const sums = rows[0]!.map((_, h) => rows.reduce((sum, row) => sum + row[h]!, 0))
    return [
      {
        about: id,
        asks,
        answers: ANSWERS[asks].map((remark, k) => ({ remark, chances: rows[k]!.map((each, h) => each / sums[h]!) })),
      },
    ]
  })
  looksMade.set(ready, made)
  return made
}
