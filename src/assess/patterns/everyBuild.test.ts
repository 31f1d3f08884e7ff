// Every pattern on the demo, on the demo with half its data gone, and with answers that make no sense.
import { expect, test } from 'vitest'
import { demoBuild, halfBuild } from '../../../demo/index.ts'
import type { Build } from '../../model/build.ts'
import { readBuild } from '../../model/read.ts'
import { Refusal } from '../../units/problem.ts'
import { type Applied, applyPattern, patterns } from './index.ts'

/** Answers that suit the demo: its rails, its studs, free pins of its controller. */
const ANSWERS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'relay-fed-load': {
    name: 'Fog lamp',
    kind: 'lamp',
    power: '55 W',
    at: 'nose-mid',
    feed: 'bus-30',
    earth: 'stud-nose',
    switch: 'dash-right',
  },
  'lamp-group': { lamps: 'load-left, cabin-left', switch: 'dash-right', feed: 'bus-30', earth: 'stud-rear' },
  headlamps: { lamps: 'nose-left, nose-right', switch: 'dash-right', feed: 'bus-30', earth: 'stud-nose' },
  'stop-lamps': { lamps: 'rear-left, rear-right', switch: 'pedals', feed: 'bus-15', earth: 'stud-rear' },
  indicators: {
    left: 'nose-left, rear-left',
    right: 'nose-right, rear-right',
    switch: 'dash-right',
    feed: 'bus-15',
    permanent: 'bus-30',
    earth: 'stud-nose',
    earth2: 'stud-rear',
  },
  'reversing-lamp': { lamps: 'rear-right', switch: 'gearbox', feed: 'bus-15', earth: 'stud-rear' },
  'heated-screen': { at: 'rear-left', feed: 'bus-30', ignition: 'bus-15', switch: 'dash-right', earth: 'stud-rear' },
  blower: { at: 'dash-mid', running: '10 A', stall: '35 A', switch: 'dash-right', feed: 'bus-15', earth: 'stud-dash' },
  wiper: { at: 'bay-left', running: '4 A', stall: '20 A', switch: 'dash-right', feed: 'bus-15', earth: 'stud-front' },
  horn: { horns: 'nose-mid', switch: 'dash-right', feed: 'bus-30', earth: 'stud-nose' },
  'electric-fans': {
    fans: 'nose-left, nose-right',
    running: '9 A',
    stall: '30 A',
    feed: 'bus-30',
    coils: 'bus-engine',
    controller: 'ecu',
    outputs: 'A21, A22',
    earth: 'stud-nose',
  },
  'cooler-pump': {
    at: 'nose-right',
    running: '4 A',
    stall: '12 A',
    feed: 'bus-engine',
    controller: 'ecu',
    output: 'A21',
    earth: 'stud-nose',
  },
  'fuel-pump': {
    at: 'tank-point',
    running: '9 A',
    stall: '30 A',
    feed: 'bus-engine',
    cutout: 'cabin-left',
    controller: 'ecu',
    output: 'A21',
    earth: 'stud-rear',
  },
  'starter-alternator': {
    battery: 'battery',
    starter: 'engine-inlet',
    alternator: 'engine-front',
    cranking: '180 A',
    solenoid: '18 A',
    output: '65 A',
    idle: '40 A',
    start: 'ignition-switch.50',
    ignition: 'bus-15',
    lamp: 'dash-right',
    engine: 'stud-engine',
    earth: 'stud-front',
  },
  'controller-supply': {
    controller: 'ecu',
    supply: 'A21',
    permanent: 'A22',
    wake: 'B21',
    relay: 'B22',
    earths: 'B11',
    draws: '1 A',
    engine: '20 A',
    feed: 'bus-30',
    ignition: 'bus-15',
    earth: 'stud-engine',
  },
  'injector-bank': { at: 'engine-inlet', feed: 'bus-engine', controller: 'ecu', outputs: 'A21, A22' },
  'ignition-coils': {
    at: 'engine-inlet',
    mean: '2 A',
    feed: 'bus-engine',
    controller: 'ecu',
    outputs: 'A21, A22',
    earth: 'stud-engine',
  },
  'crank-and-cam': { crank: 'engine-front', cam: 'engine-front', controller: 'ecu', signal: 'B21, B22', camPin: 'B15' },
  'pedal-and-throttle': {
    pedal: 'pedals',
    throttle: 'engine-inlet',
    controller: 'ecu',
    pedalTracks: 'B21, B22',
    throttleTracks: 'B15, B5',
    motor: 'A21, A22',
  },
  'lambda-heater': { at: 'engine-exhaust', feed: 'bus-engine', controller: 'ecu', output: 'A21', cell: 'B21, B22' },
  'two-wire-sensor': { name: 'Oil temperature', at: 'engine-front', controller: 'ecu', pin: 'B21' },
  'three-wire-sensor': { name: 'Boost', at: 'engine-inlet', controller: 'ecu', pin: 'B21' },
  'resistance-switch': { at: 'dash-right', buttons: '4', pullUp: '1 kΩ', controller: 'ecu', pin: 'B21' },
  'level-sender': {
    gauge: 'dash-right',
    sender: 'tank-point',
    gaugeResistance: '60 Ω',
    senderResistance: '40 Ω',
    feed: 'bus-15',
    earth: 'stud-rear',
  },
  'diagnostic-socket': { at: 'dash-left', feed: 'bus-30', earth: 'stud-dash' },
  'can-pair': { highA: 'ecu.B21', lowA: 'ecu.B22', highB: 'tachometer.S', lowB: 'tachometer.31' },
}
/** Taken from the demo so that the pattern finds its pins free; the demo has them wired. */
const NEEDS_FREE: Readonly<Record<string, string>> = { 'controller-supply': 'ecu.B11' }

