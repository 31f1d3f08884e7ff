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

/** Ω. A shunt of an ammeter lies below it, a throttle cable or a screen far above. Common practice, no published source. */
const SHUNT = 5e-3

/** Straps, studs, the contacts of an isolator, a shunt; no cable of the throttle, no screen, no load. */
const metal =
  ({ build }: Pick<Context, 'build'>) =>
  (link: Link): boolean => {
    if (link.kind !== 'contact') return link.kind === 'wire' || link.kind === 'inside' || link.kind === 'earth'
    const spec = own(build.collections.devices, link.id)?.spec
    if (spec?.kind === 'resistor') return spec.resistance === undefined || spec.resistance.value <= SHUNT
    return spec?.kind === 'switch' || spec?.kind === 'relay'
  }

export interface Machine {
  /** A way from a battery's positive post to its supply. */
  readonly fed: boolean
  /** A way from its case to a battery's negative post. */
  readonly returns: boolean
}
export const joined = ({ fed, returns }: Machine): boolean => fed && returns

const ways = new WeakMap<Circuit, { readonly up: ReadonlySet<string>; readonly down: ReadonlySet<string> }>()

/** What is thin is judged by its volts; what is no conductor of the kind at all is no way. */
export const machineOf = ({ build, circuit }: Pick<Context, 'build' | 'circuit'>, device: Device): Machine => {
  const known = ways.get(circuit) ?? {
    up: spread(circuit, circuit.positive, ({ kind }) => kind !== 'output' && kind !== 'earth'),
    down: spread(circuit, circuit.negative, metal({ build })),
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
  return Object.values(build.collections.devices).flatMap((device): Finding[] => {
    if ((device.spec.kind !== 'starter' && device.spec.kind !== 'alternator') || restrictedDevice(build, device.id))
      return []
    const { supply } = endsOf(device)
    const { fed, returns } = machineOf(context, device)
    if (supply === undefined || !fed || returns) return []
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
        todo: `Fit an engine strap from the engine to ${ways.get(circuit)?.down.has(BODY) ? 'the body' : `the negative post of ${deviceName(build, batteryOf(context))}`}${like}.`,
        working: [
          `From battery negative over wires, studs and contacts of isolators; not found: the case of ${device.name} or the engine.`,
        ],
        cautions: [BATTERY_CAUTION],
      }),
    ]
  })
}

const batteryOf = ({ circuit }: Context): string => circuit.negative[0]!.slice(0, circuit.negative[0]!.lastIndexOf('.'))
