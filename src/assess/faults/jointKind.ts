/**
 * Which kind of joint a wire's end is, for the priors: where it moves or gets wet it fails most. Common practice, no
 * published source.
 */
import type { Build, Device, Wire } from '../../model/build.ts'
import { deviceIdOf, deviceName, deviceZone, own, pinName } from '../make.ts'
import type { End } from './carNetwork.ts'
import { wireSays } from './words.ts'

export type JointKind = 'bulb_holder' | 'exposed' | 'connector' | 'crimp' | 'solder'

const isWet = (build: Build, device: string): boolean => {
  const zone = deviceZone(build, device)
  const wet = zone === undefined ? undefined : own(build.collections.zones, zone)?.wet
  return wet === 'wet' || wet === 'splash'
}

export const jointKind = (build: Build, wire: Wire, end: End): JointKind => {
  const id = deviceIdOf(wire[end])
  const spec = own(build.collections.devices, id)?.spec
  const ends = wire.ends?.[end]
  const wet = isWet(build, id) && ends?.sealed !== true
  switch (spec?.kind) {
    case 'lamp':
      return 'bulb_holder'
    case 'earth-stud':
    case 'battery':
    case 'starter':
    case 'alternator':
      return wet ? 'exposed' : 'crimp'
    case 'splice':
      // Under its sleeve; a bare one in the wet is as exposed as a ring.
      return ends?.method === 'soldered' ? 'solder' : wet ? 'connector' : 'crimp'
    case 'connector':
      return wet && spec.sealed !== true ? 'exposed' : 'connector'
    default:
      return wet ? 'exposed' : 'connector'
  }
}

/** Contacts up to which a consumer's plug is one part. */
const PLUG = 4
/** Things with loads whose ends are joints of their own. */
const OF_ITS_OWN: ReadonlySet<Device['spec']['kind']> = new Set([
  'battery',
  'alternator',
  'starter',
  'earth-stud',
  'fuse',
  'relay',
  'switch',
  'controller',
])

/** What a person would repair there: the joints of one lamp are its holder, those of a consumer its plug,
 * those of one connector pin or splice are one. */
export const jointPart = (
  build: Build,
  wire: Wire,
  end: End,
): { readonly part: string; readonly name: string; readonly devices: string[]; readonly wires: string[] } => {
  const endpoint = wire[end]
  const id = deviceIdOf(endpoint)
  const spec = own(build.collections.devices, id)?.spec
  const wires = [wire.id]
  if (spec?.kind === 'lamp')
    return { part: `holder:${id}`, name: `holder and plug of ${deviceName(build, id)}`, devices: [id], wires }
  if (spec?.kind === 'splice') return { part: `splice:${id}`, name: deviceName(build, id), devices: [id], wires }
  if (spec?.kind === 'connector')
    return { part: `joint:${endpoint}`, name: `contact in ${pinName(build, endpoint)}`, devices: [id], wires }
  // A consumer's few contacts sit in one plug, which is opened, looked at and remade as a whole.
  const device = own(build.collections.devices, id)
  if (
    device &&
    (device.loads ?? []).length > 0 &&
    Object.keys(device.pins).length <= PLUG &&
    !OF_ITS_OWN.has(device.spec.kind)
  )
    return { part: `plug:${id}`, name: `plug of ${device.name}`, devices: [id], wires }
  return {
    part: `joint:${endpoint}/${wire.id}`,
    name: `joint of ${wireSays(wire)} at ${pinName(build, endpoint)}`,
    devices: [id],
    wires,
  }
}
