import fc from 'fast-check'
import { Matrix, solve as solveDense } from 'ml-matrix'
import { describe, expect, test } from 'vitest'
import { type Network, type NetworkElement, prepare, solveNetwork } from './network.ts'
import { resistiveNetworks } from './random.testing.ts'

const everyLaw = resistiveNetworks({ largest: 30, allLaws: true })

/**
 * What the rounding of node voltages alone does to the currents of a node (A): a voltage is known to some 2^-52 of
 * itself, and the stiffest element turns that into current, however little current flows.
 */
const roundingOf = ({ elements }: Network, voltages: ReadonlyMap<string, number | null>): number => {
  const siemens = elements.map((e) =>
    'ohm' in e ? 1 / e.ohm : 'internalResistance' in e ? 1 / e.internalResistance : 0,
  )
  const volts = [...voltages.values()].map((value) => Math.abs(value ?? 0))
  return 128 * 2 ** -52 * Math.max(...siemens, 1) * Math.max(...volts, 1)
}

describe('laws that hold for every network', () => {
  test('currents at each node sum to 0 within 1e-9 of what meets there, and the powers of all elements to 0', () => {
    fc.assert(
      fc.property(everyLaw, (network) => {
        const { voltages, currents, converged } = solveNetwork(network)
        expect(converged).toBe(true)
        const sum = new Map<string, number>()
        const size = new Map<string, number>()
        let watts = 0
        let wattsSize = 0
        for (const { id, a, b } of network.elements) {
          const amperes = currents.get(id)!
          for (const [node, sign] of [
            [a, 1],
            [b, -1],
          ] as const) {
            sum.set(node, (sum.get(node) ?? 0) + sign * amperes)
            size.set(node, (size.get(node) ?? 0) + Math.abs(amperes))
          }
          const own = (voltages.get(a)! - voltages.get(b)!) * amperes
          watts += own
          wattsSize += Math.abs(own)
        }
        const rounding = roundingOf(network, voltages)
        for (const [node, value] of sum) expect(Math.abs(value)).toBeLessThanOrEqual(1e-9 * size.get(node)! + rounding)
        expect(Math.abs(watts)).toBeLessThanOrEqual(1e-9 * wattsSize + 1e-10)
      }),
      { numRuns: 400 },
    )
  })

  test('linear networks: twice the source, twice every voltage; a reversed element carries the reversed current', () => {
    fc.assert(
      fc.property(resistiveNetworks({ largest: 20 }), (network) => {
        const linear = network.elements.filter(({ type }) => type === 'resistor' || type === 'battery')
        const scaled = linear.map((e) => (e.type === 'battery' ? { ...e, emf: 2 * e.emf } : { ...e, a: e.b, b: e.a }))
        const once = solveNetwork({ reference: '0', elements: linear })
        const twice = solveNetwork({ reference: '0', elements: scaled })
        for (const [node, volts] of once.voltages) expect(twice.voltages.get(node)).toBeCloseTo(2 * volts!, 8)
        for (const e of linear)
          if (e.type === 'resistor') {
            const now = once.currents.get(e.id)!
            expect(Math.abs(twice.currents.get(e.id)! + 2 * now)).toBeLessThanOrEqual(1e-8 * Math.max(1, Math.abs(now)))
          }
      }),
      { numRuns: 100 },
    )
  })

  test('the order of elements and the start do not matter where the solution is unique', () => {
    fc.assert(
      fc.property(everyLaw, fc.double({ min: -40, max: 40, noNaN: true }), (network, volts) => {
        const elements = network.elements.filter(({ type }) => type !== 'constantPower')
        const start = new Map(elements.map(({ a }) => [a, volts]))
        const one = solveNetwork({ reference: '0', elements })
        const other = solveNetwork({ reference: '0', elements: [...elements].reverse() }, { start })
        for (const [node, value] of one.voltages)
          expect(Math.abs(other.voltages.get(node)! - value!)).toBeLessThanOrEqual(1e-6)
      }),
      { numRuns: 200 },
    )
  })

  test('an override gives what the altered network gives on its own', () => {
    fc.assert(
      fc.property(everyLaw, fc.nat(), fc.constantFrom(0.005, 1, 50), (network, pick, ohm) => {
        const prepared = prepare(network)
        const index = pick % network.elements.length
        const element = network.elements[index]!
        const cut = element.type !== 'resistor'
        const others = network.elements.filter((_, i) => i !== index)
        const fresh: NetworkElement[] = cut ? others : [...others, { ...element, ohm }]
        const warm = prepared.solve(cut ? { remove: [element.id] } : { set: { [element.id]: { ohm } } })
        const cold = solveNetwork({ reference: '0', elements: fresh })
        expect(warm.collapse.map((c) => c.element).sort()).toEqual(cold.collapse.map((c) => c.element).sort())
        for (const [node, value] of cold.voltages) {
          const own = warm.voltages.get(node)
          if (value === null || own === null || own === undefined) expect(own).toBe(value)
          else expect(Math.abs(own - value), node).toBeLessThanOrEqual(1e-6)
        }
      }),
      { numRuns: 400 },
    )
  })
})

