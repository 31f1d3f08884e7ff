/**
 * How much the wires of each run warm one another in a case: the share of its free-air current that each may carry.
 * Counted are the wires that carry more than 30 % of what they may in the bundle; the rest give off too little heat
 * (IEC 60364-5-52, clause 523.5 [from memory]). Loading is their current over what they may carry together.
 */
import { bundleShare } from '../../engineering/electrical/bundleFactor.ts'
import type { Build } from '../../model/build.ts'
import { CLASS_TEMPERATURE } from '../wireData.ts'
import type { BoundWire } from './bound.ts'
import { capacity } from './capacity.ts'
import { placesOf } from './places.ts'

const COUNTS = 0.3
/** A. A wire of unknown section counts as fully loaded from here on: below it no rule judges a wire. */
const UNKNOWN_COUNTS = 1
/** As far as `bundle-factor` goes. */
const MOST = 60
const LEAST_LOADING = 0.2

export interface Bundle {
  readonly run: string
  /** Wires counted. */
  readonly wires: readonly string[]
  /** Of the wires counted; 1 also where they carry more than they may. */
  readonly loading: number
  /** Share of the free-air current; undefined: more wires than the figure knows. */
  readonly factor: number | undefined
  /** Counted as fully loaded, for their cross-section or material is not entered. */
  readonly unknown: readonly string[]
}

interface Member {
  readonly wire: string
  /** A alone in free air at its class's limit; undefined: not known. */
  readonly free: number | undefined
}

/** The wires in each run, with what each carries alone. */
export const bundleMembers = (build: Build, wires: readonly BoundWire[]): Map<string, Member[]> => {
  const members = new Map<string, Member[]>()
  const put = (run: string, member: Member): void => {
    const here = members.get(run)
    if (here) here.push(member)
    else members.set(run, [member])
  }
  const known = new Map(wires.map((bound) => [bound.wire.id, bound]))
  for (const wire of Object.values(build.collections.wires)) {
    const bound = known.get(wire.id)
    for (const { run, ambient } of placesOf(build, wire)) {
      if (run === undefined) continue
      // Without its class the lowest is taken: it carries least, so it counts soonest.
      const limit = CLASS_TEMPERATURE[wire.insulation ?? 'A']
      put(run, { wire: wire.id, free: bound && (capacity(bound.facts, limit, ambient ?? bound.ambient) ?? 0) })
    }
  }
  return members
}

export const bundleOf = (run: string, members: readonly Member[], current: (wire: string) => number): Bundle => {
  const unknown = members
    .filter(({ wire, free }) => free === undefined && current(wire) >= UNKNOWN_COUNTS)
    .map(({ wire }) => wire)
  const carriers = members.flatMap(({ wire, free }) => {
    const amperes = current(wire)
    if (free !== undefined) return amperes > 0 ? [{ wire, amperes, free }] : []
    return amperes >= UNKNOWN_COUNTS ? [{ wire, amperes, free: amperes }] : []
  })
  let factor: number | undefined = 1
  let loading = 1
  let counted: typeof carriers = []
  // Grows only, so it ends: a lower factor lets more wires count, and none that counted is dropped again.
  for (;;) {
    const least: number = COUNTS * factor
    const more: typeof carriers = carriers.filter(
      (carrier) => counted.includes(carrier) || carrier.amperes > least * carrier.free,
    )
    if (more.length === counted.length) break
    counted = more
    if (counted.length > MOST) {
      factor = undefined
      break
    }
    const total = counted.reduce((sum, { amperes }) => sum + amperes, 0)
    const free = counted.reduce((sum, each) => sum + each.free, 0)
    loading = loadingOf(counted.length, total, free)
    factor = bundleShare(counted.length, loading)
  }
  return { run, wires: counted.map(({ wire }) => wire), loading, factor, unknown }
}

/** Where loading × what the bundle may carry at that loading is the current: the figure's factor hangs on its own answer. */
const loadingOf = (wires: number, total: number, free: number): number => {
  const spare = (loading: number): number => loading * bundleShare(wires, loading) * free - total
  if (spare(1) <= 0) return 1
  let [low, high] = [LEAST_LOADING, 1]
  for (let step = 0; step < 30; step += 1) {
    const middle = (low + high) / 2
    if (spare(middle) < 0) low = middle
    else high = middle
  }
  return high
}
