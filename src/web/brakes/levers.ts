/** What can be tried on the brakes, each at its station. */
import type { Build, SheetName } from '../../model/build.ts'
import type { Kind } from '../../units/kinds.ts'
import type { Lever } from '../chain/levers.ts'

type Path = readonly (string | number)[]
const lever = (id: string, station: string, label: string, kind: Kind, ...path: Path): Lever => ({
  id,
  station,
  label,
  kind,
  sheet: 'brakes',
  path,
})
const choose = (
  id: string,
  station: string,
  label: string,
  options: Readonly<Record<string, string | number | boolean>>,
  sheet: SheetName,
  ...path: Path
): Lever => ({ id, station, label, options, sheet, path })

const same = (...words: readonly string[]): Record<string, string> =>
  Object.fromEntries(words.map((word) => [word, word]))
const COUNTS = Object.fromEntries(Array.from({ length: 15 }, (_, index) => [`${index + 1}`, index + 1]))

const axleLevers = ({ sheets }: Build, axle: 'front' | 'rear'): readonly Lever[] => {
  const kind = sheets.brakes?.[`${axle}Kind`]
  const drum = kind === 'drum'
  return [
    choose(`${axle}-kind`, axle, 'Disc or drum', same('disc', 'drum'), 'brakes', `${axle}Kind`),
    lever(
      `${axle}-pistons`,
      axle,
      drum ? 'Area of one wheel cylinder’s piston' : 'Pistons on one side of one caliper',
      'area',
      `${axle}PistonArea`,
    ),
    lever(`${axle}-radius`, axle, drum ? 'Inside radius of the drum' : 'Effective radius', 'length', `${axle}Radius`),
    lever(`${axle}-own-friction`, axle, 'Friction of these linings, if not as all', 'ratio', `${axle}Friction`),
    ...(drum
      ? [
          choose(
            `${axle}-shoes`,
            axle,
            'Shoes',
            same('leading and trailing', 'two leading', 'duo-servo'),
            'brakes',
            `${axle}Shoes`,
            'kind',
          ),
          lever(
            `${axle}-leading-factor`,
            axle,
            'Leading shoe’s factor, by its maker',
            'ratio',
            `${axle}Shoes`,
            'leading',
          ),
          lever(
            `${axle}-trailing-factor`,
            axle,
            'Other shoe’s factor, by its maker',
            'ratio',
            `${axle}Shoes`,
            'trailing',
          ),
          lever(`${axle}-pivot`, axle, 'Shoe’s pivot from the middle', 'length', `${axle}Shoes`, 'pivot'),
          lever(`${axle}-arm`, axle, 'Pivot to the cylinder’s line', 'length', `${axle}Shoes`, 'arm'),
          lever(`${axle}-start`, axle, 'Lining begins, from the pivot', 'angle', `${axle}Shoes`, 'start'),
          lever(`${axle}-end`, axle, 'Lining ends, from the pivot', 'angle', `${axle}Shoes`, 'end'),
        ]
      : []),
    lever(`${axle}-iron`, 'heat', `Iron of one ${axle} ${kind ?? 'brake'}`, 'mass', `${axle}Iron`),
  ]
}

const ofVehicle = (id: string, label: string, kind: Kind, field: string): Lever => ({
  id,
  station: 'tyres',
  label,
  kind,
  sheet: 'vehicle',
  path: [field],
})

