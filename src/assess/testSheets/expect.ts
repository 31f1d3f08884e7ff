/**
 * What a meter should show on a sound car, and between which limits: the network with its values drawn from their
 * tolerances (contacts, wires, loads, sources), twice the standard deviation of what comes out, and the meter's own
 * limits on top.
 */

import type { Tolerance } from '../../engineering/electrical/faults/hypothesis.ts'
import { randomStream } from '../../engineering/electrical/faults/random.ts'
import {
  type Network,
  type NetworkElement,
  type NetworkSolution,
  prepare,
} from '../../engineering/electrical/network/network.ts'
import { deadNetwork } from '../faults/otherReadings.ts'
import type { Expectation } from './types.ts'

/** Cars drawn. */
const DRAWS = 24
const SEED = 7
/** Limits of a hand meter: share of the reading, and so much more. Common practice, no published source. */
export const METER = {
  volts: { relative: 0.005, absolute: 0.02 },
  ohms: { relative: 0.01, absolute: 0.3 },
  amps: { relative: 0.02, absolute: 0.1 },
} as const
/** Ω beyond which a meter shows no continuity. */
const NO_CONTINUITY = 1e6
/** V and Ω of the source that a meter measures ohms with (from memory): too little to turn a diode on. */
export const METER_EMF = 0.3
export const METER_OHM = 1000
/** Ω that such a meter shows at so many volts across it; NaN volts: no way at all. */
export const ohmsOf = (volts: number | undefined): number => {
  const left = METER_EMF - (volts ?? METER_EMF)
  return !(left >= 1e-9) ? Number.POSITIVE_INFINITY : ((METER_EMF - left) * METER_OHM) / left
}

const vary =
  (tolerances: ReadonlyMap<string, readonly Tolerance[]>, random: () => number) =>
  (element: NetworkElement): NetworkElement => {
    const changed: Record<string, number> = {}
    for (const { field, relative, factor, absolute } of tolerances.get(element.id) ?? []) {
      const value = (element as unknown as Record<string, unknown>)[field]
      const u = 2 * random() - 1
      if (typeof value !== 'number') continue
      changed[field] =
        factor !== undefined
          ? value * factor ** u
          : relative !== undefined
            ? value * (1 + relative * u)
            : value + (absolute ?? 0) * u
    }
    return { ...element, ...changed } as NetworkElement
  }

const grouped = (tolerances: readonly Tolerance[]): Map<string, Tolerance[]> => {
  const map = new Map<string, Tolerance[]>()
  for (const tolerance of tolerances) map.set(tolerance.element, [...(map.get(tolerance.element) ?? []), tolerance])
  return map
}

const expectation = (
  value: number | null,
  drawn: readonly number[],
  { relative, absolute }: { readonly relative: number; readonly absolute: number },
  unit: string,
  more: readonly string[] = [],
): Expectation => {
  if (value === null) return { value, least: 0, most: 0, working: [`the point floats: a meter shows nothing steady`] }
  const mean = drawn.reduce((sum, each) => sum + each, 0) / drawn.length
  const sigma = Math.sqrt(drawn.reduce((sum, each) => sum + (each - mean) ** 2, 0) / Math.max(1, drawn.length - 1))
  const meter = relative * Math.abs(value) + absolute
  const model = 2 * sigma + Math.abs(mean - value)
  const figure = (x: number): string => Number(x.toPrecision(3)).toString()
  return {
    value,
    least: value - model - meter,
    most: value + model + meter,
    working: [
      `model ${figure(value)} ${unit} ± ${figure(model)} ${unit}: contacts ×/÷ 2, wires ± 5 %, loads ± 10 %, fuses ± 15 %, sources as stated; 95 % of ${DRAWS} cars drawn`,
      `meter ± (${relative * 100} % + ${absolute} ${unit})`,
      ...more,
    ],
  }
}

export interface Expecter {
  readonly volts: (at: string, against: string) => Expectation
  /** Amperes through a resistor element, from its `a` to its `b`. */
  readonly amps: (element: string) => Expectation
}

/** Of a live car: nodes and elements of the network. Throws `Refusal` where the network is refused. */
export const expecter = (network: Network, tolerances: readonly Tolerance[]): Expecter => {
  const model = prepare(network)
  const byElement = grouped(tolerances)
  const cars: NetworkSolution[] = [model.solve()]
  for (let k = 1; k <= DRAWS; k++) cars.push(model.vary(vary(byElement, randomStream(SEED * 1000 + k))).solve())
  const read = (value: (car: NetworkSolution) => number | null): [number | null, number[]] => {
    const all = cars.map(value)
    return [all[0]!, all.slice(1).filter((each): each is number => each !== null)]
  }
  return {
    volts: (at, against) => {
      const [value, drawn] = read(({ voltages }) => {
        const [p, q] = [voltages.get(at), voltages.get(against)]
        return p == null || q == null ? null : p - q
      })
      return expectation(value, drawn, METER.volts, 'V')
    },
    amps: (element) => {
      const [value, drawn] = read(({ currents }) => currents.get(element) ?? null)
      return expectation(value, drawn, METER.amps, 'A')
    },
  }
}

/** Ohms between two nodes of a car with its battery off; `without` elements are out: unplugged, fuses drawn. */
export const expectOhms = (
  network: Network,
  tolerances: readonly Tolerance[],
  a: string,
  b: string,
  without: ReadonlySet<string> = new Set(),
): Expectation => {
  const dead = deadNetwork(network).filter(({ id }) => !without.has(id))
  const shown = (solution: NetworkSolution): number => ohmsOf(solution.voltages.get(a) ?? undefined)
  const model = prepare({
    reference: b,
    elements: [...dead, { type: 'battery', id: 'meter:', a, b, emf: METER_EMF, internalResistance: METER_OHM }],
  })
  const byElement = grouped(tolerances)
  const value = shown(model.solve())
  if (value >= NO_CONTINUITY)
    return {
      value: null,
      least: NO_CONTINUITY,
      most: Number.MAX_VALUE,
      working: ['no way between the points: the meter shows no continuity'],
    }
  const drawn = Array.from({ length: DRAWS }, (_, k) =>
    shown(model.vary(vary(byElement, randomStream(SEED * 1000 + k + 1))).solve()),
  ).filter(Number.isFinite)
  const found = expectation(value, drawn, METER.ohms, 'Ω', ['leads zeroed before; ± 0.3 Ω is what a hand meter leaves'])
  return { ...found, least: Math.max(0, found.least) }
}
