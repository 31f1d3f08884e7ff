/** The contacts of a switch or relay as poles: a common pin and its throws, each with its column in the symbol. */
import { relayPins } from '../../../assess/pins.ts'
import type { Device } from '../../../model/build.ts'

export type Side = 'top' | 'bottom'
export interface Throw {
  readonly pin: string
  readonly column: number
  /** Rests closed: a break contact. */
  readonly breaks: boolean
}
export interface Pole {
  readonly what: 'coil' | 'contact'
  /** Of a coil its upper pin, of a contact its common. */
  readonly common: string
  readonly commonSide: Side
  readonly commonColumn: number
  readonly throws: readonly Throw[]
  /** One of two throws is closed at any time. */
  readonly changesOver: boolean
  /** Every pin with its side and column. */
  readonly pins: readonly (readonly [pin: string, side: Side, column: number])[]
}
type IsHigher = (a: string, b: string) => boolean

const other = (side: Side): Side => (side === 'top' ? 'bottom' : 'top')

const contact = (
  common: string,
  throws: readonly { pin: string; breaks: boolean }[],
  first: number,
  changesOver: boolean,
  isHigher: IsHigher,
): Pole => {
  const commonSide: Side = isHigher(common, throws[0]!.pin) ? 'top' : 'bottom'
  const placed = throws.map((one, index) => ({ ...one, column: first + index }))
  const commonColumn = first + (throws.length - 1) / 2
  return {
    what: 'contact',
    common,
    commonSide,
    commonColumn,
    throws: placed,
    changesOver,
    pins: [
      [common, commonSide, commonColumn],
      ...placed.map(({ pin, column }) => [pin, other(commonSide), column] as const),
    ],
  }
}

/** Undefined where the contacts are no such poles: it is then drawn as a block. */
export const polesOf = (device: Device, isHigher: IsHigher): readonly Pole[] | undefined => {
  if (device.spec.kind === 'relay') {
    const { common, make, break: rest, coil } = relayPins(device)
    const throws = [
      ...(make === undefined ? [] : [{ pin: make, breaks: false }]),
      ...(rest === undefined ? [] : [{ pin: rest, breaks: true }]),
    ]
    const [a, b] = coil
    if (a === undefined || b === undefined || common === undefined || throws.length === 0) return undefined
    if (Object.keys(device.pins).length !== throws.length + 3) return undefined
    const [high, low] = isHigher(a, b) ? [a, b] : [b, a]
    const winding: Pole = {
      what: 'coil',
      common: high,
      commonSide: 'top',
      commonColumn: 0,
      throws: [],
      changesOver: false,
      pins: [
        [high, 'top', 0],
        [low, 'bottom', 0],
      ],
    }
    return [winding, contact(common, throws, 1, throws.length === 2, isHigher)]
  }
  if (device.spec.kind !== 'switch') return undefined
  const { positions, rest } = device.spec
  const pairs = new Map<string, readonly [string, string]>()
  for (const [a, b] of Object.values(positions).flat()) pairs.set([a, b].sort().join(' '), [a, b])
  const poles: Pole[] = []
  const left = new Set(pairs.values())
  let column = 0
  for (const [a, b] of pairs.values()) {
    if (![...left].some((pair) => pair[0] === a && pair[1] === b)) continue
    const mine = [...left].filter((pair) => [a, b].some((pin) => pair.includes(pin)))
    const common = [a, b].find((pin) => mine.every((pair) => pair.includes(pin)))
    if (common === undefined) return undefined
    for (const pair of mine) left.delete(pair)
    const closedIn = (position: string, pin: string): boolean =>
      (positions[position] ?? []).some((pair) => pair.includes(common) && pair.includes(pin))
    const throws = mine
      .map((pair) => (pair[0] === common ? pair[1] : pair[0]))
      .map((pin) => ({ pin, breaks: closedIn(rest, pin) }))
    const changesOver =
      throws.length === 2 &&
      Object.keys(positions).every((position) => throws.filter(({ pin }) => closedIn(position, pin)).length === 1)
    poles.push(contact(common, throws, column, changesOver, isHigher))
    column += throws.length
  }
  const used = poles.flatMap((pole) => pole.pins.map(([pin]) => pin))
  if (new Set(used).size !== used.length || used.length !== Object.keys(device.pins).length) return undefined
  return poles.length === 0 ? undefined : poles
}
