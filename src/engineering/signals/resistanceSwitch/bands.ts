/** Bands on the voltage axis, the thresholds between them and the table for the controller. */
import type { Interval } from '../interval.ts'
import { type Envelope, envelopeOf, type InputCircuit } from './circuit.ts'
import { type Level, type LevelKind, levelsOf, pairsOf, type Surroundings, type Switch } from './levels.ts'

export interface Band {
  readonly name: string
  readonly kind: LevelKind
  /** V on the axis: share of full scale × middle of the reference. */
  readonly voltage: Interval
  /** Converter codes, both ends included. */
  readonly codes: { readonly low: number; readonly high: number }
}

export interface Threshold {
  readonly below: string
  readonly above: string
  /** V, in the middle of the gap. */
  readonly voltage: number
  /** First code that belongs to the state above. */
  readonly code: number
  /** V from the top of the band below to the foot of the band above; negative when they overlap. */
  readonly gap: number
}

export interface PairReading {
  readonly names: readonly [string, string]
  readonly voltage: Interval
  /** What the thresholds make of it, over its whole band. */
  readonly readsAs: readonly string[]
  /** States whose own band it overlaps. */
  readonly collidesWith: readonly string[]
}

export interface SwitchReading {
  /** Rising. */
  readonly bands: readonly Band[]
  readonly thresholds: readonly Threshold[]
  /** The narrowest gap. Negative: two states cannot be told apart in the worst case. */
  readonly smallest: Threshold
  readonly pairs: readonly PairReading[]
}

/** Band of one resistance interval, as shares of full scale. */
export const shareOf = (envelope: Envelope, { low, high }: Interval): Interval => ({
  low: envelope.lowest(low),
  high: envelope.highest(high),
})

const toVoltage = (envelope: Envelope, share: Interval): Interval => ({
  low: share.low * envelope.fullScale,
  high: share.high * envelope.fullScale,
})

const codesOf = ({ steps }: Envelope, { low, high }: Interval): Band['codes'] => {
  const within = (code: number): number => Math.min(steps - 1, Math.max(0, code))
  // Undoes the half step of the mid-step reading: floor(x·2^N − INL) and floor(x·2^N + INL).
  return { low: within(Math.floor(low * steps + 0.5)), high: within(Math.floor(high * steps - 0.5)) }
}

/** Bands, thresholds and gaps of any list of states. */
export function readLevels(circuit: InputCircuit, levels: readonly Level[]): Omit<SwitchReading, 'pairs'> {
  const envelope = envelopeOf(circuit)
  const ranked = levels
    .map((level) => ({ level, share: shareOf(envelope, level.resistance) }))
    .sort((a, b) => a.share.low + a.share.high - (b.share.low + b.share.high))
  const bands = ranked.map(
    ({ level, share }): Band => ({
      name: level.name,
      kind: level.kind,
      voltage: toVoltage(envelope, share),
      codes: codesOf(envelope, share),
    }),
  )
  const thresholds = bands.slice(1).map((above, i): Threshold => {
    const below = bands[i]!
    return {
      below: below.name,
      above: above.name,
      voltage: (below.voltage.high + above.voltage.low) / 2,
      code: Math.ceil((below.codes.high + above.codes.low + 1) / 2),
      gap: above.voltage.low - below.voltage.high,
    }
  })
  const smallest = thresholds.reduce((least, each) => (each.gap < least.gap ? each : least))
  return { bands, thresholds, smallest }
}

/** The whole answer for a switch that exists or was designed. Throws `Refusal` as `envelopeOf` and `levelsOf` do. */
export function readSwitch(circuit: InputCircuit, made: Switch, around: Surroundings): SwitchReading {
  const read = readLevels(circuit, levelsOf(made, around))
  const envelope = envelopeOf(circuit)
  const pairs = pairsOf(made, around).map(({ names, resistance }): PairReading => {
    const voltage = toVoltage(envelope, shareOf(envelope, resistance))
    const first = read.thresholds.filter((each) => each.voltage <= voltage.low).length
    const last = read.thresholds.filter((each) => each.voltage < voltage.high).length
    return {
      names,
      voltage,
      readsAs: read.bands.slice(first, last + 1).map(({ name }) => name),
      collidesWith: read.bands
        .filter((band) => band.voltage.low <= voltage.high && band.voltage.high >= voltage.low)
        .map(({ name }) => name),
    }
  })
  return { ...read, pairs }
}

export interface ControllerRow {
  readonly state: string
  readonly kind: LevelKind
  /** V: from and with `from`, up to `below`. The first row begins at 0, the last ends at full scale. */
  readonly from: number
  readonly below: number
  readonly fromCode: number
  readonly toCode: number
}

/** One row a state, without a hole between rows: what is typed into the controller. */
export function controllerRows(
  circuit: InputCircuit,
  { bands, thresholds }: Pick<SwitchReading, 'bands' | 'thresholds'>,
): ControllerRow[] {
  const { fullScale, steps } = envelopeOf(circuit)
  return bands.map((band, i) => ({
    state: band.name,
    kind: band.kind,
    from: i === 0 ? 0 : thresholds[i - 1]!.voltage,
    below: i === bands.length - 1 ? fullScale : thresholds[i]!.voltage,
    fromCode: i === 0 ? 0 : thresholds[i - 1]!.code,
    toCode: (i === bands.length - 1 ? steps : thresholds[i]!.code) - 1,
  }))
}
