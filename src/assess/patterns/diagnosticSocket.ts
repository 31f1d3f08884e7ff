import { refuse } from '../../units/problem.ts'
import { BATTERY_CAUTION } from '../make.ts'
import { SIGNAL } from './controllerPinsOf.ts'
import { load } from './parts.ts'
import { ask, box, earth, feed, insulation, optional, place } from './questions.ts'
import type { Pattern } from './types.ts'

/** ISO 15031-3 (SAE J1962), as tabled at dap4cs.com/kline and in a scan tool’s manual (manualshive.com 890495, page 25) [read]. */
export const SOCKET_PINS: Readonly<Record<string, string>> = {
  1: 'maker’s own',
  2: 'SAE J1850, bus +',
  3: 'maker’s own',
  4: 'chassis earth',
  5: 'signal earth',
  6: 'CAN high, ISO 15765-4',
  7: 'K line, ISO 9141-2 and ISO 14230-4',
  8: 'maker’s own',
  9: 'maker’s own',
  10: 'SAE J1850, bus −',
  11: 'maker’s own',
  12: 'maker’s own',
  13: 'maker’s own',
  14: 'CAN low, ISO 15765-4',
  15: 'L line, ISO 9141-2 and ISO 14230-4',
  16: 'permanent positive voltage',
}
/** A that a tester may draw from pin 16 (SAE J1962 [from memory]). */
const TESTER = 4

/** Where the socket sits beside the line: as long as a stub may be at 1 Mbit/s (ISO 11898-2 [from memory]). */
const STUB = { value: 0.3, unit: 'm' }

export const diagnosticSocket: Pattern = {
  id: 'diagnostic-socket',
  name: '16-pin diagnostic socket',
  purpose: 'The socket of ISO 15031-3 with fused permanent supply, its two earths, and the CAN pair if there is one.',
  questions: [
    place('at', 'Where the socket sits', 'a branch point within reach of the driver'),
    feed('permanent'),
    earth('earth', 'Earth stud of the socket'),
    optional(
      ask('canHigh', { type: 'terminal' }, 'CAN high', 'a terminator or splice on the pair, such as can-end-1.1'),
    ),
    optional(ask('canLow', { type: 'terminal' }, 'CAN low', 'the same on the other wire, such as can-end-1.2')),
    box,
    insulation,
  ],
  cautions: [BATTERY_CAUTION],
  draw: (pen, answers) => {
    if (answers.has('canHigh') !== answers.has('canLow'))
      throw refuse(
        'no-answer',
        'Only one wire of the CAN pair is named.',
        'Set canHigh and canLow, or neither.',
        'canHigh',
      )
    pen.circuit('diagnosis', 'Diagnostic socket')
    const socket = pen.device(
      'diagnostic-socket',
      '16-pin diagnostic socket',
      answers.text('at'),
      { kind: 'module' },
      SOCKET_PINS,
      {
        // No tester is plugged in while the car drives: drawn in no case, so that it empties no battery in the model.
        loads: [
          {
            ...load('tester', '16', '4', {
              type: 'current',
              current: { value: TESTER, unit: 'A' },
              minimumVoltage: { value: 8, unit: 'V' },
            }),
            onlyIn: [],
          },
        ],
      },
    )
    const fuse = pen.fuse(
      'fuse-diagnosis',
      'Diagnostic socket',
      answers.text('feed'),
      answers.has('box') ? answers.text('box') : undefined,
      { current: TESTER },
    )
    const wires = [
      pen.wire(`${fuse}.2`, `${socket}.16`, 'RD', TESTER, { behind: fuse }),
      pen.wire(`${socket}.4`, pen.stud(answers.text('earth')), 'BN', TESTER, { behind: fuse }),
    ]
    pen.way(0.6, wires, TESTER)
    pen.wire(`${socket}.5`, pen.stud(answers.text('earth')), 'BN', SIGNAL)
    if (answers.has('canHigh')) {
      const first = pen.wire(pen.tap(answers.text('canHigh')), `${socket}.6`, 'YE', SIGNAL, { more: { length: STUB } })
      pen.wire(pen.tap(answers.text('canLow')), `${socket}.14`, 'GN', SIGNAL, {
        more: { twistedWith: first, length: STUB },
      })
      pen.twist(first)
      pen.say(
        'The pair to the socket is a stub: keep it below a metre (ISO 15765-4 [from memory]) and put no terminator at the socket.',
      )
    }
    pen.say(
      'Pins by ISO 15031-3: 4 chassis earth, 5 signal earth, 6 and 14 CAN high and low, 7 K line, 16 battery. Pin 16 is live with the key off.',
    )
  },
}
