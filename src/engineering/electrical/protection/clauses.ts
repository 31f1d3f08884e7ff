/** What the judgement of one fuse over one conductor is made of: a clause a law, each passed, failed, doubtful or unknown. */
import type { FuseType } from '../fuseGates.ts'
import type { HeatedWire } from './transient.ts'

export const CLAUSES = ['hold', 'gate', 'curve', 'stall', 'clearing', 'breaking', 'service', 'inrush'] as const
export type ClauseId = (typeof CLAUSES)[number]

export interface Clause {
  readonly id: ClauseId
  /** `doubtful`: fails as computed, holds with a fifth less current, which is the heat balance's own ±. */
  readonly verdict: 'passed' | 'failed' | 'doubtful' | 'unknown'
  /** A in the clause. */
  readonly current?: number
  /** A: what it is held against. */
  readonly allowed?: number
  /** Of the fuse's rating. */
  readonly multiple?: number
  /** s until the slowest good fuse has opened; for `inrush` the quickest. */
  readonly time?: number
  /** K that the conductor reaches; Infinity when molten. */
  readonly temperature?: number
  /** K that it may reach. */
  readonly limit?: number
  /** One line, figures in it. */
  readonly says: string
  /** The datum that an unknown clause lacks. */
  readonly missing?: string
}

export interface JudgedFuse {
  readonly type: FuseType
  /** A, above 0. */
  readonly rating: number
  /** K round the fuse. */
  readonly ambient?: number | undefined
  /** A, from the maker's sheet; that of the type's standard otherwise. */
  readonly breakingCapacity?: number | undefined
}
export interface JudgedWire extends HeatedWire {
  /** K of the hottest zone on its way. */
  readonly ambient: number
  /** K of the conductor in service, before the fault; `ambient` when it carries nothing. */
  readonly start: number
  /** K of its insulation class, for good. */
  readonly limit: number
  /** K of its insulation class for hours. */
  readonly shortTermLimit: number
  /** Share of its free-air current that the wires beside it leave it for good, 0 … 1; alone where not given. */
  readonly share?: number
  /** A that a published table allows it alone in that air and class; no table where not given. */
  readonly published?: number | undefined
}
export interface Stall {
  readonly name: string
  /** A through the fuse, and in this conductor, while the motor is held. */
  readonly throughFuse: number
  readonly inWire: number
}
export interface Pulse {
  readonly name: string
  /** A at the first moment, and s in which it falls to 1/e. */
  readonly peak: number
  readonly decay: number
}
export interface Short {
  readonly throughFuse: number
  readonly inWire: number
}

export const amperes = (value: number): string => `${Number(value.toPrecision(3))} A`
export const degrees = (kelvin: number): string =>
  Number.isFinite(kelvin) ? `${(kelvin - 273.15).toFixed(0)} °C` : 'melting heat'
export const percentOf = (multiple: number): string => `${(multiple * 100).toFixed(0)} %`
export const seconds = (time: number): string =>
  time >= 100
    ? `${Number((time / 60).toPrecision(2))} min`
    : time >= 0.1
      ? `${Number(time.toPrecision(2))} s`
      : `${Number((time * 1e3).toPrecision(2))} ms`
