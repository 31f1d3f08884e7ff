import { describe, expect, test } from 'vitest'
import { Refusal } from '../../../units/problem.ts'
import { parseBareNetwork, readBareNetwork } from './bareNetworkFile.ts'
import { bareToNetwork, solveBareNetwork } from './bareSolution.ts'

const file = () => ({
  format: 'car-dc-network/1',
  id: 'small-car',
  title: 'A small car',
  about: 'invented',
  reference: 'gnd',
  chassis: 'body',
  nodes: ['gnd', 'body', 'bus', 'fused', 'sw', 'lamp', 'coil', 'pump', 'dead'],
  elements: [
    { id: 'bat', type: 'battery', a: 'bus', b: 'gnd', emf_V: 12.6, internal_ohm: 0.012 },
    { id: 'alt', type: 'alternator', a: 'bus', b: 'gnd', setpoint_V: 14.2, internal_ohm: 0.02, limit_A: 70 },
    { id: 'strap', type: 'earth_strap', a: 'body', b: 'gnd', ohm: 0.002 },
    { id: 'f1', type: 'fuse', a: 'bus', b: 'fused', rating_A: 15, cold_ohm: 0.0045 },
    { id: 'w1', type: 'wire', a: 'fused', b: 'sw', length_m: 3, area_mm2: 1.5, temp_C: 60 },
    { id: 's1', type: 'switch', a: 'sw', b: 'lamp', state: 'closed', closed_ohm: 0.01 },
    { id: 'l1', type: 'lamp', a: 'lamp', b: 'body', rated_V: 12, rated_W: 55, exponent: 0.55, cold_ohm: 0.25 },
    { id: 'j1', type: 'joint', kind: 'crimp', a: 'sw', b: 'coil', ohm: 0.002 },
    { id: 'k1', type: 'load_resistance', a: 'coil', b: 'body', ohm: 85 },
    {
      id: 'k1c',
      type: 'switch',
      a: 'fused',
      b: 'pump',
      state: 'open',
      closed_ohm: 0.01,
      operated_by: { coil: 'k1', pull_in_V: 7, drop_out_V: 3 },
    },
    { id: 'p1', type: 'load_power', a: 'pump', b: 'body', power_W: 110, v_min_V: 8 },
    { id: 'c1', type: 'load_current', a: 'coil', b: 'body', current_A: 0.4, v_min_V: 6 },
    { id: 's2', type: 'switch', a: 'bus', b: 'dead', state: 'open', closed_ohm: 0.01 },
  ],
  test_points: ['bus', 'lamp', 'pump'],
  derived: [
    { id: 'lamp_V', plus: 'lamp', minus: 'body' },
    { id: 'dead_V', plus: 'dead', minus: 'body' },
  ],
  variants: [
    { id: 'pump-on', set: { k1c: { state: 'closed' } } },
    { id: 'pump-starved', set: { k1c: { state: 'closed', closed_ohm: 2 } } },
    { id: 'no-lamp', remove: ['l1'] },
  ],
})
// biome-ignore lint/suspicious/noExplicitAny: a test spoils the file in ways its type forbids.
const spoilt = (spoil: (f: any) => void): string[] => {
  const copy = file()
  spoil(copy)
  try {
    parseBareNetwork(copy)
  } catch (error) {
    if (error instanceof Refusal) return error.problems.map(({ path, says }) => `${path}: ${says}`)
    throw error
  }
  return []
}

