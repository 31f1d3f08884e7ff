/** How many wrong tries an address has in a minute before it must wait. */
const WINDOW = 60_000

export interface Patience {
  /** Seconds to wait; 0 when the address may try. */
  wait(address: string): number
  wrong(address: string): void
}

export const patience = (tries: number, now: () => number = Date.now): Patience => {
  const wrongs = new Map<string, number[]>()
  const recent = (address: string): number[] => {
    const kept = (wrongs.get(address) ?? []).filter((at) => at > now() - WINDOW)
    if (kept.length === 0) wrongs.delete(address)
    else wrongs.set(address, kept)
    return kept
  }
  return {
    wait: (address) => {
      const kept = recent(address)
      return kept.length < tries ? 0 : Math.ceil((kept[kept.length - tries]! + WINDOW - now()) / 1000)
    },
    wrong: (address) => {
      // Addresses that fell silent are forgotten, so that a flood of them fills no memory.
      if (wrongs.size > 1000) for (const known of [...wrongs.keys()]) recent(known)
      wrongs.set(address, [...recent(address), now()])
    },
  }
}
