import { BATTERY_CAUTION } from '../make.ts'
import { COIL_CURRENT, coilFuse, contact, dropLimit, type Load, lamp, lampLaw, total } from './parts.ts'
import { fuseOhm, RELAY_OHM, SWITCH_OHM } from './pen.ts'
import { ask, box, drop, earth, feed, insulation, optional, place, power } from './questions.ts'
import { lampsFrom, nearest } from './switchedLamps.ts'
import type { Pattern } from './types.ts'

const TELLTALE: NonNullable<Load['law']> = {
  type: 'lamp',
  ratedVoltage: { value: 12, unit: 'V' },
  ratedPower: { value: 2, unit: 'W' },
}

export const indicators: Pattern = {
  id: 'indicators',
  name: 'Indicators with hazard',
  purpose:
    'Direction indicators on the ignition, and the same lamps flashing together from the battery with the hazard switch.',
  questions: [
    ask(
      'left',
      { type: 'branch points', least: 2, most: 4 },
      'Where the left lamps sit',
      'front, rear, repeaters: a branch point each',
    ),
    ask(
      'right',
      { type: 'branch points', least: 2, most: 4 },
      'Where the right lamps sit',
      'front, rear, repeaters: a branch point each',
    ),
    power('power', 'Power of each lamp', '21 W'),
    place('switch', 'Where indicator switch and hazard switch sit'),
    optional(place('telltale', 'Where the two tell-tales sit')),
    feed('ignition'),
    feed('permanent', 'permanent'),
    earth(),
    optional(earth('earth2', 'Second earth stud, for lamps nearer to it')),
    box,
    drop('5 %'),
    insulation,
  ],
  cautions: [BATTERY_CAUTION],
  draw: (pen, answers) => {
    pen.circuit('indicators', 'Indicators and hazard')
    const law = lampLaw(answers, 'power')
    const sides = [
      { id: 'left', pin: 'L', colours: 'BK/WH', places: answers.texts('left') },
      { id: 'right', pin: 'R', colours: 'BK/GN', places: answers.texts('right') },
    ] as const
    const lamps = sides.flatMap(({ places }) => places.map(() => law))
    const all = total(pen, answers.has('telltale') ? [...lamps, TELLTALE, TELLTALE] : lamps)
    const box = answers.has('box') ? answers.text('box') : undefined
    const hazard = pen.fuse('fuse-indicators', 'Indicator and hazard', answers.text('permanent'), box, all)
    const at = pen.at(`${hazard}.2`)
    const studs = ['earth', 'earth2'].flatMap((name) => (answers.has(name) ? [pen.stud(answers.text(name))] : []))
    const relay = pen.relay('indicator-relay', 'Indicator relay', at)
    const coil = coilFuse(pen, 'indicator-relay', 'Indicator relay', answers.text('feed'), at)
    pen.wire(`${coil}.2`, `${relay}.86`, 'BK', COIL_CURRENT, { behind: coil })
    pen.wire(`${relay}.85`, nearest(pen, at, studs), 'BN', COIL_CURRENT)
    const behind = { behind: hazard }
    const hazardSwitch = contact(pen, 'hazard-switch', 'Hazard switch', answers.text('switch'), {
      off: [['15', '49']],
      on: [
        ['30', '49'],
        ['49a', 'L'],
        ['49a', 'R'],
      ],
    })
    const flasher = pen.device(
      'flasher',
      'Flasher unit',
      at,
      {
        kind: 'switch',
        positions: { lit: [['49', '49a']], dark: [] },
        rest: 'lit',
        contactResistance: { value: SWITCH_OHM, unit: 'Ω' },
      },
      { 49: 'supply', '49a': 'to the lamps' },
      { remark: 'Drawn in the lit half of its period, so that wire and fuse are judged with the lamps burning.' },
    )
    const turn = contact(pen, 'indicator-switch', 'Indicator switch', answers.text('switch'), {
      off: [],
      left: [['49a', 'L']],
      right: [['49a', 'R']],
    })
    const half = all.current / 2
    const feeds = [
      pen.wire(`${hazard}.2`, `${relay}.30`, 'RD', half, behind),
      pen.wire(`${relay}.87`, `${hazardSwitch}.15`, 'BK/RD', half, behind),
    ]
    const hazardFeed = pen.wire(`${hazard}.2`, `${hazardSwitch}.30`, 'RD', all.current, behind)
    const common = [
      pen.wire(`${hazardSwitch}.49`, `${flasher}.49`, 'BK/WH', half, behind),
      pen.wire(`${flasher}.49a`, `${turn}.49a`, 'BK/WH', half, behind),
    ]
    pen.wire(`${turn}.49a`, `${hazardSwitch}.49a`, 'BK/WH', all.current, behind)
    const ohm = fuseOhm(pen, hazard) + RELAY_OHM + 3 * SWITCH_OHM
    for (const { id, pin, colours, places } of sides) {
      lampsFrom(pen, answers, {
        id: `indicator-${id}`,
        name: `${id} indicators`,
        places,
        law,
        lampId: (n) => `indicator-${id}-${n}`,
        lampName: (n) => `Indicator, ${id} ${n}`,
        from: `${turn}.${pin}`,
        fuse: hazard,
        shared: [...feeds, ...common],
        limit: dropLimit(answers),
        ohm,
        colours,
      })
      pen.wire(`${turn}.${pin}`, `${hazardSwitch}.${pin}`, colours, half, behind)
      if (!answers.has('telltale')) continue
      const place = answers.text('telltale')
      const telltale = lamp(pen, `telltale-${id}`, `Indicator tell-tale, ${id}`, place, TELLTALE)
      pen.wire(`${turn}.${pin}`, `${telltale}.+`, colours, 0.2, behind)
      pen.wire(`${telltale}.-`, nearest(pen, place, studs), 'BN', 0.2)
    }
    if (answers.has('telltale'))
      pen.say(
        'Each side has a tell-tale of its own, to earth: one lamp between left and right would feed each side through the other.',
      )
    pen.say(
      'One fuse feeds all lamps from the battery. The ignition only pulls a relay that lets the indicators work: with the key off the hazard lamps flash and nothing flows into the ignition rail.',
    )
    pen.way(dropLimit(answers), [hazardFeed], all.current, ohm)
  },
}