/** Three cases are enough here, and a third of the time. */
const thinned = (build: Build): Build => {
  for (const id of Object.keys(build.collections.cases))
    if (!['cranking', 'idle-hot-wet-night', 'full-load'].includes(id)) delete build.collections.cases[id]
  for (const device of Object.values(build.collections.devices))
    for (const load of device.loads ?? [])
      if (load.onlyIn) load.onlyIn = load.onlyIn.filter((id) => Object.hasOwn(build.collections.cases, id))
  return build
}

const refusedOr = (work: () => Applied): Applied | readonly { says: string; todo: string }[] => {
  try {
    return work()
  } catch (error) {
    // Anything but a refusal in words would be a fault of ours.
    if (!(error instanceof Refusal)) throw error
    return error.problems
  }
}

test('there is an answer sheet for each pattern', () => {
  expect(Object.keys(ANSWERS).sort()).toEqual(patterns.map(({ id }) => id).sort())
})

test.each(Object.entries(ANSWERS))('%s fits into the demo', (id, answers) => {
  const build = thinned(demoBuild())
  const free = NEEDS_FREE[id]
  if (free !== undefined)
    for (const wire of Object.values(build.collections.wires))
      if (wire.from === free || wire.to === free) delete build.collections.wires[wire.id]
  const applied = applyPattern(build, id, answers)
  expect(readBuild(JSON.parse(JSON.stringify(applied.build))).name).toBe(build.name)
  const own = new Set(
    applied.edit.changes.map((change) => ('collection' in change ? `${change.collection}/${change.id}` : '')),
  )
  expect(applied.problems.filter(({ verdict, path }) => verdict === 'no-go' && own.has(path ?? ''))).toEqual([])
  expect(applied.explains.length).toBeGreaterThan(2)
  expect(applied.cautions.length).toBeGreaterThan(0)
  for (const change of applied.edit.changes)
    if ('collection' in change && change.collection === 'wires')
      expect(applied.build.collections.wires[change.id]!.area?.value, change.id).toBeGreaterThan(0)
})

test('with half the data gone a pattern fits or says which datum it lacks', () => {
  const half = thinned(halfBuild())
  let refused = 0
  for (const { id } of patterns) {
    const found = refusedOr(() => applyPattern(half, id, ANSWERS[id]!))
    if (!Array.isArray(found)) continue
    refused += 1
    for (const { says, todo } of found) {
      expect(says.length).toBeGreaterThan(15)
      expect(todo).toMatch(/Enter|Name|Choose|Set|Take|Measure/)
    }
  }
  expect(refused).toBeGreaterThan(0)
})

test('answers without sense are refused in words', () => {
  const half = thinned(halfBuild())
  for (const { id, questions } of patterns)
    for (const nonsense of ['', '-1', 'ecu', 'nowhere', '0 A', ',', 'a,b,c', '../../x', '９'])
      expect(
        Array.isArray(
          refusedOr(() => applyPattern(half, id, Object.fromEntries(questions.map(({ name }) => [name, nonsense])))),
        ),
        `${id} ${nonsense}`,
      ).toBe(true)
})
