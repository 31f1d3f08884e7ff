/**
 * Invented faulty cars in the kind of the bare format: a few circuits with fuses, relays, joints, wires and shared
 * earths, one fault, a complaint, and real values that lie off the model by the stated tolerances.
 */

import type { BareHypothesis } from '../src/engineering/electrical/faults/bareFaults.ts'
import { randomStream } from '../src/engineering/electrical/faults/random.ts'
import { type BareNetwork, parseBareNetwork } from '../src/engineering/electrical/network/bareNetworkFile.ts'

import { bareToNetwork } from '../src/engineering/electrical/network/bareSolution.ts'
import { type NetworkElement, solveNetwork } from '../src/engineering/electrical/network/network.ts'

const SHORT_OHM = 0.01
const FUSE_BLOWS_AT = 1.35
/** Share of the pins along a circuit that a probe reaches. */
const REACHED = 0.85

type Entry = Record<string, unknown> & { id: string; type: string; a: string; b: string }

const PRIOR: Record<string, number> = { bulb_holder: 4, exposed: 4, connector: 2, crimp: 1, solder: 1 }

/** A car of `circuits` circuits; the seed decides lengths, kinds of joints, loads and which circuits have relays. */
export const inventCar = (seed: number, circuits: number): BareNetwork => {
  const random = randomStream(seed)
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!
  const elements: Entry[] = [
    { id: 'bat', type: 'battery', a: 'post', b: 'gnd', emf_V: 12.6, internal_ohm: 0.012 },
    { id: 'main', type: 'wire', a: 'post', b: 'bus', length_m: 1.5, area_mm2: 16, temp_C: 30 },
    { id: 'body-strap', type: 'earth_strap', a: 'body', b: 'gnd', ohm: 0.001 },
  ]
  const points = new Set<string>(['post', 'bus', 'body'])
  const joint = (id: string, a: string, b: string, kinds: readonly string[]): void => {
    elements.push({ id, type: 'joint', kind: pick(kinds), a, b, ohm: 0.003 + 0.004 * random() })
  }
  const wire = (id: string, a: string, b: string, area = pick([0.75, 1, 1.5, 2.5])): void => {
    elements.push({ id, type: 'wire', a, b, length_m: 0.3 + 3 * random(), area_mm2: area, temp_C: 30 })
  }
  const load = (id: string, a: string, b: string): void => {
    const kind = random()
    if (kind < 0.55)
      elements.push({ id, type: 'lamp', a, b, rated_V: 12, rated_W: pick([5, 21, 55]), exponent: 0.55, cold_ohm: 0.3 })
    else if (kind < 0.75) elements.push({ id, type: 'load_resistance', a, b, ohm: pick([3, 6, 24]) })
    else if (kind < 0.9) elements.push({ id, type: 'load_current', a, b, current_A: pick([0.3, 1.5, 4]), v_min_V: 6 })
    else elements.push({ id, type: 'load_power', a, b, power_W: pick([15, 60]), v_min_V: 7 })
  }
  for (let i = 0; i < circuits; i++) {
    const n = (part: string): string => `${part}${i}`
    elements.push({ id: n('fuse'), type: 'fuse', a: 'bus', b: n('f'), rating_A: 15, cold_ohm: 0.005 })
    points.add(n('f'))
    wire(n('feed'), n('f'), n('w'))
    if (random() < REACHED) points.add(n('w'))
    joint(n('plug'), n('w'), n('s'), ['connector', 'crimp', 'solder'])
    if (random() < REACHED) points.add(n('s'))
    elements.push({ id: n('switch'), type: 'switch', a: n('s'), b: n('t'), state: 'closed', closed_ohm: 0.01 })
    if (random() < REACHED) points.add(n('t'))
    let from = n('t')
    if (random() < 0.4) {
      // The switch works a relay; its contact feeds the load from the fuse.
      wire(n('coil-wire'), n('t'), n('c'), 0.5)
      elements.push({ id: n('coil'), type: 'load_resistance', a: n('c'), b: 'body', ohm: 85 })
      elements.push({
        id: n('contact'),
        type: 'switch',
        a: n('f'),
        b: n('r'),
        state: 'open',
        closed_ohm: 0.008,
        operated_by: { coil: n('coil'), pull_in_V: 7.5, drop_out_V: 3 },
      })
      points.add(n('r'))
      if (random() < REACHED) points.add(n('c'))
      from = n('r')
    }
    wire(n('run'), from, n('x'))
    if (random() < REACHED) points.add(n('x'))
    joint(n('inline'), n('x'), n('y'), ['connector', 'exposed', 'crimp'])
    if (random() < REACHED) points.add(n('y'))
    wire(n('tail'), n('y'), n('z'))
    if (random() < REACHED) points.add(n('z'))
    const branches = random() < 0.4 ? 2 : 1
    for (let k = 0; k < branches; k++) {
      const m = (part: string): string => `${part}${i}.${k}`
      joint(m('holder'), n('z'), m('p'), ['bulb_holder', 'connector', 'crimp'])
      load(m('load'), m('p'), m('e'))
      points.add(m('p'))
      if (random() < REACHED) points.add(m('e'))
      joint(m('return'), m('e'), n('g'), ['bulb_holder', 'crimp', 'connector'])
    }
    wire(n('earth'), n('g'), n('h'))
    if (random() < REACHED) points.add(n('h'))
    if (random() < REACHED) points.add(n('g'))
    joint(n('stud'), n('h'), random() < 0.3 && i > 0 ? 'h0' : 'body', ['exposed', 'crimp'])
  }
  return parseBareNetwork({
    format: 'car-dc-network/1',
    id: `car-${seed}`,
    reference: 'gnd',
    chassis: 'body',
    nodes: [...new Set(elements.flatMap(({ a, b }) => [a, b]))],
    elements,
    test_points: [...points],
  })
}

