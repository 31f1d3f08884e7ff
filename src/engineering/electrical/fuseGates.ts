/**
 * Time–current gates of vehicle fuses: at each multiple of rating, the shortest and longest time to open.
 * ISO 8820-3 types C (ATO), F (mini) and E (MAXI) from memory, in agreement with the makers' sheets that were read;
 * ISO 8820-5 bolt-down fuses from memory and weak, since makers differ there.
 */
import type { Source } from '../calculation.ts'

export const iso8820: Source = { title: 'ISO 8820-3, types C, F and E; ISO 8820-5, bolt-down', how: 'memory' }
export const atofSheet: Source = {
  title: 'Littelfuse 287 ATOF data sheet (rev. 18 Aug 2022)',
  where: 'transcription in an open hardware repository',
  how: 'read',
}
export const maxiSheet: Source = {
  title: 'Littelfuse 299 MAXI data sheet (rev. 6 Jan 2025)',
  where: 'transcription in an open hardware repository',
  how: 'read',
}

export interface Gate {
  /** Of rated current. */
  readonly multiple: number
  /** Seconds; absent where the standard sets none. */
  readonly shortest?: number
  readonly longest?: number
}
const HOUR = 3600

export const FUSE_TYPES = ['blade', 'maxi', 'bolt-down'] as const
export type FuseType = (typeof FUSE_TYPES)[number]

export const GATES: Readonly<Record<FuseType, readonly Gate[]>> = {
  // Types C and F, 3 A and up. 600 %: the slowest figure remembered.
  blade: [
    { multiple: 1.1, shortest: 100 * HOUR },
    { multiple: 1.35, shortest: 0.75, longest: 600 },
    { multiple: 1.6, shortest: 0.25, longest: 50 },
    { multiple: 2, shortest: 0.15, longest: 5 },
    { multiple: 3.5, shortest: 0.04, longest: 0.5 },
    { multiple: 6, longest: 0.15 },
  ],
  // Type E. 200 %: the standard is remembered as 60 s, the sheet read says 50 s; the slower stands.
  maxi: [
    { multiple: 1.1, shortest: 100 * HOUR },
    { multiple: 1.35, shortest: 60, longest: 1800 },
    { multiple: 2, shortest: 2, longest: 60 },
    { multiple: 3.5, shortest: 0.2, longest: 7 },
    { multiple: 6, shortest: 0.04, longest: 1 },
  ],
  // ISO 8820-5 holds at 100 %, not 110 %.
  'bolt-down': [
    { multiple: 1, shortest: 4 * HOUR },
    { multiple: 1.35, shortest: 120, longest: 1800 },
    { multiple: 2, shortest: 1, longest: 15 },
    { multiple: 3.5, shortest: 0.3, longest: 5 },
    { multiple: 6, shortest: 0.1, longest: 1 },
  ],
}

/** The multiple that the fuse must carry without end: its wire must stand that current for good. */
export const holdMultiple = (type: FuseType): number => GATES[type][0]!.multiple

/**
 * Longest time, s, that a good fuse may take at a multiple of its rating: log–log between gates, the last gate beyond
 * them. Nothing below 135 %, where no standard makes it open.
 */
export function slowestTime(type: FuseType, multiple: number): number | undefined {
  const gates = GATES[type].filter((gate): gate is Gate & { longest: number } => gate.longest !== undefined)
  if (multiple < gates[0]!.multiple) return undefined
  const next = gates.findIndex((gate) => gate.multiple >= multiple)
  if (next === -1) return gates.at(-1)!.longest
  if (next === 0) return gates[0]!.longest
  const [low, high] = [gates[next - 1]!, gates[next]!]
  const share = Math.log(multiple / low.multiple) / Math.log(high.multiple / low.multiple)
  return low.longest * (high.longest / low.longest) ** share
}
