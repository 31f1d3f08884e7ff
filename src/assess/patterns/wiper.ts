import { BATTERY_CAUTION } from '../make.ts'
import { contact, dropLimit, load, motorLaw, NEEDS, stallOf, total } from './parts.ts'
import { fuseOhm, SWITCH_OHM } from './pen.ts'
import { box, drop, earth, feed, insulation, place, running, stall } from './questions.ts'
import type { Pattern } from './types.ts'

export const wiper: Pattern = {
  id: 'wiper',
  name: 'Wiper with park',
  purpose: 'Wiper motor whose park contact brings it home with the switch off and then brakes it by shorting it.',
  questions: [
    place('at', 'Where the wiper motor sits'),
    running,
    stall,
    place('switch', 'Where the switch sits'),
    feed('ignition'),
    earth(),
    box,
    drop('5 %'),
    insulation,
  ],
  cautions: [BATTERY_CAUTION, 'The linkage starts without warning and cuts: hands off it while the ignition is on.'],
  draw: (pen, answers) => {
    pen.circuit('wiper', 'Wiper')
    const law = motorLaw(answers)
    const stalled = stallOf(law)
    const draws = total(pen, [law])
    const at = answers.text('at')
    const motor = pen.device(
      'wiper-motor',
      'Wiper motor',
      at,
      { kind: 'motor' },
      { 53: 'armature', 31: 'earth' },
      {
        loads: [load('motor', '53', '31', law, NEEDS.motor)],
      },
    )
    const park = contact(pen, 'wiper-park', 'Park contact of the wiper motor', at, {
      parked: [['53e', '31']],
      sweeping: [['53a', '53e']],
    })
    const button = contact(pen, 'wiper-switch', 'Wiper switch', answers.text('switch'), {
      off: [['53e', '53']],
      wipe: [['53a', '53']],
    })
    const fuse = pen.fuse(
      'fuse-wiper',
      'Wiper',
      answers.text('feed'),
      answers.has('box') ? answers.text('box') : undefined,
      draws,
      'BK',
    )
    const thick = { behind: fuse, stall: stalled }
    const stud = pen.stud(answers.text('earth'))
    const feedWire = pen.wire(`${fuse}.2`, `${button}.53a`, 'BK', draws.current, thick)
    const to = pen.wire(`${button}.53`, `${motor}.53`, 'GN', draws.current, thick)
    const back = pen.wire(`${motor}.31`, stud, 'BN', draws.current, thick)
    const homeFeed = pen.wire(`${fuse}.2`, `${park}.53a`, 'BK', draws.current, thick)
    const home = pen.wire(`${park}.53e`, `${button}.53e`, 'GN/BK', draws.current, thick)
    // A bolt of its own: the contact never joins feed and earth, but what stands behind a fuse is traced through both.
    pen.wire(`${park}.31`, pen.bolt(answers.text('earth')), 'BN', draws.current, thick)
    const ohm = fuseOhm(pen, fuse) + SWITCH_OHM
    pen.way(dropLimit(answers), [feedWire, to, back], draws.current, ohm)
    pen.way(2 * dropLimit(answers), [homeFeed, home, to, back], draws.current, ohm + SWITCH_OHM)
    pen.say(
      'With the switch off, 53 hangs on 53e: while the blades are out the park contact feeds it (53a), at home it joins it to earth (31), so that the armature brakes itself. Set wiper-park to sweeping or parked to look at either.',
    )
  },
}
