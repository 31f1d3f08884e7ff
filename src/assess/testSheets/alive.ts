/**
 * A point that should be dead and is alive: behind a switch that is open, at an output that is off. Read across a load it
 * says that the load runs; read to battery negative it says no more than that the point is fed, from wherever it may be:
 * where an earth is open that several share, a lamp that is off stands at supply on both its ends.
 */
import type { Build, Entity } from '../../model/build.ts'
import { standsAlone } from '../faults/concerned.ts'
import type { SearchStart } from '../faults/types.ts'
import { pointEndpoint } from '../faults/words.ts'
import { deviceIdOf, endpointOf, own } from '../make.ts'
import type { Solved } from '../solveCases.ts'
import type { Expectation, ReadingVerdict } from './types.ts'

/** V that no meter shows where nothing feeds: over this a load counts as on (the bare format's own limit). */
const ALIVE = 1.5
/** V below which the model has a point dead. */
const DEAD = 1

/** Whether the sheet expects nothing there, nor of an earth: a load that is off, or what leads to one and to no earth. */
export const shouldBeDead = (
  solved: Solved,
  { value }: Expectation,
  at: string,
  against: string | undefined,
): boolean => {
  if (Math.abs(value ?? 0) > DEAD) return false
  const node = solved.bound.nodeOf(pointEndpoint(at))
  const other = against === undefined ? undefined : solved.bound.nodeOf(pointEndpoint(against))
  if (other !== undefined && standsAlone(solved, other)) {
    const { elements } = solved.bound.network
    return (solved.at.get(node) ?? []).some((index) => {
      const { id, a, b } = elements[index]!
      return solved.bound.loads.has(id) && (a === other || b === other)
    })
  }
  return Math.abs(solved.nodes.get(node) ?? 0) < DEAD && standsAlone(solved, node)
}

type Complaint = SearchStart['complaint']

/** What is complained of where a point that should be dead is alive; undefined: it is another complaint. */
export const aliveAt = (
  build: Build,
  solved: Solved,
  { at, against, value }: Pick<Entity<'readings'>, 'at' | 'against' | 'value'>,
  verdict: Extract<ReadingVerdict, { kind: 'out of tolerance' }>,
): Complaint | undefined => {
  if (at === undefined || !solved.solved || value < ALIVE || verdict.side !== 'high') return undefined
  // Else a drop on the way, or an earth that stands up.
  if (!shouldBeDead(solved, verdict.expect, at, against)) return undefined
  const device = deviceIdOf(pointEndpoint(at))
  const load = against === undefined ? undefined : loadBetween(build, solved, at, against)
  return load ?? { device, at: pointEndpoint(at), kind: 'alive when it should be dead' }
}

const loadBetween = (build: Build, solved: Solved, at: string, against: string): Complaint | undefined => {
  const id = deviceIdOf(pointEndpoint(at))
  const device = own(build.collections.devices, id)
  const loads = device?.loads ?? []
  const pins = [at, against].map(pointEndpoint)
  const load = loads.find(({ from, to }) => endpointOf(id, from) === pins[0] && endpointOf(id, to) === pins[1])
  const isBound = load && solved.bound.loads.has(solved.bound.loadElement(id, load.id))
  return isBound
    ? { device: id, ...(loads.length > 1 ? { load: load.id } : {}), kind: 'on when it should be off' }
    : undefined
}
