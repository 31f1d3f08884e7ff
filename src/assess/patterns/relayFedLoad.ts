import { refuse } from '../../units/problem.ts'
import { BATTERY_CAUTION } from '../make.ts'
import {
  COIL_CURRENT,
  contact,
  drivenCoil,
  dropLimit,
  lampLaw,
  load,
  motorLaw,
  NEEDS,
  relayed,
  resistanceLaw,
  stemOf,
} from './parts.ts'
import {
  ask,
  box,
  called,
  controller,
  drop,
  earth,
  feed,
  insulation,
  optional,
  pins,
  place,
  power,
  running,
  stall,
} from './questions.ts'
import type { Pattern } from './types.ts'

/** Any load that is too much for its switch: fuse, relay, load, and a switch or a controller output on the coil. */
export const relayFedLoad: Pattern = {
  id: 'relay-fed-load',
  name: 'Relay-fed load',
  purpose: 'A load too large for its switch: the relay carries the load, the switch or the controller only the coil.',
  questions: [
    called('Load'),
    ask('kind', { type: 'choice', options: ['lamp', 'motor', 'heater'] }, 'What it is', 'lamp, motor or heater'),
    optional(power('power', 'Power of a lamp or heater')),
    optional(running),
    optional(stall),
    place('at', 'Where the load sits'),
    feed('permanent'),
    earth(),
    optional(place('switch', 'Where its switch sits', 'a branch point; leave out when a controller drives it')),
    optional(controller),
    optional(pins('pin', 'Output of the controller', 1)),
    box,
    drop('3 %'),
    insulation,
  ],
  cautions: [BATTERY_CAUTION],
  draw: (pen, answers) => {
    const name = answers.text('name')
    const id = stemOf(name)
    const kind = answers.text('kind') as 'lamp' | 'motor' | 'heater'
    const lacks = kind === 'motor' ? ['running', 'stall'] : ['power']
    for (const datum of lacks)
      if (!answers.has(datum)) throw refuse('no-answer', `What the ${kind} draws is not known.`, `Set ${datum}.`, datum)
    if (answers.has('switch') === answers.has('pin'))
      throw refuse(
        'no-answer',
        'What drives the relay is not known: a switch or a controller pin, one of them.',
        'Set switch to where it sits, or controller and pin.',
        'switch',
      )
    if (answers.has('pin') && !answers.has('controller'))
      throw refuse('no-answer', 'The controller is not named.', 'Set controller.', 'controller')
    const law =
      kind === 'motor'
        ? motorLaw(answers)
        : kind === 'lamp'
          ? lampLaw(answers, 'power')
          : resistanceLaw(144 / answers.quantity('power', 'power').value)
    pen.circuit(id, name)
    const thing = pen.device(
      id,
      name,
      answers.text('at'),
      { kind },
      { '+': '', '-': '' },
      {
        loads: [load(kind, '+', '-', law, kind === 'motor' ? NEEDS.motor : NEEDS.lamp)],
      },
    )
    const { fuse, relay } = relayed(pen, {
      id,
      name,
      feed: answers.text('feed'),
      box: answers.has('box') ? answers.text('box') : undefined,
      law,
      plus: `${thing}.+`,
      minus: `${thing}.-`,
      earth: pen.stud(answers.text('earth')),
      limit: dropLimit(answers),
      colours: 'RD/WH',
    })
    if (answers.has('pin')) {
      drivenCoil(pen, {
        relay,
        name,
        id: `out-${id}`,
        from: `${fuse}.2`,
        behind: fuse,
        controller: answers.text('controller'),
        pin: answers.texts('pin')[0]!,
      })
      return
    }
    const button = contact(pen, `${id}-switch`, `${name} switch`, answers.text('switch'), { off: [], on: [['1', '2']] })
    pen.wire(`${fuse}.2`, `${button}.1`, 'RD/GN', COIL_CURRENT, { behind: fuse })
    pen.wire(`${button}.2`, `${relay}.86`, 'GN', COIL_CURRENT, { behind: fuse })
    pen.wire(`${relay}.85`, pen.stud(answers.text('earth')), 'BN', COIL_CURRENT)
  },
}
