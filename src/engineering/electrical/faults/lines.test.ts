import { describe, expect, test } from 'vitest'
import { faultSession } from './lines.ts'

/** A lamp behind a fuse, a relay and a few joints; its coil behind a joint of its own. */
const network = {
  format: 'car-dc-network/1',
  id: 'lamp-by-relay',
  reference: 'gnd',
  chassis: 'body',
  nodes: ['gnd', 'body', 'post', 'f', 'c', 'd', 'r', 's', 'p', 'e'],
  elements: [
    { id: 'bat', type: 'battery', a: 'post', b: 'gnd', emf_V: 12.6, internal_ohm: 0.01 },
    { id: 'strap', type: 'earth_strap', a: 'body', b: 'gnd', ohm: 0.001 },
    { id: 'fuse', type: 'fuse', a: 'post', b: 'f', rating_A: 15, cold_ohm: 0.005 },
    { id: 'coil-joint', type: 'joint', kind: 'connector', a: 'f', b: 'c', ohm: 0.005 },
    { id: 'coil-wire', type: 'wire', a: 'c', b: 'd', length_m: 2, area_mm2: 0.5, temp_C: 20 },
    { id: 'coil', type: 'load_resistance', a: 'd', b: 'body', ohm: 85 },
    {
      id: 'contact',
      type: 'switch',
      a: 'f',
      b: 'r',
      state: 'open',
      closed_ohm: 0.01,
      operated_by: { coil: 'coil', pull_in_V: 7, drop_out_V: 3 },
    },
    { id: 'feed', type: 'wire', a: 'r', b: 's', length_m: 3, area_mm2: 1.5, temp_C: 20 },
    { id: 'holder', type: 'joint', kind: 'bulb_holder', a: 's', b: 'p', ohm: 0.01 },
    { id: 'lamp', type: 'lamp', a: 'p', b: 'e', rated_V: 12, rated_W: 55, exponent: 0.55, cold_ohm: 0.25 },
    { id: 'earth', type: 'joint', kind: 'exposed', a: 'e', b: 'body', ohm: 0.005 },
  ],
}
const hypotheses = [
  { id: 'h1', element: 'holder', mode: 'open', weight: 4 / 3 },
  { id: 'h2', element: 'earth', mode: 'open', weight: 2 },
  { id: 'h3', element: 'coil-joint', mode: 'open', weight: 1 },
  { id: 'h4', element: 'feed', mode: 'open', weight: 0.15 },
  { id: 'h5', element: 'feed', mode: 'short', weight: 0.15 },
  { id: 'h6', element: 'lamp', mode: 'open', weight: 1 },
  { id: 'h7', element: 'holder', mode: 50, weight: 4 / 3 },
]
const start = {
  type: 'start',
  scenario: 's1',
  complaint: { item: 'lamp', kind: 'dead' },
  network,
  test_points: ['f', 'd', 'r', 's', 'p', 'e'],
  short_ohm: 0.01,
  fuse_blows_at: 1.35,
  hypotheses,
}
/** Readings of each fault by hand: 12.6 V where it is fed, 0 where not; 50 Ω leaves the lamp (cold, 0.25 Ω) 0.06 V. */
const CARS: Record<string, Record<string, number>> = {
  holder: { f: 12.59, d: 12.57, r: 12.59, s: 12.58, p: 0, e: 0 },
  earth: { f: 12.58, d: 12.58, r: 12.59, s: 12.58, p: 12.58, e: 12.59 },
  'coil-joint': { f: 12.6, d: 0.01, r: 0, s: 0, p: -0.01, e: 0 },
  feed: { f: 0, d: 0, r: 0, s: 0, p: 0, e: 0 },
  lamp: { f: 12.6, d: 12.57, r: 12.59, s: 12.58, p: 12.6, e: 0 },
}

describe('the fault-search protocol', () => {
  test.each(Object.keys(CARS))('a dead lamp for the sake of %s is found, step by step', (faulty) => {
    const session = faultSession()
    let answer = session(start)!
    expect(Object.keys(answer.posterior)).toEqual(hypotheses.map(({ id }) => id))
    for (let readings = 0; answer.next !== null; readings++) {
      expect(readings).toBeLessThan(6)
      answer = session({ type: 'reading', test_point: answer.next, volts: CARS[faulty]![answer.next] })!
    }
    const guilty = hypotheses.filter(({ element }) => element === faulty)
    expect(guilty.reduce((sum, { id }) => sum + answer.posterior[id]!, 0)).toBeGreaterThan(0.9)
  })

  test('before any reading the posterior is the prior, weights given whole or shared alike', () => {
    const prior = faultSession()(start)!.posterior
    expect(prior.h1! / prior.h2!).toBeCloseTo(2 / 3, 6)
    // Bulb holder 4 in each of its two modes is the whole, to be shared: 2 each, against 4 for the earth's one.
    const whole = hypotheses.map((entry) => ({
      ...entry,
      weight: { holder: 4, earth: 4, 'coil-joint': 2, feed: 0.3, lamp: 1 }[entry.element]!,
    }))
    const shared = faultSession()({ ...start, hypotheses: whole })!.posterior
    expect((shared.h1! + shared.h7!) / shared.h2!).toBeCloseTo(1, 6)
  })

  test('the same lines get the same answers', () => {
    const lines = [start, { type: 'reading', test_point: 's', volts: 12.5 }]
    const [one, two] = [faultSession(), faultSession()].map((session) => lines.map((line) => session(line)))
    expect(one).toEqual(two)
  })

  test('stop has no answer; a start after it begins anew', () => {
    const session = faultSession()
    const first = session(start)
    session({ type: 'reading', test_point: 'r', volts: 12.59 })
    expect(session({ type: 'stop' })).toBeUndefined()
    expect(session(start)).toEqual(first)
  })

  test.each([
    [{ type: 'reading', test_point: 'f', volts: 1 }, 'A reading came before any start.'],
    [{ type: 'nix' }, 'A line of type nix is not known.'],
    [{ ...start, hypotheses: [] }, 'There are no hypotheses.'],
    [{ ...start, hypotheses: [{ ...hypotheses[0], mode: 'bent' }] }, 'Hypothesis 1 is not'],
    [
      { ...start, hypotheses: [{ ...hypotheses[0], element: 'nix' }] },
      'Hypothesis h1 names nix, which is not in the network.',
    ],
    [{ ...start, test_points: ['nix'] }, 'Test point nix is not a node of the network.'],
    [{ ...start, short_ohm: 0 }, 'short_ohm is 0; it must be a number above 0.'],
    [{ ...start, network: { format: 'other' } }, 'This is not a network of format car-dc-network/1.'],
  ])('refuses %#', (line, sentence) => {
    expect(() => faultSession()(line)).toThrowError(sentence)
  })

  test('a reading that is no number, or of a point that is none, leaves the search as it stood', () => {
    const session = faultSession()
    const before = session(start)!
    expect(() => session({ type: 'reading', test_point: 'nix', volts: 1 })).toThrowError(
      'nix is not one of the test points.',
    )
    expect(() => session({ type: 'reading', test_point: 'f' })).toThrowError('volts')
    const after = session({ type: 'reading', test_point: before.next, volts: 0 })!
    expect(after.next).not.toBe(before.next)
  })
})
