/** A remark as likelihoods of the faults: asked of the model where it can answer, else by the list of remarks. */
import { withTies } from '../../engineering/electrical/faults/effects.ts'
import type { Hypothesis } from '../../engineering/electrical/faults/hypothesis.ts'
import { prepare } from '../../engineering/electrical/network/network.ts'
import { refuse } from '../../units/problem.ts'
import { deviceIdOf, own } from '../make.ts'
import { nominalVolts } from './nominal.ts'
import { type Asked, REMARKS, type Remark } from './remarks.ts'
import { fusesOf, type ReadySearch } from './start.ts'
import type { RemarkEvidence } from './types.ts'

/** Of its healthy volts, below which a load counts as not working, and from which as working as it should. */
const WORKS = 0.85
const WEAK = 0.3
/** V across a fuse from which it is blown. */
const BLOWN = 1

/** What the whole car does under each fault, solved once, when a remark first asks: healthy first. */
const wholeCar = new WeakMap<ReadySearch, { rows: Float64Array[]; place: Map<string, number> }>()
const rowsOf = (ready: ReadySearch): { rows: Float64Array[]; place: Map<string, number> } => {
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
  const rows = nominalVolts(
    prepared,
    [{ effects: [] }, ...hypotheses],
    nodes,
    fusesOf(ready.build, network.elements),
    problem.fuseBlowsAt,
  )
  const made = { rows, place: new Map(nodes.map((node, k) => [node, k])) }
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

/** Whether the answer is yes, by fault, healthy first; undefined: the model cannot say. */
const answers = (ready: ReadySearch, device: string, asks: Asked): boolean[] | undefined => {
  const { rows, place } = rowsOf(ready)
  const spec = own(ready.build.collections.devices, device)?.spec
  const element = elementsOf(ready, device, asks)
    .flatMap((id) => ready.car.elements.get(id) ?? [])
    .sort((p, q) => Math.abs(across(rows[0]!, place, q)) - Math.abs(across(rows[0]!, place, p)))[0]
  if (!element) return undefined
  const healthy = Math.abs(across(rows[0]!, place, element))
  if ((asks === 'works' || asks === 'weak' || asks === 'does not work') && healthy < 1) return undefined
  const pullIn = spec?.kind === 'relay' || spec?.kind === 'starter' ? spec.pullIn?.value : undefined
  return rows.map((row, h) => {
    const opened = ready.search.hypotheses[h - 1]?.effects.some(
      (effect) => effect.kind === 'open' && effect.element === element.id,
    )
    const volts = Math.abs(across(row, place, element))
    switch (asks) {
      case 'works':
        return !opened && volts > WORKS * healthy
      case 'does not work':
        return opened === true || volts < WEAK * healthy
      case 'weak':
        return !opened && volts < 0.97 * healthy && volts > 0.1 * healthy
      case 'pulls in':
        return !opened && volts >= (pullIn ?? 0.5 * healthy)
      case 'does not pull in':
        return opened === true || volts < (pullIn ?? 0.5 * healthy)
      case 'blown':
        return opened === true || volts > BLOWN
      default:
        return !opened && volts < BLOWN
    }
  })
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
    return hypotheses.map((hypothesis, h) => {
      const fits = yes[h + 1] ? right : 1 - right
      // One that comes and goes may have been there or not.
      return hypothesis.intermittent ? (fits + (yes[0] ? right : 1 - right)) / 2 : fits
    })
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

export interface Look {
  readonly remark: string
  readonly otherwise: string
  readonly about: string
  /** Per fault: whether it works. */
  readonly yes: readonly boolean[]
}

/** Loads of the car that some of the faults take with them and others do not: worth a look before any probe. */
export const looksOf = (ready: ReadySearch): Look[] =>
  Object.values(ready.build.collections.devices).flatMap((device): Look[] => {
    if (device.restricted || device.id === ready.start.complaint.device) return []
    // Only what a person sees or hears.
    if (!['lamp', 'motor', 'heater', 'pump'].includes(device.spec.kind) || !device.loads?.length) return []
    const yes = answers(ready, device.id, 'works')
    if (!yes?.[0]) return []
    const rest = yes.slice(1)
    if (rest.every((each) => each === rest[0])) return []
    return [{ remark: 'works', otherwise: 'dead-too', about: device.id, yes: rest }]
  })
