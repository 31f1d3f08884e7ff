import fc from 'fast-check'
import { EigenvalueDecomposition, Matrix, solve } from 'ml-matrix'
import { describe, expect, test } from 'vitest'
import { minimumDegree } from './minimumDegree.ts'
import {
  analyseSymmetric,
  factorise,
  packFactors,
  type SymmetricPattern,
  solveFactorised,
  solvePacked,
} from './sparseLdl.ts'

interface System {
  count: number
  edges: number[]
  weights: number[]
  shunts: number[]
}

/** Random weighted graphs; weights may be negative where `signed`, which makes the matrix indefinite. */
const systems = (signed: boolean): fc.Arbitrary<System> =>
  fc.integer({ min: 1, max: 25 }).chain((count) =>
    fc
      .array(fc.tuple(fc.nat(count - 1), fc.nat(count - 1), fc.integer({ min: signed ? -900 : 1, max: 999 })), {
        maxLength: 60,
      })
      .chain((triples) =>
        fc.array(fc.integer({ min: 1, max: 100 }), { minLength: count, maxLength: count }).map((shunts) => {
          const kept = triples.filter(([i, j]) => i !== j)
          return {
            count,
            edges: kept.flatMap((triple) => triple.slice(0, 2)),
            weights: kept.map(([, , w]) => w / 100 + 0.001),
            shunts: shunts.map((s) => s / 10),
          }
        }),
      ),
  )

const dense = ({ count, edges, weights, shunts }: System): Matrix => {
  const m = Matrix.zeros(count, count)
  shunts.forEach((s, i) => {
    m.set(i, i, s)
  })
  weights.forEach((w, e) => {
    const i = edges[2 * e]!
    const j = edges[2 * e + 1]!
    m.set(i, j, m.get(i, j) - w)
    m.set(j, i, m.get(j, i) - w)
    m.set(i, i, m.get(i, i) + w)
    m.set(j, j, m.get(j, j) + w)
  })
  return m
}

const sparse = ({ count, edges, weights, shunts }: System) => {
  const pattern = analyseSymmetric(count, edges)
  const values = new Float64Array(pattern.size)
  shunts.forEach((s, i) => {
    values[pattern.place[i]!]! += s
  })
  weights.forEach((w, e) => {
    values[pattern.edgePlace[e]!]! -= w
    values[pattern.place[edges[2 * e]!]!]! += w
    values[pattern.place[edges[2 * e + 1]!]!]! += w
  })
  return { pattern, values }
}

/** By packed factors, back in the rows' own order. */
const solutionPacked = (pattern: SymmetricPattern, factors: Float64Array, b: Float64Array): number[] => {
  const x = new Float64Array(pattern.count + 1)
  b.forEach((value, i) => {
    x[pattern.place[i]!] = value
  })
  solvePacked(packFactors(pattern, factors), x)
  expect(x[pattern.count]).toBe(0)
  return Array.from(b, (_, i) => x[pattern.place[i]!]!)
}

describe('sparse LDLᵀ', () => {
  test('agrees with the dense solver of ml-matrix 6.15.1 on random graph matrices (rel 1e-9)', () => {
    fc.assert(
      fc.property(systems(false), (system) => {
        const { pattern, values } = sparse(system)
        expect(factorise(pattern, values)).toBe(0)
        const b = Float64Array.from({ length: system.count }, (_, i) => Math.sin(1 + i))
        const x = new Float64Array(system.count)
        solveFactorised(pattern, values, b, x, new Float64Array(system.count))
        const reference = solve(dense(system), Matrix.columnVector([...b])).to1DArray()
        const packed = solutionPacked(pattern, values, b)
        reference.forEach((value, i) => {
          expect(Math.abs(packed[i]! - value)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(value)))
          expect(Math.abs(x[i]! - value)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(value)))
        })
      }),
      { numRuns: 200 },
    )
  })

  test('counts the negative eigenvalues of an indefinite matrix (Sylvester; eigenvalues by ml-matrix)', () => {
    fc.assert(
      fc.property(systems(true), (system) => {
        const eigenvalues = new EigenvalueDecomposition(dense(system), { assumeSymmetric: true }).realEigenvalues
        fc.pre(eigenvalues.every((value) => Math.abs(value) > 1e-6))
        const { pattern, values } = sparse(system)
        expect(factorise(pattern, values)).toBe(eigenvalues.filter((value) => value < 0).length)
      }),
      { numRuns: 200 },
    )
  })

  test('a tree and a star need no fill at all', () => {
    const tree = Array.from({ length: 99 }, (_, i) => [i + 1, i >> 1]).flat()
    const star = Array.from({ length: 99 }, (_, i) => [0, i + 1]).flat()
    for (const edges of [tree, star]) expect(analyseSymmetric(100, edges).row.length).toBe(99)
  })

  test('the order takes every row once and puts the hub of a star among the last two', () => {
    const order = minimumDegree(50, Array.from({ length: 49 }, (_, i) => [0, i + 1]).flat())
    expect([...order].sort((p, q) => p - q)).toEqual(Array.from({ length: 50 }, (_, i) => i))
    expect(order.indexOf(0)).toBeGreaterThanOrEqual(48)
  })

  test('on a 20 × 20 grid the fill stays well below that of banded elimination', () => {
    const edges: number[] = []
    for (let r = 0; r < 20; r++)
      for (let c = 0; c < 20; c++) {
        if (c < 19) edges.push(20 * r + c, 20 * r + c + 1)
        if (r < 19) edges.push(20 * r + c, 20 * r + c + 20)
      }
    // Banded elimination of a k × k grid fills the band: about k per row (k³ = 8000 entries in all).
    expect(analyseSymmetric(400, edges).row.length).toBeLessThan(8000 / 2.2)
  })

  test('one pattern serves many matrices, zero entries included', () => {
    const pattern = analyseSymmetric(3, [0, 1, 1, 2, 0, 2])
    for (const open of [0, 1, 2]) {
      const system: System = { count: 3, edges: [0, 1, 1, 2, 0, 2], weights: [1, 2, 3], shunts: [1, 1, 1] }
      system.weights[open] = 0
      const values = new Float64Array(pattern.size)
      for (let i = 0; i < 3; i++) values[pattern.place[i]!] = dense(system).get(i, i)
      system.weights.forEach((w, e) => {
        values[pattern.edgePlace[e]!] = -w
      })
      expect(factorise(pattern, values)).toBe(0)
      const x = new Float64Array(3)
      solveFactorised(pattern, values, Float64Array.of(1, 2, 3), x, new Float64Array(3))
      for (const solution of [[...x], solutionPacked(pattern, values, Float64Array.of(1, 2, 3))]) {
        const back = dense(system).mmul(Matrix.columnVector(solution)).to1DArray()
        back.forEach((value, i) => {
          expect(value).toBeCloseTo(i + 1, 12)
        })
      }
    }
  })
})
