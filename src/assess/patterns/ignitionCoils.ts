import { BATTERY_CAUTION } from '../make.ts'
import { dropLimit, load, NEEDS, output } from './parts.ts'
import { fuseOhm } from './pen.ts'
import { box, controller, current, drop, earth, feed, insulation, pins, place } from './questions.ts'
import type { Pattern } from './types.ts'

export const ignitionCoils: Pattern = {
  id: 'ignition-coils',
  name: 'Ignition coils',
  purpose:
    'Coils with their own drivers: one fused feed, an earth on the engine, a trigger wire from the controller for each.',
  questions: [
    place('at', 'Where the coils sit'),
    current(
      'mean',
      'Mean current of one coil at the highest speed',
      'dwell × sparks a second × about half the peak current, such as 2 A',
    ),
    feed('engine'),
    controller,
    pins('outputs', 'Trigger outputs of the controller, one a coil, in cylinder order', 1, 12),
    earth('earth', 'Earth stud on the cylinder head or block'),
    box,
    drop('5 %'),
    insulation,
  ],
  cautions: [
    BATTERY_CAUTION,
    'Ignition voltage kills a weak heart and any controller: no coil is fired without its plug earthed.',
  ],
  draw: (pen, answers) => {
    pen.circuit('ignition', 'Ignition')
    const outputs = answers.texts('outputs')
    const at = answers.text('at')
    const ecu = answers.text('controller')
    const mean = answers.quantity('current', 'mean')
    const all = mean.value * outputs.length
    const fuse = pen.fuse(
      'fuse-coils',
      'Coils',
      answers.text('feed'),
      answers.has('box') ? answers.text('box') : undefined,
      { current: all },
    )
    const feedJoint = pen.splice('splice-coils', 'Splice, coil feed', at)
    const earthJoint = pen.splice('splice-coil-earth', 'Splice, coil earths', at)
    const trunk = pen.wire(`${fuse}.2`, `${feedJoint}.1`, 'RD/VT', all, { behind: fuse })
    const back = pen.wire(`${earthJoint}.1`, pen.stud(answers.text('earth')), 'BN', all, { behind: fuse })
    outputs.forEach((pin, index) => {
      const n = index + 1
      const coil = pen.device(
        `coil-${n}`,
        `Coil, cylinder ${n}`,
        at,
        { kind: 'coil' },
        { 15: 'supply', 31: 'earth', S: 'trigger' },
        {
          loads: [
            load(
              'primary',
              '15',
              '31',
              { type: 'current', current: mean, minimumVoltage: { value: NEEDS.electronics, unit: 'V' } },
              NEEDS.coil,
            ),
          ],
        },
      )
      const feedWire = pen.wire(pen.tap(`${feedJoint}.1`), `${coil}.15`, 'RD/VT', mean.value, { behind: fuse })
      const earthWire = pen.wire(`${coil}.31`, pen.tap(`${earthJoint}.1`), 'BN', mean.value, { behind: fuse })
      pen.wire(`${ecu}.${pin}`, `${coil}.S`, 'VT', 0.05)
      pen.way(dropLimit(answers), [trunk, feedWire, earthWire, back], all, fuseOhm(pen, fuse))
      output(pen, {
        id: `out-coil-${n}`,
        name: `Coil ${n} trigger`,
        controller: ecu,
        pin,
        drives: coil,
        driver: 'logic',
      })
    })
    pen.say(
      'For coils with drivers inside: the controller only gives a trigger. A bare coil on such an output burns the output.',
    )
    pen.say(
      'The coils return to the engine, where their sparks return; keep their wires away from crank and cam wires.',
    )
  },
}
