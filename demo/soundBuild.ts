/** A small build of another shape, sound throughout: a light open trailer tug, naturally aspirated twin, few devices. */
import type { Build } from '../src/model/build.ts'
import { type Draft, draft, ring, rings } from './draft.ts'
import { contact, electronics, fuse, lamp, motor, relay, resistive } from './parts.ts'
import {
  ampHours,
  amps,
  barAcross,
  barGauge,
  celsius,
  cm2,
  cubicCentimetres,
  degrees,
  gramsPerKilowattHour,
  gramsPerMinute,
  kg,
  kgPerM3,
  kilometresPerHour,
  kilopascalsAcross,
  kilowatts,
  litres,
  litresPerHour,
  m,
  megapascals,
  milliohms,
  milliseconds,
  mm,
  newtonMetres,
  newtons,
  ohms,
  ratio,
  rpm,
  volts,
} from './quantities.ts'

export const soundBuild = (): Build => {
  const pen = draft('Brennick yard tug')
  shape(pen)
  devices(pen)
  loom(pen)
  rest(pen)
  return pen.finish()
}

const shape = ({ put, sheet }: Draft): void => {
  sheet('vehicle', {
    name: 'Brennick yard tug, 1964',
    category: 'other',
    firstUsed: 1964,
    length: m(2.6),
    width: m(1.3),
    frontMass: kg(420),
    rearMass: kg(380),
    ladenMass: kg(1000),
    centreOfGravityHeight: m(0.45, 0.03),
    wheelbase: m(1.7),
    tyreRadius: m(0.3, 0.005),
    gears: [4.2, 2.4, 1.4],
    finalDrive: 5.1,
  })
  sheet('driveline', {
    driven: 'rear',
    engineSet: 'in line',
    peakTorque: newtonMetres(66, 3),
    clutchTorque: newtonMetres(95),
    gearboxTorque: newtonMetres(90),
    axleTorque: newtonMetres(1900),
    propshaftLength: m(0.55, 0.005),
    propshaftDiameter: mm(50),
    propshaftWall: mm(2),
    propshaftTube: 'steel',
    propshaftYield: megapascals(300),
    jointTorque: newtonMetres(600),
    jointAngles: [degrees(2, 0.2), degrees(2.2, 0.2)],
    phase: degrees(0),
    mounts: { span: mm(420), weight: newtons(350), rated: newtons(1800) },
    cruise: kilometresPerHour(22),
    topSpeed: kilometresPerHour(30),
    corners: { frontLeft: kg(209, 2), frontRight: kg(211, 2), rearLeft: kg(191, 2), rearRight: kg(189, 2) },
    frontTrack: m(1.05),
    rearTrack: m(1.05),
  })
  sheet('oil', {
    capacity: litres(3),
    pressures: [
      [rpm(800), barGauge(1.1, 0.1)],
      [rpm(3600), barGauge(3.3, 0.1)],
    ],
    leastPressures: [
      [rpm(800), barGauge(0.7)],
      [rpm(3600), barGauge(2)],
    ],
    hotTemperature: celsius(95, 5),
    breather: 'to the intake',
    breatherBore: mm(19),
    breatherLength: m(0.4),
    crankcaseLimit: kilopascalsAcross(1.5),
  })
  sheet('exhaust', {
    bore: mm(38),
    length: m(1.4),
    fittings: ratio(1.5, 0.4),
    gasTemperature: celsius(550, 40),
    backPressureLimit: barGauge(0.1),
    near: [
      {
        name: 'Loom on the chassis rail',
        distance: mm(300, 20),
        shielded: false,
        what: 'wires',
        zone: 'cover',
        diameter: mm(12),
        limit: celsius(125),
        surface: celsius(350, 30),
        outside: mm(42),
      },
    ],
  })
  sheet('brakes', {
    pedalRatio: ratio(6),
    masterCylinder: m(0.01905),
    servoRatio: ratio(1),
    frontKind: 'drum',
    frontPistonArea: cm2(2.85),
    frontRadius: m(0.1),
    frontShoes: { kind: 'two leading', leading: ratio(1.6, 0.1) },
    frontIron: kg(4.5),
    rearKind: 'drum',
    rearPistonArea: cm2(1.6),
    rearRadius: m(0.1),
    rearShoes: { kind: 'leading and trailing', leading: ratio(1.2, 0.1), trailing: ratio(0.5, 0.03) },
    rearIron: kg(4.5),
    friction: ratio(0.36, 0.02),
    circuits: 'front and rear',
    antiLock: false,
    valve: { kind: 'none' },
    ladenFrontMass: kg(500),
    ladenHeight: m(0.5, 0.03),
    stops: { count: 5, from: kilometresPerHour(30) },
    liningLimit: celsius(350),
    inspection: { name: 'the yard’s own check', service: ratio(0.4), failed: ratio(0.2), force: newtons(600) },
    travel: {
      stroke: mm(32),
      floatingStroke: mm(15),
      floatingFeeds: 'rear',
      idle: mm(1.2),
      frontClearance: mm(1.1, 0.2),
      rearClearance: mm(1.1, 0.2),
      frontTake: cubicCentimetres(0.4, 0.1),
      rearTake: cubicCentimetres(0.4, 0.1),
      frontHoses: cubicCentimetres(0.3, 0.1),
      rearHoses: cubicCentimetres(0.3, 0.1),
      pedal: mm(170),
    },
    parking: {
      by: 'hand',
      ratio: ratio(8),
      cables: ratio(0.8, 0.05),
      wheel: ratio(3),
      gradient: ratio(0.15),
      force: newtons(400),
    },
    fluid: { kind: 'DOT 4', age: 'up to two years', temperature: celsius(70, 5) },
  })
  put(
    'zones',
    {
      id: 'cover',
      name: 'Under the engine cover',
      ambient: celsius(70),
      wet: 'dry',
      vibration: 'engine',
      outline: [
        [0.2, -0.4],
        [1.1, -0.4],
        [1.1, 0.4],
        [0.2, 0.4],
      ],
    },
    {
      id: 'box',
      name: 'Electrical box',
      ambient: celsius(45),
      wet: 'dry',
      vibration: 'body',
      outline: [
        [1.2, -0.4],
        [1.6, -0.4],
        [1.6, 0.4],
        [1.2, 0.4],
      ],
    },
  )
  put(
    'branchPoints',
    { id: 'at-engine', name: 'Engine', zone: 'cover', x: 0.7, y: 0 },
    { id: 'at-box', name: 'Box', zone: 'box', x: 1.4, y: 0 },
  )
  put('passages', {
    id: 'box-floor',
    name: 'Floor of the box',
    hole: mm(45),
    grommet: true,
    bore: mm(36),
    through: 'metal',
  })
  put('runs', {
    id: 'R-1',
    from: 'at-engine',
    to: 'at-box',
    length: m(1.2),
    zone: 'cover',
    sleeve: 'split conduit',
    passage: 'box-floor',
  })
  put('circuits', { id: 'all', name: 'Whole tug' })
}

