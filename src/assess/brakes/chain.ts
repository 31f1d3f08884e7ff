/** The brakes as a chain of stations from pedal to tyre, for one load and one state; and the pedal-force sheet of them all. */
import { stoppingDistance } from '../../engineering/brakes/stoppingDistance.ts'
import type { Build } from '../../model/build.ts'
import {
  type Chain,
  combine,
  type Datum,
  entered,
  figure,
  isKnown,
  known,
  type Lacking,
  lacking,
  type Station,
  step,
} from '../chain/chain.ts'
import { supersede } from '../chain/readings.ts'
import { type Adhesion, adhesionOf } from './adhesion.ts'
import { type Axle, axleBrakes } from './axles.ts'
import { type BrakeFacts, brakeFactsOf, hasServo, LOADS, type LoadName } from './facts.ts'
import { type FluidHeat, fluidOf } from './fluid.ts'
import { type AxleHeat, axleHeat } from './heat.ts'
import { type Parking, parkingOf } from './parking.ts'
import { type PedalRow, pedalRow, pedalSheet, type StalledStop, stalledStops } from './pedalSheet.ts'
import { isFailure, STATES, type State, statesOf, stateWords } from './states.ts'
import { type Travel, travelOf } from './travel.ts'

export interface BrakeCase {
  readonly load: LoadName
  readonly state: State
}
export const FIRST_CASE: BrakeCase = { load: 'driver only', state: 'all working' }

export interface BrakeChain extends Chain {
  readonly id: 'brakes'
  readonly facts: BrakeFacts
  readonly case: BrakeCase
  /** Of the chosen case. */
  readonly row: PedalRow
  readonly sheet: readonly PedalRow[]
  readonly adhesion: Readonly<Record<LoadName, Adhesion | Lacking>>
  readonly stalled: readonly StalledStop[] | undefined
  /** Firm stops with the engine stalled that stay within the limit, laden; undefined where not known. */
  readonly strokesLeft: number | 'more' | undefined
  readonly heat: Readonly<Record<Axle, AxleHeat>>
  /** Of the chosen case. */
  readonly travel: Travel
  /** Laden, and with the driver only, as an inspection sees it. */
  readonly parking: Parking
  readonly parkingAlone: Parking
  readonly fluid: FluidHeat
}

/** Laden counts: it takes the greater force. */
const strokesLeftOf = (stops: readonly StalledStop[], limit: Datum): number | 'more' | undefined => {
  if (!isKnown(limit) || stops.some(({ force }) => !isKnown(force))) return undefined
  const short = stops.findIndex(({ force }) => isKnown(force) && force.value > limit.value)
  return short < 0 ? 'more' : short
}

const words = (kind: 'disc' | 'drum' | undefined): string =>
  kind === undefined ? 'disc or drum not entered' : `${kind}s`

