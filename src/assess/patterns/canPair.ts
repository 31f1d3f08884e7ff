import { BATTERY_CAUTION } from '../make.ts'
import { SIGNAL } from './controllerPinsOf.ts'
import { ask, insulation, orElse } from './questions.ts'
import type { Pattern } from './types.ts'

/** Ω across each end: ISO 11898-2, 120 Ω nominal, 108 … 132 Ω (a bus master’s manual, manualarchiveguide.com 3500183, page 22 [read]). */
export const TERMINATION = 120

/** A terminator lies at the plug. */
const SHORT = { value: 0.2, unit: 'm' }

export const canPair: Pattern = {
  id: 'can-pair',
  name: 'CAN pair with terminations',
  purpose: 'A twisted pair between two units, with 120 Ω across it at each end (ISO 11898-2).',
  questions: [
    ask('highA', { type: 'terminal' }, 'CAN high of the first unit', 'such as ecu.B21'),
    ask('lowA', { type: 'terminal' }, 'CAN low of the first unit', 'such as ecu.B22'),
    ask('highB', { type: 'terminal' }, 'CAN high of the last unit', 'such as dash.H'),
    ask('lowB', { type: 'terminal' }, 'CAN low of the last unit', 'such as dash.L'),
    orElse(
      ask(
        'terminators',
        { type: 'choice', options: ['both', 'first', 'last', 'none'] },
        'Where a terminator must be added',
        'both; first or last where the other unit has one inside; none where both have',
      ),
      'both',
    ),
    insulation,
  ],
  cautions: [
    BATTERY_CAUTION,
    'Measure the pair with every unit unpowered: 60 Ω, no more, no less than ten per cent off.',
  ],
  draw: (pen, answers) => {
    pen.circuit('can', 'CAN pair')
    const where = answers.text('terminators')
    const end = (
      n: 1 | 2,
      high: string,
      low: string,
      fitted: boolean,
    ): { readonly high: string; readonly low: string } => {
      if (!fitted) return { high: pen.tap(high), low: pen.tap(low) }
      const part = pen.device(
        `can-end-${n}`,
        `CAN terminator, ${n === 1 ? 'first' : 'last'} unit`,
        pen.at(high),
        {
          kind: 'resistor',
          resistance: { value: TERMINATION, unit: 'Ω' },
        },
        { 1: 'CAN high', 2: 'CAN low' },
      )
      const first = pen.wire(pen.tap(high), `${part}.1`, 'YE', SIGNAL, { more: { length: SHORT } })
      pen.wire(pen.tap(low), `${part}.2`, 'GN', SIGNAL, { more: { twistedWith: first, length: SHORT } })
      pen.twist(first)
      return { high: `${part}.1`, low: `${part}.2` }
    }
    const first = end(1, answers.text('highA'), answers.text('lowA'), where === 'both' || where === 'first')
    const last = end(2, answers.text('highB'), answers.text('lowB'), where === 'both' || where === 'last')
    const high = pen.wire(first.high, last.high, 'YE', SIGNAL)
    pen.wire(first.low, last.low, 'GN', SIGNAL, { more: { twistedWith: high } })
    pen.twist(high)
    pen.say(
      'Two terminators of 120 Ω side by side: 60 Ω between the wires with everything unpowered. 120 Ω: one is missing; 40 Ω: one too many. Twisted over the whole length; stubs to other units short, 0.3 m at 1 Mbit/s (ISO 11898-2 [from memory]).',
    )
    if (where !== 'both')
      pen.say(
        `A terminator inside a unit is taken on trust (${where === 'none' ? 'both' : 'the other one'}): measure it at the plug.`,
      )
  },
}
