import { BATTERY_CAUTION } from '../make.ts'
import { COIL_CURRENT, coilFuse, contact, dropLimit, lamp, lampLaw, load, NEEDS, total } from './parts.ts'
import { fuseOhm, RELAY_OHM } from './pen.ts'
import { ask, box, drop, earth, feed, insulation, optional, place, power } from './questions.ts'
import { nearest } from './switchedLamps.ts'
import type { Pattern } from './types.ts'

export const headlamps: Pattern = {
  id: 'headlamps',
  name: 'Dipped and main beam',
  purpose:
    'Headlamps with a relay for each beam and a fuse for each filament, so that one fault leaves a lamp burning.',
  questions: [
    ask('lamps', { type: 'branch points', least: 2, most: 2 }, 'Where left and right headlamp sit', 'left, right'),
    power('main', 'Power of a main filament', '60 W'),
    power('dipped', 'Power of a dipped filament', '55 W'),
    place('switch', 'Where light switch and dip switch sit'),
    optional(place('telltale', 'Where the main beam tell-tale sits')),
    feed('permanent'),
    earth(),
    optional(earth('earth2', 'Second earth stud, for the lamp nearer to it')),
    box,
    drop('5 %'),
    insulation,
  ],
  cautions: [
    BATTERY_CAUTION,
    'A headlamp bulb is hot and its glass must not be touched. Beam setting is checked at the inspection.',
  ],
  draw: (pen, answers) => {
    pen.circuit('headlamps', 'Headlamps')
    const feedTerminal = answers.text('feed')
    const at = answers.has('box') ? answers.text('box') : pen.at(feedTerminal)
    const beams = [
      { id: 'dipped', name: 'Dipped beam', pin: '56b', colours: 'YE', law: lampLaw(answers, 'dipped') },
      { id: 'main', name: 'Main beam', pin: '56a', colours: 'WH', law: lampLaw(answers, 'main') },
    ] as const
    const sides = ['left', 'right'] as const
    const studs = ['earth', 'earth2'].flatMap((name) => (answers.has(name) ? [pen.stud(answers.text(name))] : []))
    const lamps = sides.map((side, index) =>
      pen.device(
        `headlamp-${side}`,
        `Headlamp, ${side}`,
        answers.texts('lamps')[index]!,
        { kind: 'lamp' },
        { '56a': 'main beam', '56b': 'dipped beam', 31: 'earth' },
        {
          loads: beams.map(({ id, pin, law }) => load(id, pin, '31', law, NEEDS.lamp)),
        },
      ),
    )
    const one = Math.max(...beams.map(({ law }) => total(pen, [law]).current))
    // Each lamp has one earth wire, which stands behind the fuses of both its filaments.
    const backs: string[] = []
    const control = coilFuse(pen, 'light-switch', 'Light switch', feedTerminal, at)
    const lights = contact(pen, 'light-switch', 'Light switch', answers.text('switch'), {
      off: [],
      head: [['30', '56']],
    })
    const dip = contact(pen, 'dip-switch', 'Dip switch', answers.text('switch'), {
      dipped: [['56', '56b']],
      main: [['56', '56a']],
    })
    pen.wire(`${control}.2`, `${lights}.30`, 'RD', COIL_CURRENT, { behind: control })
    pen.wire(`${lights}.56`, `${dip}.56`, 'WH/BK', COIL_CURRENT, { behind: control })
    for (const { id, name, pin, colours, law } of beams) {
      const both = total(pen, [law, law]).current
      const relay = pen.relay(`${id}-beam-relay`, `${name} relay`, at)
      const feedWire = pen.rail(feedTerminal, `${relay}.30`, 'RD', both)
      pen.wire(`${dip}.${pin}`, `${relay}.86`, colours, COIL_CURRENT, { behind: control })
      pen.wire(`${relay}.85`, nearest(pen, at, studs), 'BN', COIL_CURRENT)
      const fuses = sides.map((side, index) => {
        const draws = total(pen, [law])
        const fuse = pen.fuse(`fuse-${id}-${side}`, `${name}, ${side},`, `${relay}.87`, at, draws, colours)
        const wire = pen.wire(`${fuse}.2`, `${lamps[index]}.${pin}`, colours, draws.current, { behind: fuse })
        backs[index] ??= pen.wire(`${lamps[index]}.31`, nearest(pen, pen.at(`${lamps[index]}.31`), studs), 'BN', one, {
          behind: fuse,
        })
        pen.way(dropLimit(answers), [feedWire, wire, backs[index]!], draws.current, fuseOhm(pen, fuse) + 2 * RELAY_OHM)
        return fuse
      })
      if (id === 'main' && answers.has('telltale')) {
        const telltale = lamp(pen, 'main-beam-telltale', 'Main beam tell-tale', answers.text('telltale'), {
          type: 'lamp',
          ratedVoltage: { value: 12, unit: 'V' },
          ratedPower: { value: 2, unit: 'W' },
        })
        pen.wire(`${fuses[0]}.2`, `${telltale}.+`, 'WH', 0.2, { behind: fuses[0]! })
        pen.wire(`${telltale}.-`, nearest(pen, answers.text('telltale'), studs), 'BN', 0.2)
      }
    }
    pen.say(
      'The dip switch joins 56 to one of 56a and 56b, never to both: two filaments in one bulb would overheat it.',
    )
  },
}