export interface Scenario {
  readonly seed: number
  readonly file: BareNetwork
  readonly hypotheses: readonly BareHypothesis[]
  readonly truth: BareHypothesis
  readonly complaint: { readonly item: string; readonly kind: 'dead' | 'weak' }
  /** What the meter shows at each test point, one error drawn for each reading. */
  readonly meter: (testPoint: string) => number
}

const MODES: Record<string, readonly BareHypothesis['mode'][]> = {
  joint: ['open', 1, 5, 50],
  wire: ['open', 'short'],
}

/** Every hypothesis of the protocol, its element's prior shared by its modes. */
const allHypotheses = (file: BareNetwork): BareHypothesis[] =>
  file.elements.flatMap((element) => {
    const modes =
      MODES[element.type] ?? (/^(lamp|load_)/.test(element.type) && element.id !== 'bat' ? (['open'] as const) : [])
    const prior = element.type === 'wire' ? 0.3 : element.type === 'joint' ? PRIOR[String(element.kind)]! : 1
    return modes.map((mode) => ({
      id: `${element.id}:${mode}`,
      element: element.id,
      mode,
      weight: prior / modes.length,
    }))
  })

/** How real values lie off the model; `uniform` off a centre, or up to a factor either way on a log scale. */
const realElement = (element: NetworkElement, kind: string, spread: number, random: () => number): NetworkElement => {
  const u = spread * (2 * random() - 1)
  if (element.type === 'resistor' || element.type === 'switch' || element.type === 'relayContact') {
    const factor = /^(joint|earth_strap|switch)$/.test(kind) ? 2 ** u : 1 + (/^load/.test(kind) ? 0.1 : 0.05) * u
    return { ...element, ohm: element.ohm * factor }
  }
  if (element.type === 'lamp') return { ...element, ratedPower: element.ratedPower * (1 + 0.1 * u) }
  if (element.type === 'constantCurrent') return { ...element, current: element.current * (1 + 0.1 * u) }
  if (element.type === 'constantPower') return { ...element, power: element.power * (1 + 0.1 * u) }
  return element
}

