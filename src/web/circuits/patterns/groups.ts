/** Circuit patterns by what they are for, in the order in which a car is wired. */
import { type Pattern, patterns } from '../../../assess/patterns/index.ts'

interface Group {
  readonly name: string
  readonly patterns: readonly Pattern[]
}
const GROUPS: readonly (readonly [name: string, ids: readonly string[]])[] = [
  ['Starting, charging and supply', ['starter-alternator', 'controller-supply', 'relay-fed-load']],
  [
    'Fuel, ignition and engine',
    ['fuel-pump', 'injector-bank', 'ignition-coils', 'pedal-and-throttle', 'lambda-heater'],
  ],
  ['Cooling', ['electric-fans', 'cooler-pump']],
  [
    'Sensors and switches',
    ['crank-and-cam', 'two-wire-sensor', 'three-wire-sensor', 'resistance-switch', 'level-sender'],
  ],
  ['Lamps', ['headlamps', 'lamp-group', 'stop-lamps', 'indicators', 'reversing-lamp']],
  ['Wipers, horn, heating', ['wiper', 'horn', 'blower', 'heated-screen']],
  ['Data lines', ['diagnostic-socket', 'can-pair']],
]

const chosen = GROUPS.map(
  ([name, ids]): Group => ({
    name,
    patterns: ids.flatMap((id) => patterns.find((pattern) => pattern.id === id) ?? []),
  }),
)
const rest = patterns.filter(({ id }) => !GROUPS.some(([, ids]) => ids.includes(id)))

export const groups: readonly Group[] = rest.length === 0 ? chosen : [...chosen, { name: 'Others', patterns: rest }]

export const patternPlace = (id?: string): string =>
  `/circuits/from/patterns${id === undefined ? '' : `/${encodeURIComponent(id)}`}`
