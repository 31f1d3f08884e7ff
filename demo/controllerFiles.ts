/** Two files of the demo’s controller, as its own software would save them: what they hold is invented. */
import { createHash } from 'node:crypto'
import type { Entity } from '../src/model/build.ts'

const FIRST = `[engine]
cylinders = 4
firing order = 1 3 4 2
limit of engine speed = 3000 1/min
[idle]
target, warm = 900 1/min
target, cold = 1250 1/min
[fan]
on = 98 °C
off = 93 °C
[coolant sensor]
-20 °C = 15040 Ohm
20 °C = 2450 Ohm
80 °C = 322 Ohm
`
const SECOND = FIRST.replace('80 °C = 322 Ohm', '80 °C = 318 Ohm\n110 °C = 141 Ohm').replace(
  'target, warm = 900 1/min',
  'target, warm = 950 1/min',
)
const digest = (text: string): string => createHash('sha256').update(text).digest('hex')
const bytes = (text: string): number => Buffer.byteLength(text)

export const CONTROLLER_FILES: readonly { readonly text: string; readonly record: Entity<'records'> }[] = [
  {
    text: FIRST,
    record: {
      id: 'C-1',
      kind: 'calibration change',
      title: 'As first loaded, from the engine’s own figures',
      when: '2025-05-17T19:30:00Z',
      by: 'builder',
      file: { name: 'halvard-base.txt', sha256: digest(FIRST), bytes: bytes(FIRST) },
    },
  },
  {
    text: SECOND,
    record: {
      id: 'C-2',
      kind: 'calibration change',
      title: 'Coolant sensor as measured; idle up so that the alternator charges',
      when: '2025-05-18T19:05:00Z',
      by: 'builder',
      file: {
        name: 'halvard-2.txt',
        sha256: digest(SECOND),
        bytes: bytes(SECOND),
        before: 'C-1',
        differs: { bytes: 21, lines: { added: 3, taken: 2 } },
        belongs: ['calibrations/ntc-coolant', 'logs/L-1'],
      },
    },
  },
]
