/**
 * Rule `unfused-stretch`: what is live from a battery or an alternator with no fuse above it. Only the starter cable may
 * be a documented exception. A documented link that brings a fuse to the terminal is no exception but the fuse's place:
 * at the source, or within 7 inches of it along the conductor (33 CFR 183.455(b)(1), boats, read; cars have no such rule
 * of their own). The alternator's cable is protected at its battery end, since the alternator limits itself.
 */
import type { Source } from '../../engineering/calculation.ts'
import type { Wire } from '../../model/build.ts'
import { spread } from '../circuit.ts'
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import {
  BATTERY_CAUTION,
  deviceIdOf,
  endpointOf,
  finding,
  list,
  own,
  pinName,
  restrictedWire,
  wireName,
} from '../make.ts'
import { starterPins } from '../pins.ts'
import { hottestZone, wireLength } from '../wireData.ts'
import { live } from './reach.ts'

/** m, 7 inches. */
const LINK = 0.1778
const linkSource: Source = {
  title: '33 CFR 183.455(b)(1): at the source of power, or within seven inches of it measured along the conductor',
  how: 'read',
}

export const unfusedFindings = (context: Context): Finding[] => {
  const { build, circuit } = context
  const { wires, devices } = build.collections
  const kindAt = (endpoint: string) => own(devices, deviceIdOf(endpoint))?.spec.kind
  const told = new Set<string>()
  const findings: Finding[] = []
  // A blank reason documents nothing.
  const documented = (wire: Wire) => (wire.unfusedBecause ?? '').trim() !== ''
  const starterSupplies = new Set(
    Object.values(devices).flatMap((device) => {
      const supply = device.spec.kind === 'starter' ? starterPins(device).supply : undefined
      return supply === undefined ? [] : [endpointOf(device.id, supply)]
    }),
  )
  /** Ends at the starter, or at an isolator from which a wire goes on to it. */
  const starterCable = (wire: Wire): boolean =>
    [wire.from, wire.to].some(
      (end) =>
        starterSupplies.has(end) ||
        (kindAt(end) === 'switch' &&
          Object.keys(own(devices, deviceIdOf(end))!.pins).some((pin) =>
            (circuit.wiresAt.get(endpointOf(deviceIdOf(end), pin)) ?? []).some((id) => {
              const next = own(wires, id)
              return next && (starterSupplies.has(next.from) || starterSupplies.has(next.to))
            }),
          )),
    )

  const ofSource = (source: string, fromAlternator: boolean) => {
    /** m along conductors from the source, over what is one piece with it or exempt. */
    const near = new Map<string, number>([[source, 0]])
    const queue = [source]
    const unmeasured: Wire[] = []
    for (let node = queue.shift(); node !== undefined; node = queue.shift())
      for (const link of circuit.linksAt.get(node) ?? []) {
        if (!live(link)) continue
        let far = near.get(node)!
        if (link.kind === 'wire') {
          const wire = own(wires, link.id)
          if (!wire) continue
          if (!restrictedWire(build, wire.id)) {
            if (!documented(wire)) continue
            if (!starterCable(wire)) {
              const length = wireLength(build, wire)
              if (length === undefined) unmeasured.push(wire)
              else far += length
              if (far > LINK + 1e-9) continue
            }
          }
        } else if (link.kind !== 'inside') continue
        const next = link.a === node ? link.b : link.a
        if ((near.get(next) ?? Number.POSITIVE_INFINITY) <= far) continue
        near.set(next, far)
        queue.push(next)
      }
    const passed = (wire: Wire) =>
      restrictedWire(build, wire.id) || (documented(wire) && near.has(wire.from) && near.has(wire.to))
    for (const wire of unmeasured) {
      if (told.has(wire.id)) continue
      told.add(wire.id)
      findings.push(unmeasuredLink(context, wire, source))
    }
    for (const wire of Object.values(wires)) {
      if (told.has(wire.id) || passed(wire)) continue
      const start = near.has(wire.from) ? wire.from : near.has(wire.to) ? wire.to : undefined
      if (start === undefined) continue
      const end = start === wire.from ? wire.to : wire.from
      // A fuse at the battery end protects the alternator's cable: its other end can only give what the alternator gives.
      if (fromAlternator && kindAt(end) === 'fuse') continue
      told.add(wire.id)
      const beyond: string[] = []
      spread(
        circuit,
        [end],
        (link) => live(link) && link.id !== wire.id && !near.has(link.a) && !near.has(link.b),
        (link) => {
          if (link.kind !== 'wire' || told.has(link.id)) return
          told.add(link.id)
          const other = own(wires, link.id)
          if (other && !restrictedWire(build, other.id)) beyond.push(link.id)
        },
      )
      findings.push(unfused(context, wire, source, beyond, documented(wire), starterCable(wire), near.get(start)!))
    }
  }
  for (const source of circuit.positive) ofSource(source, false)
  for (const source of circuit.alternators) ofSource(source, true)
  return findings
}

