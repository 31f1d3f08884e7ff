/** Where a wire ends: a known device and pin, or one that the list brings with it. */
import type { Build, Device } from '../../model/build.ts'
import { type Problem, refuse } from '../../units/problem.ts'
import { slug } from '../freeId.ts'

export interface End {
  readonly device: string
  readonly deviceName: string
  readonly pin: string
}

const PIN = /^[A-Za-z0-9+-]{1,16}$/
const todo = 'Write device.pin, such as fan-relay.30, or keep the pin in a column of its own.'

/** `pin` undefined: the pin stands in the same cell, after a full stop, a colon or the word "pin". */
export const readEnd = (build: Build, text: string, pin: string | undefined, what: 'from' | 'to'): End => {
  if (text === '') throw refuse('no-end', `it does not say what it goes ${what}.`, todo, what)
  const parts = pin ? ([text, pin] as const) : split(build, text)
  if (parts === undefined) throw refuse('no-pin', `its end “${text}” names no pin.`, todo, what)
  const [name, pinName] = parts
  if (!PIN.test(pinName)) throw refuse('unfit-pin', `its pin “${pinName}” of ${name} is not a pin's name.`, 'Use up to 16 letters, digits, + or -.', what)
  const known = findDevice(build, name)
  return { device: known?.id ?? slug(name), deviceName: known?.name ?? name, pin: pinName }
}

const split = (build: Build, text: string): readonly [string, string] | undefined => {
  const match = /^(.+?)\s*[.:]\s*([^.:\s]+)$/.exec(text) ?? /^(.+?)\s+(?:pin|terminal|cavity)\s+(\S+)$/i.exec(text)
  if (match !== null) return [match[1] as string, match[2] as string]
  // A device with a single pin, such as a battery post or an earth stud, needs no pin named.
  const device = findDevice(build, text)
  const pins = device === undefined ? [] : Object.keys(device.pins)
  return pins.length === 1 ? [text, pins[0] as string] : undefined
}

const findDevice = (build: Build, name: string): Device | undefined => {
  const { devices } = build.collections
  if (Object.hasOwn(devices, name)) return devices[name]
  const lower = name.toLowerCase()
  return Object.values(devices).find((device) => device.name.toLowerCase() === lower || device.id.toLowerCase() === lower)
}

/** What a name says about a device; nothing more is read into it. */
const newSpec = (name: string): Device['spec'] =>
  /\bsplice\b/i.test(name) ? { kind: 'splice' } : /\b(connector|plug|socket|junction|terminal block)\b/i.test(name) ? { kind: 'connector' } : { kind: 'module' }

/** Devices and pins that the ends need and the build lacks; a restricted device is never touched. */
export const devicesFor = (build: Build, ends: readonly End[]): { devices: Device[]; problems: Problem[] } => {
  const devices = new Map<string, Device>()
  for (const { device: id, deviceName, pin } of ends) {
    const known: Device = devices.get(id) ?? build.collections.devices[id] ?? { id, name: deviceName.slice(0, 120), pins: {}, spec: newSpec(deviceName) }
    if (Object.hasOwn(known.pins, pin)) {
      continue
    }
    devices.set(id, { ...known, pins: { ...known.pins, [pin]: {} } })
  }
  return { devices: [...devices.values()], problems: [] }
}
