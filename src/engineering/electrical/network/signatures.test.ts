import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Network, type NetworkElement, type Overrides, prepare, solveNetwork } from './network.ts'
import { resistiveNetworks } from './random.testing.ts'

const nodesOf = (network: Network): string[] => [...new Set(network.elements.flatMap(({ a, b }) => [a, b]))]

/** Every node of every fault as `solve` gives it, floating nodes included. Returns how many were solved in full. */
const agree = (network: Network, faults: readonly Overrides[], close: number): number => {
  const prepared = prepare(network)
  const nodes = nodesOf(network)
  const { volts, full } = prepared.signatures(faults, nodes)
  faults.forEach((fault, i) => {
    const { voltages } = prepared.solve(fault)
    nodes.forEach((node, k) => {
      const expected = voltages.get(node) ?? Number.NaN
      const found = volts[i]![k]!
      if (Number.isNaN(expected) || Number.isNaN(found))
        expect(found, `${node} ${JSON.stringify(fault)}`).toBe(expected)
      else expect(Math.abs(found - expected), `${node} ${JSON.stringify(fault)}`).toBeLessThanOrEqual(close)
    })
  })
  return full
}

/**
 * Whether every node keeps a way to the reference other than by alternators without this element: alternators alone
 * deliver nothing over a range of volts, so that what hangs on them has no one voltage to agree on.
 */
const determined = (network: Network, without: string): boolean => {
  const ways = network.elements.filter(({ id, type }) => id !== without && type !== 'alternator')
  const reached = new Set([network.reference])
  for (let before = 0; before < reached.size; ) {
    before = reached.size
    for (const { a, b } of ways)
      if (reached.has(a) || reached.has(b)) {
        reached.add(a)
        reached.add(b)
      }
  }
  return network.elements.every(({ id, a, b }) => id === without || (reached.has(a) && reached.has(b)))
}

const r = (id: string, a: string, b: string, ohm: number): NetworkElement => ({ type: 'resistor', id, a, b, ohm })
const battery: NetworkElement = { type: 'battery', id: 'bat', a: 'p', b: '0', emf: 12.6, internalResistance: 0.01 }

