/** The fuse that protects what is joined to a terminal of the build; where there are several, the largest. */
import type { Build, Device } from '../../model/build.ts'
import { circuitOf, spread } from '../circuit.ts'
import { deviceIdOf, endpointOf, own } from '../make.ts'
import { twoPins } from '../pins.ts'
import { live, protectedBy } from '../protection/reach.ts'

export type Above = { readonly fuse: Device } | { readonly source: string } | undefined

/** A fuse; else the terminal of the battery or alternator from which nothing but wire and contacts leads here; else nothing. */
export const fuseAbove = (build: Build, endpoint: string): Above => {
  const { devices } = build.collections
  const here = own(devices, deviceIdOf(endpoint))
  if (here?.spec.kind === 'fuse' && twoPins(here)?.[1] !== undefined)
    if (endpoint === endpointOf(here.id, twoPins(here)![1])) return { fuse: here }
  const circuit = circuitOf(build)
  const joined = spread(circuit, [endpoint], live)
  const below = protectedBy({ build, impossible: [], circuit, cases: [], figures: {} })
  let found: Device | undefined
  for (const [id, wires] of below) {
    const fuse = own(devices, id)
    if (fuse?.spec.kind !== 'fuse') continue
    const touches = wires.some((wire) => {
      const record = own(build.collections.wires, wire)
      return record !== undefined && (joined.has(record.from) || joined.has(record.to))
    })
    if (touches && (found?.spec.kind !== 'fuse' || (fuse.spec.rating?.value ?? 0) > (found.spec.rating?.value ?? 0)))
      found = fuse
  }
  if (found) return { fuse: found }
  const source = [...circuit.positive, ...circuit.alternators].find((terminal) => joined.has(terminal))
  return source === undefined ? undefined : { source }
}
