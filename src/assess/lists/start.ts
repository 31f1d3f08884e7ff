/**
 * Short lists to start from. Common practice, no published source, each row: the builder strikes out, adds and alters, and
 * what an authority asks is the authority’s to say.
 */
import type { Build, Change, Edit, Entity } from '../../model/build.ts'
import { idFrom } from '../../model/newId.ts'

export type ListKind = 'inspection' | 'donor' | 'shakedown' | 'service'
type Every = NonNullable<Entity<'checks'>['every']>
interface Row {
  readonly title: string
  readonly group: string
  /** Words of the zone in which it is looked at. */
  readonly place?: RegExp
  readonly every?: Every
}

const NOSE = /nose|front/i
const BAY = /engine|bay/i
const UNDER = /under/i
const CABIN = /cabin|dash|footwell/i
const TANK = /tank/i
const REAR = /rear|boot/i

const row = (group: string, title: string, place?: RegExp, every?: Every): Row => ({
  group,
  title,
  ...(place ? { place } : {}),
  ...(every ? { every } : {}),
})
const hours = (count: number): Every['time'] => ({ value: count * 3600, unit: 'h' })
const km = (count: number): Every['distance'] => ({ value: count * 1000, unit: 'km' })

export const START: Readonly<Record<ListKind, { readonly title: string; readonly rows: readonly Row[] }>> = {
  inspection: {
    title: 'Inspection',
    rows: [
      row('registration', 'Vehicle number readable and as in the papers', NOSE),
      row('registration', 'Engine number readable, with proof of where the engine comes from', BAY),
      row('registration', 'What was altered is written down, with power, mass and fuel as they are now'),
      row('emissions', 'What applies to this year and engine is known in writing; a test sheet or printout', REAR),
      row('emissions', 'No crankcase or tank vent open to the air', BAY),
      row('noise', 'Standing noise read, with instrument and distance', REAR),
      row('structure', 'Engine and gearbox mounts: drawings, welds and fixings looked at by somebody qualified', BAY),
      row('structure', 'Nothing cut or welded on the body’s members without a record', UNDER),
      row('fuel', 'Hoses of injection grade, clipped, clear of heat and of what moves; no leak under pressure', UNDER),
      row('fuel', 'Tank, filler, vent and rollover valve fixed and tight', TANK),
      row('brakes', 'Brakes inspected and tested by somebody qualified; sheet kept', UNDER),
      row('steering', 'Steering and its joints clear of the engine, pipes and loom over their whole way', BAY),
      row('lamps', 'Every lamp, indicator, horn, wiper and washer works', NOSE),
      row('lamps', 'Rear lamps, reflectors, plate lamp, reversing lamp', REAR),
      row('cabin', 'Belts, seats, mirrors, speedometer, warning lamps; pedals return', CABIN),
      row('tyres', 'Tyres of the right load and speed, wheels clear at full lock and full bump', UNDER),
      row('insurer', 'The insurer has the alterations in writing and has answered'),
      row('papers', 'This book printed, with evidence of wiring, fuel and brakes'),
    ],
  },
  donor: {
    title: 'Donor',
    rows: [
      row('ownership', 'Papers of the donor in the seller’s name; bill of sale with both vehicle numbers'),
      row('ownership', 'Engine number photographed, and as in the papers'),
      row('condition', 'Compression of every cylinder, warm, throttle open'),
      row('condition', 'Leak-down of every cylinder'),
      row('condition', 'Oil and coolant looked at: no mayonnaise, no metal, no oil in the coolant'),
      row('condition', 'Fault memory read out before anything is unplugged'),
      row('to take', 'Pedal with its plug and tail'),
      row('to take', 'Controller with its plugs and half a metre of tail; immobiliser parts and keys with it'),
      row('to take', 'Every sensor plug with its tail'),
      row('to take', 'Throttle, coils, injectors with their plugs'),
      row('to take', 'Mounts, brackets, bolts in labelled bags; starter, alternator, belt and its tensioner'),
      row('to take', 'Radiator, fan, hoses, thermostat housing'),
      row('while it is out', 'Rear crankshaft seal, and the pilot bearing'),
      row('while it is out', 'Front seal, timing drive with tensioner and water pump'),
      row('while it is out', 'Sump gasket, oil pick-up and its seal; core plugs'),
      row('while it is out', 'Clutch, release bearing, flywheel face'),
    ],
  },
  shakedown: {
    title: 'Shakedown',
    rows: [
      row('after 1 km', 'No leak of fuel, oil, coolant or brake fluid', UNDER),
      row('after 1 km', 'Wheel nuts at their torque', UNDER),
      row('after 1 km', 'Brakes pull straight, pedal firm; nobody drives on who is not sure', CABIN),
      row('after 1 km', 'Nothing rubs, nothing smells hot; loom clear of exhaust and steering', BAY),
      row('after 1 km', 'Fan comes on, coolant level cold again', NOSE),
      row('after 50 km', 'Wheel nuts, engine mounts, propshaft and suspension fixings at their torque', UNDER),
      row('after 50 km', 'Hose clamps and unions, cold', BAY),
      row('after 50 km', 'Earth studs and battery clamps tight and cool', BAY),
      row('after 50 km', 'Controller’s fault memory and trims read and kept', CABIN),
      row('after 500 km', 'Oil and filter; look into the filter for metal', BAY),
      row('after 500 km', 'All fixings marked once more; re-check of the torque register', UNDER),
      row('after 500 km', 'Plugs looked at, a log of a whole drive kept', BAY),
      row('after 500 km', 'Loom looked over: chafed places, warm connectors', BAY),
    ],
  },
  service: {
    title: 'Service',
    rows: [
      row('engine', 'Oil and filter', BAY, { time: hours(150), months: 12, distance: km(8000) }),
      row('engine', 'Air filter', BAY, { time: hours(400), months: 24, distance: km(20_000) }),
      row('engine', 'Spark plugs', BAY, { time: hours(600), distance: km(40_000) }),
      row('engine', 'Belt, tensioner, water pump', BAY, { months: 60, distance: km(80_000) }),
      row('cooling', 'Coolant', NOSE, { months: 36 }),
      row('fuel', 'Fuel filter; hoses looked at by somebody qualified', UNDER, { months: 24, distance: km(30_000) }),
      row('brakes', 'Brake fluid changed by somebody qualified', UNDER, { months: 24 }),
      row('electrical', 'Battery: rested volts, clamps, crank volts', BAY, { months: 6 }),
      row('fixings', 'Torque register: what is due again', UNDER, { months: 12, distance: km(10_000) }),
    ],
  },
}
export const RECORD_KIND = {
  inspection: 'inspection',
  donor: 'donor',
  shakedown: 'service',
  service: 'service',
} as const satisfies Record<ListKind, Entity<'records'>['kind']>

