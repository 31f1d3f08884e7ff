/**
 * Where the data can fix a dead time: voltages that were driven, as knots; between them the dead time runs straight over
 * 1/U, which follows a coil's current closer than a line over U (a choice of form, no published source).
 */
/** A voltage counts as logged when a steady window lies within this of it, V. */
export const NEAR_VOLTAGE = 0.3
const GAP = 0.35
const WIDEST = 0.8

/** Rising; at the middle of each group of voltages, so that a knot is told by its own windows. Never empty unless there are no voltages. */
export function voltageKnots(voltages: readonly number[]): number[] {
  const sorted = [...voltages].sort((a, b) => a - b)
  const groups: number[][] = []
  for (const each of sorted) {
    const last = groups.at(-1)
    if (last && each - last.at(-1)! <= GAP) last.push(each)
    else groups.push([each])
  }
  const pieces = groups.flatMap((group) => {
    const width = group.at(-1)! - group[0]!
    if (width <= WIDEST) return [group]
    const count = Math.ceil(width / WIDEST)
    return Array.from({ length: count }, (_, i) =>
      group.filter((each) => {
        const part = Math.min(count - 1, Math.floor(((each - group[0]!) / width) * count))
        return part === i
      }),
    )
  })
  const kept = pieces.filter((group) => group.length > 0)
  const mean = (group: readonly number[]): number => group.reduce((sum, each) => sum + each, 0) / group.length
  // A voltage driven but once gets its knot too, and so has no say in the others. Two groups that touch need no two knots.
  return kept.map(mean).filter((at, i, all) => i === 0 || at - all[i - 1]! > GAP)
}

/** Shares of the two knots that a voltage lies between; beyond the ends the last stretch runs on. */
export function shares(
  knots: readonly number[],
  voltage: number,
): { readonly index: number; readonly value: number }[] {
  if (knots.length === 1) return [{ index: 0, value: 1 }]
  let right = knots.findIndex((each) => each >= voltage)
  if (right < 0) right = knots.length - 1
  if (right === 0) right = 1
  const [a, b, u] = [1 / knots[right - 1]!, 1 / knots[right]!, 1 / voltage]
  const part = (u - a) / (b - a)
  return [
    { index: right - 1, value: 1 - part },
    { index: right, value: part },
  ]
}
