/** How a finding is written: keys, names, plain figures and the cautions that travel with a kind of work. */
import type { Build } from '../model/build.ts'
import type { Finding, System, Verdict } from './finding.ts'

export const BATTERY_CAUTION =
  'Disconnect the battery negative first; no rings or loose tools near the terminals; a battery gives off explosive gas.'
export const FUEL_CAUTION =
  'Petrol and its vapour ignite from a spark: ventilate, release the pressure first, battery off, extinguisher at hand.'
export const HOT_CAUTION = 'Let the engine cool: hot coolant and hot metal burn.'
export const QUALIFIED_BRAKES =
  'At best the arithmetic holds; a qualified person must inspect the brakes before the car is driven.'
export const QUALIFIED_FUEL = 'At best the arithmetic holds; a qualified person must inspect the fuel system.'

export interface Draft {
  readonly rule: string
  readonly verdict: Verdict
  readonly system: System
  /** `collection/id` or `sheet/name`. */
  readonly subject: string
  /** Tells findings of one rule about one subject apart: a pin, a load. */
  readonly part?: string
  readonly case?: string
  readonly about: string
  readonly zone?: string | undefined
  readonly says: string
  readonly todo: string
  readonly working?: readonly string[]
  readonly missing?: string
  readonly cautions?: readonly string[]
}

export const finding = (draft: Draft): Finding => ({
  key: `${draft.rule}:${draft.subject}${draft.part === undefined ? '' : `.${draft.part}`}${draft.case === undefined ? '' : `:${draft.case}`}`,
  rule: draft.rule,
  verdict: draft.verdict,
  system: draft.system,
  subject: draft.subject,
  about: draft.about,
  ...(draft.zone === undefined ? {} : { zone: draft.zone }),
  says: draft.says,
  todo: draft.todo,
  working: draft.working ?? [],
  ...(draft.missing === undefined ? {} : { missing: draft.missing }),
  cautions: draft.cautions ?? [],
})

export const own = <T>(record: Readonly<Record<string, T>>, key: string): T | undefined =>
  Object.hasOwn(record, key) ? record[key] : undefined

export const deviceIdOf = (endpoint: string): string => endpoint.slice(0, endpoint.lastIndexOf('.'))
export const endpointOf = (device: string, pin: string): string => `${device}.${pin}`

export const deviceName = (build: Build, id: string): string => own(build.collections.devices, id)?.name ?? id
/** `Fan relay, pin 87`; a splice or a stud has one point and needs no pin; what does not exist keeps its id. */
export const pinName = (build: Build, endpoint: string): string => {
  const device = own(build.collections.devices, deviceIdOf(endpoint))
  if (!device) return endpoint
  if (device.spec.kind === 'splice' || device.spec.kind === 'earth-stud') return device.name
  return `${device.name}, pin ${endpoint.slice(endpoint.lastIndexOf('.') + 1)}`
}
/** `Wire W-104 (Fan relay to Radiator fan)`. */
export const wireName = (build: Build, id: string): string => {
  const wire = own(build.collections.wires, id)
  return wire
    ? `Wire ${id} (${deviceName(build, deviceIdOf(wire.from))} to ${deviceName(build, deviceIdOf(wire.to))})`
    : `Wire ${id}`
}
/** Zone of a device: its own, else that of the branch point it sits at. */
export const deviceZone = (build: Build, id: string): string | undefined => {
  const device = own(build.collections.devices, id)
  return device?.zone ?? (device?.at === undefined ? undefined : own(build.collections.branchPoints, device.at)?.zone)
}

/** Airbag, pretensioner and anti-lock circuits are kept out of every rule that would size, alter or probe them. */
export const restrictedDevice = (build: Build, id: string): boolean =>
  own(build.collections.devices, id)?.restricted !== undefined
export const restrictedWire = (build: Build, id: string): boolean => {
  const wire = own(build.collections.wires, id)
  return (
    wire !== undefined &&
    (wire.restricted !== undefined ||
      restrictedDevice(build, deviceIdOf(wire.from)) ||
      restrictedDevice(build, deviceIdOf(wire.to)))
  )
}

const figure = (value: number, digits: number): string => String(Number(value.toPrecision(digits)))
export const volts = (value: number): string => `${value.toFixed(2)} V`
export const amps = (value: number): string => `${figure(value, 3)} A`
export const squareMillimetres = (area: number): string => `${figure(area * 1e6, 3)} mm²`
export const celsius = (kelvin: number): string => `${(kelvin - 273.15).toFixed(0)} °C`
export const kilowatts = (watts: number): string => `${(watts / 1e3).toFixed(0)} kW`
export const percent = (ratio: number): string => `${(ratio * 100).toFixed(0)} %`
export const list = (items: readonly string[]): string =>
  items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`
