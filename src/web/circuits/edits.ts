/** What the tables write. Each returns the problems that kept it from being written, and nothing is then changed. */
import type { Build, Change, Device, Wire } from '../../model/build.ts'
import type { Measure } from '../../model/measure.ts'
import { applyChanges } from '../../model/read.ts'
import type { Kind } from '../../units/index.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { readMeasure } from '../parts/quantityText.ts'
import { bench } from '../workbench/bench.ts'

const attempt = (build: Build, label: string, make: () => readonly Change[]): readonly Problem[] => {
  try {
    const changes = make()
    applyChanges(build, changes)
    bench.edit({ label, changes })
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
  attempt(build, `${WIRE_WORDS[field]} of wire ${wire.id}`, () => [
    { collection: 'wires', id: wire.id, value: wireWith(wire, field, text) },
  ])

export const setWires = (
  build: Build,
  wires: readonly Wire[],
  field: WireField,
  lines: readonly string[],
): readonly Problem[] =>
  attempt(build, `${WIRE_WORDS[field]} of ${Math.min(lines.length, wires.length)} wires`, () =>
    wires
      .slice(0, lines.length)
      .map((wire, index) => ({ collection: 'wires', id: wire.id, value: wireWith(wire, field, lines[index]!.trim()) })),
  )

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

export const setFigure = (build: Build, device: Device, text: string): readonly Problem[] =>
  attempt(build, `${device.name}: ${MAIN_FIGURE[device.spec.kind]!.word}`, () => {
    const main = MAIN_FIGURE[device.spec.kind]!
    const spec = without(device.spec, main.field, readMeasure(main.kind, text, figureOf(device)))
    return [{ collection: 'devices', id: device.id, value: { ...device, spec } }]
  })

export const setDevice = (build: Build, device: Device, field: 'name' | 'zone', text: string): readonly Problem[] =>
  attempt(build, `${field === 'name' ? 'Name' : 'Zone'} of ${device.name}`, () => [
    { collection: 'devices', id: device.id, value: without(device, field, text === '' ? undefined : text) },
  ])

export const addWire = (build: Build, circuit: string | undefined, from: string, to: string): readonly Problem[] => {
  let number = 1
  while (Object.hasOwn(build.collections.wires, `W-${number}`)) number++
  const id = `W-${number}`
  return attempt(build, `Wire ${id} added`, () => [
    { collection: 'wires', id, value: { id, from, to, ...(circuit === undefined ? {} : { circuit }) } },
  ])
}

export const removeWire = (wire: Wire): void => {
  bench.edit({ label: `Wire ${wire.id} removed`, changes: [{ collection: 'wires', id: wire.id, value: null }] })
}
