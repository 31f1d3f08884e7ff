import type { NetworkElement } from '../network/network.ts'
import type { FaultProblem, Hypothesis, TestPoint } from './hypothesis.ts'

export const resistor = (id: string, a: string, b: string, ohm: number): NetworkElement => ({
  type: 'resistor',
  id,
  a,
  b,
  ohm,
})

export const battery: NetworkElement = {
  type: 'battery',
  id: 'bat',
  a: 'n0',
  b: '0',
  emf: 12.6,
  internalResistance: 0.01,
}

export const open = (part: string, weight = 1): Hypothesis => ({
  id: `${part}:open`,
  part,
  mode: 'open',
  weight,
  effects: [{ kind: 'open', element: part }],
})

/** A problem for a test: a good meter, no tolerances, sure at 0.9, unless said otherwise. */
export const problemOf = (
  elements: readonly NetworkElement[],
  hypotheses: readonly Hypothesis[],
  testPoints: readonly (string | TestPoint)[],
  more: Partial<FaultProblem> = {},
): FaultProblem => ({
  network: { reference: '0', elements },
  hypotheses,
  testPoints: testPoints.map((point) => (typeof point === 'string' ? { node: point } : point)),
  tolerances: [],
  fuses: [],
  fuseBlowsAt: 1.35,
  meter: { relative: 0.005, absolute: 0.02, step: 0.01 },
  sure: 0.9,
  modelWrong: 1e-3,
  ...more,
})

/** Joints j1…jn in a row from the battery to a load, a node n1…nn behind each. */
export const chain = (joints: number): NetworkElement[] => [
  battery,
  ...Array.from({ length: joints }, (_, i) => resistor(`j${i + 1}`, `n${i}`, `n${i + 1}`, 0.01)),
  resistor('load', `n${joints}`, '0', 6),
]
