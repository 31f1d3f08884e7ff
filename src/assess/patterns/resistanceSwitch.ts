import { preferredValues } from '../../engineering/signals/preferredValues.ts'
import { BATTERY_CAUTION } from '../make.ts'
import { SIGNAL, sensorEarth } from './controllerPinsOf.ts'
import { contact, input } from './parts.ts'
import { ask, controller, insulation, pins, place } from './questions.ts'
import type { Pattern } from './types.ts'

/**
 * Ω of each button so that, with the pull-up, the readings stand at even shares 1/(n + 1) … n/(n + 1) of the reference:
 * R = P·f/(1 − f), the nearest value of E24. Voltage divider.
 */
export const evenResistors = (pullUp: number, buttons: number): number[] =>
  Array.from({ length: buttons }, (_, index) => {
    const share = (index + 1) / (buttons + 1)
    const wanted = (pullUp * share) / (1 - share)
    return preferredValues('E24', wanted * 0.9, wanted * 1.12).reduce((best, value) =>
      Math.abs(value - wanted) < Math.abs(best - wanted) ? value : best,
    )
  })

export const resistanceSwitch: Pattern = {
  id: 'resistance-switch',
  name: 'Resistance switch',
  purpose: 'Several buttons on one wire: each joins the input to sensor earth through a resistor of its own.',
  questions: [
    place('at', 'Where the buttons sit'),
    ask('buttons', { type: 'count', least: 2, most: 8 }, 'How many buttons', '2 to 8'),
    ask(
      'pullUp',
      { type: 'quantity', kind: 'resistance' },
      'Pull-up inside the controller',
      'from its sheet, such as 1 kΩ',
    ),
    controller,
    pins('pin', 'Input of the controller', 1),
    insulation,
  ],
  cautions: [
    BATTERY_CAUTION,
    'A steering wheel with an airbag is opened by a specialist only: put the buttons elsewhere.',
  ],
  draw: (pen, answers) => {
    pen.circuit('buttons', 'Buttons on one wire')
    const ecu = answers.text('controller')
    const [pin] = answers.texts('pin') as [string]
    const pullUp = answers.quantity('resistance', 'pullUp').value
    const values = evenResistors(pullUp, answers.count('buttons'))
    const at = answers.text('at')
    const positions: Record<string, readonly (readonly [string, string])[]> = { none: [] }
    values.forEach((_, index) => {
      positions[`${index + 1}`] = [['C', `${index + 1}`]]
    })
    const buttons = contact(pen, 'buttons', 'Buttons', at, positions)
    const joint = pen.splice('splice-buttons', 'Splice, button resistors', at)
    values.forEach((ohm, index) => {
      const part = pen.device(
        `button-resistor-${index + 1}`,
        `Resistor of button ${index + 1}`,
        at,
        {
          kind: 'resistor',
          resistance: { value: ohm, unit: 'Ω' },
        },
        { 1: '', 2: '' },
      )
      pen.wire(`${buttons}.${index + 1}`, `${part}.1`, 'PK', SIGNAL)
      pen.wire(`${part}.2`, pen.tap(`${joint}.1`), 'BK/WH', SIGNAL)
    })
    pen.wire(`${buttons}.C`, `${ecu}.${pin}`, 'PK', SIGNAL)
    pen.wire(pen.tap(`${joint}.1`), pen.tap(sensorEarth(pen, ecu)), 'BK/WH', SIGNAL)
    input(pen, {
      id: 'in-buttons',
      name: 'Buttons',
      controller: ecu,
      pin,
      source: buttons,
      signal: 'resistance',
      pullUp,
    })
    pen.say(
      `Resistors from E24 for even steps with a pull-up of ${pullUp} Ω: ${values.map((ohm, index) => `button ${index + 1} ${ohm} Ω, ${((ohm / (ohm + pullUp)) * 100).toFixed(0)} %`).join('; ')} of the reference; no button 100 %. Whether the bands stay apart at worst is the sheet of the resistance switch’s to say.`,
    )
  },
}
