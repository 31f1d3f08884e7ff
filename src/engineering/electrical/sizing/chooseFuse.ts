/**
 * The smallest standard fuse that carries a load for good where it sits, and outlasts the load's inrush.
 *   current    continuous current of the load    A, above 0
 *   ambient    air round the fuse                K, 230 … 398
 *   inrush     peak current and how long it lasts  A, s
 * Rules: load ≤ 75 % of rating at 25 °C (a maker's guide, read), times the maker's re-rating for a hot place; an inrush
 * is shorter than the shortest time in which a good fuse of that family may open.
 * Errors: an answer without `rating` says why no fuse of the family will do; nothing is clamped.
 */
import { type FuseType, GATES } from '../fuseGates.ts'
import { ambientShare, CONTINUOUS } from '../protection/fuseDerating.ts'
import { STANDARD_FUSES } from './standardFuses.ts'

/**
 * Shortest time, s, in which a good fuse may open at a multiple of its rating: log–log between gates; beyond the last
 * gate that has one, the same I²t (heat has no time to leave). Undefined where the standard lets it never open.
 */
export const shortestTime = (type: FuseType, multiple: number): number | undefined => {
  const gates = GATES[type].filter(
    (gate): gate is typeof gate & { shortest: number } => gate.shortest !== undefined && gate.longest !== undefined,
  )
  if (multiple < gates[0]!.multiple) return undefined
  const next = gates.findIndex((gate) => gate.multiple >= multiple)
  const last = gates.at(-1)!
  if (next === -1) return last.shortest * (last.multiple / multiple) ** 2
  if (next === 0) return gates[0]!.shortest
  const [low, high] = [gates[next - 1]!, gates[next]!]
  const share = Math.log(multiple / low.multiple) / Math.log(high.multiple / low.multiple)
  return low.shortest * (high.shortest / low.shortest) ** share
}

export interface FuseWish {
  readonly type: FuseType
  readonly current: number
  readonly ambient: number
  readonly inrush?: { readonly current: number; readonly time: number } | undefined
}
/** One rejected candidate: what it was, and why in a sentence. */
export interface Rejected {
  readonly what: string
  readonly because: string
}
export interface FuseChoice {
  readonly rating?: number
  /** Continuous current that it carries where it sits. */
  readonly carries?: number
  readonly rejected: readonly Rejected[]
}

const amps = (value: number): string => `${Number(value.toPrecision(3))} A`

/** Why a fuse of that rating will not do; undefined when it will. */
export const fuseFails = (rating: number, { type, current, ambient, inrush }: FuseWish): string | undefined => {
  const keeps = ambientShare(ambient)
  if (keeps === undefined)
    return `no figure says what a fuse carries in air of ${(ambient - 273.15).toFixed(0)} °C; put it in a cooler place`
  const carries = rating * CONTINUOUS * keeps
  if (carries < current)
    return `carries ${amps(carries)} for good in air of ${(ambient - 273.15).toFixed(0)} °C, less than the load of ${amps(current)}`
  if (inrush === undefined) return undefined
  const opens = shortestTime(type, inrush.current / rating)
  if (opens !== undefined && opens <= inrush.time)
    return `may open in ${opens.toPrecision(2)} s at the inrush of ${amps(inrush.current)}, which lasts ${inrush.time} s`
  return undefined
}

export const chooseFuse = (wish: FuseWish): FuseChoice => {
  const rejected: Rejected[] = []
  for (const rating of STANDARD_FUSES[wish.type]) {
    const because = fuseFails(rating, wish)
    if (because === undefined)
      return { rating, carries: rating * CONTINUOUS * (ambientShare(wish.ambient) ?? 0), rejected }
    rejected.push({ what: `${amps(rating)} ${wish.type}`, because })
  }
  return { rejected }
}
