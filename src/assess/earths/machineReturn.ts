/**
 * Rule `machine-return`: a starter or an alternator that a cable feeds, and whose case no metal joins to battery negative.
 * It has no earth wire of its own as loads do: its case is the engine, and the engine hangs in rubber.
 */
import type { Device } from '../../model/build.ts'
import { BODY, type Circuit, ENGINE, type Link, spread } from '../circuit.ts'
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import {
  BATTERY_CAUTION,
  deviceName,
  deviceZone,
  endpointOf,
  finding,
  own,
  restrictedDevice,
  squareMillimetres,
} from '../make.ts'
import { alternatorPins, starterPins } from '../pins.ts'

/** Straps, studs and the contacts of an isolator; no cable of the throttle, no screen, no load. */
const metal =
  ({ build }: Context) =>
  (link: Link): boolean => {
    if (link.kind === 'contact') {
      const kind = own(build.collections.devices, link.id)?.spec.kind
      return kind === 'switch' || kind === 'relay'
    }
    return link.kind === 'wire' || link.kind === 'inside' || link.kind === 'earth'
  }

export interface Machine {
  /** A way from a battery's positive post to its supply. */
  readonly fed: boolean
  /** A way from its case to a battery's negative post. */
  readonly returns: boolean
}
export const joined = ({ fed, returns }: Machine): boolean => fed && returns

const ways = new WeakMap<Circuit, { readonly up: ReadonlySet<string>; readonly down: ReadonlySet<string> }>()

/** Everything that conducts counts as a way here: what is thin or resistive is judged by its volts. */
export const machineOf = (circuit: Circuit, device: Device): Machine => {
  const known = ways.get(circuit) ?? {
    up: spread(circuit, circuit.positive, ({ kind }) => kind !== 'output' && kind !== 'earth'),
    down: spread(circuit, circuit.negative, ({ kind }) => kind !== 'output'),
  }
  ways.set(circuit, known)
  const { supply, frame } = endsOf(device)
  return { fed: supply !== undefined && known.up.has(supply), returns: known.down.has(frame) || known.down.has(ENGINE) }
}

const endsOf = (device: Device): { readonly supply: string | undefined; readonly frame: string } => {
  const { id, spec } = device
  const pins =
    spec.kind === 'starter'
      ? { supply: starterPins(device).supply, frame: starterPins(device).case }
      : { supply: alternatorPins(device).output, frame: alternatorPins(device).case }
  return {
    supply: pins.supply === undefined ? undefined : endpointOf(id, pins.supply),
    frame: endpointOf(id, pins.frame ?? '#case'),
  }
}

export const machineReturnFindings = (context: Context): Finding[] => {
  const { build, circuit } = context
  if (circuit.negative.length === 0) return []
  const earthed = spread(circuit, circuit.negative, metal(context))
  return Object.values(build.collections.devices).flatMap((device): Finding[] => {
    if ((device.spec.kind !== 'starter' && device.spec.kind !== 'alternator') || restrictedDevice(build, device.id))
      return []
    const { supply, frame } = endsOf(device)
    if (supply === undefined || !machineOf(circuit, device).fed || earthed.has(frame) || earthed.has(ENGINE)) return []
    const cable = (circuit.wiresAt.get(supply) ?? []).flatMap((id) => own(build.collections.wires, id) ?? [])[0]
    const like = cable?.area ? `, no thinner than ${cable.id} (${squareMillimetres(cable.area.value)})` : ''
    return [
      finding({
        rule: 'machine-return',
        verdict: 'no-go',
        system: 'electrical',
        subject: `devices/${device.id}`,
        about: device.name,
        zone: deviceZone(build, device.id),
        says: `${device.name} is fed over ${cable?.id ?? 'its supply'}, but no strap joins the engine to battery negative: ${
          device.spec.kind === 'starter' ? 'it cannot crank' : 'it cannot charge'
        }, and what current there is looks for a way through cables, screens and sensor returns.`,
        todo: `Fit an engine strap from the engine to ${earthed.has(BODY) ? 'the body' : `the negative post of ${deviceName(build, batteryOf(context))}`}${like}.`,
        working: [
          `From battery negative over wires, studs and contacts of isolators; not found: the case of ${device.name} or the engine.`,
        ],
        cautions: [BATTERY_CAUTION],
      }),
    ]
  })
}

const batteryOf = ({ circuit }: Context): string => circuit.negative[0]!.slice(0, circuit.negative[0]!.lastIndexOf('.'))
