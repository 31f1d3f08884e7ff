import { BATTERY_CAUTION } from '../make.ts'
import { COIL_CURRENT, contact, dropLimit, fusedRelay, load, NEEDS, resistanceLaw, total } from './parts.ts'
import { ask, box, current, drop, earth, feed, insulation, optional, orElse, place } from './questions.ts'
import { lampsFrom } from './switchedLamps.ts'
import type { Pattern } from './types.ts'

export const horn: Pattern = {
  id: 'horn',
  name: 'Horn',
  purpose: 'One or two horns by relay, with the push between the coil and earth.',
  questions: [
    ask(
      'horns',
      { type: 'branch points', least: 1, most: 2 },
      'Where each horn sits',
      'a branch point for each, with commas between',
    ),
    orElse(current('running', 'Current of each horn', 'from its sheet, such as 5 A'), '5 A'),
    place('switch', 'Where the push sits'),
    feed('permanent'),
    earth(),
    optional(earth('earth2', 'Earth stud of the push, where another is nearer')),
    box,
    drop('10 %'),
    insulation,
  ],
  cautions: [
    BATTERY_CAUTION,
    'In a car with an airbag the horn push is part of its steering wheel: leave that wheel to a specialist.',
  ],
  draw: (pen, answers) => {
    pen.circuit('horn', 'Horn')
    const places = answers.texts('horns')
    const law = resistanceLaw(12 / answers.quantity('current', 'running').value)
    const draws = total(
      pen,
      places.map(() => law),
    )
    const it = fusedRelay(
      pen,
      {
        id: 'horn',
        name: 'Horn',
        feed: answers.text('feed'),
        box: answers.has('box') ? answers.text('box') : undefined,
      },
      draws,
    )
    lampsFrom(pen, answers, {
      id: 'horn',
      name: 'horn',
      places,
      law,
      lampId: () => 'horn',
      lampName: () => 'Horn',
      make: (place, n) =>
        pen.device(
          places.length === 1 ? 'horn' : `horn-${n}`,
          places.length === 1 ? 'Horn' : `Horn ${n}`,
          place,
          { kind: 'module' },
          { '+': '', '-': '' },
          {
            loads: [load('horn', '+', '-', law, NEEDS.lamp)],
          },
        ),
      from: `${it.relay}.87`,
      fuse: it.fuse,
      shared: [it.wire],
      limit: dropLimit(answers),
      ohm: it.ohm,
      colours: 'BK/YE',
    })
    const push = contact(pen, 'horn-push', 'Horn push', answers.text('switch'), { released: [], pressed: [['1', '2']] })
    pen.wire(`${it.fuse}.2`, `${it.relay}.86`, 'RD', COIL_CURRENT, { behind: it.fuse })
    pen.wire(`${it.relay}.85`, `${push}.1`, 'BN/YE', COIL_CURRENT)
    pen.wire(`${push}.2`, pen.stud(answers.text(answers.has('earth2') ? 'earth2' : 'earth')), 'BN', COIL_CURRENT)
  },
}
