/**
 * Time–current gates of vehicle fuses: at each multiple of rating, the shortest and longest time to open.
 * ISO 8820-3 types C (ATO), F (mini) and E (MAXI) from memory, in agreement with the makers' sheets that were read;
 * ISO 8820-5 bolt-down fuses from memory and weak, since makers differ there: looked for twice in makers' sheets and catalogues,
 * and not found in any text that could be read.
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

/** Of rating: below it no standard makes a fuse open. */
export const OPENS_FROM = 1.35

/** Log–log between the gates that state this side. */
const between = (points: readonly (readonly [multiple: number, time: number])[], multiple: number): number => {
  const next = points.findIndex(([at]) => at >= multiple)
  if (next === 0) return points[0]![1]
  const [[m0, t0], [m1, t1]] = [points[next - 1]!, points[next]!]
  return t0 * (t1 / t0) ** (Math.log(multiple / m0) / Math.log(m1 / m0))
}
const sideOf = (type: FuseType, side: 'shortest' | 'longest') =>
  GATES[type].flatMap(({ multiple, [side]: time }) => (time === undefined ? [] : [[multiple, time] as const]))

/**
 * Longest time, s, that a good fuse may take at a multiple of its rating: log–log between gates. Beyond the last gate its
 * Joule integral: less and less heat escapes from a link that melts faster, so I²t never rises again with current.
 * Nothing below 135 %, where no standard makes it open.
 */
export function slowestTime(type: FuseType, multiple: number): number | undefined {
  const points = sideOf(type, 'longest')
  if (multiple < OPENS_FROM) return undefined
  const [last, longest] = points.at(-1)!
  return multiple > last ? longest * (last / multiple) ** 2 : between(points, multiple)
}

/**
 * Shortest time, s, in which a good fuse may open. Nothing below 135 %. Between the endless hold and 135 % lies nothing
 * that a standard states. Beyond the last gate its Joule integral: the least that a pulse must stay below.
 */
export function fastestTime(type: FuseType, multiple: number): number | undefined {
  if (multiple < OPENS_FROM) return undefined
  const points = sideOf(type, 'shortest').filter(([at]) => at >= OPENS_FROM)
  const [last, shortest] = points.at(-1)!
  return multiple > last ? shortest * (last / multiple) ** 2 : between(points, multiple)
}

/** A²·s per A² of rating that the quickest good fuse needs to open on a short pulse. */
export const fastestJoule = (type: FuseType): number => {
  const [multiple, time] = sideOf(type, 'shortest').at(-1)!
  return multiple ** 2 * time
}
/** A²·s per A² of rating that the slowest good fuse lets through at any current beyond the last gate. */
export const slowestJoule = (type: FuseType): number => {
  const [multiple, time] = sideOf(type, 'longest').at(-1)!
  return multiple ** 2 * time
}

/** A. Ratings in the trade, ISO 8820-3 and makers' lists [from memory]; smallest first. */
export const RATINGS: Readonly<Record<FuseType, readonly number[]>> = {
  blade: [3, 4, 5, 7.5, 10, 15, 20, 25, 30, 40],
  maxi: [20, 25, 30, 35, 40, 50, 60, 70, 80, 100],
  'bolt-down': [30, 40, 50, 60, 70, 80, 100, 125, 150, 175, 200, 225, 250, 300, 400, 500],
}

/** A at 32 V that a fuse of the type is sure to break, where its maker's sheet is not entered. */
export const BREAKING: Readonly<Record<FuseType, { readonly current: number; readonly source: Source }>> = {
  blade: {
    current: 1000,
    source: { title: 'ISO 8820-3:2015, scope: 32 V, breaking capacity 1 000 A', where: 'catalogue page', how: 'read' },
  },
  maxi: {
    current: 1000,
    source: { title: 'ISO 8820-3:2015, scope: 32 V, breaking capacity 1 000 A', where: 'catalogue page', how: 'read' },
  },
  'bolt-down': {
    current: 2000,
    source: { title: 'makers’ sheets of bolt-down fuses, 2 000 A at 32 V', how: 'memory' },
  },
}