const devices = (pen: Draft): void => {
  const { device } = pen
  device(
    'battery',
    'Battery',
    'at-box',
    {
      kind: 'battery',
      restedVoltage: volts(12.6),
      internalResistance: milliohms(7),
      capacity: ampHours(44),
      acceptance: amps(3),
    },
    { '+': '', '-': '' },
  )
  device(
    'alternator',
    'Alternator, 45 A',
    'at-engine',
    {
      kind: 'alternator',
      setpoint: volts(14.2),
      internalResistance: milliohms(20),
      hotOutputIdle: amps(28),
      hotOutputCruise: amps(42),
    },
    { 'B+': '', 31: '' },
  )
  device(
    'starter',
    'Starter',
    'at-engine',
    { kind: 'starter', crankingCurrent: amps(120), solenoidResistance: ohms(1), pullIn: volts(7.5) },
    { 30: '', 50: '', 31: '' },
  )
  device(
    'stud-body',
    'Earth stud, frame',
    'at-box',
    { kind: 'earth-stud', on: 'body', contactResistance: milliohms(0.3) },
    { S: '' },
  )
  device(
    'stud-engine',
    'Earth stud, engine',
    'at-engine',
    { kind: 'earth-stud', on: 'engine', contactResistance: milliohms(0.3) },
    { S: '' },
  )
  fuse(pen, 'fuse-charge', 'Charging', 'at-box', 60, 'bolt-down')
  fuse(pen, 'fuse-main', 'Main', 'at-box', 30, 'bolt-down')
  fuse(pen, 'fuse-ecu', 'Controller', 'at-box', 7.5)
  fuse(pen, 'fuse-injectors', 'Injectors', 'at-box', 7.5)
  fuse(pen, 'fuse-pump', 'Fuel pump', 'at-box', 10)
  fuse(pen, 'fuse-lamp', 'Work lamp', 'at-box', 7.5)
  contact(pen, 'key', 'Key switch', 'at-box', {
    off: [],
    on: [['30', '15']],
    start: [
      ['30', '15'],
      ['30', '50'],
    ],
  })
  contact(pen, 'lamp-switch', 'Work lamp switch', 'at-box', { off: [], on: [['1', '2']] })
  relay(pen, 'pump-relay', 'Fuel pump relay', 'at-box')
  device(
    'fuel-pump',
    'Fuel pump',
    'at-box',
    { kind: 'pump' },
    { '+': '', '-': '' },
    { loads: [motor('+', '-', 3.5, 9, 10)] },
  )
  lamp(pen, 'work-lamp', 'Work lamp', 'at-box', 35)
  device(
    'ecu',
    'Controller',
    'at-box',
    { kind: 'controller' },
    { P: 'switched supply', E: 'power earth', SE: 'sensor earth', V5: 'supply 5 V', I1: '', I2: '', T: '', PR: '' },
    { loads: [electronics('P', 'E', 0.4)] },
  )
  for (const n of [1, 2])
    device(
      `injector-${n}`,
      `Injector ${n}`,
      'at-engine',
      { kind: 'injector' },
      { 1: 'supply', 2: 'driver' },
      { loads: [resistive('1', '2', 12, 8)] },
    )
  device(
    'coolant-sensor',
    'Coolant temperature sensor',
    'at-engine',
    { kind: 'sensor' },
    { S: 'signal', '-': 'return' },
  )
}

