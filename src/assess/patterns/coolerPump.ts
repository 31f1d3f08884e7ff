import { BATTERY_CAUTION, HOT_CAUTION } from '../make.ts'
import { drivenCoil, dropLimit, load, motorLaw, NEEDS, relayed } from './parts.ts'
import { box, controller, drop, earth, feed, insulation, pins, place, running, stall } from './questions.ts'
import type { Pattern } from './types.ts'

export const coolerPump: Pattern = {
  id: 'cooler-pump',
  name: 'Cooler pump',
  purpose: 'Water pump of the charge cooler by relay and controller output.',
  questions: [
    place('at', 'Where the pump sits'),
    running,
    stall,
    feed('engine'),
    controller,
    pins('output', 'Output of the controller', 1),
    earth(),
    box,
    drop('5 %'),
    insulation,
  ],
  cautions: [BATTERY_CAUTION, HOT_CAUTION, 'Run it only with water in the loop: a dry pump wears out in minutes.'],
  draw: (pen, answers) => {
    pen.circuit('cooler-pump', 'Charge cooler pump')
    const law = motorLaw(answers)
    const name = 'Charge cooler pump'
    const pump = pen.device(
      'cooler-pump',
      name,
      answers.text('at'),
      { kind: 'pump' },
      { '+': '', '-': '' },
      {
        loads: [load('motor', '+', '-', law, NEEDS.motor)],
      },
    )
    const { fuse, relay } = relayed(pen, {
      id: 'cooler-pump',
      name,
      feed: answers.text('feed'),
      box: answers.has('box') ? answers.text('box') : undefined,
      law,
      plus: `${pump}.+`,
      minus: `${pump}.-`,
      earth: pen.stud(answers.text('earth')),
      limit: dropLimit(answers),
      colours: 'GN/GY',
    })
    drivenCoil(pen, {
      relay,
      name,
      id: 'out-cooler-pump',
      from: `${fuse}.2`,
      behind: fuse,
      controller: answers.text('controller'),
      pin: answers.texts('output')[0]!,
    })
  },
}
