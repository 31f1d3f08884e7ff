/** What an operating case, with whatever the builder tried on top of it, makes of each thing of a drawing. */
import { deviceIdOf, endpointOf, own } from '../../../assess/make.ts'
import { relayPins } from '../../../assess/pins.ts'
import { chain, type Solved, solveCase } from '../../../assess/solveCases.ts'
import type { Build, Change, Device, OperatingCase, Wire } from '../../../model/build.ts'
import { formatQuantity } from '../../../units/index.ts'

/** Tried, not stored. */
export interface WhatIf {
  readonly switches: Readonly<Record<string, string>>
  readonly outputs: Readonly<Record<string, number>>
}
export const NOTHING_TRIED: WhatIf = { switches: {}, outputs: {} }
export const isTried = ({ switches, outputs }: WhatIf): boolean =>
  Object.keys(switches).length + Object.keys(outputs).length > 0

export const laidOver = (kase: OperatingCase, { switches, outputs }: WhatIf): OperatingCase => ({
  ...kase,
  switches: { ...kase.switches, ...switches },
  outputs: { ...kase.outputs, ...outputs },
})

export interface Live {
  readonly kase: OperatingCase
  readonly solved: Solved
  /** Wires whose own figures are not all known: their current is a guess and not shown. */
  readonly unsure: ReadonlyMap<string, string>
  /** Endpoints that only the inside of a controller could feed: what stands there is not known to be nothing. */
  readonly unmodelled: ReadonlySet<string>
}

export const liveOf = (build: Build, kase: OperatingCase): Live => {
  const solved = solveCase(build, kase)
  const unsure = new Map<string, string>()
  for (const { subject, datum } of solved.missing) {
    const [collection, id] = subject.split('/')
    if (collection === 'wires' && id !== undefined && !unsure.has(id)) unsure.set(id, datum)
  }
  return { kase, solved, unsure, unmodelled: unmodelledOf(build, solved) }
}

/** Endpoints without volts that are tied to a pin of a controller: its supplies and pull-ups are not in the network. */
const unmodelledOf = (build: Build, { solved, voltages, bound, at }: Solved): ReadonlySet<string> => {
  const found = new Set<string>()
  if (!solved) return found
  const queue: string[] = []
  for (const device of Object.values(build.collections.devices))
    if (device.spec.kind === 'controller')
      for (const pin of Object.keys(device.pins)) {
        const endpoint = endpointOf(device.id, pin)
        if (typeof voltages[endpoint] !== 'number') queue.push(bound.nodeOf(endpoint))
      }
  const nodes = new Set(queue)
  for (let node = queue.pop(); node !== undefined; node = queue.pop())
    for (const index of at.get(node) ?? []) {
      const { a, b } = bound.network.elements[index]!
      const next = a === node ? b : a
      if (nodes.has(next)) continue
      nodes.add(next)
      queue.push(next)
    }
  for (const device of Object.values(build.collections.devices))
    for (const pin of Object.keys(device.pins)) {
      const endpoint = endpointOf(device.id, pin)
      if (nodes.has(bound.nodeOf(endpoint)) && typeof voltages[endpoint] !== 'number') found.add(endpoint)
    }
  return found
}

/** Nodes at the same voltage because nothing flows between: what is not known of one is not known of the other. */
const levelWith = ({ elements, nodes, bound, at }: Solved, start: string): readonly string[] => {
  const seen = new Set([start])
  const queue = [start]
  for (let node = queue.pop(); node !== undefined; node = queue.pop())
    for (const index of at.get(node) ?? []) {
      const { id, a, b } = bound.network.elements[index]!
      const next = a === node ? b : a
      const [current, here, there] = [elements.get(id), nodes.get(node), nodes.get(next)]
      if (seen.has(next) || current == null || Math.abs(current) > 1e-4 || here == null || there == null) continue
      if (Math.abs(here - there) > 1e-3) continue
      seen.add(next)
      queue.push(next)
    }
  return [...seen]
}

