/**
 * A circuit as a drawing needs it: which things and wires belong, which end of each is on top, what stands for the rest
 * of the car. Pure: the same build and circuit give the same diagram, whatever the figures are.
 *
 * Habits of IEC 61082: supply on top, return at the bottom, current downwards. A thing that both takes and gives current
 * (battery, alternator, controller, multi-way connector) is drawn in parts under one name, so that nothing runs upwards.
 */
import { deviceIdOf, own } from '../../../assess/make.ts'
import type { Build, Device, Wire } from '../../../model/build.ts'
import { naturalOrder } from '../../../model/naturalOrder.ts'
import { type HeightOf, heightsOf } from './heights.ts'
import { type Pole, polesOf, type Side } from './poles.ts'
import { terminalOf } from './terminals.ts'

export type Form =
  | 'rail'
  | 'battery'
  | 'alternator'
  | 'battery-return'
  | 'earth'
  | 'splice'
  | 'connector'
  | 'fuse'
  | 'diode'
  | 'resistor'
  | 'switch'
  | 'relay'
  | 'load'
  | 'block'

export interface Port {
  readonly id: string
  /** `device.pin`. */
  readonly endpoint: string
  readonly pin: string
  readonly side: Side
  /** Column of a symbol whose pins have fixed places; absent where the layout may choose the order. */
  readonly column?: number
  /** A wire of another circuit hangs here too. */
  readonly elsewhere: boolean
}
export interface Part {
  /** The device's id, with a suffix where the device is drawn in parts. */
  readonly id: string
  readonly form: Form
  readonly device: string
  readonly name: string
  /** Terminal number of a rail (DIN 72552), where it can be told. */
  readonly terminal?: string
  readonly ports: readonly Port[]
  readonly columns: number
  readonly poles: readonly Pole[]
  readonly place: 'first' | 'between' | 'last'
}
export interface Line {
  /** The wire's id. */
  readonly id: string
  /** Ports, the higher first. */
  readonly from: string
  readonly to: string
  /** The current is taken to run from the wire's `from` to its `to`. */
  readonly asEntered: boolean
}
export interface Diagram {
  readonly parts: readonly Part[]
  readonly lines: readonly Line[]
}

interface Touch {
  readonly wire: Wire
  readonly endpoint: string
  /** The wire leaves here, downwards. */
  readonly leaves: boolean
}

const pinOf = (endpoint: string): string => endpoint.slice(endpoint.lastIndexOf('.') + 1)

/** Devices belong to a circuit by their own word or by a wire of it that ends at them. */
export const contentsOf = (build: Build, circuit: string | undefined): { devices: Device[]; wires: Wire[] } => {
  const wires = Object.values(build.collections.wires).filter((wire) => wire.circuit === circuit)
  const touched = new Set(wires.flatMap(({ from, to }) => [deviceIdOf(from), deviceIdOf(to)]))
  const devices = Object.values(build.collections.devices).filter(
    (device) =>
      touched.has(device.id) ||
      (circuit === undefined ? device.circuit === undefined && !wired(build, device.id) : device.circuit === circuit),
  )
  const byId = (a: { id: string }, b: { id: string }): number => naturalOrder(a.id, b.id)
  return { devices: devices.sort(byId), wires: wires.sort(byId) }
}
const wired = (build: Build, device: string): boolean =>
  Object.values(build.collections.wires).some(
    ({ from, to }) => deviceIdOf(from) === device || deviceIdOf(to) === device,
  )

export const diagramOf = (build: Build, circuit: string | undefined): Diagram => {
  const { devices, wires } = contentsOf(build, circuit)
  const height = heightsOf(build)
  const elsewhere = new Set(
    Object.values(build.collections.wires)
      .filter((wire) => wire.circuit !== circuit)
      .flatMap(({ from, to }) => [from, to]),
  )
  const touches = new Map<string, Touch[]>()
  const downwards = new Map<string, boolean>()
  for (const wire of wires) {
    const [a, b] = [height(wire.from), height(wire.to)]
    const asEntered = a === null || b === null || a >= b - 1e-9
    downwards.set(wire.id, asEntered)
    for (const [endpoint, leaves] of [
      [wire.from, asEntered],
      [wire.to, !asEntered],
    ] as const) {
      const at = touches.get(deviceIdOf(endpoint))
      if (at) at.push({ wire, endpoint, leaves })
      else touches.set(deviceIdOf(endpoint), [{ wire, endpoint, leaves }])
    }
  }
  const parts = devices.flatMap((device) =>
    partsOf({ build, circuit, device, touches: touches.get(device.id) ?? [], height, elsewhere }),
  )
  // A wire may end at a device that is not there; the drawing says so with an empty block.
  for (const [id, at] of touches)
    if (!own(build.collections.devices, id))
      parts.push(block(id, 'block', { id, name: `${id}: not there` }, at, new Set(), 'between'))
  const portAt = new Map<string, string>()
  for (const part of parts)
    for (const { id, endpoint } of part.ports) {
      portAt.set(id, id)
      if (!portAt.has(endpoint)) portAt.set(endpoint, id)
    }
  const lines = wires.map((wire): Line => {
    const asEntered = downwards.get(wire.id)!
    const port = (endpoint: string): string => portAt.get(`${endpoint}/${wire.id}`) ?? portAt.get(endpoint)!
    const [from, to] = asEntered ? [wire.from, wire.to] : [wire.to, wire.from]
    return { id: wire.id, from: port(from), to: port(to), asEntered }
  })
  return { parts, lines }
}

