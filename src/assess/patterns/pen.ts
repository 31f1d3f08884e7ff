/**
 * What a pattern draws with: devices, fuses, splices and wires on a working copy of the build. Wires are only wished
 * for while drawing; at the end each finds its way through the loom and is sized.
 */

import type { FuseType } from '../../engineering/electrical/fuseGates.ts'
import { chooseFuse } from '../../engineering/electrical/sizing/chooseFuse.ts'
import type { Build, Change, CollectionName, Device, Entity, Wire } from '../../model/build.ts'
import { refuse } from '../../units/problem.ts'
import { amps, celsius, deviceIdOf, deviceName, own } from '../make.ts'
import { bundleShares } from '../sizing/bundleShare.ts'
import { FUSE_FAMILY, type FusePattern, familyFor } from '../sizing/candidates.ts'
import { type Above, fuseAbove } from '../sizing/fuseAbove.ts'
import { type InsulationClass, sizeWishes, type Way, type Wish } from './sizeWishes.ts'

type Colour = NonNullable<Wire['colour']>
export type Colours = Colour | `${Colour}/${Colour}`
export interface WireMore {
  /** Fuse made by this pen, or by the builder, that stands above it. */
  readonly behind?: string
  readonly stall?: number | undefined
  /** A, for moments: counts for the drop and not for the heat. */
  readonly briefly?: number
  readonly least?: Wish['least']
  readonly more?: Partial<Wire>
}

export interface Pen {
  readonly build: Build
  /** V, the highest that the loads see for long. */
  readonly chargeVolts: number
  readonly circuit: (id: string, name: string, purpose?: string) => void
  /** Adds a device, its id made free, and gives that id. */
  readonly device: (
    id: string,
    name: string,
    at: string,
    spec: Device['spec'],
    pins: Readonly<Record<string, string>>,
    more?: Partial<Device>,
  ) => string
  readonly relay: (id: string, name: string, at: string) => string
  readonly splice: (id: string, name: string, at: string) => string
  /** A fuse of the smallest standard rating for the load, wired to its feed. Gives its id; its load side is pin 2. */
  readonly fuse: (
    id: string,
    name: string,
    feed: string,
    at: string | undefined,
    load: {
      readonly current: number
      readonly inrush?: { readonly current: number; readonly time: number } | undefined
    },
    colours?: Colours,
  ) => string
  /** A wire from a rail, as thick as the fuse above the rail asks for. */
  readonly rail: (feed: string, to: string, colours: Colours, current: number) => string
  /** A terminal on which one more wire may end: a new tail of a splice, a splice put before a full controller pin. */
  readonly tap: (terminal: string) => string
  /** The bolt of an earth stud. */
  readonly stud: (device: string) => string
  /** A ring of its own on an earth stud, apart from the others. */
  readonly bolt: (device: string) => string
  readonly wire: (from: string, to: string, colours: Colours, current: number, more?: WireMore) => string
  /** Twists a wire with the one that names it. */
  readonly twist: (wire: string) => void
  readonly way: (limit: number, wires: readonly string[], current: number, ohm?: number) => void
  readonly put: <C extends 'inputs' | 'outputs' | 'calibrations' | 'resistanceSwitches'>(
    collection: C,
    record: Entity<C>,
  ) => string
  /** Names pins of a device that the build already has; a name that is there stays. */
  readonly name: (device: string, names: Readonly<Record<string, string>>) => void
  readonly change: (device: Device) => void
  readonly replace: <C extends 'inputs' | 'outputs'>(collection: C, record: Entity<C>) => string
  /** Branch point of the device of a terminal; refuses where it is not entered. */
  readonly at: (terminal: string) => string
  readonly say: (text: string) => void
  readonly finish: (asked: InsulationClass | undefined) => { readonly changes: Change[]; readonly explains: string[] }
}

/** Where the alternator’s own setting is not entered. Common practice, no published source. */
const CHARGE_VOLTS = 14.4
const FUSE_OHM_AMPERES = 77e-3
export const fuseOhm = (pen: Pen, fuse: string): number => {
  const spec = pen.build.collections.devices[fuse]?.spec
  return spec?.kind === 'fuse' && spec.rating ? FUSE_OHM_AMPERES / spec.rating.value : 0
}
/** Ω of a relay or switch contact, as the pen enters them. */
export const RELAY_OHM = 5e-3
export const SWITCH_OHM = 8e-3

const STRIP = 'Link of the fuse strip bolted to the battery terminal: 0.1 m of insulated bar.'

