/** Wires: resistance at the temperature of the hottest place on their way; what they carry warms them later. */
import type { Wire } from '../../model/build.ts'
import { conductorFacts, hottestZone, jointResistance, warmed, wireLength, zonesOfUnknownHeat } from '../wireData.ts'
import { type Binder, runs, STAND_IN } from './binder.ts'

const T20 = 293.15
/** Ω. Common practice, no published source. */
const CRIMP = 1e-3

export const bindWire = (binder: Binder, wire: Wire): void => {
  const { build, kase, nodeOf } = binder
  const facts = conductorFacts(wire)
  const length = wireLength(build, wire)
  const id = `wire:${wire.id}`
  const joints = (['from', 'to'] as const).reduce((sum, end) => {
    const joint = wire.ends?.[end]
    return sum + (joint ? jointResistance(joint) : CRIMP)
  }, 0)
  const cold = runs(kase) ? zonesOfUnknownHeat(build, wire) : []
  if (cold.length > 0) binder.assume(wire.id, `no warmer in ${cold.join(', ')} than elsewhere on its way`)
  else if (runs(kase) && !hottestZone(build, wire)) binder.assume(wire.id, 'conductor at 20 °C, no zone entered')
  const ambient = runs(kase) ? (hottestZone(build, wire)?.ambient ?? T20) : (kase.ambient?.value ?? T20)
  if (!wire.ends?.from || !wire.ends.to) binder.assume(wire.id, 'crimps of 1 mΩ')
  if (!facts || length === undefined) {
    if (!wire.area) binder.lack(`wires/${wire.id}`, 'cross-section')
    if (!wire.material) binder.lack(`wires/${wire.id}`, 'material')
    if (length === undefined) binder.lack(`wires/${wire.id}`, 'length, or a path whose runs have lengths')
    binder.unsure.add(id)
    binder.resistor(id, nodeOf(wire.from), nodeOf(wire.to), STAND_IN)
    return
  }
  binder.wires.push({ wire, element: id, facts, length, joints, ambient })
  binder.resistor(id, nodeOf(wire.from), nodeOf(wire.to), warmed(facts, ambient) * length + joints)
}
