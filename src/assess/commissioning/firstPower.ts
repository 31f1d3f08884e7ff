/** First power, gate by gate. The lines are those of the first-power test sheet; here is what has to be shown of them. */
import type { Build } from '../../model/build.ts'
import {
  AT_THE_BATTERY,
  DEAD_CIRCUIT,
  LIVE_BATTERY,
  MOVING,
  NO_AIRBAG,
  NO_NEW_FUSE,
  NO_SPARKS,
  ON_STANDS,
  PROBING,
  UNPLUGGED,
} from '../electricalCautions.ts'
import type { Finding } from '../finding.ts'
import { openJobs } from './jobs.ts'
import { outputsKnown } from './outputs.ts'
import type { Gate } from './types.ts'

/** Rules whose no-go means: do not put the battery on. Those of the running engine come before the first start. */
const POWER_RULES: ReadonlySet<string> = new Set([
  'back-feed',
  'battery-reversed',
  'charging-fuse',
  'conductor-temperature',
  'dangling-pin',
  'dead-short',
  'doubled-pin',
  'fuse-against-conductor',
  'fuse-breaking',
  'fuse-bypassed',
  'fuse-in-service',
  'fuse-inrush',
  'fuse-rating',
  'fuses-in-parallel',
  'impossible-figure',
  'insulation-class',
  'machine-return',
  'material',
  'open-wire-on',
  'over-voltage',
  'relay-own-coil',
  'relay-restless',
  'restricted',
  'stalled-current',
  'stray-current',
  'supply-against-conductor',
  'unfused-stretch',
])
export const againstPower = ({ rule, verdict }: Finding): boolean => POWER_RULES.has(rule) && verdict !== 'sound'

const LAMP_CAUTION =
  'The lamp stays in series until every fuse has been in: it carries what a wire would burn with. Bright: off at once.'

export const firstPowerGates = (_: Build): readonly Gate[] => [
  {
    id: 'battery-off',
    sequence: 'first power',
    title: 'Everything off and unplugged',
    state: 'battery negative off and insulated, key out',
    cautions: [LIVE_BATTERY, NO_AIRBAG, NO_SPARKS, ON_STANDS],
    asks: [
      {
        id: 'extinguisher',
        kind: 'hand',
        always: true,
        says: 'A fire extinguisher for petrol and electrical fires, in date and in gauge, within reach and not behind the car.',
      },
      {
        id: 'no-vapour',
        kind: 'hand',
        always: true,
        says: 'No petrol in the open, no smell of it: tank and lines closed or empty, the place aired, no charger running.',
      },
      {
        id: 'unplugged',
        kind: 'lines',
        section: 'unplug',
        of: 'steps',
        says: 'Battery off; controllers, coils and injectors unplugged; fuses out; airbag and anti-lock units left to whoever is qualified for them.',
      },
    ],
  },
  {
    id: 'earths',
    sequence: 'first power',
    title: 'No short, and earths as far as ohms tell',
    state: 'battery off, all fuses out, controllers, airbag and anti-lock units unplugged',
    cautions: [DEAD_CIRCUIT, UNPLUGGED, NO_AIRBAG],
    asks: [
      {
        id: 'earth-readings',
        kind: 'lines',
        section: 'earths',
        of: 'readings',
        says: 'No short from the positive cable; each earth that a meter can prove in ohms, read against the negative cable. A hand meter sees no milliohms: the load comes later.',
      },
    ],
  },
  {
    id: 'nothing-against-power',
    sequence: 'first power',
    title: 'Nothing known against power',
    state: 'battery still off',
    cautions: [LIVE_BATTERY],
    asks: [
      {
        id: 'power-findings',
        kind: 'findings',
        about: againstPower,
        says: 'No wire without its fuse, no fuse too large for its wire, no short, nothing fed the wrong way, as far as the workbench can know.',
      },
      {
        id: 'power-jobs',
        kind: 'known',
        says: 'Jobs that you put before first power.',
        judge: (build) => openJobs(build, /first[ -]power/i, 'first power'),
      },
    ],
  },
  {
    id: 'lamp',
    sequence: 'first power',
    title: 'Battery on through a lamp, fuses one at a time',
    state: 'a lamp of 12 V, 55 W between battery negative and its cable; controllers, coils and injectors unplugged',
    cautions: [LAMP_CAUTION, AT_THE_BATTERY, NO_SPARKS, PROBING, MOVING, NO_NEW_FUSE, NO_AIRBAG],
    asks: [
      {
        id: 'lamp-steps',
        kind: 'lines',
        section: 'lamp',
        of: 'steps',
        says: 'Lamp in; fuses one by one; those of the fuel pump stay out; lamp out.',
      },
      {
        id: 'earth-volts',
        kind: 'lines',
        section: 'lamp',
        of: 'readings',
        starting: 'volts:earth:',
        needs: 'the car’s earth studs',
        says: 'Earths proved under load: the volts that each stud loses while a test lamp burns through it.',
      },
      {
        id: 'lamp-readings',
        kind: 'lines',
        section: 'lamp',
        of: 'readings',
        notStarting: 'volts:earth:',
        says: 'Volts behind each fuse as reckoned with the lamp in series.',
      },
    ],
  },
  {
    id: 'plugs',
    sequence: 'first power',
    title: 'Supply and earth at each controller’s plug',
    state: 'lamp out, fuses in but those that stay out; controllers’ plugs still off until this gate is proved',
    cautions: [PROBING, MOVING, NO_NEW_FUSE, NO_AIRBAG],
    asks: [
      {
        id: 'plug-readings',
        kind: 'lines',
        section: 'plugs',
        of: 'readings',
        says: 'Volts at each supply and earth pin of the open plug.',
      },
      {
        id: 'plug-steps',
        kind: 'lines',
        section: 'plugs',
        of: 'steps',
        says: 'A lamp as load between supply and earth in the plug; then, key off, the controller plugged in.',
      },
    ],
  },
  {
    id: 'outputs',
    sequence: 'first power',
    title: 'What the outputs do while the controller starts',
    state: 'ignition on; coils and injectors unplugged, pump fuse out',
    cautions: [NO_SPARKS, MOVING, PROBING, NO_AIRBAG],
    asks: [
      {
        id: 'boot-known',
        kind: 'known',
        says: 'Each output’s state while the controller starts is known, and none moves what hurts.',
        judge: outputsKnown,
      },
      {
        id: 'output-steps',
        kind: 'lines',
        section: 'outputs',
        of: 'steps',
        says: 'Outputs tried with a lamp in their place; coils, injectors and pump fuse last, one at a time.',
      },
    ],
  },
]