export const makePen = (original: Build): Pen => {
  const build = structuredClone(original)
  const touched = new Map<string, { collection: CollectionName; id: string }>()
  const wishes: Wish[] = []
  const ways: Way[] = []
  const explains: string[] = []
  let circuitId: string | undefined
  let nextWire = Math.max(
    0,
    ...Object.keys(build.collections.wires).map((id) => Number(/^W-(\d+)$/.exec(id)?.[1] ?? 0)),
  )
  const { devices } = build.collections
  const chargeVolts = Math.max(
    ...Object.values(devices).flatMap(({ spec }) =>
      spec.kind === 'alternator' && spec.setpoint ? [spec.setpoint.value as number] : [],
    ),
    0,
  )

  const store = <C extends CollectionName>(collection: C, record: Entity<C>): string => {
    const into = build.collections[collection] as Record<string, Entity<C>>
    into[record.id] = record
    touched.set(`${collection}/${record.id}`, { collection, id: record.id })
    return record.id
  }
  const free = (collection: CollectionName, id: string): string => {
    const taken = build.collections[collection]
    if (!Object.hasOwn(taken, id)) return id
    let n = 2
    while (Object.hasOwn(taken, `${id}-${n}`)) n += 1
    return `${id}-${n}`
  }
  const at = (terminal: string): string => {
    const id = deviceIdOf(terminal)
    const point = own(devices, id)?.at
    if (point === undefined)
      throw refuse(
        'no-way',
        `Where in the loom ${deviceName(build, id)} sits is not entered.`,
        `Enter the branch point of ${id}.`,
        `devices/${id}/at`,
      )
    return point
  }
  const device: Pen['device'] = (id, name, point, spec, pins, more) => {
    const zone = own(build.collections.branchPoints, point)?.zone
    return store('devices', {
      id: free('devices', id),
      name,
      ...(zone === undefined ? {} : { zone }),
      at: point,
      ...(circuitId === undefined ? {} : { circuit: circuitId }),
      pins: Object.fromEntries(Object.entries(pins).map(([pin, text]) => [pin, text === '' ? {} : { name: text }])),
      spec,
      ...more,
    })
  }
  const endOf = (terminal: string): NonNullable<NonNullable<Wire['ends']>['from']> => {
    const here = own(devices, deviceIdOf(terminal))
    const kind = here?.spec.kind
    const bolted =
      kind === 'earth-stud' ||
      kind === 'battery' ||
      /\.(B\+)$/.test(terminal) ||
      (kind === 'starter' && terminal.endsWith('.30'))
    const zone = own(build.collections.zones, here?.zone ?? '')
    return {
      method: bolted ? 'ring' : 'crimped',
      // Where water comes, the end is sealed; elsewhere nothing is said of it.
      ...(zone?.wet === 'wet' || zone?.wet === 'splash' ? { sealed: true } : {}),
    }
  }
  const behindOf = (id: string): Wish['behind'] => {
    const fuse = own(devices, id)
    if (fuse?.spec.kind !== 'fuse') return undefined
    const type = FUSE_FAMILY[fuse.spec.pattern ?? 'glass']
    if (type === undefined || !fuse.spec.rating)
      throw refuse(
        'unknown-fuse',
        `What ${fuse.name} lets through is not known: its ${fuse.spec.rating ? 'type' : 'rating'} is not entered.`,
        `Enter rating and type of ${id}.`,
        `devices/${id}`,
      )
    return { type, rating: fuse.spec.rating.value, name: id }
  }
  const wire: Pen['wire'] = (from, to, colours, current, more = {}) => {
    const [colour, tracer] = colours.split('/') as [Colour, Colour | undefined]
    nextWire += 1
    const id = `W-${nextWire}`
    const record: Wire = {
      id,
      from,
      to,
      colour,
      ...(tracer === undefined ? {} : { tracer }),
      ends: { from: endOf(from), to: endOf(to) },
      ...(circuitId === undefined ? {} : { circuit: circuitId }),
      ...more.more,
    }
    // Stands in the working copy at once, so that what comes later sees that the pin is taken.
    store('wires', record)
    wishes.push({
      wire: record,
      current,
      stall: more.stall,
      briefly: more.briefly,
      least: more.least,
      behind: more.behind === undefined ? undefined : behindOf(more.behind),
    })
    return id
  }
  const tap: Pen['tap'] = (terminal) => {
    const id = deviceIdOf(terminal)
    const here = own(devices, id)
    if (here?.spec.kind === 'splice') {
      const used = new Set(Object.values(build.collections.wires).flatMap(({ from, to }) => [from, to]))
      const bare = Object.keys(here.pins).find((pin) => !used.has(`${id}.${pin}`))
      if (bare !== undefined) return `${id}.${bare}`
      let n = Object.keys(here.pins).length + 1
      while (Object.hasOwn(here.pins, `${n}`)) n += 1
      store('devices', { ...here, pins: { ...here.pins, [`${n}`]: {} } })
      return `${id}.${n}`
    }
    if (here?.spec.kind !== 'controller') return terminal
    const there = Object.values(build.collections.wires).find(({ from, to }) => from === terminal || to === terminal)
    if (!there) return terminal
    const other = there.from === terminal ? there.to : there.from
    if (own(devices, deviceIdOf(other))?.spec.kind === 'splice') return tap(other)
    // A cavity takes one crimp: what is there moves to a splice, and the splice goes to the cavity.
    const joint = device(
      `splice-${id}-${terminal.slice(id.length + 1)}`,
      `Splice at ${here.name} ${terminal.slice(id.length + 1)}`,
      at(terminal),
      { kind: 'splice' },
      { 1: '', 2: '' },
    )
    const moved = { ...there, [there.from === terminal ? 'from' : 'to']: `${joint}.2` }
    store('wires', moved)
    const index = wishes.findIndex((wish) => wish.wire.id === there.id)
    if (index >= 0) wishes[index] = { ...wishes[index]!, wire: moved }
    wire(
      terminal,
      `${joint}.1`,
      there.tracer ? `${there.colour ?? 'BK'}/${there.tracer}` : (there.colour ?? 'BK'),
      0.1,
      {
        ...(there.area
          ? { least: { area: there.area.value, because: `${there.id}, which it carries on, is as thick` } }
          : {}),
      },
    )
    explains.push(`${there.id} filled ${terminal}; it now ends in ${joint}, from which one wire goes to the pin.`)
    return tap(`${joint}.1`)
  }
  const aboveOf = (feed: string): Exclude<Above, undefined> => {
    const above = fuseAbove(build, feed)
    if (above) return above
    throw refuse(
      'no-feed',
      `Nothing feeds ${deviceName(build, deviceIdOf(feed))}: no battery leads to ${feed}.`,
      'Enter the battery and its wires first, or name another feed.',
      feed,
    )
  }
  const fuse: Pen['fuse'] = (id, name, feed, point, load, colours = 'RD') => {
    const above = aboveOf(feed)
    // At the battery’s own terminal a blade may not break what the battery can drive (ISO 8820-3: 1 000 A).
    const strip = 'source' in above && devices[deviceIdOf(feed)]?.spec.kind === 'battery'
    if ('source' in above && !strip)
      throw refuse(
        'no-fuse-above',
        `${feed} is joined to ${above.source} with no fuse between, so a wire from it would stand unprotected.`,
        'Take the feed from the battery itself, or from a rail behind a fuse.',
        feed,
      )
    const place = strip ? at(feed) : (point ?? at(feed))
    const zone = own(build.collections.zones, own(build.collections.branchPoints, place)?.zone ?? '')
    if (!zone?.ambient)
      throw refuse(
        'no-ambient',
        `How hot it gets in ${zone?.name ?? place}, where the fuse would sit, is not entered.`,
        `Enter the highest ambient temperature of ${zone?.name ?? 'that zone'}.`,
        `zones/${zone?.id ?? place}`,
      )
    const { rating, pattern, carries, because } = pickFuse(
      load,
      zone.ambient.value,
      strip ? ['bolt-down'] : ['blade', 'maxi', 'bolt-down'],
    )
    const made = device(
      id,
      `${name} fuse, ${amps(rating)}`,
      place,
      { kind: 'fuse', rating: { value: rating, unit: 'A' }, pattern },
      { 1: 'supply', 2: 'load' },
    )
    explains.push(
      `${made}: ${amps(rating)} ${pattern}, in ${zone.name} (${celsius(zone.ambient.value)}), carries ${amps(carries)} for good; the load is ${amps(load.current)}.${because}`,
    )
    if (strip) {
      nextWire += 1
      const link: Wire = {
        id: `W-${nextWire}`,
        from: feed,
        to: `${made}.1`,
        colour: 'RD',
        area: { value: 25e-6, unit: 'mm²' },
        material: 'copper',
        length: { value: 0.1, unit: 'm' },
        ends: { from: { method: 'ring' }, to: { method: 'ring' } },
        ...(circuitId === undefined ? {} : { circuit: circuitId }),
        unfusedBecause: STRIP,
      }
      store('wires', link)
      wishes.push({ wire: link, current: load.current, fixed: true })
      explains.push(`${link.id}: ${STRIP} Keep it that short.`)
    } else wire(tap(feed), `${made}.1`, colours, load.current, { behind: (above as { fuse: Device }).fuse.id })
    return made
  }

  return {
    build,
    chargeVolts: chargeVolts > 0 ? chargeVolts : CHARGE_VOLTS,
    circuit: (id, name, purpose) => {
      circuitId = store('circuits', {
        id: free('circuits', id),
        name,
        ...(purpose === undefined ? {} : { purpose }),
      })
    },
    device,
    relay: (id, name, point) =>
      device(
        id,
        name,
        point,
        {
          kind: 'relay',
          coilResistance: { value: 85, unit: 'Ω' },
          pullIn: { value: 7.2, unit: 'V' },
          dropOut: { value: 2, unit: 'V' },
          contactResistance: { value: RELAY_OHM, unit: 'Ω' },
          suppression: 'resistor',
        },
        { 30: 'supply', 87: 'load', 85: 'coil −', 86: 'coil +' },
      ),
    splice: (id, name, point) => device(id, name, point, { kind: 'splice' }, { 1: '', 2: '' }),
    fuse,
    rail: (feed, to, colours, current) => {
      const above = aboveOf(feed)
      if (!('fuse' in above))
        throw refuse('no-fuse-above', `No fuse stands above ${feed}.`, 'Take the feed from a rail behind a fuse.', feed)
      return wire(tap(feed), to, colours, current, { behind: above.fuse.id })
    },
    tap,
    bolt: (id) => {
      const here = devices[id]!
      let n = 2
      while (Object.hasOwn(here.pins, `S${n}`)) n += 1
      store('devices', { ...here, pins: { ...here.pins, [`S${n}`]: {} } })
      return `${id}.S${n}`
    },
    stud: (id) => `${id}.${Object.keys(devices[id]!.pins)[0]}`,
    wire,
    twist: (id) => {
      const other = Object.values(build.collections.wires).find(({ twistedWith }) => twistedWith === id)!
      const index = wishes.findIndex((wish) => wish.wire.id === id)
      const twisted = { ...wishes[index]!.wire, twistedWith: other.id }
      wishes[index] = { ...wishes[index]!, wire: twisted }
      store('wires', twisted)
    },
    way: (limit, wires, current, ohm = 0) => {
      ways.push({ limit, wires, current, ohm })
    },
    name: (id, names) => {
      const here = devices[id]!
      store('devices', {
        ...here,
        pins: Object.fromEntries(
          Object.entries(here.pins).map(([pin, is]) => [
            pin,
            is.name === undefined && Object.hasOwn(names, pin) ? { ...is, name: names[pin]! } : is,
          ]),
        ),
      })
    },
    change: (changed) => {
      store('devices', changed)
    },
    replace: (collection, record) => store(collection, record),
    put: (collection, record) => store(collection, { ...record, id: free(collection, record.id) } as never),
    at,
    say: (text) => {
      explains.push(text)
    },
    finish: (asked) => {
      // Twice: how much the wires of a run warm one another hangs on their sizes, and their sizes on that.
      for (const each of sizeWishes(build, wishes, ways, asked, () => 1).wires) store('wires', each)
      const carries = new Map(wishes.map(({ wire: { id }, current }) => [id, current]))
      const sized = sizeWishes(build, wishes, ways, asked, bundleShares(build, carries))
      for (const each of sized.wires) store('wires', each)
      const changes = [...touched.values()].map(({ collection, id }) => ({
        collection,
        id,
        value: build.collections[collection][id],
      }))
      return { changes, explains: [...explains, ...sized.explains] }
    },
  }
}

const PATTERN: Readonly<Record<FuseType, FusePattern>> = {
  blade: 'blade',
  maxi: 'high-current blade',
  'bolt-down': 'bolt-down',
}

const pickFuse = (
  load: { readonly current: number; readonly inrush?: { readonly current: number; readonly time: number } | undefined },
  ambient: number,
  families: readonly FuseType[],
): { rating: number; pattern: FusePattern; carries: number; because: string } => {
  let last: { what: string; because: string } | undefined
  for (const type of families) {
    const choice = chooseFuse({ type, current: load.current, ambient, inrush: load.inrush })
    last = choice.rejected.at(-1) ?? last
    if (choice.rating !== undefined && (families.length === 1 || familyFor(choice.rating) === type))
      return {
        rating: choice.rating,
        pattern: PATTERN[type],
        carries: choice.carries!,
        because: choice.rejected.length === 0 ? '' : ` ${last!.what} ${last!.because}.`,
      }
  }
  throw refuse(
    'no-fuse',
    `No standard fuse carries ${amps(load.current)} in air of ${celsius(ambient)}: ${last?.what} ${last?.because}.`,
    'Place it cooler, or divide the load.',
  )
}
