/** What can be tried on the driveline, each at its station. */
import type { Build, SheetName } from '../../model/build.ts'
import type { Kind } from '../../units/kinds.ts'
import type { Lever } from '../chain/levers.ts'

type Path = readonly (string | number)[]
const lever = (id: string, station: string, label: string, kind: Kind, ...path: Path): Lever => ({
  id,
  station,
  label,
  kind,
  sheet: 'driveline',
  path,
})
const choose = (
  id: string,
  station: string,
  label: string,
  options: Readonly<Record<string, string | number>>,
  ...path: Path
): Lever => ({ id, station, label, options, sheet: 'driveline', path })
const count = (
  id: string,
  station: string,
  label: string,
  numbers: 'one' | 'row',
  sheet: SheetName,
  ...path: Path
): Lever => ({ id, station, label, numbers, sheet, path })
const same = (...words: readonly string[]): Record<string, string> =>
  Object.fromEntries(words.map((word) => [word, word]))
const FACES = { '1': 1, '2': 2, '4': 4, '6': 6 }

const torqueLevers: readonly Lever[] = [
  lever('peak', 'crank', 'Greatest torque, in place of the curve', 'torque', 'peakTorque'),
  lever('clutch', 'clutch', 'Rated torque of the clutch', 'torque', 'clutchTorque'),
  lever('clamp', 'clutch', 'Clamping force of the cover', 'force', 'clutch', 'clamp'),
  lever('lining', 'clutch', 'Friction of the lining, with its range', 'ratio', 'clutch', 'friction'),
  lever('outer', 'clutch', 'Lining, outside', 'length', 'clutch', 'outer'),
  lever('inner', 'clutch', 'Lining, inside', 'length', 'clutch', 'inner'),
  choose('faces', 'clutch', 'Rubbing faces', FACES, 'clutch', 'faces'),
  lever('shock', 'clutch', 'Dropped, over what it passes', 'ratio', 'shock'),
  lever('gearbox', 'gearbox', 'Rated input', 'torque', 'gearboxTorque'),
  choose('set', 'mounts', 'Engine stands', same('in line', 'transverse', 'in one with its axle'), 'engineSet'),
  lever('span', 'mounts', 'Between the mounts, or arm of the stay', 'length', 'mounts', 'span'),
  lever('mount-weight', 'mounts', 'Weight on each', 'force', 'mounts', 'weight'),
  lever('mount-rated', 'mounts', 'Each stands', 'force', 'mounts', 'rated'),
]
const shaftLevers: readonly Lever[] = [
  lever('shaft-length', 'shaft', 'Longest piece, joint to joint or centre bearing', 'length', 'propshaftLength'),
  lever('shaft-outside', 'shaft', 'Outside of the tube', 'length', 'propshaftDiameter'),
  lever('shaft-wall', 'shaft', 'Wall of the tube', 'length', 'propshaftWall'),
  choose('tube', 'shaft', 'Tube', same('steel', 'aluminium'), 'propshaftTube'),
  lever('yield', 'shaft', 'Yield strength of the tube', 'stress', 'propshaftYield'),
  lever('joint-rated', 'joints', 'Torque that the joints are rated for', 'torque', 'jointTorque'),
  lever('slope-gearbox', 'joints', 'Slope of the gearbox, falling to the rear', 'angle', 'slopes', 'gearbox'),
  lever('slope-shaft', 'joints', 'Slope of the shaft', 'angle', 'slopes', 'shaft'),
  lever('slope-axle', 'joints', 'Slope of the pinion', 'angle', 'slopes', 'axle'),
  lever('plan-gearbox', 'joints', 'From above, gearbox to the right', 'angle', 'plan', 'gearbox'),
  lever('plan-shaft', 'joints', 'From above, shaft', 'angle', 'plan', 'shaft'),
  lever('plan-axle', 'joints', 'From above, pinion', 'angle', 'plan', 'axle'),
  lever('phase', 'joints', 'Yokes out of line', 'angle', 'phase'),
]
const weightLevers: readonly Lever[] = [
  lever('front-left', 'scales', 'Front left', 'mass', 'corners', 'frontLeft'),
  lever('front-right', 'scales', 'Front right', 'mass', 'corners', 'frontRight'),
  lever('rear-left', 'scales', 'Rear left', 'mass', 'corners', 'rearLeft'),
  lever('rear-right', 'scales', 'Rear right', 'mass', 'corners', 'rearRight'),
  lever('front-track', 'scales', 'Front track', 'length', 'frontTrack'),
  lever('rear-track', 'scales', 'Rear track', 'length', 'rearTrack'),
  choose('raised', 'tilt', 'Axle raised', same('front', 'rear'), 'tilt', 'raised'),
  lever('rise', 'tilt', 'Raised by', 'length', 'tilt', 'rise'),
  lever('tilt-level', 'tilt', 'Other axle, level', 'mass', 'tilt', 'level'),
  lever('tilt-tilted', 'tilt', 'Other axle, tilted', 'mass', 'tilt', 'tilted'),
  lever('tilt-total', 'tilt', 'Car as tilted', 'mass', 'tilt', 'total'),
  lever('axle-height', 'tilt', 'Middle of the wheels above the pads', 'length', 'tilt', 'axleHeight'),
  lever('front-before', 'swap', 'Front axle, old engine', 'mass', 'swap', 'frontBefore'),
  lever('rear-before', 'swap', 'Rear axle, old engine', 'mass', 'swap', 'rearBefore'),
  lever('out', 'swap', 'Taken out', 'mass', 'swap', 'out'),
  lever('out-at', 'swap', 'Its centre behind the front axle', 'length', 'swap', 'outAt'),
  lever('in', 'swap', 'Put in', 'mass', 'swap', 'in'),
  lever('in-at', 'swap', 'Centre of what is put in, behind the front axle', 'length', 'swap', 'inAt'),
]

