import { BATTERY_CAUTION } from '../make.ts'
import { SIGNAL, sensorEarth, sensorSupply } from './controllerPinsOf.ts'
import { dropLimit, input, load, output, resistanceLaw } from './parts.ts'
import { ask, controller, drop, insulation, orElse, pins, place } from './questions.ts'
import type { Pattern } from './types.ts'

export const pedalAndThrottle: Pattern = {
  id: 'pedal-and-throttle',
  name: 'Electronic pedal and throttle',
  purpose: 'Accelerator pedal and throttle body with two tracks each, and the throttle motor on two half bridges.',
  questions: [
    place('pedal', 'Where the pedal sits'),
    place('throttle', 'Where the throttle body sits'),
    controller,
    pins('pedalTracks', 'Pedal inputs, track 1 and 2', 2),
    pins('throttleTracks', 'Throttle inputs, track 1 and 2', 2),
    pins('motor', 'Throttle motor outputs', 2),
    orElse(
      ask(
        'winding',
        { type: 'quantity', kind: 'resistance' },
        'Resistance of the throttle motor',
        'measured, such as 2.4 Ω',
      ),
      '2.4 Ω',
    ),
    drop('5 %'),
    insulation,
  ],
  cautions: [
    BATTERY_CAUTION,
    'A throttle may snap: no fingers in it while the controller is live. The two tracks must disagree in a known way, and the controller must cut the throttle when they do not: prove it before the car moves, and have it looked at by a qualified person.',
  ],
  draw: (pen, answers) => {
    pen.circuit('throttle', 'Pedal and throttle')
    const ecu = answers.text('controller')
    const motorLaw = resistanceLaw(answers.quantity('resistance', 'winding').value)
    const tracks = { '+': 'supply 5 V', S1: 'signal, track 1', S2: 'signal, track 2', '-': 'return' }
    const pedal = pen.device(
      'pedal',
      'Accelerator pedal, two tracks',
      answers.text('pedal'),
      { kind: 'sensor' },
      tracks,
    )
    const throttle = pen.device(
      'throttle',
      'Throttle body, motor and two tracks',
      answers.text('throttle'),
      { kind: 'motor' },
      { ...tracks, M1: 'motor', M2: 'motor' },
      {
        // It holds against a spring: a fifth of the stalled current is common practice, no published source.
        loads: [{ ...load('motor', 'M1', 'M2', motorLaw), duty: 0.2, needs: { value: 6, unit: 'V' } }],
      },
    )
    for (const [device, name, pins] of [
      [pedal, 'Pedal', answers.texts('pedalTracks')],
      [throttle, 'Throttle', answers.texts('throttleTracks')],
    ] as const) {
      pen.wire(`${device}.+`, pen.tap(sensorSupply(pen, ecu)), 'OG', SIGNAL)
      pen.wire(`${device}.-`, pen.tap(sensorEarth(pen, ecu)), 'BK/WH', SIGNAL)
      pins.forEach((pin, index) => {
        const n = index + 1
        pen.wire(`${device}.S${n}`, `${ecu}.${pin}`, n === 1 ? 'YE' : 'YE/BU', SIGNAL)
        input(pen, {
          id: `in-${name.toLowerCase()}-${n}`,
          name: `${name}, track ${n}`,
          controller: ecu,
          pin,
          source: device,
          signal: 'voltage',
        })
      })
    }
    const stalled = pen.chargeVolts / answers.quantity('resistance', 'winding').value
    const wires = answers.texts('motor').map((pin, index) => {
      output(pen, {
        id: `out-throttle-${index + 1}`,
        name: `Throttle motor, side ${index + 1}`,
        controller: ecu,
        pin,
        drives: throttle,
        driver: 'half bridge',
        modulated: true,
      })
      return pen.wire(`${throttle}.M${index + 1}`, `${ecu}.${pin}`, index === 0 ? 'BU' : 'BU/WH', stalled)
    })
    pen.way(dropLimit(answers), wires, stalled)
    pen.say(
      `The motor’s wires are sized for its stalled current of ${stalled.toFixed(1)} A, which it draws against its stop.`,
    )
  },
}
