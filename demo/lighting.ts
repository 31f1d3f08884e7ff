/** Lamps outside: head, side, brake, indicator, reversing, number plate. W-100 … W-169. */
import type { Draft } from './draft.ts'
import { contact, fuse, lamp, relay, splice } from './parts.ts'
import { volts, watts } from './quantities.ts'

export const lighting = (pen: Draft): void => {
  const { put, device, wires } = pen
  put(
    'circuits',
    { id: 'headlamps', name: 'Headlamps' },
    { id: 'side-lamps', name: 'Side, tail and number plate lamps' },
    { id: 'signalling', name: 'Brake, reversing and indicator lamps' },
  )
  for (const [side, at] of [
    ['left', 'nose-left'],
    ['right', 'nose-right'],
  ] as const) {
    const filament = (id: string, from: string, power: number) => ({
      id,
      from,
      to: '31',
      law: { type: 'lamp' as const, ratedVoltage: volts(12), ratedPower: watts(power) },
      // Lamps are specified at 13.2 V (from memory); below 12.5 V a filament gives about four fifths of its light.
      needs: volts(12.5),
    })
    device(
      `headlamp-${side}`,
      `Headlamp, ${side}`,
      at,
      { kind: 'lamp' },
      { '56a': 'main beam', '56b': 'dipped beam', 31: 'earth' },
      { loads: [filament('main', '56a', 60), filament('dip', '56b', 55)] },
    )
    lamp(pen, `side-${side}`, `Side lamp, ${side}`, at, 5)
    lamp(pen, `indicator-front-${side}`, `Indicator, front ${side}`, at, 21, flashing)
    const rear = `rear-${side}`
    lamp(pen, `tail-${side}`, `Tail lamp, ${side}`, rear, 5)
    lamp(pen, `brake-${side}`, `Brake lamp, ${side}`, rear, 21)
    lamp(pen, `indicator-rear-${side}`, `Indicator, rear ${side}`, rear, 21, flashing)
  }
  lamp(pen, 'plate-lamp', 'Number plate lamp', 'rear-left', 5)
  lamp(pen, 'reverse-lamp', 'Reversing lamp', 'rear-right', 21)
  contact(pen, 'light-switch', 'Light switch', 'dash-right', {
    off: [],
    side: [['30', '58']],
    head: [
      ['30', '58'],
      ['30', '56'],
    ],
  })
  contact(pen, 'dip-switch', 'Dip switch', 'dash-right', { dipped: [['56', '56b']], main: [['56', '56a']] })
  relay(pen, 'dip-relay', 'Dipped beam relay', 'dash-left')
  relay(pen, 'beam-relay', 'Main beam relay', 'dash-left')
  contact(pen, 'brake-switch', 'Brake pedal switch', 'pedals', {
    released: [],
    pressed: [
      ['1', '2'],
      ['3', '4'],
    ],
  })
  contact(pen, 'reverse-switch', 'Reverse gear switch', 'gearbox', { forward: [], reverse: [['1', '2']] })
  contact(pen, 'indicator-switch', 'Indicator switch', 'dash-right', {
    off: [],
    left: [['54', 'L']],
    right: [['54', 'R']],
    hazard: [
      ['54', 'L'],
      ['54', 'R'],
    ],
  })
  device(
    'flasher',
    'Flasher unit',
    'dash-left',
    { kind: 'connector', sealed: false },
    { 1: 'supply and output, closed' },
    {
      remark: 'Drawn closed: the steady state of the half period in which the lamps burn.',
    },
  )
  fuse(pen, 'fuse-light-switch', 'Light switch', 'dash-left', 10)
  fuse(pen, 'fuse-dip-left', 'Dipped beam, left', 'dash-left', 7.5)
  fuse(pen, 'fuse-dip-right', 'Dipped beam, right', 'dash-left', 7.5)
  fuse(pen, 'fuse-main-beam', 'Main beam', 'dash-left', 15)
  fuse(pen, 'fuse-brake', 'Brake lamps', 'dash-left', 10)
  fuse(pen, 'fuse-indicator', 'Indicators', 'dash-left', 15)
  fuse(pen, 'fuse-reverse', 'Reversing lamp', 'dash-left', 5)
  splice(pen, 'splice-side-front', 'Splice, side lamps', 'nose-left', 3)
  splice(pen, 'splice-tail', 'Splice, tail lamps', 'rear-left', 4)
  splice(pen, 'splice-brake', 'Splice, brake lamps', 'rear-left', 3)
  splice(pen, 'splice-main-beam', 'Splice, main beam', 'nose-left', 3)
  splice(pen, 'splice-rear-right-earth', 'Splice, right rear earths', 'rear-right', 5)

  wires('headlamps', [
    ['W-100', 'bus-30.3', 'fuse-light-switch.1', 16, 'RD'],
    ['W-101', 'fuse-light-switch.2', 'light-switch.30', 1.5, 'RD/WH'],
    ['W-102', 'light-switch.56', 'dip-switch.56', 1.5, 'WH/BK'],
    ['W-103', 'dip-switch.56b', 'dip-relay.86', 1.5, 'YE'],
    ['W-104', 'dip-switch.56a', 'beam-relay.86', 1.5, 'WH'],
    ['W-105', 'dip-relay.85', 'stud-dash.S', 1, 'BN'],
    ['W-106', 'beam-relay.85', 'stud-dash.S', 1, 'BN'],
    ['W-107', 'bus-30.4', 'dip-relay.30', 16, 'RD'],
    ['W-108', 'bus-30.5', 'fuse-main-beam.1', 16, 'RD'],
    ['W-109', 'fuse-main-beam.2', 'beam-relay.30', 2.5, 'RD'],
    ['W-110', 'dip-relay.87', 'fuse-dip-left.1', 16, 'YE'],
    ['W-111', 'dip-relay.87', 'fuse-dip-right.1', 16, 'YE'],
    ['W-112', 'fuse-dip-left.2', 'headlamp-left.56b', 2.5, 'YE/BK'],
    [
      'W-113',
      'fuse-dip-right.2',
      'headlamp-right.56b',
      0.5,
      'YE/RD',
      { remark: 'Short of the thick reel that evening.' },
    ],
    ['W-114', 'beam-relay.87', 'splice-main-beam.1', 2.5, 'WH'],
    ['W-115', 'splice-main-beam.2', 'headlamp-left.56a', 2.5, 'WH'],
    ['W-116', 'splice-main-beam.3', 'headlamp-right.56a', 2.5, 'WH'],
    ['W-117', 'headlamp-left.31', 'stud-front.S', 2.5, 'BN'],
    ['W-118', 'headlamp-right.31', 'stud-nose.S', 2.5, 'BN'],
  ])
  wires('side-lamps', [
    ['W-120', 'light-switch.58', 'splice-side-front.1', 1.5, 'GY'],
    ['W-121', 'splice-side-front.2', 'side-left.+', 1.5, 'GY/BK'],
    ['W-122', 'splice-side-front.3', 'side-right.+', 1.5, 'GY/RD'],
    ['W-123', 'side-left.-', 'stud-front.S', 1, 'BN'],
    ['W-124', 'side-right.-', 'stud-nose.S', 1, 'BN'],
    ['W-125', 'light-switch.58', 'splice-tail.1', 1.5, 'GY'],
    ['W-126', 'splice-tail.2', 'tail-left.+', 1.5, 'GY/BK'],
    ['W-127', 'splice-tail.3', 'tail-right.+', 1.5, 'GY/RD'],
    ['W-128', 'splice-tail.4', 'plate-lamp.+', 1.5, 'GY/GN'],
    ['W-129', 'tail-left.-', 'stud-rear.S', 1, 'BN'],
    ['W-130', 'tail-right.-', 'splice-rear-right-earth.2', 1.5, 'BN'],
    ['W-131', 'plate-lamp.-', 'stud-rear.S', 1, 'BN'],
    ['W-132', 'splice-rear-right-earth.1', 'stud-rear.S', 2.5, 'BN'],
  ])
  wires('signalling', [
    ['W-140', 'bus-15.2', 'fuse-brake.1', 10, 'BK'],
    ['W-141', 'fuse-brake.2', 'brake-switch.1', 1.5, 'BK/RD'],
    ['W-142', 'brake-switch.2', 'splice-brake.1', 1.5, 'BK/VT'],
    ['W-143', 'splice-brake.2', 'brake-left.+', 1.5, 'BK/VT'],
    ['W-144', 'splice-brake.3', 'brake-right.+', 1.5, 'BK/VT'],
    ['W-145', 'brake-left.-', 'stud-rear.S', 1.5, 'BN'],
    ['W-146', 'brake-right.-', 'splice-rear-right-earth.3', 1.5, 'BN'],
    ['W-147', 'brake-switch.3', 'ecu.B14', 0.75, 'GY/VT'],
    ['W-148', 'brake-switch.4', 'splice-return.1', 0.75, 'BK/WH'],
    ['W-150', 'bus-15.3', 'fuse-indicator.1', 10, 'BK'],
    ['W-151', 'fuse-indicator.2', 'flasher.1', 1.5, 'BK/WH'],
    ['W-152', 'flasher.1', 'indicator-switch.54', 1.5, 'BK/GN'],
    ['W-153', 'indicator-switch.L', 'indicator-front-left.+', 1.5, 'BU/WH'],
    ['W-154', 'indicator-switch.R', 'indicator-front-right.+', 1.5, 'BU/RD'],
    ['W-155', 'indicator-switch.L', 'indicator-rear-left.+', 1.5, 'BU/WH'],
    ['W-156', 'indicator-switch.R', 'indicator-rear-right.+', 1.5, 'BU/RD'],
    ['W-157', 'indicator-front-left.-', 'stud-front.S', 1.5, 'BN'],
    ['W-158', 'indicator-front-right.-', 'stud-nose.S', 1.5, 'BN'],
    ['W-159', 'indicator-rear-left.-', 'stud-rear.S', 1.5, 'BN'],
    ['W-160', 'indicator-rear-right.-', 'splice-rear-right-earth.4', 1.5, 'BN'],
    ['W-161', 'bus-15.4', 'fuse-reverse.1', 10, 'BK'],
    ['W-162', 'fuse-reverse.2', 'reverse-switch.1', 1, 'BK/GY'],
    ['W-163', 'reverse-switch.2', 'reverse-lamp.+', 1, 'BK/BU'],
    ['W-164', 'reverse-lamp.-', 'splice-rear-right-earth.5', 1.5, 'BN'],
  ])
}

/** Lit for half of each period; the network is solved with the lamp burning, heat with half of it. */
const flashing = { remark: 'Flashes 90 times a minute, half the time lit.' }