const ofVehicle = (id: string, station: string, label: string, kind: Kind, field: string): Lever => ({
  id,
  station,
  label,
  kind,
  sheet: 'vehicle',
  path: [field],
})

export const drivelineLevers = ({ sheets }: Build): readonly Lever[] => [
  ...torqueLevers,
  // Without a vehicle there is no sheet to put these on: the car's own bench makes it.
  ...(sheets.vehicle === undefined
    ? []
    : [
        count('gears', 'gearbox', 'Ratios of the gears, first to top', 'row', 'vehicle', 'gears'),
        count('final', 'axle', 'Ratio of the final drive', 'one', 'vehicle', 'finalDrive'),
        ofVehicle('tyre', 'tyres', 'Rolling radius', 'length', 'tyreRadius'),
        ofVehicle('wheelbase', 'tyres', 'Wheelbase', 'length', 'wheelbase'),
        ofVehicle('gravity', 'tilt', 'Height on the vehicle sheet', 'length', 'centreOfGravityHeight'),
        ofVehicle('front-mass', 'swap', 'Front axle on the vehicle sheet', 'mass', 'frontMass'),
        ofVehicle('rear-mass', 'swap', 'Rear axle on the vehicle sheet', 'mass', 'rearMass'),
      ]),
  ...shaftLevers,
  lever('axle', 'axle', 'Rated output', 'torque', 'axleTorque'),
  choose('driven', 'tyres', 'Driven wheels', same('front', 'rear', 'all'), 'driven'),
  lever('grip', 'tyres', 'Grip on a dry road', 'ratio', 'tyreGrip'),
  lever('cruise', 'road', 'Speed of long journeys', 'speed', 'cruise'),
  lever('top', 'road', 'Greatest road speed', 'speed', 'topSpeed'),
  count('old-gears', 'road', 'Old gears, first to top', 'row', 'driveline', 'before', 'gears'),
  count('old-final', 'road', 'Old final drive', 'one', 'driveline', 'before', 'finalDrive'),
  lever('old-tyre', 'road', 'Rolling radius of the old tyres', 'length', 'before', 'tyreRadius'),
  lever('old-limit', 'road', 'Greatest speed of the old engine', 'angularSpeed', 'before', 'limit'),
  lever('old-torque', 'crank', 'Greatest torque of the old engine', 'torque', 'before', 'torque'),
  ...weightLevers,
]