/** Elements between an endpoint and its source or body that only stand in for a resistance nobody entered. */
const standInsOf = new WeakMap<Live, Map<string, readonly string[]>>()
export const standInsTo = (live: Live, endpoint: string): readonly string[] => {
  const { solved } = live
  const known = standInsOf.get(live) ?? new Map<string, readonly string[]>()
  standInsOf.set(live, known)
  const before = known.get(endpoint)
  if (before) return before
  const volts = solved.voltages[endpoint]
  if (typeof volts !== 'number' || solved.bound.unsure.size === 0) return []
  // On the supply side the drop lies between the source and here, on the return side between here and body.
  const highest = Math.max(...Object.values(solved.voltages).map((one) => Math.abs(one ?? 0)))
  const direction = Math.abs(volts) > highest / 2 ? 'up' : 'down'
  const found = [
    ...new Set(
      levelWith(solved, solved.bound.nodeOf(endpoint)).flatMap((node) =>
        chain(solved, node, direction).flatMap(({ element }) => (solved.bound.unsure.has(element) ? [element] : [])),
      ),
    ),
  ]
  known.set(endpoint, found)
  return found
}

export const voltsAtText = (live: Live, endpoint: string): string =>
  standInsTo(live, endpoint).length > 0
    ? 'unknown'
    : voltsText(live.solved.voltages[endpoint], live.solved.solved && !live.unmodelled.has(endpoint))

export const positionOf = (device: Device, { kase }: Pick<Live, 'kase'>): string | undefined =>
  device.spec.kind === 'switch' ? (own(kase.switches, device.id) ?? device.spec.rest) : undefined

/** The next position round, as a knob is turned. */
export const nextPosition = (device: Device, live: Live): string | undefined => {
  if (device.spec.kind !== 'switch') return undefined
  const positions = Object.keys(device.spec.positions)
  return positions[(positions.indexOf(positionOf(device, live) ?? '') + 1) % positions.length]
}

export type Contact = 'closed' | 'open' | 'unknown'

/** Whether the coil of a relay holds, by the solved voltage; the solver starts a relay at rest. */
export const isPulledIn = (device: Device, live: Live): boolean | undefined => {
  const { solved } = live
  if (device.spec.kind !== 'relay' || !solved.solved) return undefined
  const { coil, make, break: rest } = relayPins(device)
  const [pullIn, dropOut] = [device.spec.pullIn?.value, device.spec.dropOut?.value]
  if (pullIn === undefined || device.spec.coilResistance === undefined) return undefined
  if (solved.oscillating.some((id) => id.startsWith(`${device.id}#`))) return undefined
  const [a, b] = coil.map((pin) => (pin === undefined ? null : solved.voltages[endpointOf(device.id, pin)]))
  if (coil.some((pin) => pin !== undefined && standInsTo(live, endpointOf(device.id, pin)).length > 0)) return undefined
  // A coil with one end in the air has no volts across it.
  if (typeof a !== 'number' || typeof b !== 'number') return false
  const across = Math.abs(a - b)
  if (across >= pullIn) return true
  // Between the two the contact stays where it was: its current tells.
  if (across < (dropOut ?? 0.3 * pullIn)) return false
  const carries = (pin: string | undefined): boolean =>
    pin !== undefined && Math.abs(solved.elements.get(`${device.id}#${pin}`) ?? 0) > 0
  return carries(make) && !carries(rest)
}

export const contactState = (device: Device, common: string, pin: string, live: Live): Contact => {
  if (device.spec.kind === 'switch') {
    const pairs = own(device.spec.positions, positionOf(device, live) ?? '') ?? []
    return pairs.some((pair) => pair.includes(common) && pair.includes(pin)) ? 'closed' : 'open'
  }
  const held = isPulledIn(device, live)
  if (held === undefined) return 'unknown'
  return held === (pin === relayPins(device).make) ? 'closed' : 'open'
}

