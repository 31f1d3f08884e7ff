/** Metal that is not meant to carry current and does, with every strap whole; each with the strap whose volts drive it. */
import type { Wire } from '../../model/build.ts'
import type { Context } from '../context.ts'
import { deviceIdOf, deviceZone, endpointOf, restrictedDevice, restrictedWire, wireName } from '../make.ts'
import type { Solved } from '../solveCases.ts'
import { between, type Metal, metalOf, strapsOf } from './strapsOf.ts'

/** A from which it is told. Common practice, no published source. */
export const STRAY = 1

export interface Stray {
  readonly subject: string
  readonly name: string
  readonly zone: string | undefined
  readonly current: number
  readonly solved: Solved
  readonly cause?: { readonly wire: Wire; readonly drop: number }
}

interface Piece {
  readonly element: string
  readonly subject: string
  readonly name: string
  readonly zone: string | undefined
  /** Endpoints that it joins. */
  readonly ends: readonly string[]
}

const pieces = ({ build, circuit }: Context): Piece[] => [
  ...Object.values(build.collections.devices)
    .filter(({ notForCurrent, id }) => notForCurrent && !restrictedDevice(build, id))
    .map(({ id, name, pins }) => ({
      element: id,
      subject: `devices/${id}`,
      name,
      zone: deviceZone(build, id),
      ends: Object.keys(pins).flatMap((pin) =>
        (circuit.wiresAt.get(endpointOf(id, pin)) ?? []).map((wire) => {
          const { from, to } = build.collections.wires[wire]!
          return from === endpointOf(id, pin) ? to : from
        }),
      ),
    })),
  ...Object.values(build.collections.wires)
    .filter(({ notForCurrent, id }) => notForCurrent && !restrictedWire(build, id))
    .map(({ id, from, to }) => ({
      element: `wire:${id}`,
      subject: `wires/${id}`,
      name: wireName(build, id),
      zone: deviceZone(build, deviceIdOf(to)),
      ends: [from, to],
    })),
]

export const strayCurrents = (context: Context): Stray[] => {
  const all = pieces(context)
  if (all.length === 0) return []
  const straps = strapsOf(context)
  return all.flatMap(({ element, subject, name, zone, ends }): Stray[] => {
    let worst: { current: number; solved: Solved } | undefined
    for (const solved of context.cases) {
      if (!solved.solved || solved.kase.supply || solved.kase.battery !== 'connected') continue
      const current = Math.abs(solved.elements.get(element) ?? 0)
      if (current > STRAY && current > (worst?.current ?? 0)) worst = { current, solved }
    }
    if (!worst) return []
    const { solved, current } = worst
    const joins = [
      ...new Set(ends.map((end) => metalOf(context, end)).filter((each): each is Metal => each !== undefined)),
    ]
    // Of the straps between what it joins, the one that loses most volts is the one whose current seeks another way.
    const cause = (joins.length === 2 ? between(straps, joins[0]!, joins[1]!) : [])
      .map(({ wire }) => {
        const [a, b] = [wire.from, wire.to].map((end) => solved.nodes.get(solved.bound.nodeOf(end)))
        return { wire, drop: a == null || b == null ? 0 : Math.abs(a - b) }
      })
      .sort((a, b) => b.drop - a.drop)[0]
    return [{ subject, name, zone, current, solved, ...(cause ? { cause } : {}) }]
  })
}
