/** Circles in what jobs need and what accesses require: nothing in a circle can ever be first. */
import type { Problem } from '../units/problem.ts'
import type { Build } from './build.ts'

export const checkCycles = (build: Build): Problem[] => [
  ...circles(build.collections.jobs, (job) => job.needs?.jobs ?? []).map((circle) => ({
    code: 'cycle',
    path: `jobs/${circle[0]}/needs/jobs`,
    says: `Jobs ${[...circle, circle[0]!].join(' → ')} need each other in a circle, so none can be first.`,
    todo: 'Remove one of these needs.',
  })),
  ...circles(build.collections.accesses, (access) => access.requires ?? []).map((circle) => ({
    code: 'cycle',
    path: `accesses/${circle[0]}/requires`,
    says: `Accesses ${[...circle, circle[0]!].join(' → ')} require each other in a circle, so none can be opened first.`,
    todo: 'Remove one of these requirements.',
  })),
]

/** Each circle once. Depth first with a stack of its own, because a chain of needs may be longer than the call stack. */
const circles = <T>(records: Record<string, T>, next: (record: T) => readonly string[]): string[][] => {
  const done = new Set<string>()
  const found: string[][] = []
  for (const root of Object.keys(records)) {
    if (done.has(root)) continue
    const trail: { id: string; targets: readonly string[]; at: number }[] = []
    const place = new Map<string, number>()
    const enter = (id: string) => {
      place.set(id, trail.length)
      trail.push({ id, targets: next(records[id]!), at: 0 })
    }
    enter(root)
    while (trail.length > 0) {
      const top = trail.at(-1)!
      const target = top.targets[top.at++]
      if (target === undefined) {
        done.add(top.id)
        place.delete(top.id)
        trail.pop()
      } else if (place.has(target)) found.push(trail.slice(place.get(target)).map(({ id }) => id))
      else if (!done.has(target) && Object.hasOwn(records, target)) enter(target)
    }
  }
  return found
}
