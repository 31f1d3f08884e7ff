/** Where a bolted short at the far end of a conductor closes: over the load's own return where one is wired, else to the body. */
import type { Build } from '../../model/build.ts'
import { BODY, type Circuit, ENGINE, spread } from '../circuit.ts'
import { deviceIdOf, endpointOf, own } from '../make.ts'
import { lasting } from './reach.ts'

export const returnsOf = (build: Build, circuit: Circuit): ((far: string) => string) => {
  // Earthed for good: a return through a controller's output is there only while it is on.
  const earthed = spread(circuit, [...circuit.negative, BODY, ENGINE], (link) => lasting(link) || link.kind === 'earth')
  return (far) => {
    const id = deviceIdOf(far)
    for (const load of own(build.collections.devices, id)?.loads ?? []) {
      const [from, to] = [endpointOf(id, load.from), endpointOf(id, load.to)]
      if (from === far && earthed.has(to)) return to
      if (to === far && earthed.has(from)) return from
    }
    return BODY
  }
}
