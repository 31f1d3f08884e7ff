/**
 * Fuse and conductor for one load: first the smallest fuse that carries it, then the smallest conductor behind that fuse.
 * A larger fuse never allows a smaller conductor, so nothing smaller is missed. Inputs as in chooseFuse.ts and
 * chooseConductor.ts; `rating` given: that fuse is kept and only judged.
 */
import type { FuseType } from '../fuseGates.ts'
import { type Candidate, type ConductorChoice, type ConductorTask, chooseConductor } from './chooseConductor.ts'
import { chooseFuse, type FuseChoice, type FuseWish, fuseFails } from './chooseFuse.ts'

export interface CircuitTask extends Omit<ConductorTask, 'fuse'> {
  /** Families to choose from, the one preferred first. */
  readonly families: readonly FuseType[]
  /** K round the fuse. */
  readonly fuseAmbient: number
  readonly inrush?: FuseWish['inrush']
  /** A, of the first family: keep this fuse. */
  readonly rating?: number | undefined
}
export interface CircuitChoice {
  readonly family?: FuseType
  readonly fuse: FuseChoice
  readonly conductor: ConductorChoice
}

export const sizeCircuit = (task: CircuitTask, candidates: readonly Candidate[]): CircuitChoice => {
  const rejected: FuseChoice['rejected'][number][] = []
  for (const family of task.families) {
    const wish: FuseWish = { type: family, current: task.current, ambient: task.fuseAmbient, inrush: task.inrush }
    const choice = task.rating === undefined ? chooseFuse(wish) : kept(task.rating, wish)
    rejected.push(...choice.rejected)
    if (choice.rating === undefined) continue
    return {
      family,
      fuse: { ...choice, rejected },
      conductor: chooseConductor({ ...task, fuse: { type: family, rating: choice.rating } }, candidates),
    }
  }
  return { fuse: { rejected }, conductor: { rejected: [] } }
}

const kept = (rating: number, wish: FuseWish): FuseChoice => {
  const because = fuseFails(rating, wish)
  return because === undefined
    ? { rating, rejected: [] }
    : { rejected: [{ what: `${rating} A ${wish.type}`, because }] }
}
