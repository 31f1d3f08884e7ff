/** Engine controller, its sensors, injectors, coils and solenoids. W-200 … W-299. */
import type { Entity } from '../src/model/build.ts'
import type { Draft } from './draft.ts'
import { contact, electronics, fuse, resistive, sensor, splice } from './parts.ts'
import { amps, hertz, kiloohms, millihenries, millijoules, milliseconds, mm, ohms, volts } from './quantities.ts'

export const controller = (pen: Draft): void => {
  const { put, device, wires } = pen
  put(
    'circuits',
    { id: 'management', name: 'Engine management supply' },
    { id: 'sensors', name: 'Engine sensors' },
    { id: 'injection', name: 'Injection' },
    { id: 'ignition', name: 'Ignition' },
    { id: 'actuators', name: 'Engine actuators' },
  )
  const spare = (letter: string, from: number, to: number) =>
    Object.fromEntries(Array.from({ length: to - from + 1 }, (_, index) => [`${letter}${from + index}`, '']))
  device(
    'ecu',
    'Engine controller',
    'controller-point',
    { kind: 'controller' },
    {
      ...spare('A', 1, 24),
      ...spare('B', 1, 24),
      A1: 'switched supply',
      A2: 'permanent supply',
      A23: 'power earth',
      A24: 'power earth',
      B23: 'supply 5 V',
      B24: 'sensor earth',
    },
    {
      loads: [electronics('A1', 'A24', 0.9)],
      loadDump: volts(40),
      supplies: [{ pin: 'B23', kind: 'controller supply', voltage: volts(5), limit: amps(0.25) }],
    },
  )
  fuse(pen, 'fuse-ecu', 'Controller', 'controller-point', 10)
  fuse(pen, 'fuse-memory', 'Controller memory', 'dash-left', 5)
  fuse(pen, 'fuse-injectors', 'Injectors', 'controller-point', 10)
  fuse(pen, 'fuse-coils', 'Coils', 'controller-point', 15)
  fuse(pen, 'fuse-lambda', 'Lambda heater', 'controller-point', 10)
  fuse(pen, 'fuse-solenoids', 'Solenoids', 'controller-point', 10)
  splice(pen, 'splice-injectors', 'Splice, injector supply', 'engine-inlet', 5)
  splice(pen, 'splice-coils', 'Splice, coil supply', 'engine-inlet', 5)
  splice(pen, 'splice-coil-earth', 'Splice, coil earths', 'engine-inlet', 5)
  splice(pen, 'splice-5v', 'Splice, 5 V of the sensors', 'bulkhead-left', 8)
  splice(pen, 'splice-return', 'Splice, sensor earth', 'bulkhead-left', 9)
  for (const n of [1, 2, 3, 4]) {
    device(
      `injector-${n}`,
      `Injector, cylinder ${n}`,
      'engine-inlet',
      { kind: 'injector' },
      { 1: 'supply', 2: 'driver' },
      { loads: [resistive('1', '2', 12.2, 8)] },
    )
    device(
      `coil-${n}`,
      `Coil, cylinder ${n}`,
      'engine-inlet',
      { kind: 'coil' },
      { 15: 'supply', 31: 'earth', S: 'trigger' },
      {
        loads: [{ ...resistive('15', '31', 0.7, 8), duty: 0.09, inductance: millihenries(3), greatest: amps(14) }],
      },
    )
  }
  sensor(pen, 'crank-sensor', 'Crankshaft sensor', 'engine-front', false)
  sensor(pen, 'cam-sensor', 'Camshaft sensor', 'engine-front', true)
  sensor(pen, 'map-sensor', 'Manifold pressure sensor', 'bulkhead-left', true)
  sensor(pen, 'charge-before', 'Charge temperature before the cooler', 'engine-exhaust', false)
  sensor(pen, 'charge-after', 'Charge temperature after the cooler', 'engine-inlet', false)
  sensor(pen, 'coolant-sensor', 'Coolant temperature sensor', 'engine-front', false)
  sensor(pen, 'oil-sensor', 'Oil pressure sensor', 'engine-exhaust', true)
  sensor(pen, 'fuel-sensor', 'Fuel pressure sensor', 'engine-inlet', true)
  sensor(pen, 'knock-sensor', 'Knock sensor', 'engine-inlet', false)
  sensor(pen, 'speed-sensor', 'Road speed sensor', 'gearbox', true)
  device(
    'pedal',
    'Accelerator pedal, two tracks',
    'pedals',
    { kind: 'sensor' },
    { '+': 'supply 5 V', S1: 'signal, track 1', S2: 'signal, track 2', '-': 'return' },
  )
  device(
    'throttle',
    'Throttle body, motor and two tracks',
    'engine-inlet',
    { kind: 'motor' },
    { '+': 'supply 5 V', S1: 'signal, track 1', S2: 'signal, track 2', '-': 'return', M1: 'motor', M2: 'motor' },
    { loads: [{ ...resistive('M1', 'M2', 2.4), id: 'motor', duty: 0.2 }] },
  )
  device(
    'lambda-sensor',
    'Lambda sensor, wide band',
    'engine-exhaust',
    { kind: 'sensor' },
    { 'H+': 'heater supply', 'H-': 'heater driver', S: 'signal', '-': 'return' },
    { loads: [{ ...resistive('H+', 'H-', 3.2, 10.5), id: 'heater' }] },
  )
  const solenoid = (id: string, name: string, at: string, resistance: number) =>
    device(
      id,
      name,
      at,
      { kind: 'solenoid' },
      { 1: 'supply', 2: 'driver' },
      { loads: [{ ...resistive('1', '2', resistance), inductance: millihenries(18) }] },
    )
  solenoid('boost-valve', 'Boost control valve', 'engine-exhaust', 24)
  solenoid('purge-valve', 'Canister purge valve', 'engine-inlet', 26)
  contact(pen, 'clutch-switch', 'Clutch switch', 'pedals', { released: [], pressed: [['1', '2']] })
  contact(pen, 'wheel-buttons', 'Steering wheel buttons', 'dash-right', { released: [], pressed: [['1', '2']] })

  wires('management', [
    ['W-200', 'bus-engine.2', 'fuse-ecu.1', 16, 'RD/YE'],
    ['W-201', 'fuse-ecu.2', 'ecu.A1', 1.5, 'RD/GN'],
    ['W-202', 'bus-30.2', 'fuse-memory.1', 16, 'RD'],
    ['W-203', 'fuse-memory.2', 'ecu.A2', 0.75, 'RD/BU'],
    ['W-204', 'ecu.A23', 'stud-engine.S', 2.5, 'BN'],
    ['W-205', 'ecu.A24', 'stud-engine.S', 2.5, 'BN'],
    [
      'W-206',
      'ignition-relay.87',
      'main-relay.86',
      10,
      'BK/RD',
      { remark: 'As thick as the relief feed, whose fuse protects it.' },
    ],
    ['W-207', 'main-relay.85', 'ecu.A14', 0.75, 'BN/RD'],
  ])
  wires('injection', [
    ['W-210', 'bus-engine.3', 'fuse-injectors.1', 16, 'RD/YE'],
    ['W-211', 'fuse-injectors.2', 'splice-injectors.1', 1.5, 'RD/GY'],
    ['W-212', 'splice-injectors.2', 'injector-1.1', 0.75, 'RD/GY'],
    ['W-213', 'splice-injectors.3', 'injector-2.1', 0.75, 'RD/GY'],
    [
      'W-214',
      'splice-injectors.4',
      'injector-3.1',
      0.75,
      'RD/GY',
      {
        ends: { from: { method: 'crimped' }, to: { method: 'soldered' } },
        remark: 'Tail lengthened with a solder joint.',
      },
    ],
    ['W-215', 'splice-injectors.5', 'injector-4.1', 0.75, 'RD/GY'],
    ['W-216', 'injector-1.2', 'ecu.A3', 0.75, 'GY'],
    ['W-217', 'injector-2.2', 'ecu.A4', 0.75, 'GY/RD'],
    ['W-218', 'injector-3.2', 'ecu.A5', 0.75, 'GY/BU'],
    ['W-219', 'injector-4.2', 'ecu.A6', 0.75, 'GY/GN'],
  ])
  wires('ignition', [
    ['W-220', 'bus-engine.4', 'fuse-coils.1', 16, 'RD/YE'],
    ['W-221', 'fuse-coils.2', 'splice-coils.1', 2.5, 'RD/VT'],
    ['W-222', 'splice-coils.2', 'coil-1.15', 1.5, 'RD/VT'],
    ['W-223', 'splice-coils.3', 'coil-2.15', 1.5, 'RD/VT'],
    ['W-224', 'splice-coils.4', 'coil-3.15', 1.5, 'RD/VT'],
    ['W-225', 'splice-coils.5', 'coil-4.15', 1.5, 'RD/VT'],
    ['W-226', 'coil-1.31', 'splice-coil-earth.2', 1.5, 'BN'],
    ['W-227', 'coil-2.31', 'splice-coil-earth.3', 1.5, 'BN'],
    ['W-228', 'coil-3.31', 'splice-coil-earth.4', 1.5, 'BN'],
    ['W-229', 'coil-4.31', 'splice-coil-earth.5', 1.5, 'BN'],
    ['W-230', 'splice-coil-earth.1', 'stud-engine.S', 2.5, 'BN'],
    ['W-231', 'coil-1.S', 'ecu.A7', 0.75, 'VT'],
    ['W-232', 'coil-2.S', 'ecu.A8', 0.75, 'VT/RD'],
    ['W-233', 'coil-3.S', 'ecu.A9', 0.75, 'VT/BU'],
    ['W-234', 'coil-4.S', 'ecu.A10', 0.75, 'VT/GN'],
  ])
  wires('sensors', [
    ['W-240', 'ecu.B23', 'splice-5v.1', 0.75, 'OG'],
    ['W-241', 'ecu.B24', 'splice-return.1', 0.75, 'BK/WH'],
    [
      'W-242',
      'crank-sensor.S',
      'ecu.B1',
      0.75,
      'WH',
      { screened: true, outer: mm(5.2), twistedWith: 'W-243', screenEarths: ['ecu.B24'] },
    ],
    ['W-243', 'crank-sensor.-', 'ecu.B2', 0.75, 'BK', { screened: true, outer: mm(5.2), twistedWith: 'W-242' }],
    ['W-244', 'cam-sensor.+', 'splice-5v.2', 0.75, 'OG'],
    ['W-245', 'cam-sensor.S', 'ecu.B3', 0.75, 'WH/RD'],
    ['W-246', 'cam-sensor.-', 'splice-return.2', 0.75, 'BK/WH'],
    ['W-247', 'map-sensor.+', 'splice-5v.3', 0.75, 'OG'],
    ['W-248', 'map-sensor.S', 'ecu.B4', 0.75, 'WH/BU'],
    ['W-249', 'map-sensor.-', 'splice-return.3', 0.75, 'BK/WH'],
    ['W-250', 'charge-before.S', 'ecu.B20', 0.75, 'GN/OG'],
    ['W-251', 'charge-before.-', 'splice-return.4', 0.75, 'BK/WH'],
    ['W-252', 'coolant-sensor.S', 'ecu.B6', 0.75, 'GN'],
    ['W-253', 'coolant-sensor.-', 'splice-return.5', 0.75, 'BK/WH'],
    ['W-254', 'throttle.+', 'splice-5v.4', 0.75, 'OG'],
    ['W-255', 'throttle.S1', 'ecu.B7', 0.75, 'WH/GN'],
    ['W-256', 'throttle.S2', 'ecu.B8', 0.75, 'WH/GY'],
    ['W-257', 'throttle.-', 'splice-return.6', 0.75, 'BK/WH'],
    ['W-258', 'pedal.+', 'splice-5v.5', 0.75, 'OG'],
    ['W-259', 'pedal.S1', 'ecu.B9', 0.75, 'YE'],
    ['W-260', 'pedal.S2', 'ecu.B10', 0.75, 'YE/BU'],
    ['W-261', 'pedal.-', 'splice-return.7', 0.75, 'BK/WH'],
    ['W-262', 'oil-sensor.+', 'splice-5v.6', 0.75, 'OG'],
    ['W-263', 'oil-sensor.S', 'ecu.B11', 0.75, 'GN/YE'],
    ['W-264', 'oil-sensor.-', 'splice-return.8', 0.75, 'BK/WH'],
    ['W-265', 'fuel-sensor.+', 'splice-5v.7', 0.75, 'OG'],
    ['W-266', 'fuel-sensor.S', 'ecu.B12', 0.75, 'GN/BU'],
    ['W-267', 'fuel-sensor.-', 'stud-front.S', 0.75, 'BN/WH', { remark: 'The wing stud was nearer than the splice.' }],
    [
      'W-268',
      'knock-sensor.S',
      'ecu.B13',
      0.75,
      'WH/VT',
      { screened: true, outer: mm(3.2), screenEarths: ['ecu.B24'] },
    ],
    ['W-269', 'knock-sensor.-', 'splice-return.9', 0.75, 'BK/WH'],
    ['W-270', 'speed-sensor.+', 'splice-5v.8', 0.75, 'OG'],
    ['W-271', 'speed-sensor.S', 'ecu.B16', 0.75, 'WH/BK'],
    ['W-272', 'speed-sensor.-', 'splice-return.1', 0.75, 'BK/WH'],
    ['W-273', 'clutch-switch.1', 'ecu.B14', 0.75, 'GY/YE', { remark: 'Put into the cavity of the brake switch.' }],
    ['W-274', 'clutch-switch.2', 'splice-return.1', 0.75, 'BK/WH'],
    ['W-275', 'wheel-buttons.1', 'ecu.B17', 0.75, 'PK'],
    ['W-276', 'wheel-buttons.2', 'ecu.B25', 0.75, 'PK/BK', { remark: 'Pin read from another plug drawing.' }],
  ])
  wires('actuators', [
    ['W-280', 'bus-engine.5', 'fuse-lambda.1', 16, 'RD/YE'],
    ['W-281', 'fuse-lambda.2', 'lambda-sensor.H+', 1.5, 'RD/OG'],
    ['W-282', 'lambda-sensor.H-', 'ecu.A18', 1.5, 'BN/OG'],
    [
      'W-283',
      'lambda-sensor.S',
      'ecu.B18',
      0.75,
      'WH/OG',
      { screened: true, outer: mm(3.2), screenEarths: ['ecu.B24'] },
    ],
    ['W-284', 'lambda-sensor.-', 'ecu.B19', 0.75, 'BK/OG', { screened: true, outer: mm(3.2) }],
    ['W-285', 'bus-engine.6', 'fuse-solenoids.1', 16, 'RD/YE'],
    ['W-286', 'fuse-solenoids.2', 'boost-valve.1', 1, 'RD/PK'],
    ['W-287', 'boost-valve.1', 'purge-valve.1', 1, 'RD/PK'],
    ['W-288', 'boost-valve.2', 'ecu.A13', 0.75, 'BU/PK'],
    ['W-289', 'purge-valve.2', 'ecu.A15', 0.75, 'BU/GY'],
    ['W-290', 'throttle.M1', 'ecu.A19', 1.5, 'BU'],
    ['W-291', 'throttle.M2', 'ecu.A20', 1.5, 'BU/WH'],
  ])

  type Input = Entity<'inputs'>
  const input = (
    id: string,
    name: string,
    pin: string,
    signal: Input['signal'],
    source: string,
    more?: Partial<Input>,
  ) =>
    put('inputs', {
      id,
      name,
      device: 'ecu',
      pin,
      signal,
      source,
      configured: true,
      ...(signal === 'voltage' || signal === 'resistance'
        ? { range: [volts(0), volts(5)] as const, bits: 12, reference: volts(5), leakage: amps(1e-6), linearity: 2 }
        : {}),
      ...more,
    } as Input)
  const thermistor = { pullUp: kiloohms(2.49), pullUpTolerance: 0.01 }
  input('in-crank', 'Crankshaft', 'B1', 'frequency', 'crank-sensor')
  input('in-cam', 'Camshaft', 'B3', 'frequency', 'cam-sensor')
  input('in-map', 'Manifold pressure', 'B4', 'voltage', 'map-sensor', { calibration: 'map-scale' })
  input('in-charge-after', 'Charge temperature after the cooler', 'B5', 'resistance', 'charge-after', thermistor)
  input('in-coolant', 'Coolant temperature', 'B6', 'resistance', 'coolant-sensor', {
    ...thermistor,
    calibration: 'ntc-coolant',
  })
  input('in-throttle-1', 'Throttle, track 1', 'B7', 'voltage', 'throttle')
  input('in-throttle-2', 'Throttle, track 2', 'B8', 'voltage', 'throttle')
  input('in-pedal-1', 'Pedal, track 1', 'B9', 'voltage', 'pedal')
  input('in-pedal-2', 'Pedal, track 2', 'B10', 'voltage', 'pedal')
  input('in-oil', 'Oil pressure', 'B11', 'voltage', 'oil-sensor')
  input('in-fuel', 'Fuel pressure', 'B12', 'voltage', 'fuel-sensor', { calibration: 'fuel-scale' })
  input('in-knock', 'Knock', 'B13', 'voltage', 'knock-sensor')
  input('in-brake', 'Brake pedal', 'B14', 'switch', 'brake-switch')
  input('in-speed', 'Road speed', 'B16', 'frequency', 'speed-sensor', {
    counted: { shaft: 'gearbox output', counts: 8, turns: 1 },
    pulses: 15900,
  })
  input('in-buttons', 'Steering wheel buttons', 'B17', 'resistance', 'wheel-buttons', {
    pullUp: kiloohms(1),
    pullUpTolerance: 0.01,
  })
  input('in-lambda', 'Lambda', 'B18', 'lambda cell', 'lambda-sensor')
  input('in-charge-before', 'Charge temperature before the cooler', 'B20', 'resistance', 'charge-before', thermistor)

  const ntc: [number, number][] = [
    [5896, 273.15],
    [2500, 293.15],
    [1175, 313.15],
    [596, 333.15],
    [323, 353.15],
    [186, 373.15],
  ]
  const halfToFour = (full: number): [number, number][] => [
    [0.1, 0],
    [0.9, full],
  ]
  const invented = 'Invented sensor; the sheet is the builder’s own.'
  put(
    'sensors',
    {
      id: 'map',
      name: 'Manifold pressure',
      device: 'map-sensor',
      input: 'in-map',
      quantity: 'pressureAbsolute',
      unit: 'kPa',
      form: 'ratio of supply',
      curve: [
        [0.08, 20000],
        [0.93, 250000],
      ],
      usual: 100000,
      source: invented,
    },
    {
      id: 'fuel-pressure',
      name: 'Fuel pressure',
      device: 'fuel-sensor',
      input: 'in-fuel',
      quantity: 'pressureGauge',
      unit: 'kPa',
      form: 'ratio of supply',
      curve: halfToFour(1e6),
      usual: 300000,
      source: invented,
    },
    {
      id: 'oil-pressure',
      name: 'Oil pressure',
      device: 'oil-sensor',
      input: 'in-oil',
      quantity: 'pressureGauge',
      unit: 'bar',
      form: 'ratio of supply',
      curve: halfToFour(1e6),
      usual: 300000,
      source: invented,
    },
    {
      id: 'coolant-temperature',
      name: 'Coolant temperature',
      device: 'coolant-sensor',
      input: 'in-coolant',
      quantity: 'temperature',
      unit: '°C',
      form: 'resistance',
      curve: ntc,
      // Written down in the order they were taken: warm first, then ice, then boiling.
      readings: [
        { value: 314.15, shows: 1132, valuePlusMinus: 1, showsPlusMinus: 6 },
        { value: 273.15, shows: 5896, valuePlusMinus: 0.3, showsPlusMinus: 30 },
        { value: 372.65, shows: 188.6, valuePlusMinus: 0.5, showsPlusMinus: 1 },
      ],
      contact: ohms(1),
      dissipation: 0.01,
      usual: 363.15,
      source: 'Read by the builder in ice, warm and boiling water against a glass thermometer.',
    },
    {
      id: 'charge-before',
      name: 'Charge temperature before the cooler',
      device: 'charge-before',
      input: 'in-charge-before',
      quantity: 'temperature',
      unit: '°C',
      form: 'resistance',
      curve: ntc,
      usual: 353.15,
      source: invented,
    },
  )

  type Output = Entity<'outputs'>
  const output = (id: string, name: string, pin: string, drives: string, limit: number, more?: Partial<Output>) =>
    put('outputs', {
      id,
      name,
      device: 'ecu',
      pin,
      driver: 'low side',
      drives,
      configured: true,
      limit: amps(limit),
      onResistance: ohms(0.12),
      clamp: volts(45),
      atBoot: 'off',
      ...more,
    })
  const pulsed = { modulated: true, frequency: hertz(30), clampEnergy: millijoules(60) }
  for (const n of [1, 2, 3, 4]) {
    output(`out-injector-${n}`, `Injector ${n}`, `A${2 + n}`, `injector-${n}`, 3)
    output(`out-coil-${n}`, `Coil ${n} trigger`, `A${6 + n}`, `coil-${n}`, 0.05, {
      driver: 'logic',
      atBoot: 'unknown',
      dwell: milliseconds(3),
    })
  }
  output('out-pump', 'Fuel pump relay', 'A11', 'pump-relay', 1)
  output('out-fan', 'Fan relay', 'A12', 'fan-relay', 1)
  output('out-boost', 'Boost control valve', 'A13', 'boost-valve', 2, pulsed)
  output('out-main', 'Main relay', 'A14', 'main-relay', 1)
  output('out-purge', 'Purge valve', 'A15', 'purge-valve', 2, pulsed)
  output('out-tachometer', 'Tachometer', 'A16', 'tachometer', 0.5, {
    configured: false,
    modulated: true,
    pulses: 2,
  })
  output('out-charge-pump', 'Charge cooler pump relay', 'A17', 'charge-pump-relay', 1)
  output('out-lambda', 'Lambda heater', 'A18', 'lambda-sensor', 6, { modulated: true })
  output('out-throttle-1', 'Throttle motor, one side', 'A19', 'throttle', 8, { driver: 'half bridge', modulated: true })
  output('out-throttle-2', 'Throttle motor, other side', 'A20', 'throttle', 8, {
    driver: 'half bridge',
    modulated: true,
  })

  put(
    'calibrations',
    {
      id: 'map-scale',
      name: 'Manifold pressure sensor, V to Pa absolute',
      kind: 'linear',
      table: [
        [0.4, 20000],
        [4.65, 250000],
      ],
      source: 'Invented sensor; the sheet is the builder’s own.',
    },
    {
      id: 'fuel-scale',
      name: 'Fuel pressure sensor, V to Pa gauge',
      kind: 'linear',
      table: [
        [0.5, 0],
        [4.5, 1e6],
      ],
      source: 'Invented sensor; the sheet is the builder’s own.',
    },
    {
      id: 'ntc-coolant',
      name: 'Coolant thermistor, K to Ω',
      kind: 'thermistor',
      table: [
        [273.15, 5896],
        [293.15, 2500],
        [313.15, 1175],
        [333.15, 596],
        [353.15, 323],
        [373.15, 186],
      ],
      source: 'Read by the builder in a kettle against a glass thermometer, ± 1 K.',
    },
  )
}
