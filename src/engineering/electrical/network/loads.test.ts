import { describe, expect, test } from 'vitest'
import { type NetworkElement, type NetworkSolution, solveNetwork } from './network.ts'

const r = (id: string, a: string, b: string, ohm: number): NetworkElement => ({ type: 'resistor', id, a, b, ohm })
const solve = (...elements: NetworkElement[]): NetworkSolution => {
  const solution = solveNetwork({ reference: '0', elements })
  expect(solution.converged).toBe(true)
  return solution
}
const battery = (emf: number, internalResistance: number, acceptance?: number): NetworkElement => ({
  type: 'battery',
  id: 'bat',
  a: 'p',
  b: '0',
  emf,
  internalResistance,
  ...(acceptance === undefined ? {} : { acceptance }),
})
const alternator: NetworkElement = {
  type: 'alternator',
  id: 'alt',
  a: 'p',
  b: '0',
  setpoint: 14.4,
  internalResistance: 0.01,
  limit: 60,
}
const power = (watts: number, minimumVoltage: number, a = 'p'): NetworkElement => ({
  type: 'constantPower',
  id: 'pump',
  a,
  b: '0',
  power: watts,
  minimumVoltage,
})

describe('a running car', () => {
  const load: NetworkElement = { type: 'constantCurrent', id: 'load', a: 'p', b: '0', current: 40, minimumVoltage: 6 }

  test('with a stated acceptance of 3 A the bus stands at set-point less 43 A · 10 mΩ', () => {
    const { voltages, currents } = solve(alternator, load, battery(12.8, 0.008, 3))
    expect(voltages.get('p')).toBeCloseTo(14.4 - 0.43, 9)
    expect(currents.get('bat')).toBeCloseTo(3, 9)
    expect(currents.get('alt')).toBeCloseTo(-43, 9)
  })

  test('without one, the rested battery pulls the same bus down to 12.96 V at 60 A: why acceptance must be stated', () => {
    // 60 A − 40 A = 20 A into the battery: 12.8 V + 20 A · 8 mΩ.
    expect(solve(alternator, load, battery(12.8, 0.008)).voltages.get('p')).toBeCloseTo(12.96, 9)
  })

  test('overloaded, the battery delivers what the alternator cannot', () => {
    const heavy: NetworkElement = { ...load, current: 75 } as NetworkElement
    const { voltages, currents } = solve(alternator, heavy, battery(12.8, 0.008, 3))
    expect(currents.get('alt')).toBeCloseTo(-60, 9)
    expect(currents.get('bat')).toBeCloseTo(-15, 9)
    expect(voltages.get('p')).toBeCloseTo(12.8 - 15 * 0.008, 9)
  })

  test('an alternator takes no current when something else holds the bus above its set-point', () => {
    const { currents } = solve(alternator, r('load', 'p', '0', 10), battery(15.5, 0.01))
    expect(currents.get('alt')).toBe(0)
  })

  test('a battery connected the wrong way round: 12.6 V over 4 Ω and 8 mΩ, negative', () => {
    expect(solve(battery(-12.6, 0.008), r('load', 'p', '0', 4)).voltages.get('p')).toBeCloseTo((-12.6 * 4) / 4.008, 9)
  })
})

describe('constant power', () => {
  // V² − E·V + P·R = 0: V = (E + √(E² − 4PR))/2; none beyond P = E²/4R. Here E = 12 V, R = 0.5 Ω: 72 W.
  test.each([1, 20, 50, 70, 71.9, 71.9999])('%d W of a possible 72: the upper root of the quadratic', (watts) => {
    const { voltages, collapse } = solve(battery(12, 0.5), power(watts, 3))
    expect(voltages.get('p')).toBeCloseTo((12 + Math.sqrt(144 - 2 * watts)) / 2, 6)
    expect(collapse).toEqual([])
  })

  test.each([72.001, 80, 500])('%d W: no solution at its power; the collapsed one is given and said to be', (watts) => {
    const { voltages, collapse, notes } = solve(battery(12, 0.5), power(watts, 3))
    // Below its minimum the load is a resistor of v²/P.
    const ohm = 9 / watts
    expect(voltages.get('p')).toBeCloseTo((12 * ohm) / (ohm + 0.5), 9)
    expect(collapse.map(({ element }) => element)).toEqual(['pump'])
    expect(notes[0]!.says).toMatch(
      /^pump cannot draw its power here: 12\.00 V without load falls to .* below its minimum\.$/,
    )
  })

  test('a load that is switched off has not collapsed', () => {
    const open: NetworkElement = { type: 'switch', id: 'sw', a: 'p', b: 'x', closed: false, ohm: 0.01 }
    const { voltages, collapse } = solve(battery(12, 0.5), open, power(50, 8, 'x'))
    expect(voltages.get('x')).toBeCloseTo(0, 12)
    expect(collapse).toEqual([])
  })

  // Two stable solutions at full power: 60 A limit at ~13.6 V, or on the battery. Raised from nothing: the upper.
  test('between alternator and battery the upper of two stable solutions is kept', () => {
    const limited: NetworkElement = { ...alternator, internalResistance: 0.001 } as NetworkElement
    const watts = 14.34 * 57
    const { voltages, currents } = solve(limited, battery(12.8, 0.001, 0), power(watts, 6))
    expect(voltages.get('p')).toBeCloseTo((14.4 + Math.sqrt(14.4 ** 2 - 4 * watts * 0.001)) / 2, 9)
    expect(currents.get('bat')).toBe(0)
    const beyond = solve(limited, battery(12.8, 0.001, 0), power(14.4 * 61, 6))
    expect(beyond.currents.get('bat')).toBeLessThan(-5)
    expect(beyond.collapse).toEqual([])
  })

  test('a second load goes down with the first only if it shares its bad joint', () => {
    const lone = solve(battery(12.6, 0.01), r('bad', 'p', 'x', 2), power(60, 6, 'x'), {
      ...power(60, 6),
      id: 'fan',
    } as NetworkElement)
    expect(lone.collapse.map(({ element }) => element)).toEqual(['pump'])
    const both = solve(battery(12.6, 0.01), r('bad', 'p', 'x', 2), power(60, 6, 'x'), {
      ...power(30, 6, 'x'),
      id: 'fan',
    } as NetworkElement)
    expect(both.collapse.map(({ element }) => element).sort()).toEqual(['fan', 'pump'])
  })
})

