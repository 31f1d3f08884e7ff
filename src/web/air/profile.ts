/** Temperature and pressure along the way of the air, as points of a curve. */
import type { AirChain } from '../../assess/air/chain.ts'
import { type Datum, isKnown } from '../../assess/chain/chain.ts'

export interface Point {
  readonly station: string
  readonly datum: Datum
}
export const temperaturesOf = ({ stations, facts, intake, charge, manifold }: AirChain): readonly Point[] => {
  const at: Readonly<Record<string, Datum>> = {
    outside: facts.outsideTemperature,
    intake: intake.temperature,
    filter: intake.temperature,
    compressor: charge.hot,
    cooler: charge.out,
    'charge-pipe': manifold.temperature,
    engine: manifold.temperature,
  }
  return stations.flatMap(({ id, line }) => (line === 'air' && at[id] ? [{ station: id, datum: at[id] }] : []))
}
export const pressuresOf = ({ stations, intake, manifold }: AirChain): readonly Point[] => {
  const boosted = stations.find(({ id }) => id === 'compressor')?.figures.find(({ id }) => id === 'compressor-pressure')
  const at: Readonly<Record<string, Datum | undefined>> = {
    outside: intake.outsidePressure,
    intake: intake.outsidePressure,
    filter: intake.pressure,
    compressor: boosted?.datum,
    'charge-pipe': manifold.pressure,
    engine: manifold.pressure,
  }
  return stations.flatMap(({ id, line }) => {
    const datum = at[id]
    return line === 'air' && datum ? [{ station: id, datum }] : []
  })
}

/** Least and greatest of what is known, for one scale of stored, tried and logged; undefined where nothing is. */
export const rangeOf = (
  curves: readonly (readonly Point[])[],
  logged: readonly number[] = [],
): readonly [number, number] | undefined => {
  const values = [...curves.flat().flatMap(({ datum }) => (isKnown(datum) ? [datum.value] : [])), ...logged]
  if (values.length === 0) return undefined
  const [low, high] = [Math.min(...values), Math.max(...values)]
  return high - low < 1e-9 * high ? [low - 1, high + 1] : [low, high]
}
