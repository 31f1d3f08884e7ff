/** A binary heap: what comes first by `order` comes out first. */
export interface Queue<T> {
  readonly push: (item: T) => void
  readonly pop: () => T | undefined
  readonly peek: () => T | undefined
  readonly size: () => number
}

export const makeQueue = <T>(order: (a: T, b: T) => number): Queue<T> => {
  const heap: T[] = []
  const swap = (a: number, b: number): void => {
    const held = heap[a]!
    heap[a] = heap[b]!
    heap[b] = held
  }
  return {
    push: (item) => {
      heap.push(item)
      for (let at = heap.length - 1; at > 0; ) {
        const up = (at - 1) >> 1
        if (order(heap[up]!, heap[at]!) <= 0) return
        swap(up, at)
        at = up
      }
    },
    pop: () => {
      const top = heap[0]
      const last = heap.pop()
      if (heap.length > 0 && last !== undefined) {
        heap[0] = last
        for (let at = 0; ; ) {
          let least = at
          for (const down of [2 * at + 1, 2 * at + 2])
            if (down < heap.length && order(heap[down]!, heap[least]!) < 0) least = down
          if (least === at) break
          swap(least, at)
          at = least
        }
      }
      return top
    },
    peek: () => heap[0],
    size: () => heap.length,
  }
}
