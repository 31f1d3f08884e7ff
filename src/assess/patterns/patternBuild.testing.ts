/** A small car for the tests of the patterns: a battery, its rails, an ignition switch, a main relay, a controller, a loom. */
import type { Build, Device, Wire } from '../../model/build.ts'
import { emptyBuild } from '../../model/build.ts'
import { readBuild } from '../../model/read.ts'
import { assess, type Finding } from '../assess.ts'
import { type Solved, solveCase } from '../solveCases.ts'
import type { Applied } from './index.ts'

const pins = (...ids: string[]): Device['pins'] => Object.fromEntries(ids.map((id) => [id, {}]))
const C = 273.15

export const patternBuild = (change?: (build: Build) => void): Build => {
  const build = emptyBuild('Pattern car')
  const c = build.collections
  const zone = (id: string, ambient: number, wet: 'dry' | 'splash' | 'wet', vibration: 'body' | 'engine' = 'body') => {
    c.zones[id] = { id, name: id, ambient: { value: ambient + C }, wet, vibration }
  }
  zone('nose', 55, 'wet')
  zone('bay', 75, 'splash')
  zone('on-engine', 105, 'splash', 'engine')
  zone('dash', 55, 'dry')
  zone('cabin', 45, 'dry')
  zone('rear', 45, 'wet')
  const point = (id: string, at: string) => {
    c.branchPoints[id] = { id, name: id, zone: at }
  }
  point('nose-left', 'nose')
  point('nose-right', 'nose')
  point('battery-point', 'bay')
  point('engine-point', 'on-engine')
  point('dash-left', 'dash')
  point('dash-right', 'dash')
  point('gearbox', 'bay')
  point('tank', 'rear')
  point('rear-left', 'rear')
  point('rear-right', 'rear')
  const run = (id: string, from: string, to: string, length: number, at: string) => {
    c.runs[id] = { id, from, to, length: { value: length }, zone: at }
  }
  run('R-1', 'nose-left', 'nose-right', 1.2, 'nose')
  run('R-2', 'nose-left', 'battery-point', 0.6, 'bay')
  run('R-3', 'battery-point', 'dash-left', 1.1, 'bay')
  run('R-4', 'battery-point', 'engine-point', 0.8, 'bay')
  run('R-5', 'dash-left', 'dash-right', 1, 'dash')
  run('R-6', 'dash-left', 'rear-left', 2.8, 'cabin')
  run('R-7', 'rear-left', 'rear-right', 1.3, 'rear')
  run('R-8', 'rear-left', 'tank', 0.7, 'rear')
  run('R-9', 'dash-right', 'gearbox', 0.9, 'bay')
  const device = (id: string, at: string, spec: Device['spec'], ...list: string[]) => {
    c.devices[id] = { id, name: id, at, zone: c.branchPoints[at]!.zone, pins: pins(...list), spec }
  }
  device(
    'battery',
    'battery-point',
    {
      kind: 'battery',
      restedVoltage: { value: 12.6 },
      internalResistance: { value: 6e-3 },
      capacity: { value: 60 * 3600 },
      acceptance: { value: 4 },
    },
    '+',
    '-',
  )
  device(
    'alternator',
    'engine-point',
    {
      kind: 'alternator',
      setpoint: { value: 14.2 },
      internalResistance: { value: 0.012 },
      hotOutputIdle: { value: 80 },
      hotOutputCruise: { value: 110 },
    },
    'B+',
    '31',
  )
  for (const [id, at, on] of [
    ['stud-front', 'battery-point', 'body'],
    ['stud-nose', 'nose-right', 'body'],
    ['stud-dash', 'dash-left', 'body'],
    ['stud-rear', 'rear-left', 'body'],
    ['stud-engine', 'engine-point', 'engine'],
  ] as const)
    device(id, at, { kind: 'earth-stud', on, contactResistance: { value: 5e-4 } }, 'S')
  const fuse = (id: string, at: string, rating: number, pattern: 'bolt-down' | 'high-current blade' | 'blade') =>
    device(id, at, { kind: 'fuse', rating: { value: rating }, pattern }, '1', '2')
  fuse('fuse-charge', 'battery-point', 150, 'bolt-down')
  fuse('fuse-30', 'battery-point', 80, 'bolt-down')
  fuse('fuse-15', 'battery-point', 60, 'bolt-down')
  fuse('fuse-87', 'battery-point', 80, 'bolt-down')
  device('bus-30', 'dash-left', { kind: 'splice' }, '1', '2')
  device('bus-15', 'dash-left', { kind: 'splice' }, '1', '2')
  device('bus-87', 'dash-left', { kind: 'splice' }, '1', '2')
  device(
    'ignition-switch',
    'dash-right',
    {
      kind: 'switch',
      positions: {
        off: [],
        on: [['30', '15']],
        start: [
          ['30', '15'],
          ['30', '50'],
        ],
      },
      rest: 'off',
      contactResistance: { value: 3e-3 },
    },
    '30',
    '15',
    '50',
  )
  device(
    'main-relay',
    'battery-point',
    {
      kind: 'relay',
      coilResistance: { value: 85 },
      pullIn: { value: 7 },
      dropOut: { value: 2 },
      contactResistance: { value: 2e-3 },
      suppression: 'resistor',
    },
    '30',
    '87',
    '85',
    '86',
  )
  c.devices.ecu = {
    id: 'ecu',
    name: 'ecu',
    at: 'dash-left',
    zone: 'dash',
    pins: {
      ...pins(
        ...Array.from({ length: 24 }, (_, n) => `A${n + 1}`),
        ...Array.from({ length: 24 }, (_, n) => `B${n + 1}`),
      ),
      A1: { name: 'switched supply' },
      A2: { name: 'permanent supply' },
      A24: { name: 'power earth' },
      B23: { name: 'supply 5 V' },
      B24: { name: 'sensor earth' },
    },
    spec: { kind: 'controller' },
    loads: [
      {
        id: 'electronics',
        from: 'A1',
        to: 'A24',
        law: { type: 'current', current: { value: 0.9 }, minimumVoltage: { value: 6.5 } },
      },
    ],
  }
  fuse('fuse-ecu', 'dash-left', 10, 'blade')
  fuse('fuse-memory', 'dash-left', 5, 'blade')
  const wire = (id: string, from: string, to: string, area: number, more: Partial<Wire>) => {
    c.wires[id] = {
      id,
      from,
      to,
      area: { value: area * 1e-6 },
      material: 'copper',
      insulation: 'E',
      ends: { from: { method: 'crimped' }, to: { method: 'crimped' } },
      ...more,
    }
  }
  const link = {
    length: { value: 0.1 },
    unfusedBecause: 'Link of the fuse strip bolted to the battery terminal: 0.1 m of insulated bar.',
  }
  wire('W-1', 'battery.-', 'stud-front.S', 35, { length: { value: 0.4 } })
  wire('W-2', 'battery.-', 'stud-engine.S', 35, { length: { value: 0.9 } })
  wire('W-3', 'battery.+', 'fuse-charge.1', 35, link)
  wire('W-4', 'fuse-charge.2', 'alternator.B+', 35, { path: ['R-4'] })
  wire('W-5', 'alternator.31', 'stud-engine.S', 35, { length: { value: 0.2 } })
  wire('W-6', 'battery.+', 'fuse-30.1', 35, link)
  wire('W-7', 'battery.+', 'fuse-15.1', 35, link)
  wire('W-8', 'battery.+', 'fuse-87.1', 35, link)
  wire('W-9', 'fuse-30.2', 'bus-30.1', 16, { path: ['R-3'] })
  wire('W-10', 'fuse-15.2', 'ignition-switch.30', 16, { path: ['R-3', 'R-5'] })
  wire('W-11', 'ignition-switch.15', 'bus-15.1', 16, { path: ['R-5'] })
  wire('W-12', 'fuse-87.2', 'main-relay.30', 16, { length: { value: 0.4 } })
  wire('W-13', 'main-relay.87', 'bus-87.1', 16, { path: ['R-3'] })
  wire('W-14', 'bus-15.2', 'main-relay.86', 16, { path: ['R-3'] })
  wire('W-15', 'main-relay.85', 'stud-front.S', 1, { length: { value: 0.4 } })
  wire('W-16', 'bus-87.2', 'fuse-ecu.1', 16, { length: { value: 0.4 } })
  wire('W-17', 'fuse-ecu.2', 'ecu.A1', 1.5, { length: { value: 0.4 } })
  wire('W-19', 'bus-30.2', 'fuse-memory.1', 16, { length: { value: 0.4 } })
  wire('W-20', 'fuse-memory.2', 'ecu.A2', 1, { length: { value: 0.4 } })
  wire('W-18', 'ecu.A24', 'stud-dash.S', 2.5, { length: { value: 0.4 } })
  change?.(build)
  return build
}