const NARROW_SPACE = '\u202f'
const nought = (unit: string): string => `0${NARROW_SPACE}${unit}`

export const voltsText = (value: number | null | undefined, solved: boolean): string => {
  if (value === null || value === undefined) return solved ? 'floating' : 'unknown'
  if (Math.abs(value) < 5e-4) return nought('V')
  // Lost earths show in millivolts; above a volt a hundredth is enough.
  const text =
    Math.abs(value) < 0.9995 ? `${(value * 1e3).toFixed(0)}${NARROW_SPACE}mV` : `${value.toFixed(2)}${NARROW_SPACE}V`
  return text.replace('-', '−')
}
export const ampsText = (value: number | null | undefined): string => {
  if (value === null || value === undefined) return 'unknown'
  const size = Math.abs(value)
  if (size < 5e-5) return nought('A')
  return size < 1
    ? formatQuantity('current', size, { unit: 'mA', digits: size < 1e-2 ? 2 : 3 })
    : formatQuantity('current', size, { unit: 'A', digits: 3 })
}

export interface WireFigures {
  /** A, positive from the wire's `from` to its `to`; null: not known. */
  readonly current: number | null
  readonly amps: string
  readonly temperature: string | undefined
  /** Why not known. */
  readonly missing: string | undefined
}
export const wireFigures = ({ solved, unsure, unmodelled }: Live, { id: wire, from, to }: Wire): WireFigures => {
  const missing = unsure.get(wire)
  const isHidden = unmodelled.has(from) || unmodelled.has(to)
  const current = missing === undefined && !isHidden ? (solved.currents[wire] ?? null) : null
  const kelvin = Object.hasOwn(solved.temperatures, wire) ? solved.temperatures[wire] : undefined
  return {
    current,
    amps: current === null ? 'A unknown' : ampsText(current),
    temperature:
      kelvin === undefined ? undefined : `${(kelvin - 273.15).toFixed(0)}${NARROW_SPACE}°C`.replace('-', '−'),
    missing,
  }
}

/** The tried case as one of its own: loads that run only in named cases run in it as in the one it came from. */
export const caseFromTried = (build: Build, kase: OperatingCase, tried: WhatIf, name: string): readonly Change[] => {
  let number = 1
  const base = kase.id.slice(0, 40)
  while (Object.hasOwn(build.collections.cases, `${base}-${number}`)) number++
  const id = `${base}-${number}`
  const followers = Object.values(build.collections.devices).filter(
    (device) => device.restricted === undefined && device.loads?.some(({ onlyIn }) => onlyIn?.includes(kase.id)),
  )
  return [
    { collection: 'cases', id, value: { ...laidOver(kase, tried), id, name } },
    ...followers.map(
      (device): Change => ({
        collection: 'devices',
        id: device.id,
        value: {
          ...device,
          loads: device.loads!.map((load) =>
            load.onlyIn?.includes(kase.id) ? { ...load, onlyIn: [...load.onlyIn, id] } : load,
          ),
        },
      }),
    ),
  ]
}

/** Switches and controller outputs whose state can change something in a circuit: all of the build, its own first. */
export const leversOf = (
  build: Build,
  wires: readonly { readonly from: string; readonly to: string }[],
): {
  readonly switches: readonly Device[]
  readonly outputs: readonly Build['collections']['outputs'][string][]
  readonly isOwn: (device: string, pin?: string) => boolean
} => {
  const endpoints = new Set(wires.flatMap(({ from, to }) => [from, to]))
  const devices = new Set([...endpoints].map(deviceIdOf))
  const isOwn = (device: string, pin?: string): boolean =>
    pin === undefined ? devices.has(device) : endpoints.has(endpointOf(device, pin))
  return {
    switches: Object.values(build.collections.devices).filter(({ spec }) => spec.kind === 'switch'),
    outputs: Object.values(build.collections.outputs),
    isOwn,
  }
}