/** A list of this kind with its starting rows, as one edit. */
export const startList = (build: Build, kind: ListKind, title = START[kind].title): Edit => {
  const { records, checks, zones } = build.collections
  const id = idFrom(title, records, kind)
  const taken: Record<string, unknown> = { ...checks }
  const rows = START[kind].rows.map(({ title: says, group, place, every }): Change => {
    const zone = place && Object.values(zones).find(({ id: zoneId, name }) => place.test(`${zoneId} ${name}`))
    const rowId = idFrom(says.slice(0, 30), taken, 'row')
    taken[rowId] = true
    return {
      collection: 'checks',
      id: rowId,
      value: {
        id: rowId,
        list: id,
        title: says,
        group,
        ...(zone ? { zone: zone.id } : {}),
        ...(every ? { every } : {}),
        origin: 'common practice',
      },
    }
  })
  return {
    label: `List: ${title}`.slice(0, 160),
    changes: [{ collection: 'records', id, value: { id, kind: RECORD_KIND[kind], title } }, ...rows],
  }
}

/** A row of the builder’s own. */
export const addRow = (
  build: Build,
  list: string,
  row: { readonly title: string; readonly group?: string; readonly zone?: string },
): Edit => {
  const id = idFrom(row.title.slice(0, 30), build.collections.checks, 'row')
  return {
    label: `Row: ${row.title}`.slice(0, 160),
    changes: [{ collection: 'checks', id, value: { id, list, ...row, origin: 'own' } }],
  }
}

/** A row with what was said of it goes; one undo brings both back. */
export const removeRow = (build: Build, { id, title }: Entity<'checks'>): Edit => ({
  label: `Row struck out: ${title}`.slice(0, 160),
  changes: [
    ...Object.values(build.collections.evidence)
      .filter(({ of }) => of === `checks/${id}`)
      .map((entry): Change => ({ collection: 'evidence', id: entry.id, value: null })),
    { collection: 'checks', id, value: null },
  ],
})
