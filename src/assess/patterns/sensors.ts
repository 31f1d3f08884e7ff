/** Two- and three-wire sensors on the controller’s own supply and earth. */
import { BATTERY_CAUTION } from '../make.ts'
import { SIGNAL, sensorEarth, sensorSupply } from './controllerPinsOf.ts'
import { input, stemOf } from './parts.ts'
import { ask, called, controller, insulation, optional, pins, place } from './questions.ts'
import type { Pattern } from './types.ts'

export const twoWireSensor: Pattern = {
  id: 'two-wire-sensor',
  name: 'Two-wire sensor',
  purpose: 'A sensor that is a resistance, such as a thermistor: signal and the controller’s sensor earth.',
  questions: [
    called('Temperature sensor'),
    place('at', 'Where the sensor sits'),
    controller,
    pins('pin', 'Input of the controller', 1),
    optional(
      ask(
        'pullUp',
        { type: 'quantity', kind: 'resistance' },
        'Pull-up inside the controller',
        'from its sheet, such as 2.49 kΩ',
      ),
    ),
    insulation,
  ],
  cautions: [BATTERY_CAUTION],
  draw: (pen, answers) => {
    const name = answers.text('name')
    const ecu = answers.text('controller')
    const [pin] = answers.texts('pin') as [string]
    pen.circuit(stemOf(name), name)
    const sensor = pen.device(
      stemOf(name),
      name,
      answers.text('at'),
      { kind: 'sensor' },
      { S: 'signal', '-': 'return' },
    )
    pen.wire(`${sensor}.S`, `${ecu}.${pin}`, 'GN', SIGNAL)
    pen.wire(`${sensor}.-`, pen.tap(sensorEarth(pen, ecu)), 'BK/WH', SIGNAL)
    input(pen, {
      id: `in-${stemOf(name)}`,
      name,
      controller: ecu,
      pin,
      source: sensor,
      signal: 'resistance',
      ...(answers.has('pullUp') ? { pullUp: answers.quantity('resistance', 'pullUp').value } : {}),
    })
    pen.say(RETURNS)
  },
}

export const threeWireSensor: Pattern = {
  id: 'three-wire-sensor',
  name: 'Three-wire sensor',
  purpose:
    'A sensor that is fed with 5 V and gives a voltage, such as one for pressure: supply, signal and sensor earth.',
  questions: [
    called('Pressure sensor'),
    place('at', 'Where the sensor sits'),
    controller,
    pins('pin', 'Input of the controller', 1),
    insulation,
  ],
  cautions: [BATTERY_CAUTION],
  draw: (pen, answers) => {
    const name = answers.text('name')
    const ecu = answers.text('controller')
    const [pin] = answers.texts('pin') as [string]
    pen.circuit(stemOf(name), name)
    const sensor = pen.device(
      stemOf(name),
      name,
      answers.text('at'),
      { kind: 'sensor' },
      { '+': 'supply 5 V', S: 'signal', '-': 'return' },
    )
    pen.wire(`${sensor}.+`, pen.tap(sensorSupply(pen, ecu)), 'OG', SIGNAL)
    pen.wire(`${sensor}.S`, `${ecu}.${pin}`, 'WH/BU', SIGNAL)
    pen.wire(`${sensor}.-`, pen.tap(sensorEarth(pen, ecu)), 'BK/WH', SIGNAL)
    input(pen, { id: `in-${stemOf(name)}`, name, controller: ecu, pin, source: sensor, signal: 'voltage' })
    pen.say(RETURNS)
  },
}

const RETURNS =
  'The return goes to the controller’s sensor earth and nowhere else: every volt that other currents raise in a body stud would be added to the reading. Wires of 0.5 mm² are chosen for strength, not for current.'
