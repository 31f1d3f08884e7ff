/** First start, gate by gate: the engine is turned without fuel, then fed without turning, then both. */
import type { Build, Device } from '../../model/build.ts'
import { formatQuantity } from '../../units/index.ts'
import { HOT, MOVING, NO_AIRBAG, NO_SPARKS, ON_STANDS, PROBING, RUNNING } from '../electricalCautions.ts'
import type { Finding } from '../finding.ts'
import { FUEL_CAUTION, list, QUALIFIED_FUEL } from '../make.ts'
import { judgeCharge, judgeCranking, judgeOil, judgePrime, judgeRail, judgeRunningOil, judgeTiming } from './figures.ts'
import { openJobs } from './jobs.ts'
import { tracksAgree, twoTrackDevices } from './twoTracks.ts'
import type { Ask, Gate } from './types.ts'

const STARTER =
  'The starter turns only with nobody near belts and fans: out of gear, handbrake on, wheels chocked, ten seconds at most, then a pause.'
const NO_FUEL =
  'No fuel while the engine is turned: injectors unplugged and the pump’s fuse out, so that it cannot start and the exhaust does not fill with petrol.'
const TIMING_LAMP =
  'Leads of the timing lamp clear of the fan and belts; look from the side, never lean over the engine.'
const THROTTLE = 'A throttle by wire closes with force: fingers out of it while the key is on.'

/** Signals that the first turn of the engine hangs on. */
const SIGNAL_RULES: ReadonlySet<string> = new Set([
  'dangling-pin',
  'doubled-pin',
  'input-unwired',
  'input-unconfigured',
  'ignition-distance',
  'output-unwired',
  'output-unconfigured',
  'screened-sensor',
  'sensor-return',
])
/** What concerns full power or the road only: it stands under Findings and is asked before the first drive. */
const LATER: ReadonlySet<string> = new Set([
  'battery-reserve',
  'boil-margin',
  'cooling-readings',
  'energy-balance',
  'fuel-suction',
  'gauge-reading',
  'header-room',
  'injector-duty',
  'parked-days',
  'pump-supports-power',
  'radiator-air',
  'rev-counter',
  'road-speed',
])
const againstTurning = ({ rule, verdict }: Finding): boolean => SIGNAL_RULES.has(rule) && verdict !== 'sound'
const againstStarting = ({ system, rule, verdict }: Finding): boolean =>
  ['model', 'electrical', 'signals', 'fuel', 'cooling'].includes(system) && verdict === 'no-go' && !LATER.has(rule)

const named = (devices: readonly Device[]): string => list(devices.map(({ name }) => name))

