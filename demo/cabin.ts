/** Horn, wipers, blower, gauges, sockets, lights inside. W-50 … W-99. */
import type { Draft } from './draft.ts'
import { contact, electronics, fuse, lamp, motor, relay, resistive } from './parts.ts'
import { volts } from './quantities.ts'

export const cabin = (pen: Draft): void => {
  const { put, device, wires } = pen
  put(
    'circuits',
    { id: 'horn', name: 'Horn' },
    { id: 'wipers', name: 'Wipers and washer' },
    { id: 'blower', name: 'Heater blower' },
    { id: 'gauges', name: 'Gauges' },
    { id: 'sockets', name: 'Sockets and lights inside' },
  )
  device(
    'horn',
    'Horn',
    'nose-mid',
    { kind: 'module' },
    { '+': '', '-': '' },
    { loads: [resistive('+', '-', 2.2, 10)] },
  )
  relay(pen, 'horn-relay', 'Horn relay', 'dash-left')
  contact(pen, 'horn-push', 'Horn push', 'dash-right', { released: [], pressed: [['1', '2']] })
  device(
    'wiper-motor',
    'Wiper motor',
    'bay-left',
    { kind: 'motor' },
    { 53: 'slow', 31: 'earth' },
    { loads: [motor('53', '31', 5, 20, 10)] },
  )
  device(
    'washer-pump',
    'Washer pump',
    'bay-left',
    { kind: 'pump' },
    { '+': '', '-': '' },
    { loads: [motor('+', '-', 2.5, 7)] },
  )
  contact(pen, 'wiper-switch', 'Wiper switch', 'dash-right', {
    off: [],
    wipe: [['53a', '53']],
    wash: [
      ['53a', '53'],
      ['53a', 'W'],
    ],
  })
  device(
    'blower',
    'Heater blower',
    'dash-mid',
    { kind: 'motor' },
    { '+': '', '-': '' },
    { loads: [motor('+', '-', 9, 28)] },
  )
  contact(pen, 'blower-switch', 'Blower switch', 'dash-mid', { off: [], on: [['1', '2']] })
  device(
    'tachometer',
    'Tachometer',
    'dash-right',
    { kind: 'gauge' },
    { 15: 'supply', 31: 'earth', S: 'signal' },
    { loads: [electronics('15', '31', 0.15)] },
  )
  device(
    'coolant-gauge',
    'Coolant gauge',
    'dash-right',
    { kind: 'gauge' },
    { 15: 'supply', G: 'sender' },
    { loads: [resistive('15', 'G', 60)] },
  )
  device(
    'coolant-sender',
    'Coolant sender of the gauge',
    'engine-front',
    { kind: 'sensor' },
    { G: 'sender', 31: 'body of the sender' },
    {
      loads: [resistive('G', '31', 40)],
    },
  )
  lamp(pen, 'charge-lamp', 'Charge warning lamp', 'dash-right', 3, { remark: 'Also excites the alternator.' })
  lamp(pen, 'roof-lamp', 'Load space lamp', 'load-left', 10)
  contact(pen, 'roof-switch', 'Load space lamp switch', 'load-left', { off: [], on: [['1', '2']] })
  device(
    'socket',
    'Socket in the load space',
    'load-left',
    { kind: 'module' },
    { '+': '', '-': '' },
    {
      loads: [{ ...electronics('+', '-', 8), onlyIn: ['cruising'] }],
      reverseProtected: true,
      withstands: volts(24),
      remark: 'Cool box; the socket itself holds nothing that polarity or voltage could hurt.',
    },
  )
  device(
    'radio',
    'Radio',
    'dash-mid',
    { kind: 'module' },
    { 30: 'memory', 15: 'supply', 31: 'earth' },
    {
      loads: [
        { ...electronics('15', '31', 1.5), id: 'set' },
        { ...electronics('30', '31', 0.004), id: 'memory' },
      ],
    },
  )
  fuse(pen, 'fuse-horn', 'Horn', 'dash-left', 10)
  fuse(pen, 'fuse-wiper', 'Wipers', 'dash-left', 15)
  fuse(pen, 'fuse-blower', 'Blower', 'dash-left', 20)
  fuse(pen, 'fuse-gauges', 'Gauges', 'dash-left', 5)
  fuse(pen, 'fuse-socket', 'Socket', 'dash-left', 30)
  fuse(pen, 'fuse-roof', 'Load space lamp and radio memory', 'dash-left', 7.5)
  fuse(pen, 'fuse-radio', 'Radio', 'dash-left', 5)

  wires('horn', [
    ['W-50', 'bus-30.6', 'fuse-horn.1', 16, 'RD'],
    ['W-51', 'fuse-horn.2', 'horn-relay.30', 1.5, 'RD/BK'],
    ['W-52', 'fuse-horn.2', 'horn-relay.86', 1.5, 'RD/BK'],
    ['W-53', 'horn-relay.85', 'horn-push.1', 0.75, 'BN/YE'],
    ['W-54', 'horn-push.2', 'stud-dash.S', 0.75, 'BN'],
    ['W-55', 'horn-relay.87', 'horn.+', 1.5, 'BK/YE'],
  ])
  wires('wipers', [
    ['W-60', 'bus-15.5', 'fuse-wiper.1', 10, 'BK'],
    ['W-61', 'fuse-wiper.2', 'wiper-switch.53a', 2.5, 'BK/GD'],
    ['W-62', 'wiper-switch.53', 'wiper-motor.53', 2.5, 'GN/BK'],
    ['W-63', 'wiper-switch.W', 'washer-pump.+', 1.5, 'GN/WH'],
    ['W-64', 'wiper-motor.31', 'stud-front.S', 2.5, 'BN'],
    ['W-65', 'washer-pump.-', 'stud-front.S', 1.5, 'BN'],
  ])
  wires('blower', [
    ['W-70', 'bus-15.6', 'fuse-blower.1', 10, 'BK'],
    ['W-71', 'fuse-blower.2', 'blower-switch.1', 4, 'BK/TQ'],
    ['W-72', 'blower-switch.2', 'blower.+', 4, 'GN/TQ'],
    ['W-73', 'blower.-', 'stud-dash.S', 4, 'BN'],
  ])
  wires('gauges', [
    ['W-80', 'bus-15.7', 'fuse-gauges.1', 10, 'BK'],
    ['W-81', 'fuse-gauges.2', 'tachometer.15', 1, 'BK/PK'],
    ['W-82', 'tachometer.15', 'coolant-gauge.15', 1, 'BK/PK'],
    ['W-83', 'tachometer.31', 'stud-dash.S', 1, 'BN'],
    ['W-84', 'tachometer.S', 'ecu.A16', 0.75, 'VT/BK'],
    ['W-85', 'coolant-gauge.G', 'coolant-sender.G', 0.75, 'BU/YE'],
    [
      'W-86',
      'coolant-sender.31',
      'stud-engine.S',
      1.5,
      'BN',
      { remark: 'Stands for the thread in the cylinder head.' },
    ],
    ['W-87', 'coolant-gauge.15', 'charge-lamp.+', 1, 'BK/PK'],
    ['W-88', 'charge-lamp.-', 'alternator.D+', 0.75, 'BU/BK'],
  ])
  wires('sockets', [
    ['W-90', 'bus-30.7', 'fuse-socket.1', 16, 'RD'],
    ['W-91', 'fuse-socket.2', 'socket.+', 1, 'RD/GN', { remark: 'Fuse raised from 10 A because it kept opening.' }],
    ['W-92', 'socket.-', 'stud-rear.S', 2.5, 'BN'],
    ['W-93', 'bus-30.8', 'fuse-roof.1', 16, 'RD'],
    [
      'W-94',
      'fuse-roof.2',
      'roof-switch.1',
      1.5,
      'RD/GY',
      { material: 'copper-clad aluminium', remark: 'From a reel of loudspeaker cable.' },
    ],
    ['W-95', 'roof-switch.2', 'roof-lamp.+', 1, 'GY/OG'],
    ['W-96', 'roof-lamp.-', 'stud-rear.S', 1, 'BN'],
    ['W-97', 'fuse-roof.2', 'radio.30', 1, 'RD/OG'],
    ['W-98', 'bus-15.8', 'fuse-radio.1', 10, 'BK'],
    ['W-99', 'fuse-radio.2', 'radio.15', 1, 'BK/OG'],
    ['W-49', 'radio.31', 'stud-dash.S', 1, 'BN'],
  ])
}