describe('car-dc-network/1', () => {
  test('the solution has exactly the keys of the format, a floating node is null', () => {
    const solution = solveBareNetwork(parseBareNetwork(file()))
    expect(Object.keys(solution)).toEqual(['id', 'variant', 'voltages', 'currents', 'derived', 'collapse', 'notes'])
    expect(Object.keys(solution.voltages)).toEqual(file().nodes)
    expect(solution.voltages.dead).toBeNull()
    expect(solution.derived.dead_V).toBeNull()
    expect(solution.voltages.gnd).toBe(0)
    expect(solution.collapse).toBe(false)
    expect(JSON.parse(JSON.stringify(solution))).toEqual(solution)
  })

  test('wire resistance by IEC 60028 as the format states it: 3 m of 1.5 mm² at 60 °C is 39.90 mΩ', () => {
    const wire = bareToNetwork(parseBareNetwork(file())).elements.find(({ id }) => id === 'w1')!
    // 1.7241e-8 · (1 + 0.00393 · 40) · 3 / 1.5e-6, by hand.
    expect(wire.type === 'resistor' && wire.ohm).toBeCloseTo(0.03990257, 7)
  })

  test('variants change fields or take elements away', () => {
    const network = parseBareNetwork(file())
    expect(solveBareNetwork(network).currents.p1).toBeCloseTo(0, 9)
    const on = solveBareNetwork(network, 'pump-on')
    expect(on.currents.p1! * (on.voltages.pump! - on.voltages.body!)).toBeCloseTo(110, 6)
    const starved = solveBareNetwork(network, 'pump-starved')
    expect(starved.collapse).toBe(true)
    expect(starved.notes.join(' ')).toMatch(/p1 cannot draw its power here/)
    const dark = solveBareNetwork(network, 'no-lamp')
    expect(dark.currents.l1).toBeNull()
    expect(dark.voltages.lamp).toBeCloseTo(dark.voltages.sw!, 9)
    expect(() => solveBareNetwork(network, 'nix')).toThrowError(/has no variant nix\. Choose one of: base, pump-on/)
  })

  test('in a plain solve a contact stands as given; in a fault search it follows its coil', () => {
    const network = parseBareNetwork(file())
    expect(solveBareNetwork(network, 'base', 'as given').currents.k1c).toBe(0)
    expect(solveBareNetwork(network, 'base', 'follow coils').currents.k1c).toBeGreaterThan(5)
  })

  test.each([
    [(f) => f.elements.push({ ...f.elements[3] }), 'elements/f1: Two elements are called f1.'],
    [(f) => (f.elements[3].rating_A = 0), 'elements/f1/rating_A: rating_A of fuse f1 is 0; it must be above 0.'],
    [(f) => (f.elements[2].ohm = -1), 'elements/strap/ohm: ohm of earth_strap strap is -1; it must be above 0.'],
    [(f) => (f.elements[4].length_m = 0), 'elements/w1/length_m: length_m of wire w1 is 0; it must be above 0.'],
    [(f) => delete f.elements[4].temp_C, 'elements/w1/temp_C: wire w1 has no temp_C.'],
    [(f) => (f.elements[6].exponent = 1), 'elements/l1/exponent: exponent of lamp l1 is 1; it must be below 1.'],
    [(f) => (f.elements[0].emf_V = '12'), 'elements/bat/emf_V: emf_V of bat is not a number.'],
    [
      (f) => (f.elements[5].a = 'nowhere'),
      'elements/s1/a: End a of s1 names node nowhere, which is not in the list of nodes.',
    ],
    [(f) => f.nodes.push('lonely'), 'nodes/lonely: No element uses node lonely.'],
    [(f) => f.nodes.push('bus'), 'nodes/bus: Node bus is listed twice.'],
    [(f) => (f.elements[5].state = 'on'), 'elements/s1/state: Switch s1 is neither "open" nor "closed".'],
    [
      (f) => (f.elements[7].kind = 'glue'),
      'elements/j1/kind: Joint j1 is of kind glue, which the format does not have.',
    ],
    [(f) => (f.elements[8].type = 'coil'), 'elements/k1/type: k1 is of type coil, which the format does not have.'],
    [
      (f) => (f.elements[9].operated_by.coil = 'k9'),
      'elements/k1c/operated_by: k1c is operated by k9, which is not in the network.',
    ],
    [
      (f) => (f.elements[9].operated_by.drop_out_V = 9),
      'elements/k1c/operated_by: Switch k1c pulls in at 7 V and drops out at 9 V.',
    ],
    [(f) => (f.reference = 'x'), 'reference: The reference names node x, which is not in the list of nodes.'],
    [
      (f) => (f.derived[0].plus = 'x'),
      'derived/lamp_V/plus: plus of lamp_V names node x, which is not in the list of nodes.',
    ],
    [
      (f) => f.variants[2].remove.push('x'),
      'variants/no-lamp/remove: Variant no-lamp removes x, which is not in the network.',
    ],
    [
      (f) => (f.variants[1].set.k1c.closed_ohm = -2),
      'variants/pump-starved/set/k1c: In variant pump-starved: closed_ohm of switch k1c is -2; it must be above 0.',
    ],
    [(f) => (f.test_points = 'bus'), 'test_points: test_points is not a list.'],
    // biome-ignore lint/suspicious/noExplicitAny: as above.
  ] as [(f: any) => void, string][])('refuses: %#', (spoil, sentence) => {
    expect(spoilt(spoil)).toContain(sentence)
  })

  test('all problems come at once, and text that is not JSON is said to be so', () => {
    const many = spoilt((f) => {
      f.elements[2].ohm = 0
      f.elements[3].rating_A = 0
      f.nodes.push('lonely')
    })
    expect(many.length).toBe(3)
    expect(() => readBareNetwork('{ "format": ')).toThrowError(/The network file is not JSON/)
    expect(() => readBareNetwork('{ "format": "other" }')).toThrowError(/not a network of format car-dc-network\/1/)
    expect(readBareNetwork(JSON.stringify(file())).id).toBe('small-car')
  })
})
