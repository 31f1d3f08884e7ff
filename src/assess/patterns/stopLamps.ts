import { BATTERY_CAUTION } from '../make.ts'
import { box, drop, earth, feed, insulation, lampPlaces, optional, place, power } from './questions.ts'
import { switchedLamps } from './switchedLamps.ts'
import type { Pattern } from './types.ts'

export const stopLamps: Pattern = {
  id: 'stop-lamps',
  name: 'Stop lamps',
  purpose: 'Stop lamps on the brake pedal’s switch.',
  questions: [
    lampPlaces('Where each stop lamp sits', 2, 3),
    power('power', 'Power of each lamp', '21 W'),
    place('switch', 'Where the pedal switch sits'),
    feed('ignition'),
    earth(),
    optional(earth('earth2', 'Second earth stud, for lamps nearer to it')),
    box,
    drop('5 %'),
    insulation,
  ],
  cautions: [
    BATTERY_CAUTION,
    'Prove every lamp with the pedal before the car moves; local law says how many and where.',
  ],
  draw: (pen, answers) => {
    pen.circuit('stop-lamps', 'Stop lamps')
    switchedLamps(pen, answers, {
      id: 'stop-lamps',
      name: 'Stop lamps',
      lampId: (n) => `stop-lamp-${n}`,
      lampName: (n) => `Stop lamp ${n}`,
      switchName: 'Brake pedal switch',
      positions: { released: [], pressed: [['15', '54']] },
      from: '15',
      to: '54',
      colours: 'BK/RD',
    })
  },
}