const loom = ({ wires }: Draft): void => {
  const link = {
    length: m(0.1),
    ...rings(),
    unfusedBecause: 'Link of the fuse strip bolted to the battery terminal: 0.1 m of insulated bar.',
  }
  wires('all', [
    ['W-1', 'battery.+', 'starter.30', 25, 'RD', { ...rings(), unfusedBecause: 'Starter cable.' }],
    ['W-2', 'battery.-', 'stud-body.S', 25, 'BK', { length: m(0.3), ...rings() }],
    ['W-3', 'stud-body.S', 'stud-engine.S', 35, 'BK', { ends: { from: ring(), to: ring() } }],
    ['W-4', 'battery.+', 'fuse-charge.1', 25, 'RD', link],
    ['W-5', 'fuse-charge.2', 'alternator.B+', 16, 'RD', { ...rings() }],
    ['W-6', 'alternator.31', 'stud-engine.S', 16, 'BK', { length: m(0.2), ...rings() }],
    ['W-7', 'starter.31', 'stud-engine.S', 35, 'BK', { length: m(0.2), ...rings() }],
    ['W-8', 'battery.+', 'fuse-main.1', 10, 'RD', link],
    ['W-9', 'fuse-main.2', 'key.30', 6, 'RD'],
    ['W-10', 'key.50', 'starter.50', 6, 'BK/YE'],
    ['W-11', 'key.15', 'fuse-ecu.1', 6, 'BK'],
    ['W-12', 'fuse-ecu.1', 'fuse-injectors.1', 6, 'BK'],
    ['W-13', 'fuse-injectors.1', 'fuse-pump.1', 6, 'BK'],
    ['W-14', 'fuse-pump.1', 'fuse-lamp.1', 6, 'BK'],
    ['W-15', 'fuse-ecu.2', 'ecu.P', 1.5, 'BK/RD'],
    ['W-16', 'ecu.E', 'stud-body.S', 2.5, 'BN'],
    ['W-17', 'fuse-injectors.2', 'injector-1.1', 1.5, 'BK/GY'],
    ['W-18', 'injector-1.1', 'injector-2.1', 1.5, 'BK/GY'],
    ['W-19', 'injector-1.2', 'ecu.I1', 1, 'GY'],
    ['W-20', 'injector-2.2', 'ecu.I2', 1, 'GY/RD'],
    ['W-21', 'fuse-pump.2', 'pump-relay.30', 2.5, 'BK/GN'],
    ['W-22', 'fuse-pump.2', 'pump-relay.86', 2.5, 'BK/GN'],
    ['W-23', 'pump-relay.87', 'fuel-pump.+', 2.5, 'GN'],
    ['W-24', 'fuel-pump.-', 'stud-body.S', 2.5, 'BN'],
    ['W-25', 'pump-relay.85', 'ecu.PR', 1, 'BN/GN'],
    ['W-26', 'fuse-lamp.2', 'lamp-switch.1', 1.5, 'BK/WH'],
    ['W-27', 'lamp-switch.2', 'work-lamp.+', 1.5, 'WH'],
    ['W-28', 'work-lamp.-', 'stud-body.S', 1.5, 'BN'],
    ['W-29', 'coolant-sensor.S', 'ecu.T', 1, 'GN'],
    ['W-30', 'coolant-sensor.-', 'ecu.SE', 1, 'BK/WH'],
  ])
}

