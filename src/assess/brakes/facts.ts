/** What the sheets and readings say about the brakes: known with ±, or lacking by name. */
import { standardAtmosphere } from '../../engineering/air/standardAtmosphere.ts'
import { YARDSTICKS, type Yardstick } from '../../engineering/brakes/yardsticks.ts'
import type { Build, Sheet } from '../../model/build.ts'
import { combine, type Datum, entered, isKnown, known, lacking, step } from '../chain/chain.ts'
import { type Measured, measured } from '../chain/readings.ts'

export const LOADS = ['driver only', 'laden'] as const
export type LoadName = (typeof LOADS)[number]

/** What a reading may stand for on this sheet. */
export const BRAKE_READINGS = {
  'servo-vacuum-idle': 'pressureAbsolute',
  'brake-friction-front': 'ratio',
  'brake-friction-rear': 'ratio',
  'brake-fluid-temperature': 'temperature',
} as const
export type BrakeReadings = { readonly [S in keyof typeof BRAKE_READINGS]: Measured | undefined }

export interface Load {
  readonly front: Datum
  readonly rear: Datum
  readonly total: Datum
  readonly height: Datum
}
export interface BrakeFacts {
  readonly build: Build
  readonly brakes: Sheet<'brakes'>
  readonly vacuum: Sheet<'vacuum'>
  /** Absent for a vehicle that is neither car nor van. */
  readonly yardstick: Yardstick | undefined
  readonly boosted: boolean
  /** A unit is entered, on the sheet or among the devices. */
  readonly antiLock: boolean
  readonly pedal: Datum
  readonly bore: Datum
  readonly servo: Datum
  readonly diaphragm: Datum
  readonly tyre: Datum
  readonly wheelbase: Datum
  readonly loads: Readonly<Record<LoadName, Load>>
  readonly frontFriction: Datum
  readonly rearFriction: Datum
  /** Absolute pressure that the engine or a pump gives the servo. */
  readonly source: Datum
  readonly seaLevel: Datum
  /** Outside pressure at the height that the vehicle sheet names. */
  readonly high: Datum
  readonly readings: BrakeReadings
}

const SEA_LEVEL = 101325

export const brakeFactsOf = (build: Build): BrakeFacts => {
  const { brakes = {}, vacuum = {}, vehicle, engine } = build.sheets
  const readings = Object.fromEntries(
    Object.entries(BRAKE_READINGS).map(([subject, kind]) => [subject, measured(build, subject, kind)]),
  ) as BrakeReadings
  const [front, rear] = [
    entered(vehicle?.frontMass, 'mass on the front axle'),
    entered(vehicle?.rearMass, 'mass on the rear axle'),
  ]
  const laden = entered(vehicle?.ladenMass, 'laden mass')
  const ladenFront = entered(brakes.ladenFrontMass, 'mass on the front axle, laden')
  const general = entered(brakes.friction, 'friction of the linings')
  const frictionOf = (axle: 'front' | 'rear'): Datum => {
    const reading = readings[`brake-friction-${axle}`]
    const own = axle === 'front' ? brakes.frontFriction : brakes.rearFriction
    return reading ?? (own ? entered(own, `friction of the ${axle} linings`) : general)
  }
  return {
    build,
    brakes,
    vacuum,
    yardstick: vehicle === undefined || vehicle.category === 'other' ? undefined : YARDSTICKS[vehicle.category],
    boosted: engine?.charging === 'turbocharger' || engine?.charging === 'supercharger',
    antiLock:
      brakes.antiLock === true ||
      Object.values(build.collections.devices).some(({ restricted }) => restricted === 'anti-lock'),
    pedal: entered(brakes.pedalRatio, 'pedal ratio'),
    bore: entered(brakes.masterCylinder, 'bore of the master cylinder'),
    servo: entered(brakes.servoRatio, 'servo ratio (1 without a servo)'),
    diaphragm: entered(brakes.servo?.diaphragm, 'effective diaphragm area of the servo'),
    tyre: entered(vehicle?.tyreRadius, 'rolling radius of the tyres'),
    wheelbase: entered(vehicle?.wheelbase, 'wheelbase'),
    loads: {
      'driver only': {
        front,
        rear,
        total: combine(
          [front, rear],
          (a = 0, b = 0) => a + b,
          'Mass = front axle + rear axle, as weighed, driver aboard',
        ),
        height: entered(vehicle?.centreOfGravityHeight, 'height of the centre of gravity'),
      },
      laden: {
        front: ladenFront,
        rear: combine(
          [laden, ladenFront],
          (all = 0, a = 0) => all - a,
          'Rear axle laden = laden mass − front axle laden',
        ),
        total: laden,
        height: entered(brakes.ladenHeight, 'height of the centre of gravity, laden'),
      },
    },
    frontFriction: frictionOf('front'),
    rearFriction: frictionOf('rear'),
    source:
      readings['servo-vacuum-idle'] ??
      (vacuum.pump
        ? entered(vacuum.pumpPressure, 'absolute pressure that the vacuum pump holds')
        : entered(vacuum.idlePressure, 'absolute pressure in the manifold at hot idle')),
    seaLevel: known(SEA_LEVEL, 0, 'Standard air at sea level: 101.325 kPa (ISO 2533)'),
    high:
      vehicle?.altitude === undefined
        ? lacking('altitude of the highest place')
        : step(standardAtmosphere, { altitude: entered(vehicle.altitude, 'altitude of the highest place') }).pressure,
    readings,
  }
}

/** Neither a ratio of 1 nor an unknown one. */
export const hasServo = ({ servo }: BrakeFacts): boolean => isKnown(servo) && servo.value > 1
