import { refuse } from '../../../units/problem.ts'
import type { BareElement } from '../network/bareElements.ts'
import type { BareNetwork } from '../network/bareNetworkFile.ts'
import { bareToNetwork } from '../network/bareSolution.ts'
import type { NetworkElement } from '../network/network.ts'
import type { Effect } from './effects.ts'
import { type FaultProblem, type Hypothesis, type Meter, PRIOR_WEIGHTS, type Tolerance } from './hypothesis.ts'
import { type Spread, usualTolerance } from './tolerances.ts'

/** A hypothesis as the fault-search protocol gives it: open, so many ohms, or short to the chassis. */
export interface BareHypothesis {
  readonly id: string
  readonly element: string
  readonly mode: 'open' | 'short' | number
  readonly weight: number
}

/** ± (0.5 % + 20 mV), shown to 10 mV: the meter that the protocol states. */
export const PROTOCOL_METER: Meter = { relative: 0.005, absolute: 0.02, step: 0.01 }

const SPREADS: Readonly<Record<string, Spread>> = {
  wire: 'wire',
  resistor: 'wire',
  joint: 'contact',
  earth_strap: 'contact',
  switch: 'contact',
  fuse: 'fuse',
  battery: 'battery',
  lamp: 'load',
  load_resistance: 'load',
  load_current: 'load',
  load_power: 'load',
}

/** The usual tolerances of a bare network's elements. */
const bareTolerances = (types: ReadonlyMap<string, string>, elements: readonly NetworkElement[]): Tolerance[] =>
  elements.flatMap((element) => {
    const spread = SPREADS[types.get(element.id) ?? '']
    return spread ? usualTolerance(spread, element) : []
  })

const modeText = (mode: BareHypothesis['mode']): string =>
  mode === 'open' ? 'open' : mode === 'short' ? 'chafed to the body' : `${mode} Ω`

/**
 * The protocol's weights are priors of elements, to be shared by the modes of each. A file may give the share or the
 * whole: where an element of several modes has its whole kind's prior in each, it is the whole.
 */
const sharedWeights = (hypotheses: readonly BareHypothesis[], elements: ReadonlyMap<string, BareElement>): boolean =>
  !hypotheses.some(({ element, weight }) => {
    const joint = elements.get(element)
    const whole = PRIOR_WEIGHTS[String(joint?.kind ?? '')]
    return whole === weight && hypotheses.filter((other) => other.element === element).length > 1
  })

/** A fault problem from a bare network and the protocol's hypotheses. Throws `Refusal` where they do not fit. */
export const bareProblem = (
  file: BareNetwork,
  given: readonly BareHypothesis[],
  options: { readonly testPoints: readonly string[]; readonly shortOhm: number; readonly fuseBlowsAt: number },
): FaultProblem => {
  const byId = new Map(file.elements.map((element) => [element.id, element]))
  const shared = sharedWeights(given, byId)
  const hypotheses = given.map((entry): Hypothesis => {
    const element = byId.get(entry.element)
    if (!element)
      throw refuse(
        'unknown-element',
        `Hypothesis ${entry.id} names ${entry.element}, which is not in the network.`,
        'Name one of its elements.',
      )
    const modes = given.filter((other) => other.element === entry.element).length
    let effect: Effect
    if (entry.mode === 'open') effect = { kind: 'open', element: element.id }
    else if (entry.mode === 'short') {
      if (file.chassis === undefined)
        throw refuse(
          'missing-field',
          `Hypothesis ${entry.id} needs the body, and the network names no chassis node.`,
          'Give "chassis".',
        )
      effect =
        element.type === 'wire'
          ? { kind: 'chafed', element: element.id, to: file.chassis, ohm: options.shortOhm }
          : { kind: 'bridge', a: element.a, b: element.b, ohm: options.shortOhm }
    } else effect = { kind: 'ohm', element: element.id, ohm: entry.mode }
    return {
      id: entry.id,
      part: entry.element,
      mode: modeText(entry.mode),
      weight: shared ? entry.weight : entry.weight / modes,
      effects: [effect],
    }
  })
  const network = bareToNetwork(file, 'base', 'follow coils')
  return {
    network,
    hypotheses,
    testPoints: options.testPoints.map((node) => ({ node })),
    tolerances: bareTolerances(new Map(file.elements.map(({ id, type }) => [id, type])), network.elements),
    fuses: file.elements.flatMap(({ id, type, rating_A: rating }) =>
      type === 'fuse' && typeof rating === 'number' ? [{ element: id, rating }] : [],
    ),
    fuseBlowsAt: options.fuseBlowsAt,
    meter: PROTOCOL_METER,
    sure: 0.9,
    modelWrong: 0.01,
  }
}
