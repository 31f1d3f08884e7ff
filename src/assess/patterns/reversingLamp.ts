import { BATTERY_CAUTION } from '../make.ts'
import { box, drop, earth, feed, insulation, lampPlaces, place, power } from './questions.ts'
import { switchedLamps } from './switchedLamps.ts'
import type { Pattern } from './types.ts'

export const reversingLamp: Pattern = {
  id: 'reversing-lamp',
  name: 'Reversing lamp',
  purpose: 'One or two reversing lamps on the gearbox switch, live with the ignition only.',
  questions: [
    lampPlaces('Where each reversing lamp sits', 1, 2),
    power('power', 'Power of each lamp', '21 W'),
    place('switch', 'Where the gearbox switch sits'),
    feed('ignition'),
    earth(),
    box,
    drop('10 %'),
    insulation,
  ],
  cautions: [
    BATTERY_CAUTION,
    'The gearbox and exhaust are hot after a drive; let them cool before you reach for the switch.',
  ],
  draw: (pen, answers) => {
    pen.circuit('reversing', 'Reversing lamp')
    switchedLamps(pen, answers, {
      id: 'reversing',
      name: 'Reversing lamp',
      lampId: (n) => `reversing-lamp-${n}`,
      lampName: (n) => `Reversing lamp ${n}`,
      switchName: 'Reverse gear switch',
      positions: { forward: [], reverse: [['1', '2']] },
      from: '1',
      to: '2',
      colours: 'BK/BU',
    })
  },
}
