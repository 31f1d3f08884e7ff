/** The clauses that the circuit round fuse and conductor decides: a held motor, a bolted short at the far end. */
import { OPENS_FROM } from '../fuseGates.ts'
import {
  amperes,
  type Clause,
  degrees,
  type JudgedFuse,
  type JudgedWire,
  percentOf,
  type Short,
  type Stall,
  seconds,
} from './clauses.ts'
import { whenOpened } from './overTime.ts'
import { MODEL_SHARE } from './wireClauses.ts'

const heat = ({ type, rating }: JudgedFuse, wire: JudgedWire, { throughFuse, inWire }: Short) => {
  const found = whenOpened(wire, type, rating, throughFuse, inWire)
  // What no fuse ends lasts longer than the hours of the short-term limit: within the class it holds, up to that limit it
  // is for the builder to see in time.
  const forGood = found.time === undefined
  if (forGood && found.temperature > wire.limit && found.temperature <= wire.shortTermLimit)
    return { ...found, verdict: 'doubtful' } as const
  const passed = found.temperature <= wire.shortTermLimit
  const doubtful =
    !passed && whenOpened(wire, type, rating, throughFuse, inWire * MODEL_SHARE).temperature <= wire.shortTermLimit
  return { ...found, verdict: passed ? 'passed' : doubtful ? 'doubtful' : 'failed' } as const
}

export const stallClause = (fuse: JudgedFuse, wire: JudgedWire, stall: Stall): Clause => {
  const { multiple, time, temperature, verdict } = heat(fuse, wire, stall)
  return {
    id: 'stall',
    verdict,
    current: stall.inWire,
    multiple,
    ...(time === undefined ? {} : { time }),
    temperature,
    limit: time === undefined ? wire.limit : wire.shortTermLimit,
    says: `${stall.name} held fast: ${amperes(stall.throughFuse)} in the fuse, ${percentOf(multiple)}; ${
      time === undefined
        ? `below 135 % no standard makes it open: the motor is not protected, the conductor at ${amperes(stall.inWire)} settles at ${degrees(temperature)}`
        : `open after ${seconds(time)} at the latest, the conductor then at ${degrees(temperature)}`
    }, allowed ${degrees(time === undefined ? wire.limit : wire.shortTermLimit)}${time === undefined ? ' for good' : ''}.`,
  }
}

export const clearingClause = (fuse: JudgedFuse, wire: JudgedWire, short: Short): Clause => {
  const { multiple, time, temperature, verdict } = heat(fuse, wire, short)
  return {
    id: 'clearing',
    verdict: multiple < OPENS_FROM ? 'failed' : verdict,
    current: short.throughFuse,
    multiple,
    ...(time === undefined ? {} : { time }),
    temperature,
    limit: wire.shortTermLimit,
    says: `Bolted short at the far end, tired battery and hot copper: ${amperes(short.throughFuse)} in the fuse, ${percentOf(multiple)}: ${
      time === undefined
        ? `not cleared, the conductor settles at ${degrees(temperature)}`
        : `cleared in ${seconds(time)} at the latest, the conductor then at ${degrees(temperature)}, allowed ${degrees(wire.shortTermLimit)}`
    }.`,
  }
}
