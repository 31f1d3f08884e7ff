import { expect, test } from 'vitest'
import { demoBuild } from '../../../demo/index.ts'
import { emptyBuild } from '../../model/build.ts'
import { blowerResistance } from './blower.ts'
import { applyPattern } from './index.ts'
import { against, ON, patternBuild, see } from './patternBuild.testing.ts'

const running = { engine: 'cruise', alternator: 'cruise', switches: { ...ON } } as const
const wiperAnswers = {
  at: 'battery-point',
  running: '4 A',
  stall: '20 A',
  switch: 'dash-right',
  feed: 'bus-15',
  earth: 'stud-front',
}

test('the wiper runs home with the switch off, and is braked at home', () => {
  const applied = applyPattern(patternBuild(), 'wiper', wiperAnswers)
  expect(applied.problems).toEqual([])
  const state = (wiper: string, park: string) => ({
    ...running,
    switches: { ...ON, 'wiper-switch': wiper, 'wiper-park': park },
  })
  expect(
    against(applied, state('wipe', 'sweeping'), state('wipe', 'parked'), state('off', 'sweeping'), running),
  ).toEqual([])
  for (const park of ['parked', 'sweeping'])
    expect(see(applied.build, state('wipe', park)).draws('wiper-motor')).toBeCloseTo(4, 0)
  expect(see(applied.build, state('off', 'sweeping')).draws('wiper-motor')).toBeCloseTo(4, 0)
  const home = see(applied.build, state('off', 'parked'))
  expect(home.draws('wiper-motor')).toBeLessThan(0.01)
  expect(Math.abs(home.volts('wiper-motor.53')! - home.volts('wiper-motor.31')!)).toBeLessThan(1e-3)
  // Shorted, not merely open: a current pressed into 53 comes back to 31 through the park contact.
  const shorted = structuredClone(applied.build)
  const motor = shorted.collections.devices['wiper-motor']!
  motor.loads = [
    {
      id: 'motor',
      from: '31',
      to: '53',
      law: { type: 'current', current: { value: 3 }, minimumVoltage: { value: 1e-6 } },
    },
  ]
  expect(Math.abs(see(shorted, state('off', 'parked')).volts('wiper-motor.53') ?? 9)).toBeLessThan(0.2)
  expect(see(applied.build, { switches: { 'wiper-park': 'sweeping' } }).draws('wiper-motor')).toBe(0)
})

test('the blower turns slower through its resistors, by the law of a fan', () => {
  const applied = applyPattern(patternBuild(), 'blower', {
    at: 'dash-left',
    running: '12 A',
    stall: '40 A',
    switch: 'dash-right',
    feed: 'bus-15',
    earth: 'stud-dash',
  })
  expect(applied.problems).toEqual([])
  const at = (speed: string) => ({ ...running, switches: { ...ON, 'blower-switch': speed } })
  expect(against(applied, at('1'), at('2'), at('3'))).toEqual([])
  const draws = ['off', '1', '2', '3'].map((speed) => see(applied.build, at(speed)).draws('blower'))
  expect(draws[0]).toBe(0)
  // Current ∝ speed²: a half and three quarters of full speed at 13 V; the car gives a little more.
  expect(draws[1]! / draws[3]!).toBeCloseTo(0.25, 1)
  expect(draws[2]! / draws[3]!).toBeCloseTo(0.5625, 1)
  expect(draws[3]!).toBeGreaterThan(11)
  expect(blowerResistance(12, 40, 1)).toBeCloseTo(0, 9)
  expect(see(applied.build, { switches: { 'blower-switch': '3' } }).draws('blower')).toBe(0)
})

const starterCar = () =>
  patternBuild(({ collections: c }) => {
    for (const id of ['alternator', 'fuse-charge']) delete c.devices[id]
    for (const id of ['W-3', 'W-4', 'W-5']) delete c.wires[id]
  })
const starterAnswers = {
  battery: 'battery',
  starter: 'engine-point',
  alternator: 'engine-point',
  cranking: '180 A',
  solenoid: '18 A',
  output: '65 A',
  idle: '40 A',
  start: 'ignition-switch.50',
  ignition: 'bus-15',
  lamp: 'dash-right',
  engine: 'stud-engine',
  earth: 'stud-front',
}

