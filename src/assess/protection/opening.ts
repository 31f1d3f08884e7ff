/** Fuses that a case would open: what is solved there does not last, and no wire is to be made thicker for it. */
import { OPENS_FROM } from '../../engineering/electrical/fuseGates.ts'
import type { Context } from '../context.ts'
import type { Solved } from '../solveCases.ts'
import { fuseOf, ratingOf } from './facts.ts'
import { reachOf } from './reach.ts'

/** A wire that carries as much as an opening fuse does, within a tenth, is in line with it: its feed or its return. */
const IN_LINE = 0.9

/** A that a wire goes on carrying in the case once its fuses have opened; what it carries now where none opens. */
export const lastingCurrents = (context: Context, { elements }: Pick<Solved, 'elements'>) => {
  const opening = reachOf(context).flatMap(({ fuse: id, below }) => {
    const fuse = fuseOf(context.build, id)
    const rating = fuse && ratingOf(fuse)
    const current = Math.abs(elements.get(id) ?? 0)
    return rating !== undefined && current >= OPENS_FROM * rating ? [{ current, below }] : []
  })
  const dead = new Set(opening.flatMap(({ below }) => below.map(({ wire }) => wire)))
  const most = opening.reduce((all, { current }) => Math.max(all, current), 0)
  return (wire: string, current: number): number =>
    dead.has(wire) ? 0 : most > 0 && current >= IN_LINE * most ? Math.max(0, current - most) : current
}
