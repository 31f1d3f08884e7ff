import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { Refusal } from '../../../units/problem.ts'
import { parseBareNetwork } from './bareNetworkFile.ts'
import { solveBareNetwork } from './bareSolution.ts'
import { type NetworkElement, solveNetwork } from './network.ts'

type Entry = Record<string, unknown> & { id: string; a: string; b: string }

/** Both doors for one broken network: the bare file, and the solver's own elements. */
const bareFile = (elements: readonly Entry[]): unknown => ({
  format: 'car-dc-network/1',
  id: 'bad-input',
  reference: '0',
  nodes: [...new Set(elements.flatMap(({ a, b }) => [a, b]))],
  elements,
})
const says = (act: () => unknown): string[] => {
  try {
    act()
  } catch (error) {
    if (error instanceof Refusal) return error.problems.map((problem) => `${problem.says} ${problem.todo}`)
    throw error
  }
  return []
}
const atFile = (...elements: Entry[]): string[] => says(() => solveBareNetwork(parseBareNetwork(bareFile(elements))))
const atElements = (...elements: NetworkElement[]): string[] => says(() => solveNetwork({ reference: '0', elements }))

const bareLoad: Entry = { id: 'load', type: 'load_resistance', a: 'p', b: '0', ohm: 2 }
const bareBattery = (id: string, a: string, b: string, ohm = 0.01, emf = 12.6): Entry => ({
  id,
  type: 'battery',
  a,
  b,
  emf_V: emf,
  internal_ohm: ohm,
})
const r = (id: string, a: string, b: string, ohm: number): NetworkElement => ({ type: 'resistor', id, a, b, ohm })
const battery = (id: string, a: string, b: string, internalResistance = 0.01, emf = 12.6): NetworkElement => ({
  type: 'battery',
  id,
  a,
  b,
  emf,
  internalResistance,
})

describe('loops of ideal sources', () => {
  const parallel =
    /^left and right are sources without internal resistance that close a ring; how they share the current cannot be known\. Enter the internal resistance of each\.$/
  test('side by side', () => {
    const alternator: Entry = {
      id: 'right',
      type: 'alternator',
      a: 'p',
      b: '0',
      setpoint_V: 14,
      internal_ohm: 0,
      limit_A: 9,
    }
    expect(atFile(bareBattery('left', 'p', '0', 0), alternator, bareLoad)).toContainEqual(
      expect.stringMatching(parallel),
    )
    expect(
      atElements(
        battery('left', 'p', '0', 0),
        { type: 'alternator', id: 'right', a: 'p', b: '0', setpoint: 14, internalResistance: 0, limit: 9 },
        r('load', 'p', '0', 2),
      ),
    ).toContainEqual(expect.stringMatching(parallel))
  })

  test('round a ring of three', () => {
    const ring = /^one and two and three are sources without internal resistance that close a ring/
    const nodes = [
      ['one', 'p', '0'],
      ['two', 'p', 'q'],
      ['three', 'q', '0'],
    ] as const
    expect(atFile(...nodes.map(([id, a, b]) => bareBattery(id, a, b, 0)), bareLoad)).toContainEqual(
      expect.stringMatching(ring),
    )
    expect(atElements(...nodes.map(([id, a, b]) => battery(id, a, b, 0)), r('load', 'p', '0', 2))).toContainEqual(
      expect.stringMatching(ring),
    )
  })

  test('two in series close no ring: each is refused for its own 0 Ω only', () => {
    const problems = atElements(battery('one', 'p', 'q', 0), battery('two', 'q', '0', 0), r('load', 'p', '0', 2))
    expect(problems.map((text) => text.split(' is 0;')[0])).toEqual([
      'internalResistance of battery one',
      'internalResistance of battery two',
    ])
  })

  test('with real internal resistances, however unequal the voltages, they are solved: 1.4 V over 30 mΩ is 46.7 A', () => {
    const { currents } = solveNetwork({
      reference: '0',
      elements: [battery('left', 'p', '0', 0.01, 12.6), battery('right', 'p', '0', 0.02, 14), r('load', 'p', '0', 1e6)],
    })
    expect(currents.get('left')).toBeCloseTo(1.4 / 0.03, 3)
  })
})

