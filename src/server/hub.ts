/** Every open page, on this machine and on the phone, is told that the build changed. */
export interface Hub {
  listen(tell: (version: number) => void): () => void
  tell(version: number): void
}

export const makeHub = (): Hub => {
  const listeners = new Set<(version: number) => void>()
  return {
    listen: (tell) => {
      listeners.add(tell)
      return () => void listeners.delete(tell)
    },
    tell: (version) => {
      for (const tell of listeners) tell(version)
    },
  }
}
