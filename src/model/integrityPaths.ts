/** Wires whose runs do not chain, or do not begin and end at the branch points of their devices. */
import type { Problem } from '../units/problem.ts'
import type { Build } from './build.ts'
import { called } from './called.ts'

export const checkPaths = (build: Build): Problem[] => {
  const { wires, runs, devices } = build.collections
  const at = (endpoint: string): string | undefined => {
    const id = endpoint.slice(0, endpoint.lastIndexOf('.'))
    return Object.hasOwn(devices, id) ? devices[id]?.at : undefined
  }
  const problems: Problem[] = []
  for (const [id, wire] of Object.entries(wires)) {
    const path = wire.path ?? []
    const known = path.map((run) => (Object.hasOwn(runs, run) ? runs[run] : undefined))
    // An absent run is told once, as a dangling reference.
    if (path.length === 0 || known.some((run) => run === undefined)) continue
    const ends = known.map((run) => [run!.from, run!.to] as const)
    const chains = [ends[0]!, [ends[0]![1], ends[0]![0]] as const].map(([start, next]) => walk(start, next, ends))
    const whole = chains.filter((chain) => chain.brokenAt === undefined)
    if (whole.length === 0) {
      const brokenAt = Math.max(...chains.map((chain) => chain.brokenAt!))
      problems.push({
        code: 'broken-path',
        path: `wires/${id}/path/${brokenAt}`,
        says: `${called('wires', id)}: run ${path[brokenAt - 1]} does not meet run ${path[brokenAt]}.`,
        todo: 'List the runs in order, each beginning where the one before ends.',
      })
      continue
    }
    const [start, finish] = [at(wire.from), at(wire.to)]
    const fits = (from: string, to: string) =>
      (start === undefined || start === from) && (finish === undefined || finish === to)
    // Runs are accepted from either end of the wire: what matters is that they lead from one device to the other.
    if (!whole.some((chain) => fits(chain.start, chain.end) || fits(chain.end, chain.start)))
      problems.push({
        code: 'broken-path',
        path: `wires/${id}/path`,
        says: `${called('wires', id)} runs from ${whole[0]!.start} to ${whole[0]!.end}, but its devices sit at ${start ?? 'an unknown point'} and ${finish ?? 'an unknown point'}.`,
        todo: 'Choose the runs between the two devices, or move a device.',
      })
  }
  return problems
}

const walk = (start: string, first: string, ends: readonly (readonly [string, string])[]) => {
  let end = first
  for (let index = 1; index < ends.length; index++) {
    const [from, to] = ends[index]!
    if (from === end) end = to
    else if (to === end) end = from
    else return { start, end, brokenAt: index }
  }
  return { start, end, brokenAt: undefined }
}
