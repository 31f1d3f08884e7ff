import { inverse, Matrix } from 'ml-matrix'
import { describe, expect, test } from 'vitest'
import { solveNetwork } from '../network/network.ts'
import { type Belief, believe, type Evidence, prepareSearch, readingVariance, suspects } from './belief.ts'
import { overridesOf, withTies } from './effects.ts'
import { battery, chain, open, problemOf, resistor } from './faults.testing.ts'
import { expectedBits, nextTest, standing } from './nextTest.ts'
import { believeWithPairs, withPairs } from './pairs.ts'
import { singleFaults } from './parts.ts'
import { partTolerances } from './tolerances.ts'

const reading = (testPoint: string, volts: number): Evidence => ({ kind: 'reading', testPoint, volts })

describe('published examples', () => {
  // de Kleer and Williams, Artificial Intelligence 32 (1987), 97: the four minimal diagnoses of the polybox, each part
  // failing once in a hundred; their gains computed from the diagnoses: X 0.99993, Y 0.0808, Z 0.0454 bit.
  test('polybox: where to measure first, and how much it tells', () => {
    const predicted: Record<string, [number, number[]]> = {
      A1: [0.495, [6, 6, 6]],
      M1: [0.495, [4, 6, 6]],
      'A2+M2': [0.005, [6, 4, 6]],
      'M2+M3': [0.005, [6, 4, 8]],
    }
    const hypotheses = Object.entries(predicted).map(([id, [weight]]) => ({ ...open(id, weight), part: id }))
    const belief: Belief = {
      problem: problemOf([], hypotheses, ['X', 'Y', 'Z']),
      hypotheses,
      branches: Object.values(predicted).map(([probability, means], hypothesis) => ({
        hypothesis,
        probability,
        mean: Float64Array.from(means),
        spread: new Float64Array(0),
        rank: 0,
        variance: new Float64Array(3),
        slips: 0,
      })),
      modelWrong: 0,
      misfit: 0,
      evidence: [],
    }
    const [x, y, z] = expectedBits(belief)
    expect(x).toBeCloseTo(0.99993, 3)
    expect(y).toBeCloseTo(0.0808, 3)
    expect(z).toBeCloseTo(0.0454, 3)
    expect(nextTest(belief)!.testPoint).toBe('X')
  })

  // Poole and Mackworth, Artificial Intelligence, 2nd ed., example 5.23 and figure 5.8: all switches up, both lights
  // dark. Minimal diagnoses {cb1}, {s1,s3}, {s1,l2}, {s2,s3}, {s2,l2}, {l1,s3}, {l1,l2}. A light is a lamp and 1 Ω behind
  // it: volts there mean that it is lit.
  test('house wiring: the seven diagnoses of two dark lights, and what is left once the breaker is cleared', () => {
    const house = [
      { ...battery, a: 'outside' },
      resistor('cb1', 'outside', 'w3', 0.01),
      resistor('s1', 'w3', 'w1', 0.01),
      resistor('s2', 'w1', 'w0', 0.01),
      resistor('l1', 'w0', 'lit1', 10),
      resistor('glow1', 'lit1', '0', 1),
      resistor('s3', 'w3', 'w4', 0.01),
      resistor('l2', 'w4', 'lit2', 10),
      resistor('glow2', 'lit2', '0', 1),
    ]
    const parts = ['cb1', 's1', 's2', 's3', 'l1', 'l2']
    const search = prepareSearch(
      problemOf(
        house,
        parts.map((part) => open(part)),
        ['lit1', 'lit2', 'w3'],
      ),
      4,
    )
    const dark = [reading('lit1', 0), reading('lit2', 0)]
    const both = believe(withPairs(search, dark), dark)
    const [first, ...others] = suspects(both).filter(({ probability }) => probability > 1e-4)
    expect(first!.part).toBe('cb1')
    const minimal = others.map(({ part }) => part).filter((part) => !part.includes('cb1'))
    expect(minimal.sort()).toEqual(['l1 + l2', 'l1 + s3', 'l2 + s1', 'l2 + s2', 's1 + s3', 's2 + s3'])
    const cleared = [...dark, reading('w3', 12.6)]
    const six = suspects(believeWithPairs(search, cleared)).slice(0, 6)
    expect(six.map(({ part }) => part).sort()).toEqual(minimal)
    for (const { probability } of six) expect(probability).toBeCloseTo(1 / 6, 1)
  })

  // Half-split: ⌈log2 n⌉ two-way tests isolate one of n equal parts (troubleshooters.com, ustep6).
  test.each([4, 8, 16])('a chain of %d equal joints: the middle first, and log2 n tests for each', (count) => {
    const names = Array.from({ length: count }, (_, i) => `j${i + 1}`)
    const search = prepareSearch(
      problemOf(
        chain(count),
        names.map((part) => open(part)),
        Array.from({ length: count }, (_, i) => `n${i + 1}`),
      ),
      2,
    )
    expect(nextTest(believe(search, []))!.testPoint).toBe(`n${count / 2}`)
    expect(nextTest(believe(search, []))!.bits).toBeCloseTo(1, 1)
    for (let faulty = 1; faulty <= count; faulty++) {
      const evidence: Evidence[] = []
      for (;;) {
        const now = standing(believe(search, evidence))
        if (now.kind !== 'searching') {
          expect(now).toMatchObject({ kind: 'found', part: `j${faulty}` })
          break
        }
        evidence.push(reading(now.next.testPoint, Number(now.next.testPoint.slice(1)) < faulty ? 12.6 : 0))
      }
      expect(evidence.length).toBe(Math.log2(count))
    }
  })
})

