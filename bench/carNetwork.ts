/**
 * An invented car of 300 nodes and 450 elements in the bare format: battery, alternator, 49 circuits of fuse, wires,
 * joints, two loads side by side and an earth path, their earth studs tied to one another. Always the same.
 */
import { type BareNetwork, parseBareNetwork } from '../src/engineering/electrical/network/bareNetworkFile.ts'

const CIRCUITS = 49

type Entry = Record<string, unknown> & { id: string; type: string; a: string; b: string }

export const carNetwork = (): BareNetwork => {
  const elements: Entry[] = [
    { id: 'bat', type: 'battery', a: 'post', b: 'gnd', emf_V: 12.7, internal_ohm: 0.009 },
    { id: 'alt', type: 'alternator', a: 'b+', b: 'engine', setpoint_V: 14.3, internal_ohm: 0.006, limit_A: 110 },
    { id: 'charge-cable', type: 'wire', a: 'b+', b: 'post', length_m: 1.8, area_mm2: 25, temp_C: 60 },
    { id: 'feed-cable', type: 'wire', a: 'post', b: 'bus', length_m: 1.2, area_mm2: 16, temp_C: 40 },
    { id: 'bus-cable', type: 'wire', a: 'b+', b: 'bus', length_m: 2.2, area_mm2: 10, temp_C: 60 },
    { id: 'engine-strap', type: 'earth_strap', a: 'engine', b: 'gnd', ohm: 0.0005 },
    { id: 'body-strap', type: 'earth_strap', a: 'chassis', b: 'gnd', ohm: 0.0006 },
    { id: 'engine-body-strap', type: 'earth_strap', a: 'engine', b: 'chassis', ohm: 0.001 },
    { id: 'controller', type: 'load_resistance', a: 'bus', b: 'chassis', ohm: 22 },
  ]
  for (let i = 0; i < CIRCUITS; i++) {
    const n = (part: string): string => `${part}${i}`
    const wire = (part: string, a: string, b: string, length: number, area: number): Entry => ({
      id: n(part),
      type: 'wire',
      a,
      b,
      length_m: length,
      area_mm2: area,
      temp_C: 25 + (i % 5) * 10,
    })
    const joint = (part: string, a: string, b: string, kind: string): Entry => ({
      id: n(part),
      type: 'joint',
      a,
      b,
      kind,
      ohm: 0.002 + (i % 7) * 0.0005,
    })
    elements.push(
      { id: n('fuse'), type: 'fuse', a: 'bus', b: n('f'), rating_A: 10, cold_ohm: 0.0075 },
      wire('feed', n('f'), n('w'), 2 + (i % 6) * 0.7, 1.5),
      joint('plug', n('w'), n('j'), 'connector'),
      wire('tail', n('j'), n('p'), 0.4, 1),
      load(n('first'), n('p'), n('e'), i % 5),
      load(n('second'), n('p'), n('e'), (i + 3) % 5),
      joint('earth', n('e'), n('g'), i % 2 ? 'crimp' : 'exposed'),
      wire('stud', n('g'), i % 3 === 0 ? 'engine' : 'chassis', 0.6, 1.5),
      wire('tie', n('g'), `g${(i + 1) % CIRCUITS}`, 1, 1),
    )
  }
  return parseBareNetwork({
    format: 'car-dc-network/1',
    id: 'bench-300',
    title: 'An invented car, 300 nodes and 450 elements',
    reference: 'gnd',
    chassis: 'chassis',
    nodes: [...new Set(elements.flatMap(({ a, b }) => [a, b]))],
    elements,
  })
}

const load = (id: string, a: string, b: string, kind: number): Entry => {
  if (kind === 0) return { id, type: 'load_power', a, b, power_W: 12, v_min_V: 7 }
  if (kind === 1) return { id, type: 'load_current', a, b, current_A: 0.4, v_min_V: 6 }
  if (kind === 2) return { id, type: 'load_resistance', a, b, ohm: 14 }
  return { id, type: 'lamp', a, b, rated_V: 12, rated_W: kind === 3 ? 5 : 10, exponent: 0.55, cold_ohm: 1.2 }
}
