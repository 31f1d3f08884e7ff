/** Fuses that a case would open: what is solved there does not last, and no wire is to be made thicker for it. */
import { OPENS_FROM } from '../../engineering/electrical/fuseGates.ts'
import type { Context } from '../context.ts'
import type { Solved } from '../solveCases.ts'
import { fuseOf, ratingOf } from './facts.ts'
import { type Protected, reachOf } from './reach.ts'

/** A wire that carries as much as an opening fuse does, within a tenth, is in line with it: its feed or its return. */
const IN_LINE = 0.9

interface Opening {
  readonly fuse: string
  readonly current: number
  /** Current over rating, 1.35 or more. */
  readonly multiple: number
  readonly below: readonly Protected[]
}
const openingFuses = (context: Context, { elements }: Pick<Solved, 'elements'>): Opening[] =>
  reachOf(context).flatMap(({ fuse: id, below }) => {
    const fuse = fuseOf(context.build, id)
    const rating = fuse && ratingOf(fuse)
    const current = Math.abs(elements.get(id) ?? 0)
    return rating !== undefined && current >= OPENS_FROM * rating
      ? [{ fuse: id, current, multiple: current / rating, below }]
      : []
  })

/** Of rating: the last gate, within a second of every type; so much is a short, and no load that somebody chose a fuse for. */
export const SHORTED = 6
export const shortedFuses = (context: Context, solved: Pick<Solved, 'elements'>): Opening[] =>
  openingFuses(context, solved).filter(({ multiple }) => multiple >= SHORTED)

/** The fuse that opens before this one on the same current, behind it or above; undefined where it is the first. */
export const opensFirst = (context: Context, solved: Pick<Solved, 'elements'>, fuse: string): string | undefined => {
  const all = openingFuses(context, solved)
  const own = all.find((each) => each.fuse === fuse)
  return own && all.find(({ multiple, current }) => multiple > own.multiple && current >= IN_LINE * own.current)?.fuse
}

/** A that a wire goes on carrying in the case once a short has opened its fuses; what it carries now where there is none. */
export const lastingCurrents = (context: Context, solved: Pick<Solved, 'elements'>) => {
  const opening = shortedFuses(context, solved)
  const dead = new Set(opening.flatMap(({ below }) => below.map(({ wire }) => wire)))
  const most = opening.reduce((all, { current }) => Math.max(all, current), 0)
  return (wire: string, current: number): number =>
    dead.has(wire) ? 0 : most > 0 && current >= IN_LINE * most ? Math.max(0, current - most) : current
}