describe('readings that share the errors of a model', () => {
  // Joint Gaussian conditioning in one piece, C (C + R)⁻¹, by ml-matrix 6.15.1, against one reading after another.
  test('two readings of a drooping car foretell the third as the conditional Gaussian does', () => {
    const tolerances = [
      ...['j1', 'j2', 'j3'].map((element) => ({ element, field: 'ohm', factor: 30 })),
      { element: 'load', field: 'ohm', relative: 0.1 },
    ]
    const sound = { ...open('j1'), effects: [] }
    const problem = problemOf(chain(3), [sound], ['n1', 'n2', 'n3'], { tolerances, modelWrong: 0 })
    const search = prepareSearch(problem)
    const { mean, spread, rank } = search.forecasts[0]!
    const a = new Matrix(3, rank)
    for (let t = 0; t < 3; t++) for (let k = 0; k < rank; k++) a.set(t, k, spread[t * rank + k]!)
    const c = a.mmul(a.transpose())
    const seen = [mean[0]! - 0.03, mean[1]! - 0.02]
    const s = c.subMatrix(0, 1, 0, 1)
    // One after the other, the meter's error is taken at the voltage then expected.
    const gain = c.get(1, 0) / (c.get(0, 0) + readingVariance(problem.meter, mean[0]!))
    s.set(0, 0, s.get(0, 0) + readingVariance(problem.meter, mean[0]!))
    s.set(1, 1, s.get(1, 1) + readingVariance(problem.meter, mean[1]! + gain * (seen[0]! - mean[0]!)))
    const weights = c.subMatrix(2, 2, 0, 1).mmul(inverse(s))
    const [branch] = believe(search, [reading('n1', seen[0]!), reading('n2', seen[1]!)]).branches
    expect(branch!.mean[2]).toBeCloseTo(mean[2]! - 0.03 * weights.get(0, 0) - 0.02 * weights.get(0, 1), 9)
    const left = c.get(2, 2) - weights.mmul(c.subMatrix(0, 1, 2, 2)).get(0, 0)
    expect(branch!.variance[2]).toBeCloseTo(left, 9)
    expect(left).toBeLessThan(0.8 * c.get(2, 2))
  })
})

