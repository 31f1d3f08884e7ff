import { describe, expect, test } from 'vitest'
import { type NetworkElement, prepare } from './network.ts'

/** A car of 300 nodes: feeds from a bus, each with fuse, wires, joint, load and its own earth path. */
const largeCar = (): NetworkElement[] => {
  const elements: NetworkElement[] = [
    { type: 'battery', id: 'bat', a: 'bus', b: 'gnd', emf: 12.7, internalResistance: 0.008, acceptance: 4 },
    { type: 'alternator', id: 'alt', a: 'b+', b: 'engine', setpoint: 14.3, internalResistance: 0.006, limit: 110 },
    { type: 'resistor', id: 'b-cable', a: 'b+', b: 'bus', ohm: 0.002 },
    { type: 'resistor', id: 'strap', a: 'engine', b: 'gnd', ohm: 0.0005 },
    { type: 'resistor', id: 'body', a: 'chassis', b: 'gnd', ohm: 0.0006 },
  ]
  for (let i = 0; i < 49; i++) {
    const n = (part: string): string => `${part}${i}`
    const r = (part: string, a: string, b: string, ohm: number): NetworkElement => ({
      type: 'resistor',
      id: n(part),
      a,
      b,
      ohm,
    })
    elements.push(
      r('fuse', 'bus', n('f'), 0.003 + i * 1e-5),
      r('wire', n('f'), n('w'), 0.02 + i * 1e-3),
      r('joint', n('w'), n('j'), 0.002),
      r('feed', n('j'), n('p'), 0.01),
      r('return', n('e'), n('g'), 0.01),
      r('stud', n('g'), i % 3 === 0 ? 'engine' : 'chassis', 0.001),
      r('tie', n('g'), `g${(i + 1) % 49}`, 0.02),
    )
    const ends = { id: n('load'), a: n('p'), b: n('e') }
    elements.push(
      i % 5 === 0
        ? { ...ends, type: 'constantPower', power: 20, minimumVoltage: 7 }
        : i % 5 === 1
          ? { ...ends, type: 'constantCurrent', current: 0.8, minimumVoltage: 7 }
          : i % 5 === 2
            ? { ...ends, type: 'resistor', ohm: 12 }
            : { ...ends, type: 'lamp', ratedVoltage: 12, ratedPower: 10, exponent: 0.55, coldResistance: 1.2 },
      { type: 'switch', id: n('short'), a: n('w'), b: 'chassis', closed: false, ohm: 0.01 },
    )
  }
  return elements
}

describe('a prepared network', () => {
  const network = { reference: 'gnd', elements: largeCar() }

  test('solves do not depend on what was solved before', () => {
    const prepared = prepare(network)
    const first = prepared.solve()
    prepared.solve({ remove: ['alt'] })
    prepared.solve({ set: { short3: { closed: true } } })
    prepared.solve({ set: { load5: { power: 5000 } } })
    const last = prepared.solve()
    for (const [node, volts] of first.voltages) expect(last.voltages.get(node)).toBeCloseTo(volts!, 9)
  })

  test('every single open wire gives what the altered network gives on its own, within 1 µV', () => {
    const prepared = prepare(network)
    for (const { id, type } of network.elements.filter((_, i) => i % 4 === 0)) {
      if (type === 'switch') continue
      const warm = prepared.solve({ remove: [id] })
      const cold = prepare({ reference: 'gnd', elements: network.elements.filter((e) => e.id !== id) }).solve()
      for (const [node, volts] of cold.voltages) {
        const own = warm.voltages.get(node)
        if (volts === null) expect(own).toBeNull()
        else expect(Math.abs(own! - volts), `${node} without ${id}`).toBeLessThan(1e-6)
      }
    }
  })

  test('a chafed wire is a switch closed by override; its fuse then carries over 100 A', () => {
    const short = prepare(network).solve({ set: { short8: { closed: true } } })
    expect(short.currents.get('fuse8')).toBeGreaterThan(100)
  })

  test('wrong overrides are refused, all at once', () => {
    const prepared = prepare(network)
    const set = { nix: { ohm: 1 }, wire1: { ohm: 0 }, wire2: { a: 'bus' }, wire3: { volts: 1 } }
    expect(() => prepared.solve({ set })).toThrowError(
      expect.objectContaining({
        problems: [
          expect.objectContaining({ says: 'There is no element nix to change or remove.' }),
          expect.objectContaining({ says: 'ohm of resistor wire1 is 0; it must be a number above 0.' }),
          expect.objectContaining({ says: 'a of resistor wire2 cannot be changed.' }),
          expect.objectContaining({ says: 'volts of resistor wire3 cannot be changed.' }),
        ],
      }),
    )
    expect(prepared.solve().converged).toBe(true)
  })
})
