import { BATTERY_CAUTION } from '../make.ts'
import { COIL_CURRENT, coilFuse, contact, dropLimit, load, NEEDS, relayed, resistanceLaw } from './parts.ts'
import { box, drop, earth, feed, insulation, place, power } from './questions.ts'
import type { Pattern } from './types.ts'

export const heatedScreen: Pattern = {
  id: 'heated-screen',
  name: 'Heated screen',
  purpose: 'A heated front or rear screen by relay, which only the ignition can pull in.',
  questions: [
    place('at', 'Where the screen’s feed ends'),
    power('power', 'Power of the screen', '180 W'),
    feed('permanent'),
    feed('ignition', 'ignition'),
    place('switch', 'Where the switch sits'),
    earth(),
    box,
    drop('5 %'),
    insulation,
  ],
  cautions: [
    BATTERY_CAUTION,
    'A heated screen is among the largest loads of a car: with the engine stopped it empties the battery.',
  ],
  draw: (pen, answers) => {
    pen.circuit('heated-screen', 'Heated screen')
    const law = resistanceLaw(144 / answers.quantity('power', 'power').value)
    const screen = pen.device(
      'heated-screen',
      'Heated screen',
      answers.text('at'),
      { kind: 'heater' },
      { '+': '', '-': '' },
      {
        loads: [load('heater', '+', '-', law, NEEDS.lamp)],
      },
    )
    const stud = pen.stud(answers.text('earth'))
    const { relay } = relayed(pen, {
      id: 'heated-screen',
      name: 'Heated screen',
      feed: answers.text('feed'),
      box: answers.has('box') ? answers.text('box') : undefined,
      law,
      plus: `${screen}.+`,
      minus: `${screen}.-`,
      earth: stud,
      limit: dropLimit(answers),
      colours: 'BK/GY',
    })
    const at = pen.at(`${relay}.86`)
    const fuse = coilFuse(pen, 'heated-screen-switch', 'Heated screen switch', answers.text('ignition'), at)
    const button = contact(pen, 'heated-screen-switch', 'Heated screen switch', answers.text('switch'), {
      off: [],
      on: [['1', '2']],
    })
    pen.wire(`${fuse}.2`, `${button}.1`, 'BK', COIL_CURRENT, { behind: fuse })
    pen.wire(`${button}.2`, `${relay}.86`, 'BK/GY', COIL_CURRENT, { behind: fuse })
    pen.wire(`${relay}.85`, stud, 'BN', COIL_CURRENT)
    pen.say('The coil hangs on the ignition: with the key off the screen cannot stay on.')
  },
}
