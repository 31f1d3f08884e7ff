import { describe, expect, test } from 'vitest'
import { type NetworkElement, solveNetwork } from './network.ts'

const r = (id: string, a: string, b: string, ohm: number): NetworkElement => ({ type: 'resistor', id, a, b, ohm })
/** An ideal current source for test networks: a battery whose resistance dwarfs everything (1e9 Ω, rel 1e-7). */
const source = (id: string, from: string, to: string, amperes: number): NetworkElement => ({
  type: 'battery',
  id,
  a: to,
  b: from,
  emf: amperes * 1e9,
  internalResistance: 1e9,
})
const volts = (elements: NetworkElement[]): ((node: string) => number) => {
  const solution = solveNetwork({ reference: '0', elements })
  expect(solution.converged).toBe(true)
  return (node) => solution.voltages.get(node)!
}

describe('published networks', () => {
  test('VanderLeest, calvin.edu, node-voltage example 3 (2003): 48.625, 33, 48.75 V; 5 digits', () => {
    const elements = [
      r('R5', '1', '2', 5),
      r('R1', '1', '3', 1),
      r('R3', '2', '0', 3),
      r('R2', '2', '3', 2),
      source('I3', '0', '1', 3),
      source('I8', '0', '3', 8),
    ]
    const v = volts(elements)
    expect(v('1')).toBeCloseTo(48.625, 4)
    expect(v('2')).toBeCloseTo(33, 4)
    expect(v('3')).toBeCloseTo(48.75, 4)
    expect(solveNetwork({ reference: '0', elements }).currents.get('R5')).toBeCloseTo(3.125, 4)
  })

  test('studyres.com/doc/5804919, problem 3.4: 6 and 2 V, 2 A', () => {
    const elements: NetworkElement[] = [
      { type: 'battery', id: 'E', a: '1', b: '0', emf: 16, internalResistance: 1 },
      r('A', '1', '0', 1),
      r('B', '1', '2', 1),
      r('C', '2', '0', 1),
      r('D', '2', '0', 1),
    ]
    const v = volts(elements)
    expect(v('1')).toBeCloseTo(6, 9)
    expect(v('2')).toBeCloseTo(2, 9)
    expect(solveNetwork({ reference: '0', elements }).currents.get('C')).toBeCloseTo(2, 9)
    expect(v('1') - v('2')).toBeCloseTo(4, 9)
  })

  test('Alexander and Sadiku, Fundamentals of Electric Circuits, example 3.1 (answer from memory): 13.333, 20 V', () => {
    const v = volts([
      r('A', '1', '0', 2),
      r('B', '1', '2', 4),
      r('C', '2', '0', 6),
      source('I10', '0', '2', 10),
      source('I5', '2', '1', 5),
    ])
    expect(v('1')).toBeCloseTo(13.3333, 4)
    expect(v('2')).toBeCloseTo(20, 4)
  })

  test('"Sadiku solved problems" page: two nodes, 20 and 10 V', () => {
    const v = volts([
      r('A', '1', '0', 5),
      r('B', '1', '0', 10),
      r('C', '2', '0', 10),
      r('D', '2', '0', 5),
      source('I4', '0', '1', 4),
      source('I2', '2', '1', 2),
      source('I5', '0', '2', 5),
    ])
    expect(v('1')).toBeCloseTo(20, 4)
    expect(v('2')).toBeCloseTo(10, 4)
  })

  // schoolphysics.co.uk, "Resistance networks".
  test.each([
    ['edge', 1, 7 / 12],
    ['face diagonal', 3, 3 / 4],
    ['body diagonal', 7, 5 / 6],
  ])('cube of twelve resistors, across the %s', (_, far, expected) => {
    const elements: NetworkElement[] = []
    for (let p = 0; p < 8; p++)
      for (const bit of [1, 2, 4]) if ((p & bit) === 0) elements.push(r(`${p}-${p | bit}`, `${p}`, `${p | bit}`, 1))
    elements.push({ type: 'battery', id: 'E', a: `${far}`, b: '0', emf: 1, internalResistance: 1 })
    const v = volts(elements)(`${far}`)
    // Divider with the battery's 1 Ω: V = R/(R + 1).
    expect(v / (1 - v)).toBeCloseTo(expected, 9)
  })

  const ladder = (rails: boolean): number => {
    const elements: NetworkElement[] = []
    for (let i = 0; i < 40; i++) {
      elements.push(r(`s${i}`, `t${i}`, `t${i + 1}`, 1))
      const low = rails ? `b${i + 1}` : '0'
      if (rails) elements.push(r(`u${i}`, i === 0 ? '0' : `b${i}`, low, 1))
      elements.push(r(`p${i}`, `t${i + 1}`, low, 1))
    }
    elements.push({ type: 'battery', id: 'E', a: 't0', b: '0', emf: 1, internalResistance: 1 })
    const v = volts(elements)('t0')
    return v / (1 - v)
  }
  test('infinite chain, r in both rails and rungs: 1 + √3 (schoolphysics.co.uk); 40 cells are infinite to 1e-9', () => {
    expect(ladder(true)).toBeCloseTo(1 + Math.sqrt(3), 9)
  })
  test('infinite ladder, r in series and shunt: (1 + √5)/2 (textbook fact, from memory)', () => {
    expect(ladder(false)).toBeCloseTo((1 + Math.sqrt(5)) / 2, 9)
  })
})