export interface State {
  readonly engine?: 'off' | 'cranking' | 'idle' | 'cruise'
  readonly alternator?: 'off' | 'idle' | 'cruise'
  readonly switches?: Readonly<Record<string, string>>
  readonly outputs?: Readonly<Record<string, number>>
}
const caseOf = (id: string, { engine = 'off', alternator = 'off', switches = {}, outputs = {} }: State) => ({
  id,
  name: id,
  engine,
  alternator,
  battery: 'connected' as const,
  switches: { ...switches },
  outputs: { ...outputs },
})

export const ON = { 'ignition-switch': 'on' } as const

export interface Seen {
  readonly solved: Solved
  /** A of the load of a device; 0 where it is not fed. */
  readonly draws: (device: string) => number
  readonly volts: (terminal: string) => number | null | undefined
  readonly amps: (wire: string) => number
}
/** The circuit in one state, solved. */
export const see = (build: Build, state: State): Seen => {
  const solved = solveCase(build, caseOf('seen', state))
  if (!solved.solved) throw new Error(solved.notes.join('; '))
  return {
    solved,
    draws: (device) =>
      (build.collections.devices[device]?.loads ?? []).reduce(
        (sum, { id }) => sum + nothing(Math.abs(solved.elements.get(`${device}#${id}`) ?? 0)),
        0,
      ),
    volts: (terminal) => solved.nodes.get(solved.bound.nodeOf(terminal)),
    amps: (wire) => nothing(Math.abs(solved.currents[wire] ?? 0)),
  }
}

/** Rounding of the solver, far below what any load notices. */
const nothing = (amperes: number): number => (amperes < 1e-9 ? 0 : amperes)

const collectionsOf = (applied: Applied): Set<string> =>
  new Set(
    applied.edit.changes.flatMap((change) => ('collection' in change ? [`${change.collection}/${change.id}`] : [])),
  )

/** What the assessment says against the new circuit while it works: nothing, if it is sound. */
export const against = (applied: Applied, ...states: readonly State[]): Finding[] => {
  const build = structuredClone(applied.build)
  for (const [index, state] of states.entries())
    build.collections.cases[`state-${index}`] = caseOf(`state-${index}`, state)
  const mine = collectionsOf(applied)
  return assess(readBuild(JSON.parse(JSON.stringify(build)))).findings.filter(
    ({ verdict, subject }) => (verdict === 'no-go' || verdict === 'marginal') && mine.has(subject),
  )
}
/** Ids that the edit adds, by collection, in order. */
export const added = (applied: Applied, collection: string): string[] =>
  applied.edit.changes.flatMap((change) =>
    'collection' in change && change.collection === collection ? [change.id] : [],
  )
