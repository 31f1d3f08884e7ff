/** The stations after the tyres: road speed and revs, and what the car weighs where. */
import { entered, figure, type Station } from '../chain/chain.ts'
import { type Shown, withUnit } from './stations.ts'
import { gearName, LIFTED } from './words.ts'

export const roadStations = ({ facts, gearing, weights }: Shown): readonly Station[] => {
  const { sheet, build } = facts
  const vehicle = build.sheets.vehicle
  const speedFigures = gearing.now.rows.map(({ per1000 }, at) =>
    withUnit('km/h', figure(`per-1000-${at + 1}`, `${gearName(at)}, at 1000 rpm`, 'v′', 'speed', per1000)),
  )
  return [
    {
      id: 'road',
      name: 'Road speed',
      about: gearing.before
        ? `now, and with ${sheet.before?.name ?? 'the old engine'}`
        : 'the old engine’s gears are not entered',
      sensor: 'Driven wheels’ speed and engine speed in one log: their ratio tells the gear, and any slip.',
      figures: [
        ...speedFigures,
        withUnit('km/h', figure('cruise', 'long journeys', 'vr', 'speed', facts.cruise, 'entered')),
        figure('cruise-revs', 'engine speed then, top gear', 'ω', 'angularSpeed', gearing.now.cruise),
        ...(gearing.before
          ? [figure('old-cruise-revs', 'with the old engine and gears', 'ωo', 'angularSpeed', gearing.before.cruise)]
          : []),
        withUnit(
          'km/h',
          figure(
            'top-speed',
            facts.topIsReckoned ? 'greatest road speed, if the engine reaches it' : 'greatest road speed',
            'vt',
            'speed',
            facts.topSpeed,
            facts.topIsReckoned ? 'computed' : 'entered',
          ),
        ),
      ],
    },
    {
      id: 'scales',
      name: 'Four scales',
      about: 'level pads, load and driver as it drives',
      sensor: 'Four scales, or one moved round with blocks of its height under the other wheels.',
      figures: [
        figure('front-axle', 'front axle', 'm1', 'mass', weights.corners.front),
        figure('rear-axle', 'rear axle', 'm2', 'mass', weights.corners.rear),
        figure('cross', 'cross weight: front left and rear right', 'c', 'ratio', weights.corners.cross),
        figure('left-share', 'share of the left side', 'l', 'ratio', weights.corners.left),
        figure('behind', 'centre of gravity behind the front axle', 'x', 'length', weights.corners.behind),
        withUnit('mm', figure('aside', 'right of the middle; below 0 left', 'y', 'length', weights.corners.aside)),
      ],
    },
    {
      id: 'tilt',
      name: 'Height by tilting',
      about: sheet.tilt?.raised
        ? `${sheet.tilt.raised} axle raised, the other weighed`
        : 'one axle raised, the other weighed',
      cautions: [LIFTED],
      figures: [
        figure('tilt-angle', 'tilt', 'θ', 'angle', weights.tilt.tilt),
        withUnit('mm', figure('above-axles', 'centre of gravity above the axles', 'hr', 'length', weights.tilt.above)),
        withUnit('mm', figure('height', 'above the road', 'h', 'length', weights.tilt.height)),
        withUnit(
          'mm',
          figure(
            'sheet-height',
            'on the vehicle sheet',
            'hs',
            'length',
            entered(vehicle?.centreOfGravityHeight, 'height of the centre of gravity'),
            'entered',
          ),
        ),
      ],
    },
    {
      id: 'swap',
      name: 'Engine out, engine in',
      about: 'what the other engine does to the axles',
      figures: [
        figure('front-after', 'front axle, reckoned', 'm1′', 'mass', weights.swap.frontAfter),
        figure('rear-after', 'rear axle, reckoned', 'm2′', 'mass', weights.swap.rearAfter),
        figure('share-after', 'share of the front', 'f′', 'ratio', weights.swap.share),
        figure(
          'front-sheet',
          'front axle on the vehicle sheet',
          'm1',
          'mass',
          entered(vehicle?.frontMass, 'mass on the front axle'),
          'entered',
        ),
        figure(
          'rear-sheet',
          'rear axle on the vehicle sheet',
          'm2',
          'mass',
          entered(vehicle?.rearMass, 'mass on the rear axle'),
          'entered',
        ),
      ],
    },
  ]
}
