/** What the tables write. Each returns the problems that kept it from being written, and nothing is then changed. */
import type { Build, Change, Device, Wire } from '../../model/build.ts'
import type { Measure } from '../../model/measure.ts'
import { idFrom } from '../../model/newId.ts'
import { applyChanges } from '../../model/read.ts'
import type { Kind } from '../../units/index.ts'
import { type Problem, Refusal, refuse } from '../../units/problem.ts'
import { readMeasure } from '../parts/quantityText.ts'
import { bench } from '../workbench/bench.ts'
import type { Column } from './tables/paste.ts'

/** One edit, one undo. */
export const write = (build: Build, label: string, make: () => readonly Change[]): readonly Problem[] => {
  try {
    const changes = make()
    applyChanges(build, changes)
    bench.edit({ label: label.slice(0, 160), changes })
    return []
  } catch (error) {
    if (error instanceof Refusal) return error.problems
    throw error
  }
}

const without = <T extends object>(record: T, field: string, value: unknown): T => {
  const next = { ...record } as Record<string, unknown>
  if (value === undefined) delete next[field]
  else next[field] = value
  return next as T
}

const WIRE_KINDS: Readonly<Record<string, Kind>> = { area: 'area', length: 'length' }
export type WireField = 'area' | 'length' | 'from' | 'to' | 'colour' | 'tracer'

export const WIRE_WORDS: Readonly<Record<WireField, string>> = {
  area: 'Size',
  length: 'Length',
  from: 'From',
  to: 'To',
  colour: 'Colour',
  tracer: 'Tracer',
}

const wireWith = (wire: Wire, field: WireField, text: string): Wire => {
  const kind = WIRE_KINDS[field]
  if (kind === undefined) return without(wire, field, text === '' ? undefined : text)
  return without(wire, field, readMeasure(kind, text, wire[field] as Measure | undefined))
}

export const setWire = (build: Build, wire: Wire, field: WireField, text: string): readonly Problem[] =>
  write(build, `${WIRE_WORDS[field]} of wire ${wire.id}`, () => [
    { collection: 'wires', id: wire.id, value: wireWith(wire, field, asWritten(field, text)) },
  ])

/** The figure of each kind of device that a builder changes most. */
export const MAIN_FIGURE: Readonly<
  Record<string, { readonly field: string; readonly kind: Kind; readonly word: string }>
> = {
  battery: { field: 'restedVoltage', kind: 'voltage', word: 'rested' },
  alternator: { field: 'setpoint', kind: 'voltage', word: 'set-point' },
  starter: { field: 'crankingCurrent', kind: 'current', word: 'cranking' },
  fuse: { field: 'rating', kind: 'current', word: 'rating' },
  relay: { field: 'coilResistance', kind: 'resistance', word: 'coil' },
  resistor: { field: 'resistance', kind: 'resistance', word: 'resistance' },
  'earth-stud': { field: 'contactResistance', kind: 'resistance', word: 'contact' },
}

export const figureOf = (device: Device): Measure | undefined => {
  const main = MAIN_FIGURE[device.spec.kind]
  return main === undefined ? undefined : (device.spec as unknown as Record<string, Measure | undefined>)[main.field]
}

const deviceWithFigure = (device: Device, text: string): Device => {
  const main = MAIN_FIGURE[device.spec.kind]
  if (main === undefined) {
    if (text === '') return device
    throw refuse('no-figure', `A ${device.spec.kind} has no figure in this column.`, 'Leave the cell empty.')
  }
  return { ...device, spec: without(device.spec, main.field, readMeasure(main.kind, text, figureOf(device))) }
}

export const setFigure = (build: Build, device: Device, text: string): readonly Problem[] =>
  write(build, `${device.name}: ${MAIN_FIGURE[device.spec.kind]?.word ?? 'figure'}`, () => [
    { collection: 'devices', id: device.id, value: deviceWithFigure(device, text) },
  ])

export const setDevice = (build: Build, device: Device, field: 'name' | 'zone', text: string): readonly Problem[] =>
  write(build, `${field === 'name' ? 'Name' : 'Zone'} of ${device.name}`, () => [
    { collection: 'devices', id: device.id, value: without(device, field, text === '' ? undefined : text) },
  ])

const freeWireId = (build: Build, taken: ReadonlySet<string> = new Set()): string => {
  let number = 1
  while (Object.hasOwn(build.collections.wires, `W-${number}`) || taken.has(`W-${number}`)) number++
  return `W-${number}`
}

export const addWire = (build: Build, circuit: string | undefined, from: string, to: string): readonly Problem[] => {
  const id = freeWireId(build)
  return write(build, `Wire ${id} added`, () => [
    { collection: 'wires', id, value: { id, from, to, ...(circuit === undefined ? {} : { circuit }) } },
  ])
}

export const removeWire = (wire: Wire): void => {
  bench.edit({ label: `Wire ${wire.id} removed`, changes: [{ collection: 'wires', id: wire.id, value: null }] })
}

