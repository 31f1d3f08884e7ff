import { BATTERY_CAUTION, HOT_CAUTION } from '../make.ts'
import { SIGNAL, sensorEarth } from './controllerPinsOf.ts'
import { dropLimit, input, load, NEEDS, output, resistanceLaw, total } from './parts.ts'
import { fuseOhm } from './pen.ts'
import { ask, box, controller, drop, feed, insulation, orElse, pins, place } from './questions.ts'
import type { Pattern } from './types.ts'

export const lambdaHeater: Pattern = {
  id: 'lambda-heater',
  name: 'Wide-band lambda sensor and heater',
  purpose:
    'Heater of a wide-band lambda sensor on its own fuse and a modulated output, with the cell’s wires screened.',
  questions: [
    place('at', 'Where the sensor’s plug sits'),
    orElse(
      ask(
        'heater',
        { type: 'quantity', kind: 'resistance' },
        'Resistance of the heater, cold',
        'measured, such as 3.2 Ω',
      ),
      '3.2 Ω',
    ),
    feed('engine'),
    controller,
    pins('output', 'Heater output of the controller', 1),
    pins('cell', 'Cell inputs: signal and its return', 2),
    box,
    drop('5 %'),
    insulation,
  ],
  cautions: [
    BATTERY_CAUTION,
    HOT_CAUTION,
    'A cold wet sensor cracks when heated: the controller heats it only after the exhaust is dry.',
  ],
  draw: (pen, answers) => {
    pen.circuit('lambda', 'Lambda sensor')
    const ecu = answers.text('controller')
    const law = resistanceLaw(answers.quantity('resistance', 'heater').value)
    const draws = total(pen, [law]).current
    const sensor = pen.device(
      'lambda-sensor',
      'Lambda sensor, wide band',
      answers.text('at'),
      { kind: 'sensor' },
      { 'H+': 'heater supply', 'H-': 'heater driver', S: 'cell', N: 'cell, common' },
      {
        loads: [load('heater', 'H+', 'H-', law, NEEDS.lamp)],
      },
    )
    const fuse = pen.fuse(
      'fuse-lambda',
      'Lambda heater',
      answers.text('feed'),
      answers.has('box') ? answers.text('box') : undefined,
      { current: draws },
    )
    const wires = [
      pen.wire(`${fuse}.2`, `${sensor}.H+`, 'RD/OG', draws, { behind: fuse }),
      pen.wire(`${sensor}.H-`, `${ecu}.${answers.texts('output')[0]}`, 'BN/OG', draws),
    ]
    pen.way(dropLimit(answers), wires, draws, fuseOhm(pen, fuse))
    output(pen, {
      id: 'out-lambda-heater',
      name: 'Lambda heater',
      controller: ecu,
      pin: answers.texts('output')[0]!,
      drives: sensor,
      modulated: true,
    })
    const [signal, common] = answers.texts('cell') as [string, string]
    const more = { screened: true, screenEarths: [sensorEarth(pen, ecu)] }
    pen.wire(`${sensor}.S`, `${ecu}.${signal}`, 'WH/OG', SIGNAL, { more })
    pen.wire(`${sensor}.N`, `${ecu}.${common}`, 'BK/OG', SIGNAL, { more })
    input(pen, { id: 'in-lambda', name: 'Lambda', controller: ecu, pin: signal, source: sensor, signal: 'lambda cell' })
    pen.say(
      `Sized for the cold heater, ${draws.toFixed(1)} A at ${pen.chargeVolts.toFixed(1)} V; modulated, it draws about half of that when hot. The cell’s common goes to its own pin, never to earth.`,
    )
  },
}
