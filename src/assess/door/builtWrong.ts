/**
 * Circuits that cannot be meant, told by what touches what alone: `relay-own-coil`, a coil that only its own contact can
 * feed; `dead-short`, a battery's two posts joined with no load between; `crowded-splice`, more wires than a splice takes.
 */
import type { Device } from '../../model/build.ts'
import { deviceAt, type Link, spread } from '../circuit.ts'
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import {
  BATTERY_CAUTION,
  deviceIdOf,
  deviceZone,
  endpointOf,
  finding,
  list,
  own,
  restrictedWire,
  squareMillimetres,
} from '../make.ts'
import { relayPins } from '../pins.ts'
import { joinedPosts } from './joinedPosts.ts'

/** Wires that one crimped, soldered or sleeved splice takes. Common practice, no published source. */
const MOST = 20

export const builtWrongFindings = (context: Context): Finding[] => [
  ...ownCoils(context),
  ...deadShorts(context),
  ...crowdedSplices(context),
]

/** What may feed a coil in a way that the build does not say. */
const OWN_WILL: ReadonlySet<Device['spec']['kind']> = new Set(['module', 'controller', 'sensor', 'gauge', 'alternator'])

const ownCoils = ({ build, circuit }: Context): Finding[] => {
  const sources = [...circuit.positive, ...circuit.alternators]
  if (sources.length === 0) return []
  const earthed = spread(
    circuit,
    circuit.negative,
    ({ kind }) => kind === 'wire' || kind === 'inside' || kind === 'earth',
  )
  const hot = ({ a, b }: Link) => !earthed.has(a) && !earthed.has(b)
  return Object.values(build.collections.devices).flatMap((device): Finding[] => {
    if (device.spec.kind !== 'relay' || device.restricted) return []
    const { common, make, break: rest, coil } = relayPins(device)
    const [c1, c2] = coil
    if (c1 === undefined || c2 === undefined || common === undefined) return []
    const ends = [endpointOf(device.id, c1), endpointOf(device.id, c2)]
    const fedOver = (pin: string | undefined): boolean => {
      const contact = pin === undefined ? undefined : endpointOf(device.id, pin)
      const reached = spread(
        circuit,
        sources,
        (link) =>
          hot(link) && (link.id !== device.id || link.kind !== 'contact' || link.a === contact || link.b === contact),
      )
      return ends.some((end) => reached.has(end))
    }
    if (fedOver(undefined)) return []
    const [overMake, overBreak] = [make !== undefined && fedOver(make), rest !== undefined && fedOver(rest)]
    if (!overMake && !overBreak) return []
    const touched = spread(circuit, ends, (link) => hot(link) && link.id !== device.id)
    const strange = [...touched].some((node) => {
      const there = deviceAt(build, node)
      return there !== undefined && OWN_WILL.has(there.spec.kind) && !earthed.has(node)
    })
    if (strange) return []
    return [
      finding({
        rule: 'relay-own-coil',
        verdict: 'no-go',
        system: 'electrical',
        subject: `devices/${device.id}`,
        about: device.name,
        zone: deviceZone(build, device.id),
        says: overBreak
          ? `${device.name} feeds its own coil over its break contact ${rest} and nothing else feeds it: it opens what it pulls in with, and buzzes.`
          : `${device.name} feeds its own coil over its make contact ${make} and nothing else feeds it: it can never pull in by itself, and once pulled in by hand it stays so.`,
        todo: `Feed ${c1} of ${device.name} from a switch, an output or a fuse, not from behind its own contact.`,
        working: ['Every switch and every other relay thought closed, every output on.'],
        cautions: [BATTERY_CAUTION],
      }),
    ]
  })
}

const deadShorts = (context: Context): Finding[] => {
  const { build } = context
  return joinedPosts(context).flatMap(({ battery: device, way }): Finding[] => {
    if (way.some((id) => restrictedWire(build, id))) return []
    const named = way.map((id) => own(build.collections.devices, id)?.name ?? id)
    return [
      finding({
        rule: 'dead-short',
        verdict: 'no-go',
        system: 'electrical',
        subject: `devices/${device.id}`,
        about: device.name,
        zone: deviceZone(build, device.id),
        says: `${list(named)} ${named.length === 1 ? 'joins' : 'join'} the two posts of ${device.name} with no load between.`,
        todo: `Take ${way.find((id) => own(build.collections.wires, id)) ?? 'one'} off, or look at which pins it was entered on.`,
        working: [
          'Followed over wires, splices, fuses and earths only; a way through a switch or a relay does not count.',
        ],
        cautions: [BATTERY_CAUTION, 'A short of a battery throws molten metal; the battery itself may burst.'],
      }),
    ]
  })
}

const crowdedSplices = ({ build }: Context): Finding[] => {
  const ends = new Map<string, string[]>()
  for (const wire of Object.values(build.collections.wires))
    for (const end of [wire.from, wire.to]) {
      const id = deviceIdOf(end)
      if (own(build.collections.devices, id)?.spec.kind !== 'splice' || restrictedWire(build, wire.id)) continue
      const here = ends.get(id)
      if (here) here.push(wire.id)
      else ends.set(id, [wire.id])
    }
  return [...ends].flatMap(([id, wires]): Finding[] => {
    if (wires.length <= MOST) return []
    const areas = wires.map((wire) => build.collections.wires[wire]?.area?.value)
    const metal = areas.every((area) => area !== undefined)
      ? `, ${squareMillimetres(areas.reduce((sum, area) => sum + area!, 0))} of metal together`
      : ''
    const device = own(build.collections.devices, id)!
    return [
      finding({
        rule: 'crowded-splice',
        verdict: 'marginal',
        system: 'electrical',
        subject: `devices/${id}`,
        about: device.name,
        zone: deviceZone(build, id),
        says: `${wires.length} wires meet in ${device.name}${metal}: no crimp, solder joint or sleeve holds so many.`,
        todo: `Part it into splices of at most ${MOST} wires, or fit a busbar or a fuse box there.`,
        working: [`At most ${MOST} wires in one splice: common practice, no published source.`],
        cautions: [BATTERY_CAUTION],
      }),
    ]
  })
}
