/**
 * The cautions of measuring on a car, each in its place. Common practice, no published source; the maker's own
 * instructions and local rules come first.
 */
import type { Build, OperatingCase } from '../model/build.ts'
import { BATTERY_CAUTION, deviceZone, own } from './make.ts'

export const DEAD_CIRCUIT =
  'Resistance only on a dead circuit: battery negative off, and wait until what ran on has gone quiet. A live circuit gives a false figure and may end the meter.'
export const UNPLUGGED =
  'Unplug controllers, airbag and anti-lock units before any resistance is measured; a meter only, never an insulation tester.'
export const NO_AIRBAG =
  'Never put a probe on airbag, pretensioner or anti-lock wiring, mostly yellow: that is work for somebody qualified for it.'
export const NO_NEW_FUSE =
  'Do not put in a new fuse to take a reading: the next may take the wire with it. Put a lamp of 21 W in its place.'
export const NO_SPARKS =
  'No sparks near petrol vapour: connect the meter before the current is switched on, air the place, extinguisher at hand.'
export const MOVING =
  'Keep hands, hair, sleeves and leads away from belts and fans; an electric fan may start by itself, the key out or not.'
export const ON_STANDS =
  'Firm, level ground, wheels chocked, the car on stands and shaken before anyone goes under; never a jack alone.'
export const PROBING =
  'One slip of a probe shorts the battery through it: fused leads, tips sleeved but for the last millimetres, no rings. Probe from the back of an open plug, never through insulation.'
export const RUNNING = 'The engine runs: out of gear, brake on, in the open air; exhaust gas kills indoors.'
export const HOT = 'Hot coolant and hot metal burn: keep clear of the exhaust side, never open a hot cooling system.'
export const LIVE_BATTERY = BATTERY_CAUTION

/** What the places of a measurement call for. */
export const placeCautions = (build: Build, devices: readonly string[]): string[] => {
  const found = new Set<string>()
  for (const id of devices) {
    const device = own(build.collections.devices, id)
    const zone = own(build.collections.zones, deviceZone(build, id) ?? '')
    const words = `${zone?.id ?? ''} ${zone?.name ?? ''}`
    if (
      device?.spec.kind === 'pump' ||
      device?.spec.kind === 'injector' ||
      /tank|fuel/i.test(`${words} ${device?.name}`)
    )
      found.add(NO_SPARKS)
    if (/under|tank/i.test(words)) found.add(ON_STANDS)
    if (/engine|nose|bay/i.test(words)) found.add(MOVING)
    if (device?.spec.kind === 'battery') found.add(LIVE_BATTERY)
    if (device?.spec.kind === 'fuse') found.add(NO_NEW_FUSE)
  }
  return [...found]
}

/** What the state of the car calls for. */
export const caseCautions = (kase: OperatingCase): string[] =>
  kase.engine === 'off' ? [] : kase.engine === 'cranking' ? [MOVING] : [RUNNING, MOVING, HOT]
