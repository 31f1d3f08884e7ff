/** Whether a starter turns in a solution, and how fast against its speed at rated volts: back-EMF over rated back-EMF. */
import type { NetworkElement, NetworkSolution } from '../../engineering/electrical/network/network.ts'
import type { Bound } from '../network.ts'

export type StarterMotor = Extract<NetworkElement, { type: 'motor' }>

/** Motors that the starter devices are bound to; loads named motor are other machines. */
export const starterMotors = ({ network, loads }: Bound): StarterMotor[] =>
  network.elements.flatMap((element) =>
    element.type === 'motor' && element.id.endsWith('#motor') && !loads.has(element.id) ? [element] : [],
  )

/** 0: stands still. */
export const speedShare = (
  { id, a, b, ratedVoltage, runningCurrent, stallResistance }: StarterMotor,
  { voltages, currents }: Pick<NetworkSolution, 'voltages' | 'currents'>,
): number => {
  const [from, to, current] = [voltages.get(a), voltages.get(b), currents.get(id)]
  if (from == null || to == null || current == null) return 0
  const share = (from - to - current * stallResistance) / (ratedVoltage - runningCurrent * stallResistance)
  return Math.max(0, share)
}
