/** Binds a build in one case: wires first, then each device by its kind, then what it draws. */
import type { Build, Device, OperatingCase } from '../../model/build.ts'
import { BODY } from '../circuit.ts'
import { endpointOf } from '../make.ts'
import { batteryPins } from '../pins.ts'
import { type Binder, binderFor, loadElement, runs } from './binder.ts'
import type { Bound } from './bound.ts'
import { bindEarthStud, bindFuse, bindRelay, bindSwitch } from './contacts.ts'
import { bindController } from './controller.ts'
import { bindLoads, drivenBy } from './loads.ts'
import { bindDiode, bindResistor } from './passives.ts'
import { bindAlternator, bindBattery } from './sources.ts'
import { bindStarter } from './starter.ts'
import { bindWire } from './wires.ts'

export const bindCase = (build: Build, kase: OperatingCase): Bound => {
  const binder = binderFor(build, kase)
  const driven = drivenBy(binder)
  // A car that stands has the air of its case; while it runs each zone has its own.
  if (!runs(kase) && !kase.ambient) binder.assume(kase.id, 'air at 20 °C, no ambient temperature entered')
  for (const wire of Object.values(build.collections.wires)) bindWire(binder, wire)
  for (const device of Object.values(build.collections.devices)) {
    bindDevice(binder, device)
    bindLoads(binder, device, driven)
  }
  const { elements, missing, assumed, unsure, loads, wires, reckoned, nodeOf } = binder
  return {
    network: { reference: reference(binder), elements },
    missing,
    assumed,
    unsure,
    nodeOf,
    loads,
    loadElement,
    wires,
    reckoned,
  }
}

const reference = ({ build, elements }: Binder): string => {
  if (elements.some(({ a, b }) => a === BODY || b === BODY)) return BODY
  for (const device of Object.values(build.collections.devices)) {
    const negative = device.spec.kind === 'battery' ? batteryPins(device).negative : undefined
    if (negative) return endpointOf(device.id, negative)
  }
  return elements[0]?.b ?? BODY
}

const bindDevice = (binder: Binder, device: Device): void => {
  const { spec } = device
  switch (spec.kind) {
    case 'battery':
      bindBattery(binder, device, spec)
      break
    case 'alternator':
      bindAlternator(binder, device, spec)
      break
    case 'starter':
      bindStarter(binder, device, spec)
      break
    case 'earth-stud':
      bindEarthStud(binder, device, spec)
      break
    case 'fuse':
      bindFuse(binder, device, spec)
      break
    case 'relay':
      bindRelay(binder, device, spec)
      break
    case 'switch':
      bindSwitch(binder, device, spec)
      break
    case 'diode':
      bindDiode(binder, device, spec)
      break
    case 'resistor':
      bindResistor(binder, device, spec)
      break
    case 'controller':
      bindController(binder, device)
      break
    default:
  }
}
