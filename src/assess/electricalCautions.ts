/**
 * The cautions of measuring on a car, each in its place. Common practice, no published source; the maker's own
 * instructions and local rules come first.
 */
import type { Build, Device, OperatingCase } from '../model/build.ts'
import { BATTERY_CAUTION, deviceIdOf, deviceZone, own } from './make.ts'

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
/** Beside a battery that has to stay on for the reading. */
export const AT_THE_BATTERY =
  'The battery gives off explosive gas: no spark or flame beside it; no rings, no loose tools across its posts.'
export const CRANKING =
  'Before the starter turns: out of gear, brake on, pump fuse out and coils unplugged so that it cannot start, a second person at the key. Ten seconds at most, then a pause.'
export const DRIVING =
  'Nobody reads a meter while driving: bring this state about standing still, out of gear, with the loads switched on; where it needs the road, a second person reads.'

const isFuel = (device: Device | undefined): boolean =>
  (device?.spec.kind === 'pump' && !/water|wash|cool|vacuum|oil/i.test(`${device.id} ${device.name}`)) ||
  device?.spec.kind === 'injector'

/** What the places of a measurement call for. */
export const placeCautions = (build: Build, devices: readonly string[]): string[] => {
  const found = new Set<string>()
  for (const id of devices) {
    const device = own(build.collections.devices, id)
    const zone = own(build.collections.zones, deviceZone(build, id) ?? '')
    const words = `${zone?.id ?? ''} ${zone?.name ?? ''}`
    const called = `${id} ${device?.name ?? ''}`
    if (isFuel(device) || /tank|fuel|petrol/i.test(`${words} ${called}`)) found.add(NO_SPARKS)
    if (/under|tank/i.test(words)) found.add(ON_STANDS)
    if (
      /engine|nose|radiator|\bbay\b/i.test(words.replace(/tank[ -]bay/gi, '')) ||
      /\bfan\b|blower|radiator/i.test(called)
    )
      found.add(MOVING)
    if (device?.spec.kind === 'battery') found.add(AT_THE_BATTERY)
    if (device?.spec.kind === 'fuse') found.add(NO_NEW_FUSE)
  }
  return [...found]
}

/** What the state of the car calls for. */
export const caseCautions = ({ engine }: Pick<OperatingCase, 'engine'>): string[] => {
  if (engine === 'off') return []
  if (engine === 'cranking') return [CRANKING, MOVING]
  return [...(engine === 'idle' ? [] : [DRIVING]), RUNNING, MOVING, HOT]
}

/** What does not apply while the battery is off: nothing turns, no fuse is fed. */
const NOT_WHEN_DEAD: readonly string[] = [MOVING, NO_NEW_FUSE, AT_THE_BATTERY]

/** Beside one reading: what its points and, where something is live, the state of the car call for. */
export const readingCautions = (
  build: Build,
  {
    quantity,
    at,
    against,
  }: { readonly quantity: 'volts' | 'ohms' | 'amps'; readonly at: string; readonly against?: string },
  kase?: Pick<OperatingCase, 'engine'>,
): string[] => {
  const places = placeCautions(
    build,
    [at, ...(against === undefined ? [] : [against])].map((point) => deviceIdOf(point.split('/')[0]!)),
  )
  return quantity === 'ohms'
    ? [DEAD_CIRCUIT, UNPLUGGED, ...whenDead(places)]
    : [...new Set([...(kase ? caseCautions(kase) : []), ...places])]
}

export const whenDead = (cautions: readonly string[]): string[] =>
  cautions.filter((each) => !NOT_WHEN_DEAD.includes(each))
