/**
 * A faulty car of the demo as it is, and the person beside it: values off the model, each fault really put in, what the
 * meter shows, and what is seen and heard. No forecast of the search is used.
 */
import type { ReadySearch } from '../src/assess/faults/faults.ts'
import { looksOf } from '../src/assess/faults/remarkRatios.ts'
import { carTolerances } from '../src/assess/faults/start.ts'
import { stepAt } from '../src/engineering/electrical/faults/belief.ts'
import { type Hypothesis, pointId } from '../src/engineering/electrical/faults/hypothesis.ts'
import { type NetworkElement, solveNetwork } from '../src/engineering/electrical/network/network.ts'

export type Volts = ReadonlyMap<string, number | null>

/** A car with values off the model by up to its tolerances times `spread`. */
export const realElements = (ready: ReadySearch, spread: number, random: () => number): NetworkElement[] => {
  const { build, solved, car } = ready
  const tolerances = new Map<string, ReturnType<typeof carTolerances>>()
  for (const tolerance of carTolerances(build, solved, car.network.elements))
    tolerances.set(tolerance.element, [...(tolerances.get(tolerance.element) ?? []), tolerance])
  return car.network.elements.map((element) => {
    const changed: Record<string, number> = {}
    for (const { field, relative, factor, absolute } of tolerances.get(element.id) ?? []) {
      const value = (element as unknown as Record<string, unknown>)[field]
      const u = spread * (2 * random() - 1)
      if (typeof value !== 'number') continue
      changed[field] =
        factor !== undefined
          ? value * factor ** u
          : relative !== undefined
            ? value * (1 + relative * u)
            : value + (absolute ?? 0) * u
    }
    return { ...element, ...changed } as NetworkElement
  })
}

export const withFault = (elements: readonly NetworkElement[], { effects }: Hypothesis, random: () => number) => {
  let there = [...elements]
  effects.forEach((effect, n) => {
    if (effect.kind === 'bridge')
      there.push({ type: 'resistor', id: `fault:${n}`, a: effect.a, b: effect.b, ohm: effect.ohm })
    else
      there = there.flatMap((element): NetworkElement[] => {
        if (element.id !== effect.element) return [element]
        if (effect.kind === 'open') return []
        // A hypothesis stands for a range of ohms: the real one lies anywhere in it.
        if (effect.kind === 'ohm')
          return [{ ...element, ohm: effect.ohm * (effect.within ?? 1) ** (2 * random() - 1) } as NetworkElement]
        if (element.type !== 'resistor') return [element]
        const half = element.ohm / 2
        return [
          { ...element, id: `${element.id}/1`, b: `fault:${n}`, ohm: half },
          { ...element, id: `${element.id}/2`, a: `fault:${n}`, ohm: half },
          { type: 'resistor', id: `${element.id}/short`, a: `fault:${n}`, b: effect.to, ohm: effect.ohm },
        ]
      })
  })
  const ids = new Set(there.map(({ id }) => id))
  return there.map(
    (element): NetworkElement =>
      element.type === 'relayContact' && !ids.has(element.operatedBy)
        ? { type: 'switch', id: element.id, a: element.a, b: element.b, closed: false, ohm: element.ohm }
        : element,
  )
}

export const voltages = (ready: ReadySearch, faulty: readonly NetworkElement[]): Volts => {
  let there = [...faulty]
  for (;;) {
    const solved = solveNetwork({ reference: ready.car.reference, elements: there })
    let worst = ready.search.problem.fuseBlowsAt
    let blown: string | undefined
    for (const { element, rating } of ready.fuses) {
      const over = Math.abs(solved.currents.get(element) ?? 0) / rating
      if (over > worst) {
        worst = over
        blown = element
      }
    }
    if (blown === undefined) return solved.voltages
    there = there.filter(({ id }) => id !== blown)
  }
}

export interface Shown {
  readonly volts: number
  readonly step: number
}
export type Meter = (testPoint: string) => Shown

export const meterOn = (ready: ReadySearch, volts: Volts, random: () => number): Meter => {
  const { meter, testPoints } = ready.search.problem
  // All are read beforehand, so that whoever asks, and in whatever order, is shown the same.
  const shown = new Map(
    testPoints.map((point): [string, Shown] => {
      // A floating point shows nothing steady: about nothing on a meter of 10 MΩ.
      const value = (volts.get(point.node) ?? 0) - (point.minus === undefined ? 0 : (volts.get(point.minus) ?? 0))
      const step = stepAt(meter, value)
      const limit = meter.relative * Math.abs(value) + (meter.absolute * step) / meter.step
      return [pointId(point), { volts: step * Math.round((value + limit * (2 * random() - 1)) / step), step }]
    }),
  )
  return (id) => shown.get(id)!
}

/** How often a person says something else than is so, of a load that runs, a click, a fuse seen through its window. */
const MISTAKEN = { works: 0.05, clicks: 0.1, whole: 0.02 } as const
const REPLIES = {
  works: ['works', 'weak-too', 'dead-too'],
  clicks: ['relay-clicks', 'relay-silent'],
  whole: ['fuse-whole', 'fuse-blown'],
} as const

/** The remark with which each look is answered, by device. Limits common practice, no published source. */
export const repliesIn = (
  ready: ReadySearch,
  healthy: Volts,
  volts: Volts,
  truth: Hypothesis,
  random: () => number,
): ReadonlyMap<string, string> => {
  const across = (there: Volts, id: string): number => {
    const element = ready.car.elements.get(id)
    return element ? Math.abs((there.get(element.a) ?? 0) - (there.get(element.b) ?? 0)) : 0
  }
  return new Map(
    looksOf(ready).map(({ about, asks }): [string, string] => {
      const { loads = [], spec } = ready.build.collections.devices[about]!
      const ids = {
        works: [...loads.map(({ id }) => `${about}#${id}`), `${about}#motor`],
        clicks: [`${about}#coil`, `${about}#solenoid`],
        whole: [about],
      }[asks]
      const id = ids.reduce((p, q) => (across(healthy, q) > across(healthy, p) ? q : p))
      const isOpen = truth.effects.some((effect) => effect.kind === 'open' && effect.element === id)
      const now = isOpen && asks !== 'whole' ? 0 : across(volts, id)
      const share = now / across(healthy, id)
      const pullIn = (spec.kind === 'relay' ? spec.pullIn?.value : undefined) ?? 0.5 * across(healthy, id)
      // People differ in what they call weak.
      const eye = 0.1 * random()
      const reply = {
        works: share > 0.8 + eye ? 'works' : share < 0.25 + eye ? 'dead-too' : 'weak-too',
        clicks: now >= pullIn ? 'relay-clicks' : 'relay-silent',
        whole: isOpen || now > 1 ? 'fuse-blown' : 'fuse-whole',
      }[asks]
      const others = REPLIES[asks].filter((other) => other !== reply)
      const other = others[Math.floor(random() * others.length)]!
      return [about, random() < MISTAKEN[asks] ? other : reply]
    }),
  )
}
