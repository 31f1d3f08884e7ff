/**
 * Share of its lone current that the loaded wires of a run leave a wire there, 0 … 1: over the cases that last, and with
 * every new wire carrying its own current at once, since no case may switch them on yet. Undefined: more loaded wires
 * than the figure for bundles knows.
 */
import type { Build, OperatingCase } from '../../model/build.ts'
import { contextOf } from '../context.ts'
import { bundleMembers, bundleOf } from '../network/bundles.ts'
import { bindCase } from '../network.ts'
import { lastingCases } from '../protection/facts.ts'

const IDLE: OperatingCase = {
  id: 'none',
  name: 'none',
  engine: 'cruise',
  alternator: 'off',
  battery: 'connected',
  switches: {},
  outputs: {},
}

/** `carries`: A of each new wire, by id. */
export const bundleShares = (
  build: Build,
  carries: ReadonlyMap<string, number>,
): ((run: string) => number | undefined) => {
  const cases = lastingCases(contextOf(build))
  const states =
    cases.length > 0
      ? cases.map(({ bound, currents }) => ({ wires: bound.wires, currents }))
      : [{ wires: bindCase(build, IDLE).wires, currents: {} as Readonly<Record<string, number | null>> }]
  const least = new Map<string, number>()
  const unknown = new Set<string>()
  for (const { wires, currents } of states)
    for (const [run, members] of bundleMembers(build, wires)) {
      // Nobody beside it: it shares its air with no other.
      if (members.length < 2) continue
      const { factor } = bundleOf(run, members, (id) => carries.get(id) ?? Math.abs(currents[id] ?? 0))
      if (factor === undefined) unknown.add(run)
      else least.set(run, Math.min(least.get(run) ?? 1, factor))
    }
  return (run) => (unknown.has(run) ? undefined : (least.get(run) ?? 1))
}
