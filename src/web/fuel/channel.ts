/** The channel: as wide at each station as the engine power it can feed. Pure geometry, in hundredths of the drawing. */

export interface Opening {
  /** Share of the half width, 0 … 1. */
  readonly half: number
  readonly kind: 'known' | 'beyond' | 'unknown' | 'none'
}
/** Power that stands for the full width: the target with room to see a surplus. */
const ROOM = 1.6

export const openingOf = (capacity: number | 'unknown' | 'none', target: number | undefined): Opening => {
  if (capacity === 'none') return { half: 1, kind: 'none' }
  if (capacity === 'unknown' || target === undefined) return { half: 1, kind: 'unknown' }
  const half = capacity / (ROOM * target)
  return half > 1 ? { half: 1, kind: 'beyond' } : { half, kind: 'known' }
}
export const TARGET_HALF = 1 / ROOM

const x = (half: number, side: -1 | 1): number => 50 + side * half * 48

/** One wall of the channel through a station, from the width of the one before. */
export const wall = (before: Opening, here: Opening, side: -1 | 1): string =>
  `M${x(before.half, side)} 0C${x(before.half, side)} 12 ${x(here.half, side)} 8 ${x(here.half, side)} 20V100`
export const inside = (before: Opening, here: Opening): string => {
  const [a, b, c, d] = [x(before.half, -1), x(here.half, -1), x(here.half, 1), x(before.half, 1)]
  return `M${a} 0C${a} 12 ${b} 8 ${b} 20V100H${c}V20C${c} 8 ${d} 12 ${d} 0Z`
}
