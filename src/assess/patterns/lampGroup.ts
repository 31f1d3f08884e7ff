import { BATTERY_CAUTION } from '../make.ts'
import { stemOf } from './parts.ts'
import { box, called, drop, earth, feed, insulation, lampPlaces, optional, place, power } from './questions.ts'
import { switchedLamps } from './switchedLamps.ts'
import type { Pattern } from './types.ts'

/** Side lamps, work lamps, lights inside: one switch, one fuse, several lamps. */
export const lampGroup: Pattern = {
  id: 'lamp-group',
  name: 'Lamp group',
  purpose: 'Several lamps on one switch and one fuse: side and tail lamps, work lamps, lights inside.',
  questions: [
    called('Lamps'),
    lampPlaces('Where each lamp sits'),
    power('power', 'Power of each lamp', '5 W'),
    place('switch', 'Where the switch sits'),
    feed('permanent'),
    earth(),
    optional(earth('earth2', 'Second earth stud, for lamps nearer to it')),
    box,
    drop('5 %'),
    insulation,
  ],
  cautions: [BATTERY_CAUTION],
  draw: (pen, answers) => {
    const name = answers.text('name')
    const id = stemOf(name)
    pen.circuit(id, name)
    switchedLamps(pen, answers, {
      id,
      name,
      lampId: (n) => `${id}-${n}`,
      lampName: (n) => `${name}, ${n}`,
      switchName: `${name} switch`,
      positions: { off: [], on: [['30', '58']] },
      from: '30',
      to: '58',
      colours: 'GY',
    })
  },
}
