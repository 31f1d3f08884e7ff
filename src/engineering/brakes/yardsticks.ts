/**
 * What the UN regulations ask of brakes, used as a yardstick: an older car is judged by the law of its own place and year.
 * R13-H (cars), annex 3 and 5 [from memory, checked for consistency: 0.1·v + 0.0060·v² is 6.43 m/s²]. R13 (vans, N1),
 * annex 4: secondary 0.15·v + 2·v²/115, 2.2 m/s², at most 70 daN by foot [read, Rev.4, page 71, as quoted at
 * markettransfer.info]; service 0.15·v + v²/130, 5.0 m/s² and annex 10 [from memory].
 */
import type { Source } from '../calculation.ts'

export interface Yardstick {
  readonly name: string
  readonly source: Source
  /** m/s², mean fully developed, cold, engine disconnected. */
  readonly service: number
  /** m/s², with one circuit or the servo failed. */
  readonly failed: number
  /** m/s, from which the service brake is tested. */
  readonly speed: number
  /** s, allowed until the brakes bite. */
  readonly delay: number
  /** N. */
  readonly force: number
  /** N; absent where none is set. */
  readonly leastForce?: number
  /** Full strokes with the engine stalled, after which the next must still give `failed`. */
  readonly strokes: number
  /** Braking rates between which the rear axle must not use more adhesion than the front. */
  readonly rearBelow: readonly [number, number]
  /** z ≥ 0.1 + share·(k − 0.2) for adhesion k between 0.2 and 0.8. */
  readonly share: number
  /** Gradient that the parking brake must hold, laden, with at most so many newtons of hand or foot. From memory. */
  readonly parking: { readonly gradient: number; readonly hand: number; readonly foot: number }
}

const KMH = 1 / 3.6

export const YARDSTICKS: Readonly<Record<'car' | 'van', Yardstick>> = {
  car: {
    name: 'UN R13-H',
    source: { title: 'UN Regulation 13-H, annexes 3, 4 and 5, category M1', how: 'memory' },
    service: 6.43,
    failed: 2.44,
    speed: 100 * KMH,
    delay: 0.36,
    force: 500,
    leastForce: 65,
    strokes: 4,
    rearBelow: [0.15, 0.8],
    share: 0.7,
    parking: { gradient: 0.2, hand: 400, foot: 500 },
  },
  van: {
    name: 'UN R13',
    source: { title: 'UN Regulation 13, annexes 4, 7 and 10, category N1', how: 'memory' },
    service: 5,
    failed: 2.2,
    speed: 80 * KMH,
    delay: 0.54,
    force: 700,
    strokes: 4,
    rearBelow: [0.15, 0.5],
    share: 0.85,
    parking: { gradient: 0.18, hand: 600, foot: 700 },
  },
}

/** Adhesion of a good dry road on which the regulations have their tests driven. R13-H, annex 3 [from memory]. */
export const DRY_ROAD = 0.8
