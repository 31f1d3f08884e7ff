/**
 * Effectiveness by number of transfer units, and back. Kays & London; Incropera & DeWitt, table 11.3 [from memory].
 * Crossflow with both streams unmixed: Mason's series, exact. The customary fit 1 − exp(N^0.22/Cr·(exp(−Cr·N^0.78) − 1))
 * is up to 3.3 % low (N 0.5, Cr 1: below even parallel flow).
 */
export const ARRANGEMENTS = [
  'crossflow, both unmixed',
  'crossflow, lesser mixed',
  'crossflow, greater mixed',
  'counterflow',
  'parallel flow',
] as const
export type Arrangement = (typeof ARRANGEMENTS)[number]

/** Σ over k of [1 − e^{−a}·Σ_{m≤k} a^m/m!]·[1 − e^{−b}·Σ_{m≤k} b^m/m!], until a term no longer counts. */
const masonSum = (a: number, b: number): number => {
  let [termA, termB] = [Math.exp(-a), Math.exp(-b)]
  let [restA, restB] = [1 - termA, 1 - termB]
  let sum = restA * restB
  for (let k = 1; k < 400; k += 1) {
    termA *= a / k
    termB *= b / k
    restA -= termA
    restB -= termB
    const more = restA * restB
    if (!(more > 1e-15 * sum)) break
    sum += more
  }
  return sum
}

/** `ntu` ≥ 0; `ratio` is lesser over greater heat capacity rate, 0 … 1. */
export const effectivenessOf = (arrangement: Arrangement, ntu: number, ratio: number): number => {
  if (ntu === 0) return 0
  if (ratio < 1e-9) return 1 - Math.exp(-ntu)
  switch (arrangement) {
    case 'counterflow': {
      if (Math.abs(1 - ratio) < 1e-9) return ntu / (1 + ntu)
      const decay = Math.exp(-ntu * (1 - ratio))
      return (1 - decay) / (1 - ratio * decay)
    }
    case 'parallel flow':
      return (1 - Math.exp(-ntu * (1 + ratio))) / (1 + ratio)
    case 'crossflow, greater mixed':
      return (1 - Math.exp(-ratio * (1 - Math.exp(-ntu)))) / ratio
    case 'crossflow, lesser mixed':
      return 1 - Math.exp(-(1 - Math.exp(-ratio * ntu)) / ratio)
    case 'crossflow, both unmixed':
      return masonSum(ntu, ratio * ntu) / (ratio * ntu)
  }
}

/** Beyond it more surface gains nothing that can be measured. */
export const MOST_UNITS = 50

/** Units that give this effectiveness; NaN where none do. */
export const unitsOf = (arrangement: Arrangement, effectiveness: number, ratio: number): number => {
  let [low, high] = [0, MOST_UNITS]
  if (!(effectiveness < effectivenessOf(arrangement, high, ratio))) return Number.NaN
  for (let turn = 0; turn < 60; turn += 1) {
    const middle = (low + high) / 2
    if (effectivenessOf(arrangement, middle, ratio) < effectiveness) low = middle
    else high = middle
  }
  return (low + high) / 2
}