describe('the upper branch, against a second method', () => {
  /**
   * Loads as constant currents P/V, repeated from the unloaded voltages: in a resistive network this falls steadily to
   * the highest solution if there is one (monotone iteration; dense solutions by ml-matrix 6.15.1).
   */
  const highest = (ohms: number[], watts: number[]): number[] | undefined => {
    const n = ohms.length
    const g = Matrix.zeros(n, n)
    const source = new Array<number>(n).fill(0)
    ohms.forEach((ohm, i) => {
      g.set(i, i, g.get(i, i) + 1 / ohm)
      if (i === 0) source[0] = 12.6 / ohm
      else {
        g.set(i - 1, i - 1, g.get(i - 1, i - 1) + 1 / ohm)
        g.set(i, i - 1, -1 / ohm)
        g.set(i - 1, i, -1 / ohm)
      }
    })
    let v = new Array<number>(n).fill(12.6)
    for (let k = 0; k < 20_000; k++) {
      const next = solveDense(g, Matrix.columnVector(source.map((s, i) => s - watts[i]! / v[i]!))).to1DArray()
      if (next.some((value) => value < 1)) return undefined
      const moved = Math.max(...next.map((value, i) => Math.abs(value - v[i]!)))
      v = next
      if (moved < 1e-12) return v
    }
    return undefined
  }

  test('feeders with a constant-power load at every node', () => {
    let stood = 0
    let fell = 0
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 5, max: 400 }), fc.integer({ min: 1, max: 60 })), {
          minLength: 1,
          maxLength: 6,
        }),
        (sections) => {
          const ohms = sections.map(([milliohm]) => milliohm / 1000)
          const watts = sections.map(([, w]) => w)
          const elements: NetworkElement[] = sections.flatMap(([, power], i): NetworkElement[] => [
            i === 0
              ? { type: 'battery', id: 'bat', a: 'n0', b: '0', emf: 12.6, internalResistance: ohms[0]! }
              : { type: 'resistor', id: `w${i}`, a: `n${i - 1}`, b: `n${i}`, ohm: ohms[i]! },
            { type: 'constantPower', id: `l${i}`, a: `n${i}`, b: '0', power, minimumVoltage: 1 },
          ])
          const network: Network = { reference: '0', elements }
          const ours = solveNetwork(network)
          const expected = highest(ohms, watts)
          expect(ours.converged).toBe(true)
          expect(ours.collapse.length > 0).toBe(expected === undefined)
          expected?.forEach((value, i) => {
            expect(Math.abs(ours.voltages.get(`n${i}`)! - value)).toBeLessThanOrEqual(1e-6)
          })
          if (expected) stood++
          else fell++
        },
      ),
      { numRuns: 300 },
    )
    expect(Math.min(stood, fell)).toBeGreaterThan(20)
  })
})