describe('what the search says and does not say', () => {
  test('two joints with no test point between them cannot be told apart, and it says which', () => {
    const search = prepareSearch(
      problemOf(
        chain(3),
        ['j1', 'j2', 'j3'].map((part) => open(part)),
        ['n1', 'n3'],
      ),
      2,
    )
    const now = standing(believe(search, [reading('n1', 12.6), reading('n3', 0)]))
    expect(now.kind).toBe('cannot-tell')
    expect(now.kind === 'cannot-tell' && now.parts.map(({ part }) => part).sort()).toEqual(['j2', 'j3'])
  })

  // 12.6 V · 6/(6 + 0.03 + 0.01) = 12.52 V healthy; a load a tenth heavier and joints twice as bad give 12.45 V.
  test('a heavier load and tired but sound joints convict nobody', () => {
    const hypotheses = ['j1', 'j2', 'j3'].flatMap((part) => [
      open(part),
      { ...open(part), id: `${part}:0.1`, mode: '0.1 Ω', effects: [{ kind: 'ohm', element: part, ohm: 0.1 } as const] },
    ])
    const tolerances = [
      ...['j1', 'j2', 'j3'].map((element) => ({ element, field: 'ohm', factor: 3 })),
      { element: 'load', field: 'ohm', relative: 0.1 },
    ]
    const search = prepareSearch(problemOf(chain(3), hypotheses, ['n1', 'n2', 'n3'], { tolerances }))
    const belief = believe(search, [reading('n1', 12.52), reading('n2', 12.48), reading('n3', 12.43)])
    expect(suspects(belief)[0]!.probability).toBeLessThan(0.9)
    // The same three readings, each believed on its own with no tolerance of the model, would have convicted.
    const strict = prepareSearch(
      problemOf(chain(3), hypotheses, ['n1', 'n2', 'n3'], { meter: { relative: 0, absolute: 0.002, step: 0.001 } }),
    )
    expect(
      standing(believe(strict, [reading('n1', 12.559), reading('n2', 12.353), reading('n3', 12.333)])),
    ).toMatchObject({
      kind: 'found',
      part: 'j2',
    })
  })

  test('readings that no single fault explains: pairs are taken in, and the right one is found', () => {
    // Two loads from one feed, each with its own joint: both dead, the feed alive.
    const elements = [
      battery,
      resistor('feed', 'n0', 'bus', 0.01),
      resistor('j1', 'bus', 'a', 0.01),
      resistor('j2', 'bus', 'b', 0.01),
      resistor('j3', 'bus', 'c', 0.01),
      ...['a', 'b', 'c'].map((node) => resistor(`load-${node}`, node, '0', 6)),
    ]
    const search = prepareSearch(
      problemOf(
        elements,
        ['feed', 'j1', 'j2', 'j3'].map((part) => open(part)),
        ['bus', 'a', 'b', 'c'],
      ),
      2,
    )
    const evidence = [reading('a', 0), reading('b', 0), reading('c', 12.55), reading('bus', 12.55)]
    expect(standing(believe(search, evidence)).kind).toBe('misfit')
    expect(standing(believeWithPairs(search, evidence))).toMatchObject({ kind: 'found', part: 'j1 + j2' })
  })

  test('a joint that comes and goes is blamed when the node behind it is alive at one reading and the load dead', () => {
    const parts = singleFaults([
      { kind: 'connector', id: 'plug', element: 'j2' },
      { kind: 'connector', id: 'inline', element: 'j3' },
    ])
    const tolerances = partTolerances(
      [
        { kind: 'connector', id: 'plug', element: 'j2' },
        { kind: 'load', id: 'heater', element: 'load', a: 'n4', b: '0' },
        { kind: 'battery', id: 'battery', element: 'bat' },
        { kind: 'wire', id: 'lead', element: 'j1' },
      ],
      chain(4),
    )
    expect(tolerances.map(({ element, field }) => `${element} ${field}`)).toEqual([
      'j2 ohm',
      'load ohm',
      'bat internalResistance',
      'bat emf',
      'j1 ohm',
    ])
    const search = prepareSearch(
      problemOf(chain(4), parts, ['n1', 'n2', 'n3', 'n4'], { modelWrong: 1e-4, tolerances }),
      4,
    )
    const belief = believe(search, [reading('n2', 0), reading('n3', 12.56), reading('n1', 12.58), reading('n4', 12.5)])
    const top = [...belief.branches].sort((p, q) => q.probability - p.probability)[0]!
    expect(belief.hypotheses[top.hypothesis]!.id).toBe('plug:comes and goes')
  })

  test('a remark shifts the odds by its ratio, and can be taken back', () => {
    const search = prepareSearch(
      problemOf(
        chain(2),
        ['j1', 'j2'].map((part) => open(part)),
        ['n1'],
      ),
      2,
    )
    const remark: Evidence = { kind: 'remark', says: 'j1 was warm to the hand', ratios: { j1: 4 } }
    const odds = (evidence: Evidence[]): number => {
      const list = new Map(suspects(believe(search, evidence)).map(({ part, probability }) => [part, probability]))
      return list.get('j1')! / list.get('j2')!
    }
    expect(odds([])).toBeCloseTo(1, 9)
    expect(odds([remark])).toBeCloseTo(4, 9)
  })

  test('the better test behind an access waits for the nearly as good one that costs nothing to reach', () => {
    const joints = Array.from({ length: 8 }, (_, i) => open(`j${i + 1}`))
    const hidden = { access: 'under the dash', accessMinutes: 60 }
    const points = [{ node: 'n4', ...hidden }, { node: 'n5', ...hidden }, { node: 'n3' }]
    const search = prepareSearch(problemOf(chain(8), joints, points), 2)
    expect(nextTest(believe(search, []))).toMatchObject({ testPoint: 'n3', minutes: 1 })
    const next = nextTest(believe(search, [reading('n3', 12.5)]))!
    expect(next).toMatchObject({ minutes: 61 })
    expect([next.testPoint, ...next.together].sort()).toEqual(['n4', 'n5'])
    // Once the dash is out, its other points cost a minute.
    const opened = nextTest(believe(search, [reading('n3', 12.5), reading('n5', 0)]))
    expect(opened).toMatchObject({ testPoint: 'n4', minutes: 1 })
  })

  test('a fuse that a chafed wire blows leaves everything behind it at 0 V, one fuse at a time', () => {
    const elements = [
      battery,
      resistor('f', 'n0', 'n1', 0.005),
      resistor('w', 'n1', 'n2', 0.03),
      resistor('load', 'n2', 'body', 6),
      resistor('strap', 'body', '0', 0.001),
    ]
    const hypotheses = [
      {
        ...open('w'),
        id: 'w:chafed',
        mode: 'chafed',
        effects: [{ kind: 'chafed', element: 'w', to: 'body', ohm: 0.01 } as const],
      },
      open('f'),
    ]
    const fuses = [{ element: 'f', rating: 15 }]
    const search = prepareSearch(problemOf(elements, hypotheses, ['n0', 'n1', 'n2'], { fuses }), 2)
    expect([...search.forecasts[0]!.mean].map((volts) => Math.round(volts * 100) / 100)).toEqual([12.6, 0, 0])
    // Without fuses the short stands: the star of two half wires and the short, put in node by node, reads the same.
    const unfused = prepareSearch(problemOf(elements, hypotheses, ['n0', 'n1', 'n2'], {}), 0)
    const star = solveNetwork({
      reference: '0',
      elements: [
        ...elements.filter(({ id }) => id !== 'w'),
        resistor('w1', 'n1', 'm', 0.015),
        resistor('w2', 'm', 'n2', 0.015),
        resistor('short', 'm', 'body', 0.01),
      ],
    })
    ;['n0', 'n1', 'n2'].forEach((node, t) => {
      expect(unfused.forecasts[0]!.mean[t]).toBeCloseTo(star.voltages.get(node)!, 9)
    })
  })

  test('a wire chafed on the very node it ends at is half shorted out', () => {
    const elements = [battery, resistor('w', 'n0', 'body', 0.4), resistor('strap', 'body', '0', 1)]
    const effect = { kind: 'chafed', element: 'w', to: 'body', ohm: 0.01 } as const
    const network = withTies({ reference: '0', elements }, [effect])
    expect(network.elements.length).toBe(3)
    const { set } = overridesOf([effect], new Map(elements.map((element) => [element.id, element])))
    expect(set!.w!.ohm).toBeCloseTo(0.2 + 1 / (1 / 0.2 + 1 / 0.01), 12)
  })

  test('what cannot be searched is refused, all at once, and so is a reading that is none', () => {
    const bad = [
      open('nix'),
      { ...open('j1'), weight: 0 },
      { ...open('j1') },
      { ...open('bat'), effects: [{ kind: 'chafed', element: 'bat', to: 'nowhere', ohm: 0 } as const] },
    ]
    expect(() =>
      prepareSearch(
        problemOf(chain(2), bad, ['n1', 'n9'], {
          sure: 1,
          tolerances: [{ element: 'load', field: 'ohm', relative: 0.9 }],
        }),
      ),
    ).toThrowError(
      expect.objectContaining({
        problems: [
          expect.objectContaining({ says: 'nix:open concerns nix, which is not in the network.' }),
          expect.objectContaining({ says: 'The weight of j1:open is 0; it must be a number above 0.' }),
          expect.objectContaining({ says: 'Two hypotheses are called j1:open.' }),
          expect.objectContaining({ says: 'bat:open leaves 0 Ω; it must be a number above 0.' }),
          expect.objectContaining({ says: 'bat:open touches nowhere, which is no node of the network.' }),
          expect.objectContaining({ says: 'bat:open has bat chafed, which is a battery, not a wire.' }),
          expect.objectContaining({ says: 'Test point n9 is no node of the network.' }),
          expect.objectContaining({ says: 'The tolerance of ohm of load is out of range.' }),
          expect.objectContaining({ says: 'To be sure at 1 makes no sense here.' }),
        ],
      }),
    )
    const search = prepareSearch(problemOf(chain(2), [open('j1'), open('j2')], ['n1']), 2)
    expect(() => believe(search, [reading('n9', 1)])).toThrowError('1 V at n9 is no reading at a test point')
    expect(() => believe(search, [reading('n1', Number.NaN)])).toThrowError('NaN V at n1')
  })
})
