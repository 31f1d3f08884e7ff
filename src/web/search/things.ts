/** Everything that can be looked for, with the place it leads to. */
import { complaintSays } from '../../assess/faults/words.ts'
import type { Finding } from '../../assess/finding.ts'
import { patterns } from '../../assess/patterns/index.ts'
import { speedTakers } from '../../assess/signals/speedTakers.ts'
import { LIST_NAMES, LISTS } from '../../book/loom/list.ts'
import { calculations } from '../../engineering/registry.ts'
import type { Build } from '../../model/build.ts'
import { actions } from './actions.ts'
import { circuitPlace, findingPlace } from './placeOf.ts'

export interface Thing {
  readonly id: string
  readonly what: string
  readonly name: string
  /** Searched, not shown. */
  readonly also: string
  readonly to?: string
  readonly run?: () => void
  readonly note?: string
}

export const thingsOf = (build: Build | undefined, findings: readonly Finding[]): readonly Thing[] => {
  const thing = (what: string, id: string, name: string, to: string, also = ''): Thing => ({
    id: `${what}-${id}`,
    what,
    name,
    to,
    also,
  })
  const found: Thing[] = actions.map((action) => ({
    id: `action-${action.name}`,
    what: 'Action',
    name: action.name,
    also: '',
    run: action.run,
    note: action.key,
  }))
  found.push(
    ...calculations.map((calc) => thing('Calculation', calc.id, calc.title, `/calculations/${calc.id}`, calc.id)),
  )
  if (build === undefined) return found
  const { zones, circuits, devices, wires, jobs, logs } = build.collections
  for (const item of Object.values(circuits)) found.push(thing('Circuit', item.id, item.name, circuitPlace(item.id)))
  for (const item of Object.values(devices))
    found.push(thing('Device', item.id, item.name, `/circuits/of/devices/${item.id}`, item.id))
  for (const item of Object.values(wires))
    found.push(thing('Wire', item.id, `${item.id}: ${item.from} to ${item.to}`, `/circuits/of/wires/${item.id}`))
  const signals = [
    ['Switch', 'resistanceSwitches'],
    ['Sensor', 'sensors'],
    ['Level', 'levelSenders'],
  ] as const
  for (const [what, kind] of signals)
    for (const item of Object.values(build.collections[kind]))
      found.push(thing(what, item.id, item.name, `/signals/${kind}/${encodeURIComponent(item.id)}`, item.id))
  for (const { kind, entity } of speedTakers(build))
    found.push(
      thing('Road speed', entity.id, entity.name, `/signals/${kind}/${encodeURIComponent(entity.id)}`, 'speedometer'),
    )
  for (const item of Object.values(zones))
    found.push(thing('Zone', item.id, item.name, `/findings/zone/${encodeURIComponent(item.id)}`))
  for (const item of Object.values(logs)) found.push(thing('Log', item.id, item.name, `/logs/${item.id}`))
  for (const item of Object.values(jobs))
    found.push(thing('Job', item.id, item.title, `/jobs/of/${encodeURIComponent(item.id)}`, item.id))
  found.push(
    thing('View', 'order', 'Order of the jobs', '/jobs', 'plan milestone access opening closing'),
    thing('View', 'sitting', 'Sitting: what to do in the time there is', '/jobs/sitting', 'evening hours tonight'),
    thing('View', 'forecast', 'Forecast: when it will be done', '/jobs/forecast', 'date milestone what if'),
    thing('View', 'parts', 'Parts and money', '/jobs/parts', 'shopping supplier price borrowed ordered'),
    thing('View', 'loom', 'Loom: runs, bundles, passages', '/loom', 'harness bundle sleeve grommet branch'),
    ...LISTS.map((id) => thing('Loom list', id, LIST_NAMES[id], `/loom/lists/${id}`, 'print csv xlsx loom')),
    ...['A4', 'A3'].map((paper) =>
      thing('Loom list', paper, `Layout board on ${paper}, full size`, `/loom/board/${paper}`, 'print formboard loom'),
    ),
    ...Object.values(build.collections.runs).map(({ id, name: called, from, to }) =>
      thing(
        'Run',
        id,
        `${called === undefined ? id : `${id}, ${called}`}: ${build.collections.branchPoints[from]?.name ?? from} to ${build.collections.branchPoints[to]?.name ?? to}`,
        `/loom/runs/${encodeURIComponent(id)}`,
        'loom bundle sleeve',
      ),
    ),
    thing('View', 'services', 'Oil, exhaust, heater, steering pump', '/services', 'turbo drain breather heat shield'),
    thing('View', 'records', 'Records', '/records', 'inspection donor shakedown service checklist'),
    thing('View', 'gates', 'Commissioning: first power and first start', '/records/gates', 'gate evidence'),
    thing('View', 'ledger', 'Calibration ledger', '/records/files', 'controller file tune hash'),
    thing('View', 'use', 'In use: counters, trends, breakdown card', '/records/use', 'hours odometer crank volts trim'),
    thing(
      'View',
      'fixings',
      'Torques and clearances',
      '/records/fixings',
      'bolt nut wrench gap register marked recheck',
    ),
    ...Object.values(build.collections.fixings).map(({ id, name }) =>
      thing('Torque or clearance', id, name, `/records/fixings/${encodeURIComponent(id)}`, id),
    ),
    thing('View', 'book', 'Book: everything to print', '/book', 'print pdf html contents missing'),
    thing('View', 'earths', 'Earths of the whole car', '/circuits/car/earths', 'ground return strap sensor error'),
    thing(
      'View',
      'energy',
      'Energy of the whole car',
      '/circuits/car/energy',
      'alternator battery balance reserve parked',
    ),
    thing(
      'View',
      'sheets',
      'Test sheets: what a meter should show',
      '/faults/sheets',
      'meter volts ohms expected measure',
    ),
    thing(
      'Test sheet',
      'first-power',
      'Test sheet: first power',
      '/faults/sheets/first-power',
      'battery first time lamp fuses',
    ),
    ...Object.values(circuits).map(({ id, name }) =>
      thing(
        'Test sheet',
        id,
        `Test sheet: ${name}`,
        `/faults/sheets/${encodeURIComponent(id)}`,
        'meter expected measure',
      ),
    ),
    ...Object.values(build.collections.faultSearches).map(({ id, complaint, status }) =>
      thing(
        'Fault search',
        id,
        `${complaintSays(build, complaint)}, ${status}`,
        `/faults/${encodeURIComponent(id)}`,
        id,
      ),
    ),
    ...Object.values(devices)
      .filter(({ loads, restricted }) => restricted === undefined && (loads ?? []).length > 0)
      .map(({ id, name }) =>
        thing(
          'Find a fault',
          id,
          `Find a fault: ${name}`,
          `/faults/new/${encodeURIComponent(id)}`,
          'dead weak does not work',
        ),
      ),
    ...patterns.map(({ id, name, purpose }) =>
      thing('Pattern', id, `Add a circuit: ${name}`, `/circuits/from/patterns/${id}`, purpose),
    ),
  )
  for (const item of findings)
    if (item.verdict !== 'sound')
      found.push(thing('Finding', item.key, `${item.about}: ${item.says}`, findingPlace(item.key), item.rule))
  return found
}

const MOST = 12
/** Every typed word must stand somewhere; a name that begins with the text comes first. */
export const look = (things: readonly Thing[], typed: string): readonly Thing[] => {
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean)
  if (words.length === 0) return []
  const first = words.join(' ')
  return things
    .map((thing) => ({ thing, text: `${thing.what} ${thing.name} ${thing.also}`.toLowerCase() }))
    .filter(({ text }) => words.every((word) => text.includes(word)))
    .sort(
      (a, b) =>
        Number(b.thing.name.toLowerCase().startsWith(first)) - Number(a.thing.name.toLowerCase().startsWith(first)),
    )
    .slice(0, MOST)
    .map(({ thing }) => thing)
}
