/** A car with one joint gone bad, to be read like a real one: its resistances and loads lie off the model's. */
import { prepare } from '../../engineering/electrical/network/network.ts'
import type { Build } from '../../model/build.ts'
import { solveCase } from '../solveCases.ts'
import { carNetwork, type End, jointElement } from './carNetwork.ts'
import { foundCase } from './found.ts'
import type { Test } from './types.ts'

/** Even numbers between 0 and 1 from a seed (mulberry32). */
const draws = (seed: number) => {
  let state = seed >>> 0
  return (): number => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = Math.imul(state ^ (state >>> 15), 1 | state)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}

export interface SimulatedCar {
  /** What a meter shows, to 10 mV; NaN where the point is not of this car. Ohms and amps are not read here. */
  read(test: Test): number
}

export const simulatedCar = (
  build: Build,
  { wire, end, ohm, caseId, seed }: { wire: string; end: End; ohm: number; caseId: string; seed: number },
): SimulatedCar => {
  const draw = draws(seed)
  const solved = solveCase(build, foundCase(build, { case: caseId }))
  const car = carNetwork(build, solved, () => true)
  const bad = jointElement(wire, end)
  if (!car.elements.has(bad)) throw new Error(`there is no joint ${bad}`)
  const elements = car.network.elements.map((element) => {
    if (element.id === bad) return { ...element, ohm }
    const even = (share: number): number => 1 + share * (2 * draw() - 1)
    if (element.type === 'resistor')
      return {
        ...element,
        ohm:
          element.ohm *
          (solved.bound.loads.has(element.id)
            ? even(0.1)
            : element.id.startsWith('wire:')
              ? even(0.05)
              : 2 ** (2 * draw() - 1)),
      }
    if (element.type === 'lamp') return { ...element, ratedPower: element.ratedPower * even(0.1) }
    return element
  })
  const { voltages } = prepare({ reference: car.reference, elements: elements as typeof car.network.elements }).solve()
  const at = (point: string): number => {
    const node = car.nodeOf(point)
    return node === undefined ? Number.NaN : (voltages.get(node) ?? 0)
  }
  return {
    read: (test) => {
      if (test.quantity !== 'volts') return Number.NaN
      const true1 = at(test.at) - (test.against === undefined ? 0 : at(test.against))
      const shown = true1 * (1 + 0.005 * (2 * draw() - 1)) + 0.02 * (2 * draw() - 1)
      return Math.round(shown * 100) / 100
    },
  }
}
