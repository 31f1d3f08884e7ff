/** Makes a search ready: what can make the complaint, where probes go, and what each fault foretells there. */
import { prepareSearch, type Search } from '../../engineering/electrical/faults/belief.ts'
import { withTies } from '../../engineering/electrical/faults/effects.ts'
import type {
  Complaint,
  FaultProblem,
  Fuse,
  Hypothesis,
  Meter,
  TestPoint,
  Tolerance,
} from '../../engineering/electrical/faults/hypothesis.ts'
import { DRAGGING, HELD_FAST } from '../../engineering/electrical/faults/parts.ts'
import { spreadFault } from '../../engineering/electrical/faults/predict.ts'
import { type Spread, usualTolerance } from '../../engineering/electrical/faults/tolerances.ts'
import { type NetworkElement, prepare } from '../../engineering/electrical/network/network.ts'
import type { Build } from '../../model/build.ts'
import { refuse } from '../../units/problem.ts'
import { deviceName, own } from '../make.ts'
import type { Solved } from '../solveCases.ts'
import { carFaults, type NamedPart } from './carFaults.ts'
import { type CarNetwork, carNetwork } from './carNetwork.ts'
import { complaintLikelihood, type Outcome } from './complaint.ts'
import { complaintCase } from './complaintCase.ts'
import { concernedWhenFed, concernedWhenOff } from './concerned.ts'
import { type Drop, dropsOf, feedDrops, isBatteryPositive, placeOf, testId } from './drops.ts'
import { nominalVolts } from './nominal.ts'
import { pointsOf, type ReachedPoint } from './reach.ts'
import type { CarSearch, SearchStart } from './types.ts'

/**
 * ± (0.5 % + 2 digits), a hand meter of 2000 counts on its ranges of 20 V, 2 V and 0.2 V. Common practice, no published
 * source.
 */
export const HAND_METER: Meter = { relative: 0.005, absolute: 0.02, step: 0.01, finer: [2, 0.2] }
/** Times its rating at which a fuse surely opens: the gate of ISO 8820-3. */
const FUSE_BLOWS_AT = 1.35
const MODEL_WRONG = 0.01
/**
 * Surer than the nine in ten that a person asks for: where an open wire and its own joint read alike, as often as not the
 * tenth is the wire. On `npm run bench -- fault` 0.9 convicted an innocent part in 19 of 800 cars, this in 14, for 0.03
 * readings more.
 */
export const SURE = 0.92
/** Cars drawn from the tolerances: more are smoother and slower. */
const DRAWS = 16
/** Share of the battery's voltage above which a point of the healthy car is on the feed, before the load. */
const FED = 0.5
/** V by which a point has to differ between faults to be worth a test at all. */
const TELLS = 0.01

/** A search that is ready, with what the evidence is weighed by. */
export interface ReadySearch extends CarSearch {
  readonly points: ReadonlyMap<string, ReachedPoint>
  readonly parts: ReadonlyMap<string, NamedPart>
  readonly solved: Solved
  readonly car: CarNetwork
  readonly search: Search
  readonly tests: ReadonlyMap<string, Drop | { readonly at: string; readonly against?: undefined }>
  readonly fuses: readonly Fuse[]
  /** The load that the complaint is about. */
  readonly load: NetworkElement
  /** Volts of the modelled car under each hypothesis, healthy first; NaN: floats. */
  readonly nominal: readonly Float64Array[]
  /** Place of a node in a row of `nominal`. */
  readonly place: ReadonlyMap<string, number>
  /** Greatest voltage that any source of the car has in this case. */
  readonly most: number
}

