/** The ten operating cases every build should answer for. */
import type { Entity } from '../src/model/build.ts'
import type { Draft } from './draft.ts'
import { celsius, volts } from './quantities.ts'

type Case = Entity<'cases'>

const injectors = (duty: number) =>
  Object.fromEntries([1, 2, 3, 4].map((n) => [`out-injector-${n}`, duty])) as Record<string, number>
const coils = (duty: number) =>
  Object.fromEntries([1, 2, 3, 4].map((n) => [`out-coil-${n}`, duty])) as Record<string, number>
const awake = { 'out-main': 1 }
const running = (injection: number, ignition: number) => ({
  ...awake,
  'out-pump': 1,
  'out-lambda': 0.7,
  'out-throttle-1': 1,
  'out-throttle-2': 0,
  ...injectors(injection),
  ...coils(ignition),
})

export const cases = ({ put }: Draft): void => {
  const add = (
    id: string,
    name: string,
    engine: Case['engine'],
    alternator: Case['alternator'],
    ambient: number,
    switches: Case['switches'],
    outputs: Case['outputs'],
    more?: Partial<Case>,
  ) =>
    put('cases', {
      id,
      name,
      engine,
      alternator,
      battery: 'connected',
      ambient: celsius(ambient),
      switches,
      outputs,
      ...more,
    })

  add('parked', 'Parked, locked', 'off', 'off', 20, {}, {})
  add(
    'ignition-on',
    'Ignition on, engine stopped',
    'off',
    'off',
    20,
    { 'ignition-switch': 'on' },
    { ...awake, 'out-lambda': 0 },
  )
  add(
    'cranking',
    'Cranking on a cold morning',
    'cranking',
    'off',
    -5,
    { 'ignition-switch': 'start' },
    {
      ...awake,
      'out-pump': 1,
      ...injectors(0.05),
      ...coils(0.02),
    },
  )
  add(
    'idle-hot-wet-night',
    'Idle on a hot wet night',
    'idle',
    'idle',
    32,
    {
      'ignition-switch': 'on',
      'light-switch': 'head',
      'wiper-switch': 'wipe',
      'blower-switch': 'on',
      'brake-switch': 'pressed',
      'indicator-switch': 'right',
    },
    { ...running(0.03, 0.06), 'out-fan': 1, 'out-charge-pump': 1, 'out-purge': 0 },
  )
  add(
    'cruising',
    'Cruising by day',
    'cruise',
    'cruise',
    20,
    { 'ignition-switch': 'on', 'light-switch': 'head' },
    {
      ...running(0.2, 0.2),
      'out-charge-pump': 1,
      'out-purge': 0.4,
    },
  )
  add(
    'full-load',
    'Full load at target power, fan and lamps on',
    'full load',
    'cruise',
    30,
    { 'ignition-switch': 'on', 'light-switch': 'head', 'blower-switch': 'on' },
    { ...running(0.85, 0.35), 'out-fan': 1, 'out-charge-pump': 1, 'out-boost': 0.5 },
  )
  add(
    'alternator-dead',
    'Alternator dead, driving home by night',
    'cruise',
    'off',
    15,
    { 'ignition-switch': 'on', 'light-switch': 'head', 'wiper-switch': 'wipe' },
    { ...running(0.15, 0.2), 'out-charge-pump': 1 },
  )
  add(
    'key-off',
    'Key just off, fan running on',
    'off',
    'off',
    30,
    {},
    { 'out-fan': 1 },
    {
      remark: 'The controller holds its main relay only while terminal 15 feeds the coil, so nothing runs on.',
    },
  )
  add(
    'jump-start',
    'Jump start from a 24 V source',
    'cranking',
    'off',
    -5,
    { 'ignition-switch': 'start' },
    { ...awake, 'out-pump': 1, ...injectors(0.05), ...coils(0.02) },
    { supply: volts(24), remark: '24 V for a minute is the customary over-voltage test of the trade (from memory).' },
  )
  add('battery-reversed', 'Battery connected the wrong way round', 'off', 'off', 20, {}, {}, { battery: 'reversed' })
}
