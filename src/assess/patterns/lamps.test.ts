import { expect, test } from 'vitest'
import { demoBuild } from '../../../demo/index.ts'
import { emptyBuild } from '../../model/build.ts'
import { assess } from '../assess.ts'
import { applyPattern } from './index.ts'
import { added, against, ON, patternBuild, see } from './patternBuild.testing.ts'

const running = { engine: 'cruise', alternator: 'cruise' } as const

test('the car of these tests has nothing against it', () => {
  const build = patternBuild()
  build.collections.cases.run = {
    id: 'run',
    name: 'run',
    ...running,
    battery: 'connected',
    switches: { ...ON },
    outputs: {},
  }
  expect(assess(build).findings.filter(({ verdict }) => verdict === 'no-go' || verdict === 'marginal')).toEqual([])
})

test('stop lamps light only when the pedal is pressed with the ignition on', () => {
  const applied = applyPattern(patternBuild(), 'stop-lamps', {
    lamps: 'rear-left, rear-right',
    switch: 'dash-right',
    feed: 'bus-15',
    earth: 'stud-rear',
  })
  expect(applied.problems).toEqual([])
  const pressed = { 'stop-lamps-switch': 'pressed' }
  expect(against(applied, { ...running, switches: { ...ON, ...pressed } })).toEqual([])
  const draws = (switches: Record<string, string>) => {
    const { draws } = see(applied.build, { switches })
    return [draws('stop-lamp-1'), draws('stop-lamp-2')]
  }
  for (const amperes of draws({ ...ON, ...pressed })) expect(amperes).toBeGreaterThan(1.6)
  expect(draws(ON)).toEqual([0, 0])
  expect(draws(pressed)).toEqual([0, 0])
  expect(applied.explains.join('\n')).toMatch(/fuse-stop-lamps: .* A blade, in dash/)
})

test('a reversing lamp lights in reverse with the ignition on', () => {
  const applied = applyPattern(patternBuild(), 'reversing-lamp', {
    lamps: 'rear-right',
    switch: 'gearbox',
    feed: 'bus-15',
    earth: 'stud-rear',
  })
  const reverse = { ...ON, 'reversing-switch': 'reverse' }
  expect(against(applied, { ...running, switches: reverse })).toEqual([])
  expect(see(applied.build, { switches: reverse }).draws('reversing-lamp-1')).toBeGreaterThan(1.6)
  expect(see(applied.build, { switches: ON }).draws('reversing-lamp-1')).toBe(0)
})

test('a lamp group burns from its switch, each lamp to the nearer stud', () => {
  const applied = applyPattern(patternBuild(), 'lamp-group', {
    name: 'Side lamps',
    lamps: 'nose-left, nose-right, rear-left, rear-right',
    switch: 'dash-right',
    feed: 'bus-30',
    earth: 'stud-nose',
    earth2: 'stud-rear',
  })
  expect(applied.problems).toEqual([])
  const on = { 'side-lamps-switch': 'on' }
  expect(against(applied, { ...running, switches: on })).toEqual([])
  const { draws } = see(applied.build, { switches: on })
  for (const n of [1, 2, 3, 4]) expect(draws(`side-lamps-${n}`)).toBeCloseTo(0.42, 1)
  expect(see(applied.build, {}).draws('side-lamps-1')).toBe(0)
  const earths = added(applied, 'wires').map((id) => applied.build.collections.wires[id]!.to)
  expect(earths.filter((end) => end === 'stud-rear.S')).toHaveLength(2)
})

test('a relay-fed lamp: the switch carries the coil alone', () => {
  const applied = applyPattern(patternBuild(), 'relay-fed-load', {
    name: 'Work lamp',
    kind: 'lamp',
    power: '100 W',
    at: 'rear-right',
    feed: 'bus-30',
    earth: 'stud-rear',
    switch: 'dash-right',
  })
  expect(applied.problems).toEqual([])
  const on = { 'work-lamp-switch': 'on' }
  expect(against(applied, { ...running, switches: on })).toEqual([])
  const lit = see(applied.build, { ...running, switches: on })
  expect(lit.draws('work-lamp')).toBeGreaterThan(8)
  const switched = added(applied, 'wires').find(
    (id) => applied.build.collections.wires[id]!.from === 'work-lamp-switch.2',
  )!
  expect(lit.amps(switched)).toBeLessThan(0.2)
  expect(see(applied.build, running).draws('work-lamp')).toBe(0)
})

test('the demo takes a lamp group on its own runs and rails', () => {
  const applied = applyPattern(demoBuild(), 'lamp-group', {
    name: 'Work lamps',
    lamps: 'load-left, rear-right',
    power: '10 W',
    switch: 'dash-right',
    feed: 'bus-30',
    earth: 'stud-rear',
  })
  expect(applied.problems).toEqual([])
  expect(against(applied, { ...running, switches: { ...ON, 'work-lamps-switch': 'on' } })).toEqual([])
  expect(added(applied, 'wires')[0]).toBe('W-328')
})

test('an empty build is refused, and everything that is missing is named', () => {
  const answers = { lamps: 'rear-left, rear-right', switch: 'dash-right', feed: 'bus-15', earth: 'stud-rear' }
  expect(() => applyPattern(emptyBuild('Empty'), 'stop-lamps', answers)).toThrow(
    /There is no branch point “rear-left”[\s\S]*There is no branch point “dash-right”[\s\S]*There is no device “bus-15”[\s\S]*There is no device “stud-rear”/,
  )
  expect(() => applyPattern(emptyBuild('Empty'), 'stop-lamps', {})).toThrow(
    /Where the pedal switch sits is not answered/,
  )
  const answered = (change: Parameters<typeof patternBuild>[0]) => () =>
    applyPattern(patternBuild(change), 'stop-lamps', answers)
  expect(
    answered((build) => {
      delete build.collections.runs['R-6']!.length
    }),
  ).toThrow(/The length of R-6 is not entered/)
  expect(
    answered((build) => {
      delete build.collections.zones.cabin!.ambient
    }),
  ).toThrow(/How hot it gets in cabin is not entered/)
  expect(
    answered((build) => {
      delete build.collections.runs['R-7']
    }),
  ).toThrow(/No runs of the loom lead from rear-left to rear-right|No runs of the loom lead from/)
  expect(
    answered((build) => {
      delete build.collections.wires['W-11']
      delete build.collections.wires['W-14']
    }),
  ).toThrow(/Nothing feeds bus-15/)
  expect(() => applyPattern(patternBuild(), 'stop-lamps', { ...answers, drop: '0.1 %' })).toThrow(
    /alone lose all the drop that is allowed/,
  )
})

test('an airbag circuit is never tapped, nor a rail from which one hangs', () => {
  const answers = { lamps: 'rear-left', switch: 'gearbox', feed: 'bus-15', earth: 'stud-rear' }
  const tapped = (change: Parameters<typeof patternBuild>[0]) => () =>
    applyPattern(patternBuild(change), 'reversing-lamp', answers)
  expect(
    tapped((car) => {
      car.collections.devices['bus-15']!.restricted = 'airbag'
    }),
  ).toThrow(/belongs to the airbag system, which is never altered here/)
  expect(
    tapped((car) => {
      car.collections.wires['W-14']!.restricted = 'anti-lock'
    }),
  ).toThrow(/W-14 joins it to an airbag or anti-lock circuit/)
})