export const brakeChain = (build: Build, wanted: BrakeCase = FIRST_CASE): BrakeChain => {
  const facts = brakeFactsOf(build)
  const possible = statesOf(facts)
  const state = possible.includes(wanted.state) ? wanted.state : STATES[0]
  const chosen: BrakeCase = { load: wanted.load, state }
  const { brakes, yardstick, readings } = facts
  const sheet = pedalSheet(facts)
  const row =
    sheet.find((each) => each.load === chosen.load && each.state === state) ?? pedalRow(facts, chosen.load, state)
  const service = sheet.find((each) => each.load === 'laden' && each.state === 'all working')!
  const servo = hasServo(facts) || !isKnown(facts.servo)
  const stalled = servo ? stalledStops(facts, 'laden') : undefined
  const failedFront = brakes.circuits === 'front and rear' && state === 'first circuit failed'
  const failedRear = brakes.circuits === 'front and rear' && state === 'second circuit failed'
  const none = known(0, 0, 'This circuit is thought failed.')
  const pressures = { front: failedFront ? none : row.line, rear: failedRear ? none : row.rearPressure }
  const runOut = combine(
    [row.greatest, facts.servo, facts.pedal],
    (most = 0, ratio = 1, pedal = 1) => most / (ratio - 1) / pedal,
    'Pedal force at run-out = greatest help / (servo ratio − 1) / pedal ratio',
  )
  const heat = { front: axleHeat(facts, service, 'front'), rear: axleHeat(facts, service, 'rear') }
  const travel = travelOf(facts, row)
  const parking = parkingOf(facts, 'laden')
  const fluid = fluidOf(facts)
  const stop = step(stoppingDistance, {
    speed: yardstick
      ? known(yardstick.speed, 0, `From the speed of ${yardstick.name}: ${(yardstick.speed * 3.6).toFixed(0)} km/h`)
      : lacking('a yardstick for this kind of vehicle'),
    deceleration: row.wanted,
    delay: known(yardstick?.delay ?? 0.36, 0, 'Until the brakes bite'),
    mass: facts.loads[chosen.load].total,
  })
  const axleStation = (axle: Axle): Station => {
    // Without its ±: at a given deceleration the linings’ range moves pressure and torque against each other.
    const at = pressures[axle]
    const found = axleBrakes(facts, axle, isKnown(at) ? known(at.value, 0, ...at.working) : at)
    const general = entered(
      (axle === 'front' ? brakes.frontFriction : brakes.rearFriction) ?? brakes.friction,
      'friction of the linings',
    )
    return {
      id: axle,
      name: axle === 'front' ? 'Front brakes' : 'Rear brakes',
      about: `${words(found.kind)}${found.kind === 'drum' ? `, ${(axle === 'front' ? brakes.frontShoes : brakes.rearShoes)?.kind ?? 'shoes not entered'}` : ''}`,
      sensor: 'Rubbing thermocouple or a spot of temperature paint on the disc’s edge; brake force on a roller tester.',
      figures: [
        figure(`${axle}-pressure`, 'line pressure here', 'p', 'pressureGauge', pressures[axle]),
        supersede(
          `${axle}-friction`,
          'friction of the linings, with its range',
          'μ',
          'ratio',
          general,
          readings[`brake-friction-${axle}`],
          'entered',
        ),
        ...(found.leading
          ? [figure(`${axle}-leading`, 'factor of the leading shoe', 'S1', 'ratio', found.leading)]
          : []),
        ...(found.trailing
          ? [figure(`${axle}-trailing`, 'factor of the other shoe', 'S2', 'ratio', found.trailing)]
          : []),
        figure(
          `${axle}-clamp`,
          found.kind === 'drum' ? 'force on each shoe' : 'force on each pad',
          'N',
          'force',
          found.force,
        ),
        figure(`${axle}-torque`, 'torque of one wheel', 'M', 'torque', found.torque),
        figure(
          `${axle}-road`,
          'brake force of the axle',
          'B',
          'force',
          axle === 'front' ? row.frontForce : row.rearForce,
        ),
        figure(`${axle}-share`, 'share of the brake force, laden', 'a', 'ratio', heat[axle].share),
      ],
    }
  }
  const stations: Station[] = [
    {
      id: 'pedal',
      name: 'Pedal',
      about: `${chosen.load}, ${stateWords(facts, state)}: what the foot must do`,
      sensor: 'Load cell on the pedal’s pad, or a spring balance on it with the car standing.',
      figures: [
        figure('wanted', 'deceleration wanted', 'd', 'acceleration', row.wanted),
        figure('force', 'pedal force that it takes', 'F', 'force', row.force),
        figure('limit', 'greatest pedal force allowed', 'Fmax', 'force', row.limit),
        figure('pedal-ratio', 'pedal ratio', 'i', 'ratio', facts.pedal, 'entered'),
      ],
    },
    {
      id: 'servo',
      name: 'Servo',
      about: !isKnown(facts.servo)
        ? 'whether there is one is not entered'
        : facts.servo.value > 1
          ? 'adds to the foot until it runs out'
          : 'none',
      sensor: 'Pressure sensor in the servo’s vacuum hose, on the servo’s side of the check valve.',
      figures: [
        figure('servo-ratio', 'ratio', 'v', 'ratio', facts.servo, 'entered'),
        figure('servo-greatest', 'greatest help with this vacuum', 'Smax', 'force', row.greatest),
        figure('servo-help', 'help in this stop', 'S', 'force', row.help),
        ...(servo && state !== 'servo dead'
          ? [figure('run-out', 'pedal force at which it runs out', 'Fk', 'force', runOut)]
          : []),
      ],
    },
    {
      id: 'vacuum',
      name: 'Vacuum',
      about: facts.vacuum.pump
        ? 'from a pump'
        : facts.boosted
          ? 'from a manifold that also sees boost'
          : 'from the manifold',
      sensor: 'Absolute pressure sensor at the servo’s port of the manifold: it shows boost as well.',
      figures: [
        supersede(
          'source',
          facts.vacuum.pump ? 'absolute pressure that the pump holds' : 'absolute pressure at hot idle',
          'p0',
          'pressureAbsolute',
          facts.vacuum.pump
            ? entered(facts.vacuum.pumpPressure, 'absolute pressure that the vacuum pump holds')
            : entered(facts.vacuum.idlePressure, 'absolute pressure in the manifold at hot idle'),
          readings['servo-vacuum-idle'],
          'entered',
        ),
        figure(
          'outside',
          'outside pressure',
          'pa',
          'pressureAbsolute',
          state === 'at altitude' ? facts.high : facts.seaLevel,
        ),
        figure('vacuum', 'vacuum that helps in this stop', 'Δp', 'pressureDifference', row.vacuum),
        figure(
          'vacuum-needed',
          'vacuum that this stop needs before run-out',
          'Δpn',
          'pressureDifference',
          combine(
            [row.push, facts.servo, facts.diaphragm],
            (push = 0, ratio = 1, area = 1) => (push * (1 - 1 / ratio)) / area,
            'Vacuum needed = force onto the piston × (1 − 1 / servo ratio) / diaphragm area',
          ),
        ),
      ],
    },
    {
      id: 'master',
      name: 'Master cylinder',
      about:
        brakes.circuits === undefined
          ? 'circuits not entered'
          : brakes.circuits === 'single'
            ? 'one circuit'
            : 'tandem',
      sensor: 'Pressure gauge in place of a bleed nipple, fitted and bled by somebody who may.',
      figures: [
        figure('bore', 'bore', 'd', 'length', facts.bore, 'entered'),
        figure('push', 'force onto its piston', 'P', 'force', row.push),
        figure('line', 'line pressure', 'p', 'pressureGauge', row.line),
      ],
    },
    {
      id: 'travel',
      name: 'Pedal travel',
      about: 'fluid that brakes and hoses take against bore and stroke',
      sensor: 'A rule beside the pedal, engine running: at first touch, and at a firm stop by a gauge or load cell.',
      figures: [
        {
          ...figure(
            'front-fluid',
            'fluid that the front takes in this stop',
            'Vf',
            'volume',
            travel.fluid.front.pressed,
          ),
          unit: 'cc',
        },
        {
          ...figure('rear-fluid', 'fluid that the rear takes in this stop', 'Vr', 'volume', travel.fluid.rear.pressed),
          unit: 'cc',
        },
        { ...figure('lost-stroke', 'stroke run through an empty chamber', 'l', 'length', travel.lost), unit: 'mm' },
        figure('first-touch', 'pedal travel at first touch', 'x0', 'length', travel.first),
        figure('pedal-travel', 'pedal travel in this stop', 'x', 'length', travel.travel),
        figure('stroke-used', 'share of the stroke used', 'u', 'ratio', travel.used),
        figure('stroke-left', 'stroke that is left', 'r', 'length', travel.left),
      ],
    },
    {
      id: 'circuits',
      name: 'Circuits and valve',
      about: `${brakes.circuits === undefined ? 'split not entered' : `split: ${brakes.circuits}`}; rear valve: ${brakes.valve?.kind ?? 'not entered'}`,
      figures: [
        figure('to-front', 'pressure to the front', 'pf', 'pressureGauge', pressures.front),
        figure('to-rear', 'pressure to the rear', 'pr', 'pressureGauge', pressures.rear),
      ],
    },
    axleStation('front'),
    axleStation('rear'),
    {
      id: 'tyres',
      name: 'Tyres and road',
      about: 'load moves forward; the axle that uses more adhesion locks first',
      sensor: 'Longitudinal acceleration sensor, level on the floor near the middle of the car.',
      figures: [
        figure('front-load', 'load on the front axle, braking', 'Nf', 'force', row.frontLoad),
        figure('rear-load', 'load on the rear axle, braking', 'Nr', 'force', row.rearLoad),
        figure('front-used', 'adhesion that the front uses', 'ff', 'ratio', row.frontUsed),
        figure('rear-used', 'adhesion that the rear uses', 'fr', 'ratio', row.rearUsed),
        figure(
          'distance',
          `way to a stop at that deceleration${isFailure(state) ? ', failed' : ''}`,
          's',
          'length',
          stop.distance,
        ),
      ],
    },
    {
      id: 'heat',
      name: 'Heat',
      about: 'a row of stops, laden; heat stored in the iron',
      sensor: 'Temperature paint on the disc’s edge, read after the row of stops.',
      figures: (['front', 'rear'] as const).flatMap((axle) => [
        figure(`${axle}-rise`, `rise in one stop, ${axle}`, 'ΔT', 'temperatureDifference', heat[axle].rise),
        figure(`${axle}-hot`, `after the last stop, ${axle}`, 'T', 'temperature', heat[axle].end),
      ]),
    },
    {
      id: 'fluid',
      name: 'Brake fluid',
      about: `${brakes.fluid?.kind ?? 'kind not entered'}, ${brakes.fluid?.age ?? 'age not entered'}; its temperature is measured, never reckoned`,
      sensor:
        'Temperature paint or a thermocouple on the caliper by the piston; read again ten minutes after the stops.',
      figures: [
        supersede(
          'fluid-temperature',
          'hottest fluid, as measured',
          'T',
          'temperature',
          fluid.entered,
          readings['brake-fluid-temperature'],
          'entered',
        ),
        figure(
          'fluid-boils',
          fluid.tested ? 'boils at, by a tester' : 'boils at, at least',
          'Tb',
          'temperature',
          fluid.boiling,
        ),
        figure('fluid-margin', 'margin before it boils', 'D', 'temperatureDifference', fluid.margin),
      ],
    },
    {
      id: 'parking',
      name: 'Parking brake',
      about: 'laden, standing; both rear wheels by cables',
      sensor: 'Spring balance on the grip; holding force of each rear wheel on a roller tester.',
      cautions: ['Chock the wheels before the cable is slackened or tried on a slope.'],
      figures: [
        figure('parking-limit', 'greatest force allowed on the grip', 'F', 'force', parking.limit),
        figure('parking-pull', 'pull of each cable at that force', 'Q', 'force', parking.pull),
        figure('parking-road', 'holding force at the road', 'B', 'force', parking.road),
        figure('parking-efficiency', 'holding force over weight', 'z', 'ratio', parking.efficiency),
        figure('parking-holds', 'gradient that it holds at that force', 'Gb', 'ratio', parking.brake),
        figure('parking-asked', 'gradient asked', 'G', 'ratio', parking.asked),
        figure('parking-needed', 'force on the grip for that gradient', 'Fn', 'force', parking.needed),
        figure('slides-uphill', 'gradient at which the rear tyres slide, facing uphill', 'Gu', 'ratio', parking.uphill),
        figure('slides-downhill', 'the same facing downhill', 'Gd', 'ratio', parking.downhill),
      ],
    },
  ]
  return {
    id: 'brakes',
    title: 'Brakes',
    stations,
    facts,
    case: chosen,
    row,
    sheet,
    adhesion: Object.fromEntries(LOADS.map((load) => [load, adhesionOf(facts, load)])) as Record<
      LoadName,
      Adhesion | Lacking
    >,
    stalled,
    strokesLeft: stalled && strokesLeftOf(stalled, row.limit),
    heat,
    travel,
    parking,
    parkingAlone: parkingOf(facts, 'driver only'),
    fluid,
  }
}
