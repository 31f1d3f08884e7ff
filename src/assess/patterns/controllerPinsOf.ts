/** Terminals of a controller that sensors share: its sensor earth and its 5 V supply, as its pins are named. */
import { refuse } from '../../units/problem.ts'
import { endpointOf, own } from '../make.ts'
import { controllerPins } from '../pins.ts'
import type { Pen } from './pen.ts'

const deviceOf = (pen: Pen, id: string) => own(pen.build.collections.devices, id)!

export const sensorEarth = (pen: Pen, controller: string): string => {
  const [pin] = controllerPins(deviceOf(pen, controller)).sensorEarth
  if (pin === undefined)
    throw refuse(
      'no-sensor-earth',
      `Which pin of ${controller} is its sensor earth is not entered.`,
      `Name that pin of ${controller} “sensor earth”.`,
      `devices/${controller}`,
    )
  return endpointOf(controller, pin)
}
export const sensorSupply = (pen: Pen, controller: string): string => {
  const found = Object.entries(deviceOf(pen, controller).pins).find(([, { name }]) => /\b5\s?V\b/.test(name ?? ''))
  if (!found)
    throw refuse(
      'no-sensor-supply',
      `Which pin of ${controller} supplies its sensors with 5 V is not entered.`,
      `Name that pin of ${controller} “supply 5 V”.`,
      `devices/${controller}`,
    )
  return endpointOf(controller, found[0])
}
/** A, more than any sensor draws: its wires are chosen by strength. */
export const SIGNAL = 0.02
