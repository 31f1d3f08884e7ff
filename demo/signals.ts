/** Buttons on one wire, pedal tracks, the level sender with its fill test and the old gauge on it. W-190 … W-192. */
import type { Draft } from './draft.ts'
import { litres, ohms } from './quantities.ts'

const invented = 'Invented sensor; the sheet is the builder’s own.'

export const signals = (pen: Draft): void => {
  const { put, device, wires } = pen
  device(
    'level-sender',
    'Level sender in the tank',
    'tank-point',
    { kind: 'sensor' },
    { G: 'sender', 31: 'earth' },
    { loads: [{ id: 'track', from: 'G', to: '31', law: { type: 'resistance', resistance: ohms(95) } }] },
  )
  device(
    'fuel-gauge',
    'Fuel gauge of the old dash',
    'dash-right',
    { kind: 'gauge' },
    { 15: 'supply', G: 'sender' },
    { loads: [{ id: 'coil', from: '15', to: 'G', law: { type: 'resistance', resistance: ohms(90) } }] },
  )
  wires('gauges', [
    ['W-190', 'coolant-gauge.15', 'fuel-gauge.15', 1, 'BK/PK'],
    ['W-191', 'fuel-gauge.G', 'level-sender.G', 0.75, 'BU/RD'],
    ['W-192', 'level-sender.31', 'stud-rear.S', 0.75, 'BN'],
  ])
  const button = (name: string, resistance: number, tolerance = 0.01) => ({
    name,
    resistance: ohms(resistance),
    tolerance,
  })
  put('resistanceSwitches', {
    id: 'wheel',
    name: 'Steering wheel buttons',
    device: 'wheel-buttons',
    input: 'in-buttons',
    topology: 'branches',
    buttons: [
      button('Louder', 100),
      button('Softer', 270),
      button('Next', 560),
      // The drawer had no 1.2 kΩ; these two are told apart by a new meter and by nothing else.
      button('Cruise set', 1000, 0.05),
      button('Cruise cancel', 1100, 0.05),
      button('Voice', 3300),
    ],
    idle: { resistance: ohms(10000), tolerance: 0.01 },
    contact: ohms(20),
    ratiometric: true,
  })
  put(
    'sensors',
    {
      id: 'pedal-1',
      name: 'Pedal, track 1',
      device: 'pedal',
      input: 'in-pedal-1',
      quantity: 'ratio',
      unit: '%',
      form: 'ratio of supply',
      curve: [
        [0.15, 0],
        [0.85, 1],
      ],
      twin: 'pedal-2',
      twinLimit: 0.06,
      trackTolerance: 0.01,
      usual: 0.2,
      source: invented,
    },
    {
      id: 'pedal-2',
      name: 'Pedal, track 2',
      device: 'pedal',
      input: 'in-pedal-2',
      quantity: 'ratio',
      unit: '%',
      form: 'ratio of supply',
      curve: [
        [0.075, 0],
        [0.425, 1],
      ],
      twin: 'pedal-1',
      trackTolerance: 0.01,
      usual: 0.2,
      source: invented,
    },
  )
  put('levelSenders', {
    id: 'fuel-level',
    name: 'Fuel level',
    device: 'level-sender',
    fillTest: {
      readings: [
        [0.004, 172],
        [0.01, 131],
        [0.01, 99],
        [0.01, 72],
        [0.01, 45],
        [0.006, 30],
      ],
      scale: 0.01,
      each: litres(0.1),
    },
    reserve: litres(7),
  })
  put('gauges', {
    id: 'fuel-gauge',
    name: 'Fuel gauge of the old dash',
    device: 'fuel-gauge',
    shows: 'level',
    sender: 'fuel-level',
    curve: [
      [0, 90],
      [0.5, 38],
      [1, 8],
    ],
    source: 'Needle brought to its marks with a resistance box.',
  })
  put('gauges', {
    id: 'rev-counter',
    name: 'Rev counter of the old dash',
    device: 'tachometer',
    shows: 'engine speed',
    pulses: 2,
    threshold: { value: 7 as never, unit: 'V' },
    source: 'A four-cylinder one; the needle followed a signal from 7 V on.',
  })
  put('gauges', {
    id: 'speedometer',
    name: 'Speedometer of the old dash',
    shows: 'speed',
    // By cable from the gearbox: 7 teeth drive 17.
    counted: { shaft: 'gearbox output', counts: 7, turns: 17 },
    constant: 800,
    source: 'Printed on its dial: 800 turns a kilometre.',
  })
}
