/** Shortest way through the loom between two branch points. */
import type { Build } from '../../model/build.ts'

export interface Route {
  readonly path: readonly string[]
  /** Runs that would be on a shorter way, or on the only one, and have no length. */
  readonly unmeasured: readonly string[]
}

/** Runs in order; undefined where none lead there. A run without length counts as a metre and is told. */
export const route = (build: Build, start: string, goal: string): Route | undefined => {
  const runs = Object.values(build.collections.runs)
  const best = new Map<string, { readonly far: number; readonly path: readonly string[] }>([
    [start, { far: 0, path: [] }],
  ])
  const open = new Set([start])
  while (open.size > 0) {
    const at = [...open].reduce((a, b) => (best.get(a)!.far <= best.get(b)!.far ? a : b))
    open.delete(at)
    const here = best.get(at)!
    if (at === goal)
      return {
        path: here.path,
        unmeasured: here.path.filter((id) => build.collections.runs[id]?.length === undefined),
      }
    for (const run of runs) {
      if (run.from !== at && run.to !== at) continue
      const next = run.from === at ? run.to : run.from
      const far = here.far + (run.length?.value ?? 1)
      if (far >= (best.get(next)?.far ?? Number.POSITIVE_INFINITY)) continue
      best.set(next, { far, path: [...here.path, run.id] })
      open.add(next)
    }
  }
  return undefined
}