describe('resistances that vanish', () => {
  test('a wire without length, a fuse of 0 A and a joint of 0 Ω are refused in one answer', () => {
    expect(
      atFile(
        bareBattery('bat', 'p', '0'),
        { id: 'w', type: 'wire', a: 'p', b: 'q', length_m: 0, area_mm2: 1.5, temp_C: 20 },
        { id: 'f', type: 'fuse', a: 'q', b: 'x', rating_A: 0, cold_ohm: 0.01 },
        { id: 'j', type: 'joint', a: 'x', b: '0', ohm: 0 },
      ),
    ).toEqual([
      'length_m of wire w is 0; it must be above 0. Enter length_m of w.',
      'rating_A of fuse f is 0; it must be above 0. Enter rating_A of f.',
      'ohm of joint j is 0; it must be above 0. Enter the resistance of the real piece, however small, or join the two nodes into one.',
    ])
  })

  test('a wire of a picometre is no wire either', () => {
    const wire: Entry = { id: 'w', type: 'wire', a: 'p', b: 'q', length_m: 1e-12, area_mm2: 1.5, temp_C: 20 }
    expect(atFile(bareBattery('bat', 'p', '0'), wire, { ...bareLoad, a: 'q' }).join()).toMatch(
      /^ohm of resistor w is 1\.149\d*e-14; it must be at least 1e-9 Ω to be told from none\./,
    )
  })

  // Before the least resistance was there, 1e-30 Ω in series gave 200 V from a 12.6 V battery, balanced to the last digit.
  test.each([1e-320, 1e-200, 1e-30, 1e-15, 9e-10])('%d Ω is refused rather than solved wrongly', (ohm) => {
    expect(atElements(battery('bat', 'p', '0'), r('w', 'p', 'q', ohm), r('load', 'q', '0', 2)).join()).toMatch(
      /^ohm of resistor w is \S+; it must be at least 1e-9 Ω to be told from none\. Enter the resistance of the real piece/,
    )
  })

  test.each([1e-9, 1e-6, 1, 1e6, 1e12, 1e300])('%d Ω in series is solved as the divider says', (ohm) => {
    const { voltages, converged } = solveNetwork({
      reference: '0',
      elements: [battery('bat', 'p', '0'), r('w', 'p', 'q', ohm), r('load', 'q', '0', 2)],
    })
    expect(converged).toBe(true)
    expect(voltages.get('q')).toBeCloseTo((12.6 * 2) / (ohm + 2.01), 7)
  })
})

describe('relays that hang on themselves', () => {
  const bareRelay = (coil: string): Entry => ({
    id: 'k',
    type: 'switch',
    a: 'p',
    b: 'c',
    state: 'open',
    closed_ohm: 0.01,
    operated_by: { coil, pull_in_V: 7, drop_out_V: 3 },
  })
  const contact = (normally: 'open' | 'closed', operatedBy = 'coil'): NetworkElement => ({
    type: 'relayContact',
    id: 'k',
    a: 'p',
    b: 'c',
    operatedBy,
    pullIn: 7,
    dropOut: 3,
    ohm: 0.01,
    normally,
  })
  const coil: Entry = { id: 'coil', type: 'load_resistance', a: 'c', b: '0', ohm: 85 }

  test('one that holds itself is given at rest and said to latch', () => {
    const file = solveBareNetwork(
      parseBareNetwork(bareFile([bareBattery('bat', 'p', '0'), bareRelay('coil'), coil])),
      'base',
      'follow coils',
    )
    expect(file.notes.join()).toMatch(/^Relay contact k would stay pulled in once pulled in/)
    expect(file.currents.k).toBe(0)
    const own = solveNetwork({
      reference: '0',
      elements: [battery('bat', 'p', '0'), contact('open'), r('coil', 'c', '0', 85)],
    })
    expect(own.latching).toEqual(['k'])
    expect(own.relays).toEqual([{ element: 'k', state: 'open' }])
  })

  test('with its starting button held it pulls in, and there is nothing left to say', () => {
    const button: NetworkElement = { type: 'switch', id: 'button', a: 'p', b: 'c', closed: true, ohm: 0.01 }
    const { latching, relays } = solveNetwork({
      reference: '0',
      elements: [battery('bat', 'p', '0'), contact('open'), button, r('coil', 'c', '0', 85)],
    })
    expect([latching, relays]).toEqual([[], [{ element: 'k', state: 'closed' }]])
  })

  test('one that breaks its own supply oscillates; an ordinary relay at rest is neither', () => {
    const buzzer = [battery('bat', 'p', '0'), contact('closed'), r('coil', 'c', '0', 85)]
    expect(solveNetwork({ reference: '0', elements: buzzer }).oscillating).toEqual(['k'])
    const plain = solveNetwork({
      reference: '0',
      elements: [battery('bat', 'p', '0'), contact('open'), r('lamp', 'c', '0', 5), r('coil', 'd', '0', 85)],
    })
    expect([plain.oscillating, plain.latching]).toEqual([[], []])
  })

  test('a contact entered as its own coil is refused at both doors', () => {
    expect(atFile(bareBattery('bat', 'p', '0'), bareRelay('k'), coil)).toEqual([
      'Switch k is entered as its own coil. Name the element that is its coil.',
    ])
    expect(atElements(battery('bat', 'p', '0'), contact('open', 'k'), r('coil', 'c', '0', 85))).toEqual([
      'Relay contact k is entered as its own coil. Name the element that is its coil.',
    ])
  })
})