export const firstStartGates = (build: Build): readonly Gate[] => {
  const { devices } = build.collections
  const of = (kind: Device['spec']['kind']): Device[] =>
    Object.values(devices).filter(({ spec, restricted }) => restricted === undefined && spec.kind === kind)
  const [coils, injectors] = [of('coil'), of('injector')]
  const byWire = twoTrackDevices(build)
  const inOrder = (id: string, what: string, those: readonly Device[], how: string): Ask => ({
    id,
    kind: 'hand',
    says: `${what} in the right order: each output tried by itself moves its own cylinder and no other, ${how}.${those.length === 0 ? ` No ${what.toLowerCase()} are entered.` : ` ${named(those)}.`}`,
  })
  const railSet = build.sheets.fuel?.railPressure
  return [
    {
      id: 'tracks',
      sequence: 'first start',
      title: 'Pedal, throttle and what stops the engine',
      state: 'ignition on, engine still; coils and injectors unplugged, pump fuse out',
      cautions: [THROTTLE, NO_SPARKS, MOVING, NO_AIRBAG],
      asks: [
        ...(byWire.length === 0
          ? []
          : ([
              {
                id: 'tracks-agree',
                kind: 'known',
                says: `Both tracks of ${named(byWire)}, read on this car at rest, half and full, agree within what the controller allows.`,
                judge: tracksAgree,
              },
              {
                id: 'throttle-unplugged',
                kind: 'hand',
                says: 'With the throttle’s or the pedal’s plug pulled the throttle stays at its stop, and the controller says so.',
              },
            ] as const)),
        {
          id: 'throttle-closes',
          kind: 'hand',
          always: true,
          says: 'The throttle closes by itself from every position, pedal let go, mat and carpet in place.',
        },
        {
          id: 'stop',
          kind: 'hand',
          always: true,
          says: 'What stops the engine works: key off takes the supply from coils, injectors and pump; the crash cut-out, tripped by hand, takes it from the pump.',
        },
        {
          id: 'limits',
          kind: 'hand',
          says: 'The fail-safes are set and tried with the engine still: low limit of engine speed for the first runs, fuel cut on over-boost, on no oil pressure, on too hot coolant.',
        },
      ],
    },
    {
      id: 'oil',
      sequence: 'first start',
      title: 'Oil pressure while cranking, without fuel',
      state: 'injectors unplugged, coils unplugged, pump fuse out; battery full',
      cautions: [NO_FUEL, STARTER, MOVING, ON_STANDS],
      asks: [
        {
          id: 'filled',
          kind: 'hand',
          always: true,
          says: 'Oil at its mark and the filter filled; coolant in and bled; the engine turned two whole turns by hand without a hard stop.',
        },
        {
          id: 'oil-cranking',
          kind: 'figures',
          says: 'Oil pressure after cranking in bursts of ten seconds.',
          fields: [{ id: 'pressure', says: 'Oil pressure while cranking', kind: 'pressureGauge', unit: 'bar' }],
          judge: judgeOil,
        },
      ],
    },
    {
      id: 'trigger',
      sequence: 'first start',
      title: 'Trigger, coils and injectors in order',
      state: 'injectors unplugged, pump fuse out; coils plugged in only where a plug is tried',
      cautions: [NO_FUEL, STARTER, NO_SPARKS, MOVING, PROBING],
      asks: [
        {
          id: 'polarity',
          kind: 'hand',
          photo: true,
          says: 'Pattern and polarity of the crank and cam trigger: the controller counts the edge that its setting names, the gap lies where it should; a picture of the scope or of the controller’s own trigger record.',
        },
        {
          id: 'cranking-speed',
          kind: 'figures',
          says: 'Engine speed that the controller shows over five seconds of cranking.',
          fields: [
            { id: 'lowest', says: 'Lowest shown', kind: 'angularSpeed', unit: 'rpm' },
            { id: 'highest', says: 'Highest shown', kind: 'angularSpeed', unit: 'rpm' },
          ],
          judge: judgeCranking,
        },
        {
          id: 'signal-findings',
          kind: 'findings',
          about: againstTurning,
          says: 'Every input and output that the controller needs is wired, screened and returned as it should be.',
        },
        inOrder('coil-order', 'Coils', coils, 'seen as a spark in a tester at that plug'),
        inOrder(
          'injector-order',
          'Injectors',
          injectors,
          'heard or felt as a click at that injector, rail without fuel',
        ),
      ],
    },
    {
      id: 'timing',
      sequence: 'first start',
      title: 'Base timing by lamp',
      state: 'cranking at fixed timing; injectors unplugged, pump fuse out',
      cautions: [NO_FUEL, STARTER, TIMING_LAMP, MOVING, NO_SPARKS],
      asks: [
        {
          id: 'base-timing',
          kind: 'figures',
          says: 'The lamp on cylinder 1 against what the controller says that it commands; top dead centre proved on the piston, not taken from the pulley.',
          fields: [
            { id: 'lamp', says: 'By the lamp, before top dead centre', kind: 'angle', unit: '°' },
            { id: 'shown', says: 'Commanded by the controller', kind: 'angle', unit: '°' },
          ],
          judge: judgeTiming,
        },
        {
          id: 'stroke',
          kind: 'hand',
          says: 'The spark is on the compression stroke of cylinder 1, not half a cycle off: the lamp flashes with the valves of cylinder 1 shut.',
        },
      ],
    },
    {
      id: 'rail',
      sequence: 'first start',
      title: 'Fuel to the rail, and no leak',
      state:
        'pump fuse in, injectors unplugged, engine still; in the open or well aired, battery’s negative clamp within reach',
      cautions: [FUEL_CAUTION, NO_SPARKS, QUALIFIED_FUEL, ON_STANDS],
      asks: [
        {
          id: 'rail-pressure',
          kind: 'figures',
          system: 'fuel',
          says: `Rail pressure with the pump on${railSet === undefined ? '' : `, set to ${formatQuantity('pressureGauge', railSet.value, { unit: railSet.unit })}`}, and after a pause of five minutes with it off.`,
          fields: [
            { id: 'on', says: 'Pump on', kind: 'pressureGauge', unit: 'bar' },
            { id: 'after', says: 'After the pause', kind: 'pressureGauge', unit: 'bar' },
            { id: 'pause', says: 'How long the pause was', kind: 'time', unit: 'min' },
          ],
          judge: judgeRail,
        },
        {
          id: 'joints-dry',
          kind: 'hand',
          always: true,
          system: 'fuel',
          says: 'Every joint from tank to rail and back wiped with a dry paper under pressure: all dry, no smell.',
        },
        {
          id: 'prime',
          kind: 'figures',
          system: 'fuel',
          says: 'With the key on and the engine still the pump stops by itself.',
          fields: [{ id: 'time', says: 'It ran for', kind: 'time', unit: 's' }],
          judge: judgePrime,
        },
        {
          id: 'fuel-inspected',
          kind: 'hand',
          always: true,
          system: 'fuel',
          says: 'Somebody qualified has inspected the fuel system; their name is under this line.',
        },
      ],
    },
    {
      id: 'start',
      sequence: 'first start',
      title: 'Ready to start',
      state: 'all plugged in, pump fuse in; out of gear, handbrake on, wheels chocked, in the open air',
      cautions: [RUNNING, MOVING, HOT, NO_SPARKS, STARTER],
      asks: [
        {
          id: 'start-findings',
          kind: 'findings',
          about: againstStarting,
          says: 'No no-go that the workbench knows of, but those of full power and of the road.',
        },
        {
          id: 'start-jobs',
          kind: 'known',
          says: 'Jobs that you put before first start.',
          judge: (given) => openJobs(given, /first[ -]start/i, 'first start'),
        },
        {
          id: 'people',
          kind: 'hand',
          always: true,
          says: 'Extinguisher in hand of a second person, who knows how the engine is stopped and where the battery’s clamp is; nobody in front of or behind the car.',
        },
        {
          id: 'clear',
          kind: 'hand',
          always: true,
          says: 'Tools, rags, sleeves and leads out of belts and fans; exhaust out of doors.',
        },
      ],
    },
    {
      id: 'running',
      sequence: 'first start',
      title: 'It runs: the first minute',
      state: 'idling, then stopped and looked over',
      cautions: [RUNNING, MOVING, HOT, FUEL_CAUTION],
      asks: [
        {
          id: 'oil-running',
          kind: 'figures',
          says: 'Oil pressure within the first seconds; else off at once.',
          fields: [{ id: 'pressure', says: 'Oil pressure at the first idle', kind: 'pressureGauge', unit: 'bar' }],
          judge: judgeRunningOil,
        },
        {
          id: 'charging',
          kind: 'figures',
          says: 'Volts at the battery with the engine running.',
          fields: [{ id: 'volts', says: 'At the battery’s posts', kind: 'voltage', unit: 'V' }],
          judge: judgeCharge,
        },
        {
          id: 'no-leaks',
          kind: 'hand',
          always: true,
          system: 'fuel',
          says: 'Stopped and looked over: no fuel, oil, coolant or exhaust where it should not be; nothing rubs, nothing smells hot.',
        },
        {
          id: 'stopped',
          kind: 'hand',
          always: true,
          says: 'It was stopped once by the key and once by pulling the pump’s supply, and stopped both times.',
        },
      ],
    },
  ]
}