interface Given {
  readonly build: Build
  readonly circuit: string | undefined
  readonly device: Device
  readonly touches: readonly Touch[]
  readonly height: HeightOf
  readonly elsewhere: ReadonlySet<string>
}

const partsOf = (given: Given): Part[] => {
  const { device, touches, elsewhere } = given
  const { spec } = device
  const bar = (id: string, form: Form, at: readonly Touch[], place: Part['place']): Part =>
    block(id, form, device, at, elsewhere, place, true)
  const out = touches.filter(({ leaves }) => leaves)
  const into = touches.filter(({ leaves }) => !leaves)
  switch (spec.kind) {
    case 'splice': {
      const goesOn = Object.keys(device.pins).some((pin) => elsewhere.has(`${device.id}.${pin}`))
      const ends = into.length === 0 || out.length === 0
      if (!goesOn || !ends) return [bar(device.id, 'splice', touches, 'between')]
      const rail = bar(device.id, 'rail', touches, into.length === 0 ? 'first' : 'last')
      return [{ ...rail, ...(into.length === 0 ? terminal(given, touches[0]?.endpoint) : {}) }]
    }
    case 'earth-stud':
      return [bar(device.id, 'earth', touches, out.length === 0 ? 'last' : 'between')]
    case 'battery': {
      const isReturn = ({ endpoint }: Touch): boolean => (given.height(endpoint) ?? 1) < 0.5
      const [up, down] = [touches.filter((touch) => !isReturn(touch)), touches.filter(isReturn)]
      return [
        ...(up.length > 0 || touches.length === 0
          ? [
              {
                ...bar(`${device.id}+`, 'battery', up, up.some(({ leaves }) => !leaves) ? 'between' : 'first'),
                terminal: '30',
              },
            ]
          : []),
        ...(down.length > 0
          ? [
              {
                ...bar(`${device.id}-`, 'battery-return', down, down.some(({ leaves }) => leaves) ? 'between' : 'last'),
                terminal: '31',
              },
            ]
          : []),
      ]
    }
    case 'alternator': {
      const rest = into.length > 0 ? [block(`${device.id}/in`, 'block', device, into, elsewhere, 'between')] : []
      return out.length > 0 || into.length === 0 ? [bar(device.id, 'alternator', out, 'first'), ...rest] : rest
    }
    case 'connector':
      // One way through for each pin: the way out and the way back would else meet in one symbol.
      return [...new Set(touches.map(({ endpoint }) => endpoint))].map((endpoint) => {
        const at = touches.filter((touch) => touch.endpoint === endpoint)
        const made = block(`${device.id}/${pinOf(endpoint)}`, 'connector', device, at, elsewhere, 'between', true)
        return {
          ...made,
          name: Object.keys(device.pins).length > 1 ? `${device.name}: way ${pinOf(endpoint)}` : device.name,
        }
      })
    case 'controller': {
      const isEarth = ({ endpoint }: Touch): boolean => (given.height(endpoint) ?? 1) < 0.1
      const feeds = out.filter((touch) => !isEarth(touch))
      const rest = touches.filter((touch) => !feeds.includes(touch))
      if (feeds.length === 0 || rest.length === 0)
        return [block(device.id, 'block', device, touches, elsewhere, 'between')]
      return [
        block(`${device.id}/out`, 'block', device, feeds, elsewhere, 'between'),
        block(device.id, 'block', device, rest, elsewhere, 'between'),
      ]
    }
    default:
      return [feedOf(given) ?? symbolOf(given)]
  }
}

const terminal = ({ build, height }: Given, endpoint: string | undefined): { terminal?: string } => {
  const number = endpoint === undefined ? undefined : terminalOf(build, endpoint, height)
  return number === undefined ? {} : { terminal: number }
}

/** A thing of another circuit that only feeds this one stands for all that is above it: a rail with its name. */
const feedOf = (given: Given): Part | undefined => {
  const { circuit, device, touches, elsewhere } = given
  if (device.circuit !== undefined && device.circuit === circuit) return undefined
  if (touches.length === 0 || touches.some(({ leaves }) => !leaves)) return undefined
  const here = new Set(touches.map(({ endpoint }) => endpoint))
  if (here.size !== 1) return undefined
  const others = Object.keys(device.pins).map((pin) => `${device.id}.${pin}`)
  if (!others.some((endpoint) => !here.has(endpoint) && elsewhere.has(endpoint))) return undefined
  const [endpoint] = here
  return {
    ...block(device.id, 'rail', device, touches, elsewhere, 'first', true),
    name: `${device.name}: pin ${pinOf(endpoint!)}`,
    ...terminal(given, endpoint),
  }
}