export const brakeLevers = (build: Build): readonly Lever[] => {
  const { brakes, vehicle, vacuum } = build.sheets
  const servo = (vacuum?.users ?? []).findIndex(({ kind }) => kind === 'servo')
  return [
    lever('ratio', 'pedal', 'Pedal ratio', 'ratio', 'pedalRatio'),
    lever('servo', 'servo', 'Servo ratio, 1 for none', 'ratio', 'servoRatio'),
    lever('diaphragm', 'servo', 'Effective diaphragm area', 'area', 'servo', 'diaphragm'),
    lever('front-chamber', 'servo', 'Front chamber', 'volume', 'servo', 'frontVolume'),
    lever('rear-chamber', 'servo', 'Rear chamber', 'volume', 'servo', 'rearVolume'),
    lever('stroke', 'servo', 'Full stroke', 'length', 'servo', 'stroke'),
    lever('firm-stroke', 'servo', 'Stroke of a firm stop', 'length', 'servo', 'firmStroke'),
    ...(vacuum?.pump
      ? []
      : [
          {
            id: 'idle',
            station: 'vacuum',
            label: 'Manifold at hot idle, absolute',
            kind: 'pressureAbsolute',
            sheet: 'vacuum',
            path: ['idlePressure'],
          } as const,
        ]),
    choose('pump', 'vacuum', 'Vacuum pump', { yes: true, no: false }, 'vacuum', 'pump'),
    ...(vacuum?.pump
      ? [
          {
            id: 'pump-pressure',
            station: 'vacuum',
            label: 'Pressure that the pump holds, absolute',
            kind: 'pressureAbsolute',
            sheet: 'vacuum',
            path: ['pumpPressure'],
          } as const,
        ]
      : []),
    { id: 'reservoir', station: 'vacuum', label: 'Reservoir', kind: 'volume', sheet: 'vacuum', path: ['reservoir'] },
    ...(servo < 0
      ? []
      : [
          choose(
            'check-valve',
            'vacuum',
            'Check valve at the servo',
            { yes: true, no: false },
            'vacuum',
            'users',
            servo,
            'checkValve',
          ),
        ]),
    choose(
      'blanking',
      'vacuum',
      'Blanked ports are closed by',
      same('plug or thread', 'cap with clamp', 'cap pushed on'),
      'vacuum',
      'blanking',
    ),
    lever('bore', 'master', 'Bore of the master cylinder', 'length', 'masterCylinder'),
    choose('circuits', 'circuits', 'Circuits', same('single', 'front and rear', 'diagonal'), 'brakes', 'circuits'),
    choose('valve', 'circuits', 'Valve at the rear', same('none', 'fixed', 'by load'), 'brakes', 'valve', 'kind'),
    ...(brakes?.valve?.kind === 'fixed' || brakes?.valve?.kind === 'by load'
      ? [
          lever('split', 'circuits', 'Valve begins at', 'pressureGauge', 'valve', 'split'),
          ...(brakes.valve.kind === 'by load'
            ? [lever('laden-split', 'circuits', 'Laden it begins at', 'pressureGauge', 'valve', 'ladenSplit')]
            : []),
          lever('slope', 'circuits', 'Share it passes on beyond', 'ratio', 'valve', 'slope'),
        ]
      : []),
    choose('anti-lock', 'circuits', 'Anti-lock unit', { yes: true, no: false }, 'brakes', 'antiLock'),
    lever('friction', 'front', 'Friction of all linings, with its range', 'ratio', 'friction'),
    ...axleLevers(build, 'front'),
    ...axleLevers(build, 'rear'),
    // Without a vehicle there is no sheet to put these on: the car's own bench makes it.
    ...(vehicle === undefined
      ? []
      : [
          ofVehicle('front-mass', 'Mass on the front axle, driver aboard', 'mass', 'frontMass'),
          ofVehicle('rear-mass', 'Mass on the rear axle, driver aboard', 'mass', 'rearMass'),
          ofVehicle('height', 'Height of the centre of gravity', 'length', 'centreOfGravityHeight'),
          ofVehicle('laden', 'Laden mass', 'mass', 'ladenMass'),
        ]),
    lever('laden-front', 'tyres', 'Laden, on the front axle', 'mass', 'ladenFrontMass'),
    lever('laden-height', 'tyres', 'Height of the centre of gravity, laden', 'length', 'ladenHeight'),
    ...(vehicle === undefined
      ? []
      : [
          ofVehicle('wheelbase', 'Wheelbase', 'length', 'wheelbase'),
          ofVehicle('tyre', 'Rolling radius of the tyres', 'length', 'tyreRadius'),
        ]),
    choose('stops', 'heat', 'Stops in a row', COUNTS, 'brakes', 'stops', 'count'),
    lever('stops-from', 'heat', 'Each from', 'speed', 'stops', 'from'),
    lever('stops-to', 'heat', 'Down to, 0 for standing', 'speed', 'stops', 'to'),
    lever('interval', 'heat', 'Time between stops', 'time', 'stops', 'interval'),
    lever('cooling', 'heat', 'Cooling time, as measured', 'time', 'stops', 'cooling'),
    lever('lining-limit', 'heat', 'The linings stand', 'temperature', 'liningLimit'),
    lever('idle-way', 'travel', 'Push rod’s play and way to closed ports', 'length', 'travel', 'idle'),
    lever('cylinder-stroke', 'travel', 'Whole stroke of the master cylinder', 'length', 'travel', 'stroke'),
    lever('floating-stroke', 'travel', 'Stroke of the floating piston’s chamber', 'length', 'travel', 'floatingStroke'),
    choose(
      'floating-feeds',
      'travel',
      'The floating piston’s chamber feeds',
      same('front', 'rear'),
      'brakes',
      'travel',
      'floatingFeeds',
    ),
    ...(['front', 'rear'] as const).flatMap((axle) => [
      lever(
        `${axle}-clearance`,
        'travel',
        `Pistons’ way to first touch, one ${axle} wheel`,
        'length',
        'travel',
        `${axle}Clearance`,
      ),
      lever(`${axle}-take`, 'travel', `One ${axle} brake takes, at 100 bar`, 'volume', 'travel', `${axle}Take`),
      lever(
        `${axle}-hoses`,
        'travel',
        `${axle === 'front' ? 'Front' : 'Rear'} hoses swell by, at 100 bar`,
        'volume',
        'travel',
        `${axle}Hoses`,
      ),
    ]),
    lever('pedal-way', 'travel', 'Pedal’s way to what stops it', 'length', 'travel', 'pedal'),
    choose('parking-by', 'parking', 'Worked by', same('hand', 'foot'), 'brakes', 'parking', 'by'),
    lever('parking-ratio', 'parking', 'Lever ratio', 'ratio', 'parking', 'ratio'),
    lever('parking-cables', 'parking', 'Efficiency of the cables', 'ratio', 'parking', 'cables'),
    lever('parking-wheel', 'parking', 'Shoe or pad force over cable pull', 'ratio', 'parking', 'wheel'),
    lever('parking-factor', 'parking', 'Factor of its shoes, if not the rear brakes’', 'ratio', 'parking', 'factor'),
    lever('parking-radius', 'parking', 'Radius of its drum, if not the rear brakes’', 'length', 'parking', 'radius'),
    lever('parking-gradient', 'parking', 'Gradient to be held', 'ratio', 'parking', 'gradient'),
    lever('parking-force', 'parking', 'Greatest force on the grip', 'force', 'parking', 'force'),
    lever('inspection-parking', 'parking', 'Inspection asks of it, share of weight', 'ratio', 'inspection', 'parking'),
    choose(
      'fluid-kind',
      'fluid',
      'Kind of fluid',
      same('DOT 3', 'DOT 4', 'DOT 5', 'DOT 5.1', 'other'),
      'brakes',
      'fluid',
      'kind',
    ),
    choose(
      'fluid-age',
      'fluid',
      'In the car since',
      same('just filled', 'up to two years', 'more than two years'),
      'brakes',
      'fluid',
      'age',
    ),
    lever('fluid-boiling', 'fluid', 'Boiling point by a tester', 'temperature', 'fluid', 'boiling'),
    lever('fluid-hot', 'fluid', 'Hottest fluid, as measured', 'temperature', 'fluid', 'temperature'),
    lever('inspection', 'pedal', 'Inspection asks, braking rate', 'ratio', 'inspection', 'service'),
    lever('inspection-failed', 'pedal', 'Inspection asks with a circuit failed', 'ratio', 'inspection', 'failed'),
    lever('inspection-force', 'pedal', 'Inspection’s greatest pedal force', 'force', 'inspection', 'force'),
  ]
}