const unmeasuredLink = ({ build }: Context, wire: Wire, source: string): Finding => {
  const missing = `length of ${wire.id}`
  return finding({
    rule: 'unfused-stretch',
    verdict: 'unknown',
    system: 'electrical',
    subject: `wires/${wire.id}`,
    about: wireName(build, wire.id),
    zone: hottestZone(build, wire)?.zone,
    says: `${wireName(build, wire.id)} is documented as a link from ${pinName(build, source)} to its fuse; without its length it is not known to be one: a fuse stands at the source or within 0.18 m of it.`,
    todo: `Enter the ${missing}.`,
    missing,
    working: [`Source: ${linkSource.title}`],
  })
}

const unfused = (
  { build }: Context,
  wire: Wire,
  source: string,
  beyond: readonly string[],
  documented: boolean,
  toStarter: boolean,
  before: number,
): Finding => {
  const { devices } = build.collections
  const alternator = [wire.from, wire.to].some((end) => own(devices, deviceIdOf(end))?.spec.kind === 'alternator')
  const length = wireLength(build, wire)
  const fuseAtEnd = [wire.from, wire.to]
    .map((end) => own(devices, deviceIdOf(end)))
    .find((device) => device?.spec.kind === 'fuse')
  return finding({
    rule: 'unfused-stretch',
    verdict: 'no-go',
    system: 'electrical',
    subject: `wires/${wire.id}`,
    about: wireName(build, wire.id),
    zone: hottestZone(build, wire)?.zone,
    says: `${wireName(build, wire.id)} is live from ${pinName(build, source)} with no fuse above it${beyond.length > 0 ? `, and so ${beyond.length === 1 ? 'is' : 'are'} ${list(beyond)} beyond it` : ''}.${documented ? ` Its reason does not stand: it is neither the starter cable nor a link of at most 0.18 m to a fuse${length === undefined ? '' : ` (${length.toFixed(2)} m)`}.` : ''}`,
    todo: toStarter
      ? `Say at ${wire.id} why it has no fuse, as the starter cable alone may go without one, and sleeve it and keep it off edges; or put a fuse into it that stands cranking.`
      : fuseAtEnd && length !== undefined && before + length <= LINK + 1e-9
        ? `Say at ${wire.id} that it is the link to ${fuseAtEnd.name}: ${length.toFixed(2)} m, sleeved, may go without a fuse of its own.`
        : fuseAtEnd && !alternator
          ? `Bring ${fuseAtEnd.name} to within 0.18 m of ${pinName(build, source)} and say at ${wire.id} that it is the link to it; or bolt it to the terminal.`
          : alternator
            ? `Put a bolt-down fuse into ${wire.id} at its battery end, above the alternator’s full output.`
            : `Put a fuse into ${wire.id} within 0.18 m of ${pinName(build, source)}, rated below what ${wire.id}${beyond.length > 0 ? ' and the wires beyond it' : ''} can carry.`,
    working: [
      `Followed from ${pinName(build, source)} over wires, splices and contacts as far as the next fuse.`,
      'Every conductor is protected at its source end; the starter cable alone may be a documented exception. Common practice, no published source for cars.',
      `Place of the fuse: ${linkSource.title} [read; boats].`,
    ],
    cautions: [BATTERY_CAUTION, 'A short to the body here is limited by nothing but the battery.'],
  })
}