const rest = ({ put, sheet }: Draft): void => {
  sheet('engine', {
    name: 'Two-cylinder, 0.7 litres',
    cylinders: 2,
    sweptVolume: litres(0.7),
    compressionRatio: 8.5,
    charging: 'none',
    targetPower: kilowatts(22),
    targetSpeed: rpm(3600),
    controller: 'ecu',
  })
  sheet('fuel', {
    fuel: 'E10',
    density: kgPerM3(748, 8),
    specificConsumption: gramsPerKilowattHour(310, 15),
    lambda: ratio(0.9),
    dutyLimit: 0.85,
    railPressure: barGauge(3),
    railReference: 'manifold',
    injectors: {
      devices: ['injector-1', 'injector-2'],
      count: 2,
      flow: gramsPerMinute(130, 4),
      flowPressure: barAcross(3),
      deadTime: [
        [volts(12), milliseconds(1.1)],
        [volts(14), milliseconds(0.85)],
      ],
    },
    pump: {
      device: 'fuel-pump',
      ratedVoltage: volts(12),
      curve: [
        [barAcross(0), litresPerHour(80)],
        [barAcross(3), litresPerHour(55)],
        [barAcross(5), litresPerHour(35)],
      ],
      voltageExponent: 1.5,
    },
  })
  put('inputs', {
    id: 'in-coolant',
    name: 'Coolant temperature',
    device: 'ecu',
    pin: 'T',
    signal: 'resistance',
    source: 'coolant-sensor',
    configured: true,
    pullUp: ohms(2490),
    bits: 12,
    reference: volts(5),
    range: [volts(0), volts(5)],
  })
  const low = (id: string, name: string, pin: string, drives: string) =>
    put('outputs', {
      id,
      name,
      device: 'ecu',
      pin,
      driver: 'low side',
      drives,
      configured: true,
      limit: amps(3),
      onResistance: ohms(0.12),
      clamp: volts(45),
      atBoot: 'off',
    })
  low('out-1', 'Injector 1', 'I1', 'injector-1')
  low('out-2', 'Injector 2', 'I2', 'injector-2')
  low('out-pump', 'Fuel pump relay', 'PR', 'pump-relay')
  const running = { 'out-1': 0.5, 'out-2': 0.5, 'out-pump': 1 }
  put(
    'cases',
    {
      id: 'parked',
      name: 'Parked',
      engine: 'off',
      alternator: 'off',
      battery: 'connected',
      ambient: celsius(20),
      switches: {},
      outputs: {},
    },
    {
      id: 'cranking',
      name: 'Cranking',
      engine: 'cranking',
      alternator: 'off',
      battery: 'connected',
      ambient: celsius(5),
      switches: { key: 'start' },
      outputs: { 'out-1': 0.05, 'out-2': 0.05, 'out-pump': 1 },
    },
    {
      id: 'full-load',
      name: 'Full load, lamp on',
      engine: 'full load',
      alternator: 'cruise',
      battery: 'connected',
      ambient: celsius(25),
      switches: { key: 'on', 'lamp-switch': 'on' },
      outputs: running,
    },
  )
  put('milestones', { id: 'works', name: 'Works', order: 1 })
  put('accesses', {
    id: 'cover-off',
    name: 'Engine cover off',
    zone: 'cover',
    open: { value: 120 },
    close: { value: 180 },
  })
  put('jobs', {
    id: 'J-1',
    title: 'Label the fuses',
    zone: 'box',
    time: { least: { value: 900 }, likely: { value: 1800 }, most: { value: 3600 } },
    milestone: 'works',
    status: 'to do',
  })
}