/** Node voltages of a faulty car, every element really put in, each fuse really taken out; no forecast is used. */
export const carVoltages = (
  file: BareNetwork,
  elements: readonly NetworkElement[],
  fault: BareHypothesis | undefined,
): Map<string, number> => {
  let there = elements.flatMap((element): NetworkElement[] => {
    if (fault?.element !== element.id) return [element]
    if (fault.mode === 'open') return []
    if (typeof fault.mode === 'number') return [{ ...element, ohm: fault.mode } as NetworkElement]
    const half = (element as { ohm: number }).ohm / 2
    return [
      { type: 'resistor', id: `${element.id}/1`, a: element.a, b: 'chafe', ohm: half },
      { type: 'resistor', id: `${element.id}/2`, a: 'chafe', b: element.b, ohm: half },
      { type: 'resistor', id: `${element.id}/short`, a: 'chafe', b: file.chassis!, ohm: SHORT_OHM },
    ]
  })
  const ids = new Set(there.map(({ id }) => id))
  // The contact of a coil that is gone stays at rest.
  there = there.map((element) =>
    element.type === 'relayContact' && !ids.has(element.operatedBy)
      ? { type: 'switch', id: element.id, a: element.a, b: element.b, closed: false, ohm: element.ohm }
      : element,
  )
  for (;;) {
    const { voltages, currents } = solveNetwork({ reference: file.reference, elements: there })
    let worst = FUSE_BLOWS_AT
    let blown: string | undefined
    for (const { id, type, rating_A: rating } of file.elements) {
      if (type !== 'fuse') continue
      const over = Math.abs(currents.get(id) ?? 0) / (rating as number)
      if (over > worst) {
        worst = over
        blown = id
      }
    }
    if (blown === undefined) return new Map(file.nodes.map((node) => [node, voltages.get(node) ?? 0] as const))
    there = there.filter(({ id }) => id !== blown)
  }
}

/**
 * A faulty car with a complaint about one of its loads. `spread`: how far its real values lie off the model, as a
 * multiple of contacts ×/÷ 2, loads ± 10 %, wires ± 5 %; beyond 1 a bad joint's ohms lie anywhere within ×/÷ 2.5 too.
 */
export const inventScenario = (seed: number, circuits: number, spread: number): Scenario | undefined => {
  const random = randomStream(seed * 7919 + 17)
  const file = inventCar(seed, circuits)
  const all = allHypotheses(file)
  const loads = file.elements.filter(({ type, id }) => /^(lamp|load_)/.test(type) && !id.startsWith('coil'))
  const model = bareToNetwork(file, 'base', 'follow coils').elements
  const healthy = carVoltages(file, model, undefined)
  const forecasts = new Map(all.map((hypothesis) => [hypothesis, carVoltages(file, model, hypothesis)]))
  const across = (volts: Map<string, number>, { a, b }: (typeof loads)[number]): number => volts.get(a)! - volts.get(b)!
  for (const load of [...loads].sort(() => random() - 0.5)) {
    const sound = across(healthy, load)
    if (Math.abs(sound) < 1) continue
    for (const kind of random() < 0.7 ? (['dead', 'weak'] as const) : (['weak', 'dead'] as const)) {
      const making = all.filter((hypothesis) => {
        const share = across(forecasts.get(hypothesis)!, load) / sound
        const dead = share < 0.3 || (hypothesis.element === load.id && hypothesis.mode === 'open')
        return kind === 'dead' ? dead : !dead && share < 0.93
      })
      if (new Set(making.map(({ element }) => element)).size < 3) continue
      let draw = random() * making.reduce((sum, { weight }) => sum + weight, 0)
      const truth = making.find(({ weight }) => {
        draw -= weight
        return draw < 0
      })!
      const kinds = new Map(file.elements.map(({ id, type }) => [id, type]))
      const real = model.map((element) => realElement(element, kinds.get(element.id)!, spread, random))
      const mode = spread > 1 && typeof truth.mode === 'number' ? truth.mode * 2.5 ** (2 * random() - 1) : truth.mode
      const volts = carVoltages(file, real, { ...truth, mode })
      return {
        seed,
        file,
        hypotheses: making,
        truth,
        complaint: { item: load.id, kind },
        meter: (testPoint) => {
          const value = volts.get(testPoint)!
          const limit = 0.005 * Math.abs(value) + 0.02
          return Math.round((value + limit * (2 * random() - 1)) * 100) / 100
        },
      }
    }
  }
  return undefined
}
