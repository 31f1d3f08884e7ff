/** What the sheets and readings say about the driveline: known with ±, or lacking by name. */
import { engineTorque } from '../../engineering/driveline/engineTorque.ts'
import { DRY_GRIP } from '../../engineering/driveline/tyreTorque.ts'
import type { Build, Sheet } from '../../model/build.ts'
import { combine, type Datum, entered, isKnown, known, lacking, step } from '../chain/chain.ts'
import { type Measured, measured } from '../chain/readings.ts'

export const LOADS = ['driver only', 'laden'] as const
export type LoadName = (typeof LOADS)[number]

/** What a reading may stand for on this sheet. */
export const DRIVELINE_READINGS = { 'engine-torque': 'torque', 'clutch-torque': 'torque' } as const
export type DrivelineReadings = { readonly [S in keyof typeof DRIVELINE_READINGS]: Measured | undefined }

export interface Load {
  readonly front: Datum
  readonly rear: Datum
  readonly height: Datum
}
export interface Gears {
  /** As entered, first to top. */
  readonly ratios: readonly number[]
  readonly finalDrive: Datum
  readonly tyre: Datum
}
export interface DrivelineFacts {
  readonly build: Build
  readonly sheet: Sheet<'driveline'>
  readonly driven: 'front' | 'rear' | 'all' | undefined
  /** Greatest torque of the engine, or the least that it must be: that at its greatest power. */
  readonly torque: Datum
  /** The same without a reading. */
  readonly torqueOnSheet: Datum
  /** The torque is only that at greatest power: the greatest is more. */
  readonly torqueIsLeast: boolean
  readonly engineLimit: Datum
  readonly now: Gears
  /** Undefined where nothing of the old engine is entered. */
  readonly before: Gears | undefined
  readonly beforeLimit: Datum
  readonly wheelbase: Datum
  readonly loads: Readonly<Record<LoadName, Load>>
  readonly grip: Datum
  readonly shock: Datum
  readonly cruise: Datum
  readonly topSpeed: Datum
  /** Reckoned from engine speed and gear, which the car need not reach. */
  readonly topIsReckoned: boolean
  readonly readings: DrivelineReadings
}

/** Most that a torque applied at once does to a shaft without damping. */
const SUDDEN = known(
  2,
  0,
  'Dropped clutch: twice what the clutch passes, the most that a torque applied at once does to a shaft without damping [Timoshenko, Strength of Materials, from memory]; enter the car’s own figure where it is known',
)
const GRIP = known(
  DRY_GRIP.value,
  DRY_GRIP.plusMinus,
  `Grip of the tyres, dry: 0.80 to 0.90 at its peak [${DRY_GRIP.source.title}, from memory]; enter the tyres’ own where it is known`,
)

/** Greatest of a curve, with the ± of that point. */
const peakOf = (sheet: Sheet<'driveline'>): Datum | undefined => {
  const [peak] = [...(sheet.torqueCurve ?? [])].sort(([, a], [, b]) => b.value - a.value)
  return peak && known(peak[1].value, peak[1].plusMinus ?? 0, 'Greatest point of the torque curve, as entered')
}

const number = (value: number | undefined, name: string): Datum =>
  value === undefined ? lacking(name) : known(value, 0, `${name}, as entered`)

export const drivelineFactsOf = (build: Build): DrivelineFacts => {
  const { driveline: sheet = {}, vehicle, engine, brakes } = build.sheets
  const readings = Object.fromEntries(
    Object.entries(DRIVELINE_READINGS).map(([subject, kind]) => [subject, measured(build, subject, kind)]),
  ) as DrivelineReadings
  const atPower = step(engineTorque, {
    power: entered(engine?.targetPower, 'target power'),
    speed: entered(engine?.targetSpeed, 'engine speed of the target power'),
  }).torque
  const onSheet = sheet.peakTorque ? entered(sheet.peakTorque, 'greatest torque of the engine') : peakOf(sheet)
  const torqueOnSheet = onSheet ?? (isKnown(atPower) ? atPower : lacking('greatest torque of the engine'))
  const tyre = entered(vehicle?.tyreRadius, 'rolling radius of the tyres')
  const finalDrive = number(vehicle?.finalDrive, 'ratio of the final drive')
  const { before } = sheet
  const laden = entered(vehicle?.ladenMass, 'laden mass')
  const ladenFront = entered(brakes?.ladenFrontMass, 'mass on the front axle, laden')
  const ratios = vehicle?.gears ?? []
  const limit = entered(engine?.targetSpeed, 'engine speed of the target power')
  const top = ratios.length === 0 ? lacking('ratios of the gears') : known(Math.min(...ratios))
  const reckonedTop = combine(
    [limit, top, finalDrive, tyre],
    (revs = 0, gear = 1, drive = 1, radius = 0) => (revs * radius) / (gear * drive),
    'Greatest road speed = engine speed of the target power × rolling radius / (top gear × final drive); air and hills may keep the car slower',
  )
  return {
    build,
    sheet,
    driven: sheet.driven,
    torque: readings['engine-torque'] ?? torqueOnSheet,
    torqueOnSheet,
    torqueIsLeast: onSheet === undefined && readings['engine-torque'] === undefined,
    engineLimit: limit,
    now: { ratios, finalDrive, tyre },
    before: before && {
      ratios: before.gears ?? ratios,
      finalDrive: before.finalDrive === undefined ? finalDrive : number(before.finalDrive, 'old final drive'),
      tyre: before.tyreRadius ? entered(before.tyreRadius, 'rolling radius of the old tyres') : tyre,
    },
    beforeLimit: entered(before?.limit, 'greatest speed of the old engine'),
    wheelbase: entered(vehicle?.wheelbase, 'wheelbase'),
    loads: {
      'driver only': {
        front: entered(vehicle?.frontMass, 'mass on the front axle'),
        rear: entered(vehicle?.rearMass, 'mass on the rear axle'),
        height: entered(vehicle?.centreOfGravityHeight, 'height of the centre of gravity'),
      },
      laden: {
        front: ladenFront,
        rear: combine(
          [laden, ladenFront],
          (all = 0, a = 0) => all - a,
          'Rear axle laden = laden mass − front axle laden',
        ),
        height: entered(brakes?.ladenHeight, 'height of the centre of gravity, laden'),
      },
    },
    grip: sheet.tyreGrip ? entered(sheet.tyreGrip, 'grip of the tyres') : GRIP,
    shock: sheet.shock ? entered(sheet.shock, 'shock of a dropped clutch') : SUDDEN,
    cruise: entered(sheet.cruise, 'road speed of long journeys'),
    topSpeed: sheet.topSpeed
      ? entered(sheet.topSpeed, 'greatest road speed')
      : isKnown(reckonedTop)
        ? reckonedTop
        : lacking('greatest road speed'),
    topIsReckoned: sheet.topSpeed === undefined,
    readings,
  }
}

/** The final drive turns in the gearbox’s case, which then holds the torque of the wheels; undefined where not known. */
export const inOneCase = ({ driven, sheet }: DrivelineFacts): boolean | undefined =>
  sheet.engineSet === undefined ? (driven === 'front' ? true : undefined) : sheet.engineSet !== 'in line'

/** Nothing turns between gearbox and axle where they are one, but for the other axle where all are driven. */
export const hasPropshaft = (facts: DrivelineFacts): boolean =>
  facts.sheet.propshaftLength !== undefined || facts.driven === 'all' || inOneCase(facts) !== true
