/**
 * Chance that can be repeated: the same seed gives the same numbers on every machine.
 * Generator: mulberry32, a public-domain 32-bit mixer by T. Ettinger [from memory].
 */
export type Random = () => number

export const seeded = (seed: number): Random => {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
}

/** Standard normal by the polar method (Marsaglia and Bray, SIAM Review 6 (1964) 260–264 [from memory]). */
export const normal = (random: Random): number => {
  for (;;) {
    const u = 2 * random() - 1
    const v = 2 * random() - 1
    const s = u * u + v * v
    if (s > 0 && s < 1) return u * Math.sqrt((-2 * Math.log(s)) / s)
  }
}