const spreadOf = (build: Build, solved: Solved, id: string): Spread | undefined => {
  if (solved.bound.loads.has(id) || /#(coil|solenoid|rotor|motor)$/.test(id)) return 'load'
  if (id.startsWith('wire:')) return 'wire'
  const kind = own(build.collections.devices, id.split('#')[0]!)?.spec.kind
  if (kind === 'fuse') return 'fuse'
  if (kind === 'battery') return 'battery'
  if (kind === 'resistor') return 'load'
  return 'contact'
}

/** A stand-in for a figure that is missing may be off by so many times. */
const UNKNOWN = 10
/** V by which a regulator's set-point lies off its plate: 14.4 ± 0.3 V at 20 °C (Westerbeke 33A manual, p. 83, read). */
const SETPOINT = 0.3

export const carTolerances = (build: Build, solved: Solved, elements: readonly NetworkElement[]): Tolerance[] =>
  elements.flatMap((element): Tolerance[] => {
    const { id } = element
    if (element.type === 'alternator') return [{ element: id, field: 'setpoint', absolute: SETPOINT }]
    if (solved.bound.unsure.has(id)) return 'ohm' in element ? [{ element: id, field: 'ohm', factor: UNKNOWN }] : []
    if (element.type === 'diode') return []
    return usualTolerance(spreadOf(build, solved, id)!, element)
  })

/** Throws `Refusal` where the complaint names what is not there, or the case cannot be solved. */
export const readySearch = (build: Build, start: SearchStart): ReadySearch => {
  const { solved, load, isOff } = complaintCase(build, start)
  const { kind } = start.complaint
  const concerned = isOff ? concernedWhenOff(build, solved, load) : concernedWhenFed(build, solved, load)
  const car = carNetwork(
    build,
    solved,
    ({ id }) => concerned.elements.has(`wire:${id}`) || concerned.shorts.has(`wire:${id}`),
  )
  const { hypotheses: all, parts } = carFaults(build, solved, car, concerned, start.priors ?? {})
  const reached = pointsOf(
    build,
    car.wires.filter(({ id }) => concerned.elements.has(`wire:${id}`)),
  )
  for (const id of reached.keys()) if (car.nodeOf(id) === undefined) reached.delete(id)
  const effects = all.flatMap((hypothesis) => hypothesis.effects)
  const nodes = [...new Set([load.a, load.b, ...[...reached.keys()].map((id) => car.nodeOf(id)!)])]
  const place = new Map(nodes.map((node, k) => [node, k]))
  // The whole car, not a part of it with a load in the place of the rest: where an earth opens, the current finds its way
  // back through whatever hangs on it, switched on or not, and each goes by its own law.
  const { network } = car
  const prepared = prepare(withTies(network, effects))
  const fuses = fusesOf(build, network.elements)
  // Of a fault that has a range of ohms, the ends may make the complaint where the middle does not.
  const ends = all.flatMap(({ effects }, h) =>
    effects.some((effect) => 'within' in effect)
      ? [-1, 1].map((shift) => ({ h, effects: effects.map((effect) => spreadFault(effect, shift)) }))
      : [],
  )
  const [healthy, ...rows] = nominalVolts(prepared, [{ effects: [] }, ...all, ...ends], nodes, fuses, FUSE_BLOWS_AT)
  const most = Math.max(...[...solved.nodes.values()].map((value) => value ?? 0), 1)
  const voltsAcross = (row: Float64Array): number => (row[place.get(load.a)!]! || 0) - (row[place.get(load.b)!]! || 0)
  const complaint: Complaint = {
    a: load.a,
    b: load.b,
    likelihood: (fault, volts, sound) =>
      complaintLikelihood(kind, {
        share: isOff ? Math.abs(volts) / most : volts / sound,
        own: ownFault(fault, load),
        comesAndGoes: fault.intermittent === true,
        resistive: fault.effects.some((effect) => effect.kind === 'ohm'),
      }),
  }
  const makes = (fault: Hypothesis, row: Float64Array): boolean =>
    complaint.likelihood(fault, voltsAcross(row), voltsAcross(healthy!)) > 0
  const makesAtEnds = new Set(ends.flatMap(({ h }, e) => (makes(all[h]!, rows[all.length + e]!) ? [h] : [])))
  const hypotheses = all.filter((fault, h) => makesAtEnds.has(h) || makes(fault, rows[h]!))
  const nominal = [healthy!, ...all.flatMap((fault, h) => (hypotheses.includes(fault) ? [rows[h]!] : []))]
  if (hypotheses.length === 0)
    throw refuse(
      'nothing-explains',
      `No single fault of the model makes ${deviceName(build, start.complaint.device)} ${kind}.`,
      'Check the case and the circuit as entered; the wiring may not be as modelled.',
    )
  const isFed = (id: string): boolean => healthy![place.get(car.nodeOf(id)!)!]! > FED * most
  const drops = [...dropsOf(build, car.wires, reached, load), ...feedDrops(build, reached, isFed)]
  const telling = tellingTests(solved, car, reached, drops, nominal, place)
  const problem: FaultProblem = {
    network,
    hypotheses,
    testPoints: telling.map(({ at, against }): TestPoint => testPoint(build, car, reached, at, against)),
    tolerances: carTolerances(build, solved, network.elements),
    fuses,
    fuseBlowsAt: FUSE_BLOWS_AT,
    meter: HAND_METER,
    sure: start.sure ?? SURE,
    complaint,
    modelWrong: MODEL_WRONG,
  }
  const blamed = new Set(hypotheses.map(({ part }) => part))
  return {
    build,
    start,
    points: reached,
    parts: new Map([...parts].filter(([part]) => blamed.has(part))),
    lacking: lackingOf(solved),
    leftOut: Object.values(build.collections.devices).flatMap(({ restricted, name }) =>
      restricted ? [`${name} (${restricted})`] : [],
    ),
    solved,
    car,
    load,
    search: prepareSearch(problem, DRAWS),
    tests: new Map(telling.map((test) => [testId(test.at, test.against), test])),
    fuses,
    nominal,
    place,
    most,
  }
}

/** At the load itself, so that its volts say nothing of what it does. */
const ownFault = ({ effects, mode }: Hypothesis, load: NetworkElement): Outcome['own'] => {
  if (effects.some((effect) => effect.kind === 'open' && effect.element === load.id)) return 'dead'
  const across = effects.some((effect) => effect.kind === 'bridge' && effect.a === load.a && effect.b === load.b)
  return !across ? undefined : mode.startsWith(HELD_FAST) ? 'dead' : mode.startsWith(DRAGGING) ? 'weak' : undefined
}

export const fusesOf = (build: Build, elements: readonly NetworkElement[]): Fuse[] =>
  elements.flatMap(({ id }) => {
    const spec = own(build.collections.devices, id)?.spec
    return spec?.kind === 'fuse' && spec.rating ? [{ element: id, rating: spec.rating.value }] : []
  })

const lackingOf = ({ missing, bound, assumed }: Solved): string[] => [
  ...missing.map(({ subject, datum }) => `${datum} of ${subject}`),
  ...[...bound.unsure].map((id) => `figures of ${id}: a stand-in, ${UNKNOWN} times either way`),
  ...(assumed.length > 0 ? [`${assumed.length} figures of common practice where none is entered`] : []),
]

const testPoint = (
  build: Build,
  car: CarNetwork,
  reached: ReadonlyMap<string, ReachedPoint>,
  at: string,
  against: string | undefined,
): TestPoint => {
  const point = reached.get(placeOf(build, at, against))!
  const isFar = against === undefined || isBatteryPositive(build, at) || isBatteryPositive(build, against)
  return {
    id: testId(at, against),
    node: car.nodeOf(at)!,
    ...(against === undefined ? {} : { minus: car.nodeOf(against)! }),
    minutes: (point.time + (isFar ? point.lead : 0)) / 60,
    ...(point.access === undefined ? {} : { access: point.access, accessMinutes: point.accessTime / 60 }),
  }
}

/** Tests that not all faults answer alike, drops turned so that the healthy car reads them positive. */
const tellingTests = (
  solved: Solved,
  car: CarNetwork,
  reached: ReadonlyMap<string, ReachedPoint>,
  drops: readonly Drop[],
  nominal: readonly Float64Array[],
  place: ReadonlyMap<string, number>,
): (Drop | { readonly at: string; readonly against?: undefined })[] => {
  const at = (row: Float64Array, point: string): number => row[place.get(car.nodeOf(point)!)!]!
  const tells = (read: (row: Float64Array) => number): boolean => {
    let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
    for (const row of nominal) {
      const value = read(row) || 0
      least = Math.min(least, value)
      most = Math.max(most, value)
    }
    return most - least > TELLS
  }
  const volts = (point: string): number => solved.nodes.get(solved.bound.nodeOf(point.split('/')[0]!)) ?? 0
  return [
    ...[...reached.keys()]
      .filter((id) => car.nodeOf(id) !== car.reference && tells((row) => at(row, id)))
      .map((id) => ({ at: id })),
    ...drops
      .filter((drop) => tells((row) => at(row, drop.at) - at(row, drop.against)))
      .map((drop) => {
        const [healthy] = nominal
        const down = at(healthy!, drop.at) - at(healthy!, drop.against) || volts(drop.at) - volts(drop.against)
        return down < 0 ? { at: drop.against, against: drop.at } : drop
      }),
  ]
}
