import { BATTERY_CAUTION, FUEL_CAUTION, QUALIFIED_FUEL } from '../make.ts'
import { contact, drivenCoil, dropLimit, load, motorLaw, NEEDS, relayed, stallOf, total } from './parts.ts'
import { SWITCH_OHM } from './pen.ts'
import { box, controller, drop, earth, feed, insulation, pins, place, running, stall } from './questions.ts'
import type { Pattern } from './types.ts'

export const fuelPump: Pattern = {
  id: 'fuel-pump',
  name: 'Fuel pump with crash cut-out',
  purpose:
    'Fuel pump by relay and controller output, with a crash cut-out in its feed that opens whatever the relay does.',
  questions: [
    place('at', 'Where the pump sits'),
    running,
    stall,
    feed('engine'),
    place(
      'cutout',
      'Where the crash cut-out sits',
      'a branch point in the body, away from the crumpling nose, within reach',
    ),
    controller,
    pins('output', 'Output of the controller', 1),
    earth(),
    box,
    drop('3 %'),
    insulation,
  ],
  cautions: [FUEL_CAUTION, QUALIFIED_FUEL, BATTERY_CAUTION],
  draw: (pen, answers) => {
    pen.circuit('fuel-pump', 'Fuel pump')
    const law = motorLaw(answers)
    const name = 'Fuel pump'
    const pump = pen.device(
      'fuel-pump',
      name,
      answers.text('at'),
      { kind: 'pump' },
      { '+': '', '-': '' },
      {
        loads: [load('motor', '+', '-', law, NEEDS.motor)],
      },
    )
    const cutout = contact(pen, 'crash-cut-out', 'Crash cut-out of the fuel pump', answers.text('cutout'), {
      set: [['1', '2']],
      tripped: [],
    })
    const draws = total(pen, [law]).current
    const { fuse, relay } = relayed(pen, {
      id: 'fuel-pump',
      name,
      feed: answers.text('feed'),
      box: answers.has('box') ? answers.text('box') : undefined,
      law,
      plus: `${pump}.+`,
      minus: `${pump}.-`,
      earth: pen.stud(answers.text('earth')),
      limit: dropLimit(answers) - SWITCH_OHM * draws,
      colours: 'GN/RD',
      between: (from, behind) => [
        pen.wire(from, `${cutout}.1`, 'GN/RD', draws, { behind, stall: stallOf(law) }),
        pen.wire(`${cutout}.2`, `${pump}.+`, 'GN/RD', draws, { behind, stall: stallOf(law) }),
      ],
    })
    drivenCoil(pen, {
      relay,
      name,
      id: 'out-fuel-pump',
      from: `${fuse}.2`,
      behind: fuse,
      controller: answers.text('controller'),
      pin: answers.texts('output')[0]!,
    })
    pen.say(
      'Two things stop the pump, each by itself: the controller, which lets the relay drop when the engine does not turn, and the crash cut-out, which opens the feed. Prove both before petrol goes in.',
    )
  },
}