describe('floating nodes', () => {
  test('what an open switch cuts off is null, not 0, and is named', () => {
    const open: NetworkElement = { type: 'switch', id: 'sw', a: 'p', b: 'x', closed: false, ohm: 0.01 }
    const { voltages, islands, currents, notes } = solve(battery(12, 0.1), open, r('w', 'x', 'y', 1))
    expect([voltages.get('x'), voltages.get('y'), voltages.get('p')]).toEqual([null, null, 12])
    expect(islands).toEqual([['x', 'y']])
    expect([currents.get('sw'), currents.get('w')]).toEqual([0, 0])
    expect(notes.map(({ says }) => says)).toEqual(['x, y are tied to the reference by no conducting path.'])
  })

  test('a floating loop still carries its current', () => {
    const { currents, voltages } = solve(
      battery(12, 0.1),
      r('load', 'p', '0', 1),
      { type: 'battery', id: 'lone', a: 'u', b: 'w', emf: 6, internalResistance: 1 },
      r('ring', 'u', 'w', 2),
    )
    expect(currents.get('ring')).toBeCloseTo(2, 9)
    expect(voltages.get('u')).toBeNull()
  })

  test('behind a blocking diode a node floats; with a stated leak it does not', () => {
    const diode: NetworkElement = { type: 'diode', id: 'd', a: 'x', b: 'p', forwardVoltage: 0.7, onResistance: 0.01 }
    const blocked = solve(battery(12, 0.1), diode)
    expect(blocked.voltages.get('x')).toBeNull()
    expect(blocked.currents.get('d')).toBe(0)
    const leaking = solve(
      battery(12, 0.1),
      { ...diode, reverseLeak: 1e-6 } as NetworkElement,
      r('meter', 'x', '0', 1e7),
    )
    // 10 MΩ meter over 1 MΩ leak: 12 V · 10/11.
    expect(leaking.voltages.get('x')).toBeCloseTo((12 * 10) / 11, 6)
  })
})

describe('refusals', () => {
  test('all problems at once, each named', () => {
    const elements: NetworkElement[] = [
      { ...battery(12, 0), id: 'left' } as NetworkElement,
      { ...battery(12.2, 0), id: 'right' } as NetworkElement,
      r('w', 'p', 'x', 0),
      r('w', 'x', '0', -3),
      r('loop', 'x', 'x', 1),
      {
        type: 'relayContact',
        id: 'k',
        a: 'p',
        b: 'x',
        operatedBy: 'nothing',
        pullIn: 3,
        dropOut: 7,
        ohm: 1,
        normally: 'open',
      },
    ]
    expect(() => solveNetwork({ reference: '0', elements })).toThrowError(
      new RegExp(
        [
          'internalResistance of battery left is 0; it must be a number above 0. Enter the resistance of the real piece',
          'ohm of resistor w is 0',
          'Two elements are called w',
          'ohm of resistor w is -3; it must be a number above 0. Enter ohm of w.',
          'Both ends of loop are on node x',
          'k drops out at 7 V, above its pull-in of 3 V',
          'k is operated by nothing, which is not in the network',
          'left and right are sources without internal resistance that close a ring',
        ].join('[\\s\\S]*'),
      ),
    )
  })
})
