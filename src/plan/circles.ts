/** Which of a number of things lie on a circle together: components of Kosaraju's two passes, without recursion. */
export const circlesIn = (next: readonly (readonly number[])[]): number[][] => {
  const finished: number[] = []
  const seen = new Set<number>()
  for (const root of next.keys()) {
    const trail = [{ at: root, turn: 0 }]
    if (seen.has(root)) continue
    seen.add(root)
    for (let top = trail.at(-1); top !== undefined; top = trail.at(-1)) {
      const target = next[top.at]![top.turn++]
      if (target === undefined) finished.push(trail.pop()!.at)
      else if (!seen.has(target)) {
        seen.add(target)
        trail.push({ at: target, turn: 0 })
      }
    }
  }
  const back: number[][] = next.map(() => [])
  next.forEach((targets, from) => {
    for (const to of targets) back[to]!.push(from)
  })
  const circles: number[][] = []
  const taken = new Set<number>()
  for (const root of finished.reverse()) {
    if (taken.has(root)) continue
    const members: number[] = []
    const waiting = [root]
    taken.add(root)
    for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
      members.push(at)
      for (const other of back[at]!)
        if (!taken.has(other)) {
          taken.add(other)
          waiting.push(other)
        }
    }
    if (members.length > 1 || next[root]!.includes(root)) circles.push(members.sort((a, b) => a - b))
  }
  return circles
}
