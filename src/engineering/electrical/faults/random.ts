/**
 * A repeatable stream of random numbers: the same seed, the same search. Uniform in [0, 1).
 * Source: mulberry32 by T. Ettinger, public domain (from memory); good enough for a few thousand draws, not for secrets.
 */
export const randomStream = (seed: number): (() => number) => {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}
