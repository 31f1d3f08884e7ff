/** What this build has to offer as the answer to a question of a pattern, and the answer that stands to reason. */
import { deviceIdOf, endpointOf, own, restrictedDevice } from '../../../assess/make.ts'
import type { Question } from '../../../assess/patterns/index.ts'
import type { Build, Device } from '../../../model/build.ts'
import { naturalOrder } from '../../../model/naturalOrder.ts'

export interface Choice {
  readonly value: string
  readonly name: string
}
export interface Choices {
  readonly group: string
  readonly choices: readonly Choice[]
}

const byName = (a: Choice, b: Choice): number => naturalOrder(a.name, b.name)
const allowed = (build: Build): readonly Device[] =>
  Object.values(build.collections.devices).filter(({ id }) => !restrictedDevice(build, id))

const pinName = (device: Device, pin: string): string => {
  const name = device.pins[pin]?.name
  return `${device.name}, ${pin}${name === undefined ? '' : ` (${name})`}`
}

/** Rails first: a feed nearly always comes from one. */
const terminals = (build: Build): readonly Choices[] => {
  const devices = allowed(build)
  const whole = (kinds: readonly string[]): Choice[] =>
    devices
      .filter(({ spec }) => kinds.includes(spec.kind))
      .map(({ id, name }) => ({ value: id, name }))
      .sort(byName)
  const pins = (wanted: (device: Device) => boolean): Choice[] =>
    devices
      .filter(wanted)
      .flatMap((device) =>
        Object.keys(device.pins).map((pin) => ({ value: endpointOf(device.id, pin), name: pinName(device, pin) })),
      )
      .sort(byName)
  const whose = (kinds: readonly string[]) => pins(({ spec }) => kinds.includes(spec.kind))
  const before = ['splice', 'battery', 'earth-stud', 'fuse', 'switch', 'relay', 'controller']
  return [
    { group: 'Rails and splices', choices: whole(['splice']) },
    { group: 'Battery', choices: whole(['battery']) },
    { group: 'Fuses', choices: whose(['fuse']) },
    { group: 'Switches and relays', choices: whose(['switch', 'relay']) },
    { group: 'Controller', choices: whose(['controller']) },
    { group: 'Earth studs', choices: whole(['earth-stud']) },
    { group: 'Other pins', choices: pins(({ spec }) => !before.includes(spec.kind)) },
  ].filter(({ choices }) => choices.length > 0)
}

const branchPoints = (build: Build): readonly Choices[] => {
  const zones = new Map<string, Choice[]>()
  for (const { id, name, zone } of Object.values(build.collections.branchPoints)) {
    const group = (zone === undefined ? undefined : own(build.collections.zones, zone)?.name) ?? 'No zone entered'
    const there = zones.get(group) ?? []
    there.push({ value: id, name: name ?? id })
    zones.set(group, there)
  }
  return [...zones].map(([group, choices]) => ({ group, choices: choices.sort(byName) }))
}

/** Pins of the controller that no wire reaches. */
const freePins = (build: Build, controller: string | undefined): readonly Choices[] => {
  const device = controller === undefined ? undefined : own(build.collections.devices, controller)
  if (!device) return []
  const taken = new Set(
    Object.values(build.collections.wires)
      .flatMap(({ from, to }) => [from, to])
      .filter((end) => deviceIdOf(end) === device.id)
      .map((end) => end.slice(device.id.length + 1)),
  )
  const choices = Object.entries(device.pins)
    .filter(([pin]) => !taken.has(pin))
    .map(([pin, { name }]) => ({ value: pin, name: name === undefined ? pin : `${pin} (${name})` }))
    .sort(byName)
  return choices.length === 0 ? [] : [{ group: `Free pins of ${device.name}`, choices }]
}

export const choicesFor = (
  build: Build,
  { asks }: Question,
  answers: Readonly<Record<string, string>>,
): readonly Choices[] => {
  switch (asks.type) {
    case 'device': {
      const choices = allowed(build)
        .filter(({ spec }) => asks.of.includes(spec.kind))
        .map(({ id, name }) => ({ value: id, name }))
        .sort(byName)
      return choices.length === 0 ? [] : [{ group: 'In this car', choices }]
    }
    case 'terminal':
      return terminals(build)
    case 'branch point':
    case 'branch points':
      return branchPoints(build)
    case 'controller pins':
      return freePins(build, answers[asks.controller])
    case 'choice':
      return [{ group: 'One of', choices: asks.options.map((option) => ({ value: option, name: option })) }]
    case 'count':
      return [
        {
          group: 'How many',
          choices: Array.from({ length: asks.most - asks.least + 1 }, (_, at) => {
            const count = String(asks.least + at)
            return { value: count, name: count }
          }),
        },
      ]
    default:
      return []
  }
}

/** How many things a question takes: least and most. */
export const takes = ({ asks }: Question): readonly [least: number, most: number] =>
  asks.type === 'branch points' || asks.type === 'controller pins' ? [asks.least, asks.most] : [1, 1]

/** The only device there is, or the rail that the question itself names; else nothing: a guess would be taken for an answer. */
export const reasonable = (build: Build, question: Question): string => {
  if (question.optional) return ''
  const all = choicesFor(build, question, {}).flatMap(({ choices }) => choices)
  if (question.asks.type === 'device' && all.length === 1) return all[0]!.value
  if (question.asks.type !== 'terminal') return ''
  const named = /such as ([\w-]+)/.exec(question.hint)?.[1]
  return all.some(({ value }) => value === named) ? named! : ''
}
