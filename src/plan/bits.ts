/** Sets of small whole numbers as words of 32 bits: hundreds of jobs are compared, joined and hashed in a few steps. */
export type Bits = Int32Array

export const noBits = (size: number): Bits => new Int32Array(Math.max(1, (size + 31) >> 5))
export const has = (set: Bits, at: number): boolean => (set[at >> 5]! & (1 << (at & 31))) !== 0
/** Changes the set it is given: only for one that is still being made. */
export const put = (set: Bits, at: number): void => {
  set[at >> 5]! |= 1 << (at & 31)
}
export const bitsOf = (size: number, members: Iterable<number>): Bits => {
  const set = noBits(size)
  for (const member of members) put(set, member)
  return set
}
export const membersOf = (set: Bits): number[] => {
  const members: number[] = []
  set.forEach((word, index) => {
    for (let rest = word; rest !== 0; rest &= rest - 1) members.push(index * 32 + 31 - Math.clz32(rest & -rest))
  })
  return members
}
export const within = (inner: Bits, outer: Bits): boolean => {
  for (let i = 0; i < inner.length; i++) if ((inner[i]! & ~outer[i]!) !== 0) return false
  return true
}
export const meet = (a: Bits, b: Bits): boolean => {
  for (let i = 0; i < a.length; i++) if ((a[i]! & b[i]!) !== 0) return true
  return false
}
/** One text for one set, whatever numbers its words hold. */
export const keyOf = (set: Bits): string => set.join()
