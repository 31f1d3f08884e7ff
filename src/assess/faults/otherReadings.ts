/**
 * Readings that were not foreseen as tests, as likelihoods of the faults: volts between any two points, with a meter
 * that loads them; amperes in a wire; ohms on the dead circuit, the meter's own source put into it. Each fault is put
 * into the model as it stands; how far the real car lies off it is a stated share.
 */
import { withTies } from '../../engineering/electrical/faults/effects.ts'
import type { Hypothesis } from '../../engineering/electrical/faults/hypothesis.ts'
import { type Network, type NetworkElement, prepare } from '../../engineering/electrical/network/network.ts'
import { deviceIdOf } from '../make.ts'
import { atRest } from './atRest.ts'
import { wireElement } from './carNetwork.ts'
import { nominalVolts } from './nominal.ts'
import type { ReadySearch } from './start.ts'
import type { ReadingEvidence } from './types.ts'
import { pointEndpoint } from './words.ts'

/** Shares by which the real car lies off the model, and what a meter adds. Common practice, no published source. */
const MODEL = 0.05
const METER_VOLTS = 0.03
const CLAMP_AMPS = 0.1
const OHM_SHARE = 0.15
/** Ω of leads and probe contacts that a zeroed meter still has. */
const LEADS = 0.3
/** A reading is a slip once in so many. */
const SLIP = 0.01
/** Ω from which a meter shows no continuity. */
export const NO_CONTINUITY = 1e6
/** Ω, of a voltmeter whose loading is not worth a second look here. */
const HARDLY_LOADS = 1e6
/** V and Ω of the source that a meter measures ohms with (from memory): too little to turn a diode on. */
const METER_EMF = 0.3
const METER_OHM = 1000

const bell = (value: number, mean: number, sigma: number): number => Math.exp(-0.5 * ((value - mean) / sigma) ** 2)
/** Against the best that could be read: 1 where the fault foretells just this. */
const weigh = (value: number, mean: number, sigma: number): number => (1 - SLIP) * bell(value, mean, sigma) + SLIP

export const foreseenVolts = (
  ready: ReadySearch,
  hypotheses: readonly Pick<Hypothesis, 'effects'>[],
  at: string,
  against: string | undefined,
  inputResistance?: number,
): number[] => {
  const { network } = ready.search.problem
  const [a, b] = [ready.car.nodeOf(at)!, against === undefined ? network.reference : ready.car.nodeOf(against)!]
  const loaded: NetworkElement[] =
    inputResistance !== undefined && inputResistance < HARDLY_LOADS && a !== b
      ? [{ type: 'resistor', id: 'meter:', a, b, ohm: inputResistance }]
      : []
  const prepared = prepare(
    withTies(
      { ...network, elements: [...network.elements, ...loaded] },
      hypotheses.flatMap(({ effects }) => effects),
    ),
  )
  const nodes = b === network.reference ? [a] : [a, b]
  return nominalVolts(prepared, hypotheses, nodes, ready.fuses, ready.search.problem.fuseBlowsAt).map(
    ([p, q]) => p! - (q ?? 0),
  )
}

export const voltLikelihoods = (
  ready: ReadySearch,
  at: string,
  against: string | undefined,
  value: number,
  inputResistance?: number,
): number[] =>
  foreseenVolts(ready, ready.search.hypotheses, at, against, inputResistance).map((volts) => {
    const mean = Number.isNaN(volts) ? 0 : volts
    return weigh(value, mean, Math.hypot(METER_VOLTS, MODEL * mean))
  })

/** Undefined where the wire is none of this search. */
export const ampLikelihoods = (ready: ReadySearch, wire: string, value: number): number[] | undefined => {
  const { network } = ready.search.problem
  const element = network.elements.find(({ id }) => id === wireElement(wire))
  if (element?.type !== 'resistor') return undefined
  const { hypotheses } = ready.search
  const prepared = prepare(
    withTies(
      network,
      hypotheses.flatMap(({ effects }) => effects),
    ),
  )
  const rows = nominalVolts(prepared, hypotheses, [element.a, element.b], ready.fuses, ready.search.problem.fuseBlowsAt)
  return rows.map(([a, b], h) => {
    const open = hypotheses[h]!.effects.some((effect) => effect.kind === 'open' && effect.element === element.id)
    const amps = open || Number.isNaN(a! - b!) ? 0 : Math.abs(a! - b!) / element.ohm
    return weigh(Math.abs(value), amps, Math.hypot(CLAMP_AMPS, 2 * MODEL * amps))
  })
}

/** The car with its battery off, at the fraction of a volt that an ohmmeter puts on. */
export const deadNetwork = (network: Network): NetworkElement[] =>
  network.elements.flatMap((element): NetworkElement[] => {
    const { id, a, b } = element
    const resistor = (ohm: number): NetworkElement[] => [{ type: 'resistor', id, a, b, ohm }]
    switch (element.type) {
      case 'resistor':
        return [element]
      case 'lamp':
        return resistor(element.coldResistance)
      case 'motor':
        return resistor(element.stallResistance)
      case 'relayContact':
        return element.normally === 'closed' ? resistor(element.ohm) : []
      case 'switch':
        return element.closed ? [element] : []
      default:
        // Sources are off, diodes and electronics do not conduct at this voltage.
        return []
    }
  })

export const foreseenOhms = (
  network: Network,
  hypotheses: readonly Pick<Hypothesis, 'effects'>[],
  a: string,
  b: string,
): number[] => {
  const dead = deadNetwork(network)
  const there = new Set(dead.map(({ id }) => id))
  const nodes = new Set(dead.flatMap((element) => [element.a, element.b]))
  const faults = hypotheses.map(({ effects }) => ({
    effects: effects.filter((effect) =>
      effect.kind === 'bridge'
        ? nodes.has(effect.a) && nodes.has(effect.b)
        : there.has(effect.element) && (effect.kind !== 'chafed' || nodes.has(effect.to)),
    ),
  }))
  const prepared = prepare(
    withTies(
      {
        reference: b,
        elements: [...dead, { type: 'battery', id: 'meter:', a, b, emf: METER_EMF, internalResistance: METER_OHM }],
      },
      faults.flatMap(({ effects }) => effects),
    ),
  )
  return nominalVolts(prepared, faults, [a], [], 1).map(([volts]) => {
    const left = METER_EMF - volts!
    return left < 1e-9 ? Number.POSITIVE_INFINITY : (volts! * METER_OHM) / left
  })
}

/** `against` none: battery negative, or its cable where that is off its post. Undefined: not in this search. */
export const ohmLikelihoods = (
  ready: ReadySearch,
  { at, against, value, alone }: Pick<ReadingEvidence, 'at' | 'against' | 'value' | 'alone'>,
): number[] | undefined => {
  const { reference, nodeOf } = ready.car
  const network = { ...ready.car.network, elements: atRest(ready.build, ready.solved, ready.car.network.elements) }
  const [a, b] = [nodeOf(at), against === undefined ? reference : nodeOf(against)]
  if (a === undefined || b === undefined || a === b) return undefined
  const part = deviceIdOf(pointEndpoint(at))
  const read = alone
    ? { ...network, elements: network.elements.filter(({ id }) => id === part || id.startsWith(`${part}#`)) }
    : network
  return foreseenOhms(read, ready.search.hypotheses, a, b).map((ohm) => {
    if (value >= NO_CONTINUITY || ohm >= NO_CONTINUITY)
      return value >= NO_CONTINUITY === ohm >= NO_CONTINUITY ? 1 : 2 * SLIP
    return weigh(value, ohm, Math.hypot(LEADS, OHM_SHARE * ohm))
  })
}