const symbolOf = (given: Given): Part => {
  const { device, touches, height, elsewhere } = given
  const { spec } = device
  const pins = Object.keys(device.pins)
  const fixed = (
    form: Form,
    places: readonly (readonly [string, Side, number])[],
    poles: readonly Pole[] = [],
  ): Part => ({
    id: device.id,
    form,
    device: device.id,
    name: device.name,
    ports: places.map(([pin, side, column]) => port(`${device.id}.${pin}`, side, elsewhere, column)),
    columns: 1 + Math.max(0, ...places.map(([, , column]) => Math.ceil(column))),
    poles,
    place: 'between',
  })
  const isHigher = (a: string, b: string): boolean => {
    const [high, low] = [height(`${device.id}.${a}`), height(`${device.id}.${b}`)]
    if (high !== null && low !== null && Math.abs(high - low) > 1e-9) return high > low
    // Nothing is known of the rest of the car: as the wires here were entered.
    const entersAt = (pin: string): boolean => touches.some((one) => !one.leaves && pinOf(one.endpoint) === pin)
    const leavesAt = (pin: string): boolean => touches.some((one) => one.leaves && pinOf(one.endpoint) === pin)
    return !(leavesAt(a) && !entersAt(a)) && !(entersAt(b) && !leavesAt(b))
  }
  const upright = (form: Form, a: string, b: string): Part =>
    fixed(
      form,
      isHigher(a, b)
        ? [
            [a, 'top', 0],
            [b, 'bottom', 0],
          ]
        : [
            [b, 'top', 0],
            [a, 'bottom', 0],
          ],
    )
  switch (spec.kind) {
    case 'fuse':
    case 'diode':
    case 'resistor':
      if (pins.length === 2) return upright(spec.kind, pins[0]!, pins[1]!)
      break
    case 'relay':
    case 'switch': {
      const poles = polesOf(device, isHigher)
      if (poles) {
        return fixed(
          spec.kind,
          poles.flatMap((pole) => pole.pins),
          poles,
        )
      }
      break
    }
    default: {
      const loads = device.loads ?? []
      // A sensor that makes its own signal sends it out on both pins; a symbol that stands between two does not fit it.
      const alike = touches.length > 1 && loads.length === 0 && new Set(touches.map(({ leaves }) => leaves)).size === 1
      if (pins.length === 2 && loads.length <= 1 && !alike && SYMBOLS.has(spec.kind))
        return upright('load', pins[0]!, pins[1]!)
      if (spec.kind === 'lamp' && loads.length > 1) {
        // Filaments with a common return: a column each.
        const back = [...new Set(loads.map(({ to }) => to))]
        const feeds = [...new Set(loads.map(({ from }) => from))]
        if (back.length === 1 && feeds.length === loads.length && feeds.length + 1 === pins.length)
          return fixed('load', [
            ...feeds.map((pin, column) => [pin, isHigher(pin, back[0]!) ? 'top' : 'bottom', column] as const),
            [back[0]!, isHigher(feeds[0]!, back[0]!) ? 'bottom' : 'top', (feeds.length - 1) / 2],
          ])
      }
    }
  }
  return block(device.id, 'block', device, touches, elsewhere, 'between')
}

/** Kinds that have a symbol for two pins; the others are blocks with named pins. */
const SYMBOLS: ReadonlySet<string> = new Set([
  'lamp',
  'motor',
  'pump',
  'heater',
  'solenoid',
  'injector',
  'coil',
  'sensor',
  'gauge',
  'module',
])

const port = (endpoint: string, side: Side, elsewhere: ReadonlySet<string>, column?: number, wire?: string): Port => ({
  id: wire === undefined ? endpoint : `${endpoint}/${wire}`,
  endpoint,
  pin: pinOf(endpoint),
  side,
  ...(column === undefined ? {} : { column }),
  elsewhere: elsewhere.has(endpoint),
})

/** A bar or box whose ports the layout may put in any order: a port for each pin, or on a bar for each wire. */
const block = (
  id: string,
  form: Form,
  device: { readonly id: string; readonly name: string },
  touches: readonly Touch[],
  elsewhere: ReadonlySet<string>,
  place: Part['place'],
  portPerWire = false,
): Part => {
  const ports = new Map<string, Port>()
  for (const { endpoint, leaves, wire } of touches) {
    const made = port(endpoint, leaves ? 'bottom' : 'top', elsewhere, undefined, portPerWire ? wire.id : undefined)
    if (!ports.has(made.id)) ports.set(made.id, made)
  }
  const list = [...ports.values()].sort((a, b) => naturalOrder(a.id, b.id))
  const widest = Math.max(
    list.filter(({ side }) => side === 'top').length,
    list.filter(({ side }) => side === 'bottom').length,
  )
  return { id, form, device: device.id, name: device.name, ports: list, columns: Math.max(1, widest), poles: [], place }
}
