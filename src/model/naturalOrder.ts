/** Order in which a person lists names: `W-9` before `W-10`. Independent of locale, so files are the same everywhere. */
export const naturalOrder = (a: string, b: string): number => {
  const left = a.match(/\d+|\D+/g) ?? []
  const right = b.match(/\d+|\D+/g) ?? []
  for (let index = 0; index < Math.min(left.length, right.length); index++) {
    const order = chunkOrder(left[index]!, right[index]!)
    if (order !== 0) return order
  }
  // Equal but for leading zeros or length: code units decide, so that the order is total.
  return left.length - right.length || (a < b ? -1 : a > b ? 1 : 0)
}

const chunkOrder = (a: string, b: string): number => {
  if (/^\d/.test(a) && /^\d/.test(b)) {
    // As text, not as numbers: an id may hold more digits than a double can tell apart.
    const x = a.replace(/^0+/, '')
    const y = b.replace(/^0+/, '')
    return x.length - y.length || (x < y ? -1 : x > y ? 1 : 0)
  }
  return a < b ? -1 : a > b ? 1 : 0
}
