/** A controller: its earths are one inside; each output that the case has on joins its pin to earth or to the supply. */
import type { Device } from '../../model/build.ts'
import { endpointOf, own } from '../make.ts'
import { controllerPins } from '../pins.ts'
import type { Binder } from './binder.ts'

/** Ω. Common practice, no published source. */
const OUTPUT = 0.1
const INSIDE_CONTROLLER = 1e-3

export const bindController = (binder: Binder, device: Device): void => {
  const { build, kase, resistor, lack } = binder
  const at = (pin: string) => binder.nodeOf(endpointOf(device.id, pin))
  const { supply, earths, sensorEarth } = controllerPins(device)
  const ground = `${device.id}.#earth`
  for (const pin of [...earths, ...sensorEarth])
    resistor(`${device.id}#earth-${pin}`, at(pin), ground, INSIDE_CONTROLLER)
  const mine = Object.values(build.collections.outputs).filter(
    (output) => output.device === device.id && output.driver !== 'logic',
  )
  if (mine.length > 0 && earths.length === 0) lack(`devices/${device.id}`, 'which pins are power earths')
  for (const output of mine) {
    const duty = own(kase.outputs, output.id)
    if (duty === undefined || (duty === 0 && output.driver !== 'half bridge')) continue
    if (!output.onResistance) binder.assume(output.id, 'output of 0.1 Ω when on')
    const high = output.driver === 'high side' || (output.driver === 'half bridge' && duty >= 0.5)
    if (high && supply === undefined) {
      lack(`devices/${device.id}`, 'which pin supplies its high-side outputs')
      continue
    }
    resistor(`output:${output.id}`, at(output.pin), high ? at(supply!) : ground, output.onResistance?.value ?? OUTPUT)
  }
}
