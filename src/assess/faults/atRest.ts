/**
 * Loads as an ohmmeter meets them. A load that is pulsed or on for a share of the time stands in the network as one so
 * much smaller, which draws its mean current; its winding has the ohms that are entered, whatever its duty.
 */
import type { NetworkElement } from '../../engineering/electrical/network/network.ts'
import type { Build } from '../../model/build.ts'
import type { Solved } from '../solveCases.ts'

export const atRest = (build: Build, solved: Solved, elements: readonly NetworkElement[]): NetworkElement[] => {
  const laws = new Map(
    Object.values(build.collections.devices).flatMap(({ id, loads }) =>
      (loads ?? []).flatMap((load) => (load.law ? [[solved.bound.loadElement(id, load.id), load.law] as const] : [])),
    ),
  )
  return elements.map((element): NetworkElement => {
    const law = laws.get(element.id)
    if (element.type === 'resistor' && law?.type === 'resistance') return { ...element, ohm: law.resistance.value }
    if (element.type === 'lamp' && law?.type === 'lamp')
      return { ...element, coldResistance: (element.coldResistance * element.ratedPower) / law.ratedPower.value }
    if (element.type === 'motor' && law?.type === 'motor')
      return { ...element, stallResistance: law.ratedVoltage.value / law.stallCurrent.value }
    return element
  })
}
