/** The driveline as a chain of stations from the crankshaft to the road, in one gear and load; and what the car weighs where. */
import type { Build } from '../../model/build.ts'
import { type Chain, isKnown, type Station } from '../chain/chain.ts'
import { type DrivelineFacts, drivelineFactsOf, hasPropshaft, LOADS, type LoadName } from './facts.ts'
import { type BothGearings, gearingsOf } from './gearing.ts'
import { roadStations } from './roadStations.ts'
import { type Shaft, shaftOf } from './shaft.ts'
import { driveStations } from './stations.ts'
import { gripOf, type Part, type Torques, torquesOf } from './torques.ts'
import { type Weights, weightsOf } from './weights.ts'

export interface DrivelineCase {
  /** Place in the gears, first 0. */
  readonly gear: number
  readonly load: LoadName
}

export interface DrivelineChain extends Chain {
  readonly id: 'driveline'
  readonly facts: DrivelineFacts
  readonly case: DrivelineCase
  /** Of the chosen case. */
  readonly torques: Torques
  /** In first gear, of both loads the one whose tyres pass more: what decides the verdicts. */
  readonly worst: Torques
  readonly shaft: Shaft
  readonly gearing: BothGearings
  readonly weights: Weights
  /** Parts that the car has, in the order of the torque. */
  readonly parts: readonly Part[]
  /** The part that gives out first in the chosen case, of those whose limit is known. */
  readonly weakest: Part | undefined
}

/** Of both loads the one whose tyres pass more; laden where neither is known. */
const worstLoad = (facts: DrivelineFacts): LoadName => {
  const grips = LOADS.map((load) => ({ load, grip: gripOf(facts, load).torque }))
  const knownOnes = grips.flatMap(({ load, grip }) => (isKnown(grip) ? [{ load, value: grip.value }] : []))
  return knownOnes.sort((a, b) => b.value - a.value)[0]?.load ?? 'laden'
}

export const drivelineChain = (build: Build, wanted?: DrivelineCase): DrivelineChain => {
  const facts = drivelineFactsOf(build)
  const { now } = facts
  const most = worstLoad(facts)
  const load = wanted?.load ?? most
  const gear = Math.max(0, Math.min(wanted?.gear ?? 0, now.ratios.length - 1))
  const worst = torquesOf(facts, 0, most)
  const torques = gear === 0 && load === most ? worst : torquesOf(facts, gear, load)
  const shaft = shaftOf(facts)
  const gearing = gearingsOf(facts)
  const weights = weightsOf(facts)
  const propshaft = hasPropshaft(facts)
  const parts: readonly Part[] = propshaft
    ? ['clutch', 'gearbox', 'mounts', 'shaft', 'joints', 'axle']
    : ['clutch', 'gearbox', 'mounts', 'axle']
  const weakest = parts
    .flatMap((part) => {
      const capacity = torques.capacities[part]
      return isKnown(capacity) ? [{ part, value: capacity.value }] : []
    })
    .sort((a, b) => a.value - b.value)[0]?.part
  const shown = { facts, torques, shaft, gearing, weights, gear, load, propshaft }
  const stations = [...driveStations(shown), ...roadStations(shown)]
  const withCapacity = stations.map((station): Station => {
    if (station.id === 'tyres') return { ...station, capacity: torques.gripAsEngine }
    return (parts as readonly string[]).includes(station.id)
      ? { ...station, capacity: torques.capacities[station.id as Part] }
      : station
  })
  return {
    id: 'driveline',
    title: 'Driveline',
    stations: withCapacity,
    facts,
    case: { gear, load },
    torques,
    worst,
    shaft,
    gearing,
    weights,
    parts,
    weakest,
  }
}