test('the charge lamp burns with the engine stopped and is out while it charges; the starter turns at start only', () => {
  const applied = applyPattern(starterCar(), 'starter-alternator', starterAnswers)
  expect(applied.problems).toEqual([])
  const start = { engine: 'cranking', switches: { 'ignition-switch': 'start' } } as const
  expect(against(applied, running, start, { switches: ON })).toEqual([])
  expect(see(applied.build, { switches: ON }).draws('charge-lamp')).toBeGreaterThan(0.1)
  expect(see(applied.build, running).draws('charge-lamp')).toBeLessThan(0.02)
  expect(see(applied.build, {}).draws('charge-lamp')).toBe(0)
  const turned = (state: Parameters<typeof see>[1]) =>
    see(applied.build, state).solved.elements.get('starter#motor') ?? 0
  expect(turned(start)).toBeCloseTo(180, 0)
  expect(turned({ engine: 'cranking', switches: ON })).toBe(0)
  const cable = Object.values(applied.build.collections.wires).find(({ to }) => to === 'starter.30')!
  expect(cable.unfusedBecause).toMatch(/Starter cable/)
  const { solved } = see(applied.build, start)
  expect((solved.nodes.get('battery.+') ?? 0) - (solved.nodes.get('starter.30') ?? 0)).toBeLessThan(0.5)
  const charging = see(applied.build, running)
  expect(charging.volts('alternator.B+')! - charging.volts('battery.+')!).toBeLessThan(0.3)
  expect(charging.volts('battery.+')!).toBeGreaterThan(13.5)
})

const bareCar = () =>
  patternBuild(({ collections: c }) => {
    for (const id of ['main-relay', 'bus-87', 'fuse-ecu', 'fuse-87', 'fuse-memory']) delete c.devices[id]
    for (const id of ['W-8', 'W-12', 'W-13', 'W-14', 'W-15', 'W-16', 'W-17', 'W-18', 'W-19', 'W-20']) delete c.wires[id]
    c.devices.ecu!.pins.A1 = {}
    c.devices.ecu!.pins.A2 = {}
    c.devices.ecu!.pins.A24 = {}
    delete c.devices.ecu!.loads
  })

test('the main relay is held by the controller after the key is off, and drops when the controller lets go', () => {
  const applied = applyPattern(bareCar(), 'controller-supply', {
    controller: 'ecu',
    supply: 'A1',
    permanent: 'A2',
    wake: 'A3',
    relay: 'A14',
    earths: 'A23, A24',
    draws: '1 A',
    engine: '30 A',
    feed: 'bus-30',
    ignition: 'bus-15',
    earth: 'stud-engine',
  })
  const loose = (problem: { code: string }) => problem.code !== 'loose-splice'
  expect(applied.problems.filter(loose)).toEqual([])
  const held = { 'out-main-relay': 1 }
  expect(against(applied, { ...running, outputs: held }).filter(({ rule }) => rule !== 'loose-splice')).toEqual([])
  const volts = (state: Parameters<typeof see>[1]) => see(applied.build, state).volts('ecu.A1') ?? 0
  expect(volts({ switches: ON, outputs: held })).toBeGreaterThan(12)
  expect(volts({ outputs: held })).toBeGreaterThan(12)
  expect(volts({ switches: ON })).toBeLessThan(0.01)
  expect(volts({})).toBeLessThan(0.01)
  expect(see(applied.build, { switches: ON }).volts('ecu.A3')).toBeGreaterThan(12)
  expect(see(applied.build, {}).volts('ecu.A3') ?? 0).toBeLessThan(0.01)
  expect(see(applied.build, {}).volts('ecu.A2')).toBeGreaterThan(12)
})

test('on the demo, and refused on an empty build', () => {
  const demo = applyPattern(demoBuild(), 'wiper', { ...wiperAnswers, at: 'bay-left' })
  expect(
    against(demo, { ...running, switches: { ...ON, 'wiper-switch-2': 'wipe', 'wiper-park': 'sweeping' } }),
  ).toEqual([])
  for (const id of ['wiper', 'blower', 'starter-alternator', 'controller-supply'])
    expect(() => applyPattern(emptyBuild('Empty'), id, {})).toThrow(/is not answered/)
  expect(() => applyPattern(emptyBuild('Empty'), 'starter-alternator', starterAnswers)).toThrow(
    /There is no device “battery”/,
  )
  expect(() => applyPattern(starterCar(), 'starter-alternator', { ...starterAnswers, engine: 'stud-front' })).toThrow(
    /is not on the engine/,
  )
})