describe('large and odd, but sound', () => {
  const solve = (elements: NetworkElement[]) => solveNetwork({ reference: '0', elements })

  // 1000 equal branches are one branch of a thousandth: 12.6 V · 0.0121/(0.0121 + 0.01).
  test('a splice of a thousand wires is solved as one wire of a thousandth', () => {
    const star = Array.from({ length: 1000 }, (_, i) => [r(`w${i}`, 'p', `x${i}`, 0.1), r(`l${i}`, `x${i}`, '0', 12)])
    const { voltages } = solve([battery('bat', 'p', '0'), ...star.flat()])
    expect(voltages.get('p')).toBeCloseTo((12.6 * 0.0121) / (0.0121 + 0.01), 9)
  })

  test('a thousand wires side by side: 1 Ω each is 1 mΩ', () => {
    const wires = Array.from({ length: 1000 }, (_, i) => r(`w${i}`, 'p', 'q', 1))
    const { voltages } = solve([battery('bat', 'p', '0'), ...wires, r('load', 'q', '0', 1)])
    expect(voltages.get('q')).toBeCloseTo(12.6 / 1.011, 9)
  })

  test('whatever positive figures are entered, the answer is a number, a floating node or a refusal', () => {
    const wild = fc.oneof(
      fc.double({ min: -12, max: 12, noNaN: true }).map((exponent) => 10 ** exponent),
      fc.constantFrom(Number.MIN_VALUE, 1e-300, 1e300, Number.MAX_VALUE),
    )
    fc.assert(
      fc.property(wild, wild, wild, wild, wild, wild, (ohm, watts, volts, cold, power, least) => {
        const elements: NetworkElement[] = [
          battery('bat', 'p', '0'),
          r('w', 'p', 'q', ohm),
          {
            type: 'lamp',
            id: 'l',
            a: 'q',
            b: '0',
            ratedVoltage: volts,
            ratedPower: watts,
            exponent: 0.55,
            coldResistance: cold,
          },
          { type: 'constantPower', id: 'pump', a: 'q', b: '0', power, minimumVoltage: least },
        ]
        let solution: ReturnType<typeof solveNetwork>
        try {
          solution = solveNetwork({ reference: '0', elements })
        } catch (error) {
          expect(error).toBeInstanceOf(Refusal)
          return
        }
        for (const value of [...solution.voltages.values(), ...solution.currents.values()])
          expect(value === null || Number.isFinite(value)).toBe(true)
        if (!solution.converged) expect(solution.notes[0]!.code).toBe('not-converged')
      }),
      { numRuns: 500, endOnFailure: true },
    )
  })
})
