/**
 * Fill-reducing order for the elimination of a symmetric sparse matrix: at each step the row with fewest neighbours
 * in the remaining graph goes next (ties: lowest number, so that the same graph always gives the same order).
 *   count  rows                            1         0 … some thousands
 *   edges  pairs (row, column), flattened            repeats and loops (i, i) are ignored
 * Returns `order`: order[k] is the row eliminated at step k.
 * Limits: the graph is held as sets, so a dense matrix of many thousand rows would be slow; networks are sparse.
 * Source: Tinney and Walker, Proc. IEEE 55 (1967), 1801, scheme 2 (from memory).
 */
export const minimumDegree = (count: number, edges: ArrayLike<number>): Int32Array => {
  const neighbours: Set<number>[] = Array.from({ length: count }, () => new Set<number>())
  for (let e = 0; e + 1 < edges.length; e += 2) {
    const i = edges[e]!
    const j = edges[e + 1]!
    if (i === j) continue
    neighbours[i]!.add(j)
    neighbours[j]!.add(i)
  }
  const order = new Int32Array(count)
  // One bucket per degree; entries go stale when a degree changes and are skipped when met.
  const buckets: number[][] = Array.from({ length: count + 1 }, () => [])
  for (let i = count - 1; i >= 0; i--) buckets[neighbours[i]!.size]!.push(i)
  const done = new Uint8Array(count)
  let lowest = 0
  for (let step = 0; step < count; ) {
    while (buckets[lowest]!.length === 0) lowest++
    const pivot = buckets[lowest]!.pop()!
    if (done[pivot] === 1 || neighbours[pivot]!.size !== lowest) continue
    done[pivot] = 1
    order[step++] = pivot
    const ring = [...neighbours[pivot]!]
    for (const i of ring) neighbours[i]!.delete(pivot)
    for (let p = 0; p < ring.length; p++)
      for (let q = p + 1; q < ring.length; q++) {
        neighbours[ring[p]!]!.add(ring[q]!)
        neighbours[ring[q]!]!.add(ring[p]!)
      }
    for (const i of ring) {
      const degree = neighbours[i]!.size
      buckets[degree]!.push(i)
      if (degree < lowest) lowest = degree
    }
  }
  return order
}