export const WIRE_FIELDS: readonly WireField[] = ['from', 'to', 'area', 'length', 'colour', 'tracer']
/** Letters are typed in any case. */
const asWritten = (field: WireField, text: string): string =>
  field === 'colour' || field === 'tracer' ? text.toUpperCase() : text
export const WIRE_COLUMNS: readonly Column<Wire>[] = WIRE_FIELDS.map((field) => ({
  word: WIRE_WORDS[field],
  put: (wire, text) => wireWith(wire, field, asWritten(field, text)),
}))

/** Rows pasted below the last become wires when they bring both ends with them. */
export const wireFromRow =
  (build: Build, circuit: string | undefined) =>
  (texts: ReadonlyMap<number, string>, taken: ReadonlySet<string>): Wire | undefined => {
    const [from, to] = [texts.get(WIRE_FIELDS.indexOf('from')), texts.get(WIRE_FIELDS.indexOf('to'))]
    if (!from || !to) return undefined
    return { id: freeWireId(build, taken), from, to, ...(circuit === undefined ? {} : { circuit }) }
  }

/** A zone by its id or its name, as a person types it. */
const zoneNamed = (build: Build, text: string): string | undefined => {
  if (text === '') return undefined
  const sought = text.toLowerCase()
  const zone = Object.values(build.collections.zones).find(
    ({ id, name }) => id.toLowerCase() === sought || name.toLowerCase() === sought,
  )
  if (zone) return zone.id
  throw refuse('no-such-zone', `This car has no zone “${text}”.`, 'Use the name of a zone of the car.')
}

export const deviceColumns = (build: Build): readonly Column<Device>[] => [
  { word: 'Name', put: (device, text) => without(device, 'name', text === '' ? undefined : text) },
  { word: 'Zone', put: (device, text) => without(device, 'zone', zoneNamed(build, text)) },
  { word: 'Figure', put: deviceWithFigure },
]

type DeviceKind = Device['spec']['kind']
/** Pins that a new device starts with: terminal numbers of DIN 72552 where the trade uses them. */
const FIRST_PINS: Partial<Record<DeviceKind, readonly string[]>> = {
  battery: ['+', '-'],
  alternator: ['B+', 'D+', '31'],
  starter: ['30', '50', '31'],
  'earth-stud': ['S'],
  relay: ['30', '85', '86', '87'],
  fuse: ['1', '2'],
  switch: ['1', '2'],
  diode: ['A', 'K'],
  resistor: ['1', '2'],
  connector: ['1', '2'],
  splice: ['1', '2', '3'],
}
export const NEW_KINDS: readonly DeviceKind[] = [
  'lamp',
  'fuse',
  'relay',
  'switch',
  'motor',
  'pump',
  'heater',
  'solenoid',
  'sensor',
  'gauge',
  'module',
  'splice',
  'connector',
  'earth-stud',
  'resistor',
  'diode',
  'battery',
  'alternator',
  'starter',
  'injector',
  'coil',
  'controller',
]
const firstSpec = (kind: DeviceKind): Device['spec'] => {
  if (kind === 'earth-stud') return { kind, on: 'body' }
  if (kind === 'switch') return { kind, positions: { off: [], on: [['1', '2']] }, rest: 'off' }
  return { kind } as Device['spec']
}

export const addDevice = (
  build: Build,
  circuit: string | undefined,
  name: string,
  kind: DeviceKind,
): readonly Problem[] => {
  const id = idFrom(name, build.collections.devices, kind)
  const pins = Object.fromEntries((FIRST_PINS[kind] ?? ['+', '-']).map((pin) => [pin, {}]))
  const value = { id, name, pins, spec: firstSpec(kind), ...(circuit === undefined ? {} : { circuit }) }
  return write(build, `${name} added`, () => [{ collection: 'devices', id, value }])
}

const wiresOf = (build: Build, device: Device): readonly Wire[] =>
  Object.values(build.collections.wires).filter(({ from, to }) =>
    [from, to].some((end) => end.slice(0, end.lastIndexOf('.')) === device.id),
  )

/** The system that keeps a device from being removed: its own, or that of a wire that would go with it. */
export const keptFor = (build: Build, device: Device): string | undefined =>
  device.restricted ?? wiresOf(build, device).find(({ restricted }) => restricted !== undefined)?.restricted

/** With the wires that end at it, of whatever circuit: one edit, so that one undo brings all back. */
export const removeDevice = (build: Build, device: Device): void => {
  if (keptFor(build, device) !== undefined) return
  const wires = wiresOf(build, device)
  const also = wires.length === 0 ? '' : ` and its ${wires.length} wire${wires.length === 1 ? '' : 's'}`
  bench.edit({
    label: `${device.name}${also} removed`.slice(0, 160),
    changes: [
      ...wires.map(({ id }): Change => ({ collection: 'wires', id, value: null })),
      { collection: 'devices', id: device.id, value: null },
    ],
  })
}