describe('signatures by low-rank re-solution', () => {
  test('on random networks with every law they are the full solutions, elements opened, weakened or shorted', () => {
    fc.assert(
      fc.property(resistiveNetworks({ largest: 30, allLaws: true }), (network) => {
        const faults = network.elements.flatMap((element): Overrides[] => [
          ...(determined(network, element.id) ? [{ remove: [element.id] }] : []),
          ...(element.type === 'resistor'
            ? [0.005, 1, 50].map((ohm) => ({ set: { [element.id]: { ohm } } }))
            : element.type === 'lamp'
              ? [{ set: { [element.id]: { ratedPower: element.ratedPower * 3 } } }]
              : []),
        ])
        // A node that hangs on the stray load of a fan at rest alone (400 Ω) is known that much less well.
        agree(network, faults, 1e-6)
      }),
      { numRuns: 120, endOnFailure: true },
    )
  })

  // Sherman and Morrison by hand: 12.6 V through 10 mΩ and 1 Ω onto 2 Ω; the 1 Ω becomes 3 Ω, then goes.
  test('a divider by hand', () => {
    const network = { reference: '0', elements: [battery, r('w', 'p', 'q', 1), r('load', 'q', '0', 2)] }
    const { volts, full } = prepare(network).signatures([{ set: { w: { ohm: 3 } } }, { remove: ['w'] }], ['q', '0'])
    expect(volts[0]![0]).toBeCloseTo((12.6 * 2) / 5.01, 10)
    expect([...volts[1]!].map(Math.abs)).toEqual([expect.closeTo(0, 10), 0])
    expect(full).toBe(0)
  })

  test('what an opened joint leaves floating is NaN, by way of a full solution', () => {
    const network = { reference: '0', elements: [battery, r('w', 'p', 'q', 1), r('x', 'q', 'y', 1)] }
    const { volts, full } = prepare(network).signatures([{ remove: ['w'] }], ['p', 'q', 'y'])
    expect([...volts[0]!]).toEqual([12.6, Number.NaN, Number.NaN])
    expect(full).toBe(1)
  })

  test('relays follow their coils: a joint that starves a coil, opens it, or opens what the contact feeds', () => {
    const relay = (k: number): NetworkElement[] => [
      r(`joint${k}`, 'p', `c${k}`, 0.01),
      r(`coil${k}`, `c${k}`, '0', 85),
      {
        type: 'relayContact',
        id: `k${k}`,
        a: 'p',
        b: `x${k}`,
        operatedBy: `coil${k}`,
        pullIn: 7.5,
        dropOut: 3,
        ohm: 0.005,
        normally: k === 2 ? 'closed' : 'open',
      },
      r(`feed${k}`, `x${k}`, `y${k}`, 0.02),
      {
        type: 'lamp',
        id: `lamp${k}`,
        a: `y${k}`,
        b: '0',
        ratedVoltage: 12,
        ratedPower: 21,
        exponent: 0.55,
        coldResistance: 0.6,
      },
    ]
    const elements = [battery, ...[0, 1, 2, 3].flatMap(relay)]
    const faults = elements.flatMap(({ id, type }): Overrides[] => [
      { remove: [id] },
      ...(type === 'resistor' ? [1, 60, 200].map((ohm) => ({ set: { [id]: { ohm } } })) : []),
    ])
    agree({ reference: '0', elements }, faults, 1e-8)
    const { volts } = prepare({ reference: '0', elements }).signatures(
      [{ set: { joint0: { ohm: 200 } } }],
      ['y0', 'y1'],
    )
    expect(volts[0]![0]).toBeCloseTo(0, 9)
    expect(volts[0]![1]).toBeGreaterThan(12)
  })

  test('a load that collapses behind a bad joint, and an alternator driven into its limit, are as in full', () => {
    const elements: NetworkElement[] = [
      { ...battery, acceptance: 5 } as NetworkElement,
      { type: 'alternator', id: 'alt', a: 'p', b: '0', setpoint: 14.3, internalResistance: 0.006, limit: 60 },
      r('joint', 'p', 'q', 0.01),
      { type: 'constantPower', id: 'pump', a: 'q', b: '0', power: 150, minimumVoltage: 7 },
      { type: 'switch', id: 'short', a: 'q', b: '0', closed: false, ohm: 0.05 },
      { type: 'switch', id: 'heater', a: 'p', b: '0', closed: false, ohm: 0.18 },
    ]
    const network = { reference: '0', elements }
    agree(
      network,
      [
        { set: { joint: { ohm: 2 } } },
        { set: { joint: { ohm: 0.2 } } },
        { set: { short: { closed: true } } },
        { set: { heater: { closed: true } } },
        { remove: ['joint'] },
        { remove: ['bat'] },
      ],
      1e-8,
    )
  })

  test('a fault is the same whatever was asked before it, and an unknown node is refused', () => {
    const network = { reference: '0', elements: [battery, r('w', 'p', 'q', 1), r('load', 'q', '0', 2)] }
    const prepared = prepare(network)
    const faults = [{ set: { w: { ohm: 3 } } }, { remove: ['load'] }]
    const first = prepared.signatures(faults, ['q']).volts.map((row) => row[0])
    prepared.solve({ set: { w: { ohm: 7 } } })
    expect(prepared.signatures([...faults].reverse(), ['q']).volts.map((row) => row[0])).toEqual(first.reverse())
    expect(prepared.solve().voltages.get('q')).toBe(solveNetwork(network).voltages.get('q'))
    expect(() => prepared.signatures(faults, ['nix'])).toThrowError('There is no node nix to observe.')
  })
})
