/**
 * Which volts and amperes of a sheet hang on a figure that is not entered. The car is solved again with something
 * ordinary in the place of what is missing: a value that moves by more than a meter's own limits is not known, and the
 * missing datum is named. Without this a sound car with a half-entered model would read out of tolerance.
 */
import { type NetworkElement, prepare } from '../../engineering/electrical/network/network.ts'
import type { Build } from '../../model/build.ts'
import { Refusal } from '../../units/problem.ts'
import type { CarNetwork } from '../faults/carNetwork.ts'
import { deviceName, endpointOf, own } from '../make.ts'
import type { Missing } from '../network.ts'
import { relayPins } from '../pins.ts'
import { FED_VOLTS, type Solved } from '../solveCases.ts'
import { METER } from './expect.ts'

/** Ω: four metres of 0.5 mm². In the place of a wire or fuse that has no figures. Common practice, no published source. */
const ORDINARY_WIRE = 0.15
/** Ω: some 4 A at 12 V, and the coil of a small relay. Common practice, no published source. */
const ORDINARY_LOAD = 3
const ORDINARY_COIL = 85
const CLOSED = 0.01

export interface NotKnown {
  /** The datum on which the volts of a node hang; undefined: on none that is missing. */
  readonly volts: (node: string) => string | undefined
  readonly amps: (element: string) => string | undefined
}

const subjectSays = (build: Build, subject: string): string => {
  const [collection, id] = subject.split('/') as [string, string]
  return collection === 'devices' ? deviceName(build, id) : `wire ${id}`
}
const datumSays = (build: Build, { datum, subject }: Missing): string => `${datum} of ${subjectSays(build, subject)}`

/** What stands in for one thing that is missing; `undefined`: nothing that could change a voltage. */
const withStandIn = (
  build: Build,
  solved: Solved,
  elements: readonly NetworkElement[],
  missing: Missing,
): NetworkElement[] | undefined => {
  const id = missing.subject.slice(missing.subject.indexOf('/') + 1)
  const unsure = [`wire:${id}`, id].find((each) => solved.bound.unsure.has(each))
  if (unsure !== undefined)
    return elements.map((element) =>
      element.id === unsure && 'ohm' in element ? { ...element, ohm: element.ohm + ORDINARY_WIRE } : element,
    )
  if (!missing.across) return undefined
  const [a, b] = missing.across
  const ohm = missing.switches ? ORDINARY_COIL : ORDINARY_LOAD
  const stand: NetworkElement[] = [{ type: 'resistor', id: `#stand-in-${id}`, a, b, ohm }]
  const relay = own(build.collections.devices, id)
  if (missing.switches && relay?.spec.kind === 'relay') {
    // A relay that is not described but gets its volts pulls in, as far as anybody can say.
    const [p, q] = [solved.nodes.get(a), solved.nodes.get(b)]
    const { common, make } = relayPins(relay)
    if (p != null && q != null && Math.abs(p - q) > FED_VOLTS && common !== undefined && make !== undefined)
      stand.push({
        type: 'resistor',
        id: `#contact-${id}`,
        a: solved.bound.nodeOf(endpointOf(id, common)),
        b: solved.bound.nodeOf(endpointOf(id, make)),
        ohm: CLOSED,
      })
  }
  return [...elements, ...stand]
}

const solutionOf = (reference: string, elements: readonly NetworkElement[]) => {
  try {
    return prepare({ reference, elements }).solve()
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return undefined
  }
}

const moved = (
  was: number | null | undefined,
  is: number | null | undefined,
  { relative, absolute }: { readonly relative: number; readonly absolute: number },
): boolean =>
  was == null || is == null ? (was == null) !== (is == null) : Math.abs(is - was) > relative * Math.abs(was) + absolute

export const notKnown = (build: Build, solved: Solved, { network, reference }: CarNetwork): NotKnown => {
  const volts = new Map<string, Missing>()
  const amps = new Map<string, Missing>()
  const before = solutionOf(reference, network.elements)
  const each = solved.missing.flatMap((missing) => {
    const elements = withStandIn(build, solved, network.elements, missing)
    return elements ? [{ missing, elements }] : []
  })
  for (const { missing, elements } of before ? each : []) {
    const after = solutionOf(reference, elements)
    if (!after) continue
    for (const [node, was] of before!.voltages)
      if (!volts.has(node) && moved(was, after.voltages.get(node), METER.volts)) volts.set(node, missing)
    for (const [element, was] of before!.currents)
      if (!amps.has(element) && moved(was, after.currents.get(element), METER.amps)) amps.set(element, missing)
  }
  const says = (missing: Missing | undefined): string | undefined => missing && datumSays(build, missing)
  return { volts: (node) => says(volts.get(node)), amps: (element) => says(amps.get(element)) }
}

/** What is not entered, in one sentence: the data in turn, each with the things that lack it. */
export const notEntered = (build: Build, missing: readonly Missing[]): string | undefined => {
  if (missing.length === 0) return undefined
  const byDatum = new Map<string, string[]>()
  for (const { datum, subject } of missing) {
    const id = subject.startsWith('wires/') ? subject.slice('wires/'.length) : subjectSays(build, subject)
    byDatum.set(datum, [...(byDatum.get(datum) ?? []), id])
  }
  const all = [...byDatum].map(([datum, things]) => `${datum} (${things.join(', ')})`)
  return `Not entered: ${all.join('; ')}. A line whose figure hangs on it says so.`
}
