/** Battery, charging, starting, earths and the two main feeds. W-1 … W-49. */
import { type Draft, rings } from './draft.ts'
import { contact, fuse, relay, resistive, splice } from './parts.ts'
import { ampHours, amps, m, milliohms, ohms, volts } from './quantities.ts'

const STRIP = 'Link of the fuse strip that is bolted to the battery terminal: 0.1 m of insulated bar.'
const strip = { length: m(0.1), ...rings(), unfusedBecause: STRIP }

export const power = (pen: Draft): void => {
  const { put, device, wires } = pen
  put(
    'circuits',
    { id: 'supply', name: 'Supply and charging' },
    { id: 'starting', name: 'Starting' },
    { id: 'earths', name: 'Earths' },
  )
  device(
    'battery',
    'Battery, 12 V 63 A·h',
    'battery-point',
    {
      kind: 'battery',
      restedVoltage: volts(12.6, 0.1),
      internalResistance: milliohms(6, 1),
      capacity: ampHours(63),
      coldCranking: amps(610),
      acceptance: amps(4, 2),
    },
    { '+': 'positive', '-': 'negative' },
  )
  device(
    'alternator',
    'Alternator, 120 A',
    'engine-front',
    {
      kind: 'alternator',
      setpoint: volts(14.2, 0.2),
      internalResistance: milliohms(12, 4),
      hotOutputIdle: amps(88, 5),
      hotOutputCruise: amps(112, 5),
      loadDumpClamp: volts(35),
    },
    { 'B+': 'output', 'D+': 'charge lamp', 31: 'case' },
    {
      loads: [{ ...resistive('D+', '31', 45), id: 'field', onlyIn: ['ignition-on', 'cranking', 'jump-start'] }],
      remark:
        'At a standstill the lamp feeds the field; once it charges, D+ stands at battery level and the lamp is out.',
    },
  )
  device(
    'starter',
    'Starter motor, 1.4 kW',
    'engine-inlet',
    {
      kind: 'starter',
      crankingCurrent: amps(190, 20),
      solenoidResistance: ohms(0.6, 0.1),
      pullIn: volts(8),
    },
    { 30: 'battery', 50: 'solenoid', 31: 'case' },
  )
  const stud = (id: string, name: string, at: string, on: 'body' | 'engine') =>
    device(id, name, at, { kind: 'earth-stud', on, contactResistance: milliohms(0.5, 0.3) }, { S: 'stud' })
  stud('stud-front', 'Earth stud, left wing', 'battery-point', 'body')
  stud('stud-nose', 'Earth stud, right wing', 'bay-right', 'body')
  stud('stud-dash', 'Earth stud, dash', 'dash-left', 'body')
  stud('stud-rear', 'Earth stud, rear pillar', 'rear-left', 'body')
  stud('stud-engine', 'Earth stud, cylinder block', 'engine-inlet', 'engine')
  device(
    'throttle-cable',
    'Throttle cable',
    'engine-inlet',
    { kind: 'resistor', resistance: milliohms(60, 30) },
    { 1: 'pedal end', 2: 'throttle end' },
    {
      notForCurrent: true,
      remark: 'Of the old pedal, kept as a spare: steel from the bulkhead to the inlet manifold.',
    },
  )
  fuse(pen, 'fuse-body', 'Body feed', 'battery-point', 60, 'bolt-down')
  fuse(pen, 'fuse-engine', 'Engine feed', 'battery-point', 60, 'bolt-down')
  fuse(pen, 'fuse-ignition', 'Ignition feed', 'battery-point', 40, 'bolt-down')
  splice(pen, 'bus-30', 'Fuse box rail, terminal 30', 'dash-left', 12)
  splice(pen, 'bus-15', 'Fuse box rail, terminal 15', 'dash-left', 10)
  splice(pen, 'bus-engine', 'Engine fuse box rail', 'controller-point', 8)
  contact(pen, 'ignition-switch', 'Ignition switch', 'dash-right', {
    off: [],
    on: [['30', '15']],
    start: [
      ['30', '15'],
      ['30', '50'],
    ],
  })
  relay(pen, 'main-relay', 'Main relay of the engine feed', 'controller-point')
  relay(pen, 'start-relay', 'Starter relay', 'battery-point')
  fuse(pen, 'fuse-start', 'Starter solenoid', 'battery-point', 30, 'bolt-down')
  relay(pen, 'ignition-relay', 'Terminal 15 relief relay', 'dash-left')
  fuse(pen, 'fuse-relief', 'Terminal 15 relief relay', 'battery-point', 50, 'bolt-down')

  wires('supply', [
    [
      'W-4',
      'alternator.B+',
      'battery.+',
      35,
      'RD',
      { ...rings(), insulation: 'E', remark: 'Taken over from the donor as it was.' },
    ],
    ['W-5', 'battery.+', 'fuse-body.1', 25, 'RD', strip],
    ['W-6', 'battery.+', 'fuse-engine.1', 25, 'RD', strip],
    ['W-7', 'battery.+', 'fuse-ignition.1', 25, 'RD', strip],
    ['W-8', 'battery.+', 'fuse-start.1', 25, 'RD', strip],
    ['W-9', 'battery.+', 'fuse-relief.1', 25, 'RD', strip],
    ['W-10', 'fuse-body.2', 'bus-30.1', 16, 'RD'],
    ['W-11', 'fuse-engine.2', 'main-relay.30', 16, 'RD'],
    ['W-12', 'fuse-ignition.2', 'ignition-switch.30', 6, 'RD'],
    ['W-13', 'main-relay.87', 'bus-engine.1', 16, 'RD/YE'],
    ['W-14', 'fuse-relief.2', 'ignition-relay.30', 10, 'RD'],
    ['W-15', 'ignition-relay.87', 'bus-15.1', 10, 'RD/BK'],
    [
      'W-16',
      'ignition-switch.15',
      'ignition-relay.86',
      6,
      'BK/RD',
      { remark: 'As thick as the ignition feed, whose fuse protects it.' },
    ],
    ['W-17', 'ignition-relay.85', 'stud-dash.S', 1, 'BN'],
  ])
  wires('starting', [
    [
      'W-1',
      'battery.+',
      'starter.30',
      35,
      'RD',
      {
        ...rings(),
        unfusedBecause: 'Starter cable: no fuse carries cranking current; sleeved and clipped along its length.',
      },
    ],
    ['W-20', 'fuse-start.2', 'start-relay.30', 6, 'RD'],
    ['W-21', 'start-relay.87', 'starter.50', 6, 'RD/WH'],
    ['W-22', 'ignition-switch.50', 'start-relay.86', 6, 'BK/YE'],
    ['W-23', 'start-relay.85', 'stud-front.S', 1, 'BN'],
  ])
  wires('earths', [
    ['W-2', 'battery.-', 'stud-front.S', 35, 'BK', { length: m(0.3), ...rings() }],
    [
      'W-3',
      'battery.-',
      'stud-engine.S',
      6,
      'BK',
      { length: m(1.1), ...rings(), remark: 'The old strap had broken; this one was to hand.' },
    ],
    ['W-33', 'stud-dash.S', 'throttle-cable.1', 2.5, 'BK', { remark: 'Stands for the clamp of the cable’s outer.' }],
    [
      'W-34',
      'throttle-cable.2',
      'stud-engine.S',
      2.5,
      'BK',
      { length: m(0.1), remark: 'Stands for the abutment on the manifold.' },
    ],
    [
      'W-30',
      'starter.31',
      'stud-engine.S',
      50,
      'BK',
      { length: m(0.15), ...rings(), remark: 'Stands for the bolted case.' },
    ],
    [
      'W-31',
      'alternator.31',
      'stud-engine.S',
      35,
      'BK',
      { ...rings(), remark: 'Stands for the bolted case and bracket.' },
    ],
  ])
}
