/** What patterns are made of: lamps, motors, contacts, and the load behind a fused relay. */

import type { Device } from '../../model/build.ts'
import { slug } from '../../model/newId.ts'
import { loadCurrent, loadInrush } from '../sizing/loadCurrent.ts'
import type { Answers } from './answers.ts'
import { type Colours, fuseOhm, type Pen, RELAY_OHM, SWITCH_OHM } from './pen.ts'

export type Load = NonNullable<Device['loads']>[number]
type Law = NonNullable<Load['law']>

/** V of the system that a drop limit is a share of. */
const NOMINAL = 12
/** Coil of 85 Ω at 14.4 V, rounded up. */
export const COIL_CURRENT = 0.2
export const NEEDS = { lamp: 10.5, motor: 10, coil: 8, electronics: 6.5 } as const

export const dropLimit = (answers: Answers): number => answers.quantity('ratio', 'drop').value * NOMINAL

export const lampLaw = (answers: Answers, name: string): Law => ({
  type: 'lamp',
  ratedVoltage: { value: 12, unit: 'V' },
  ratedPower: answers.quantity('power', name),
})
export const motorLaw = (answers: Answers): Law => ({
  type: 'motor',
  ratedVoltage: { value: 13, unit: 'V' },
  runningCurrent: answers.quantity('current', 'running'),
  stallCurrent: answers.quantity('current', 'stall'),
})
export const resistanceLaw = (value: number): Law => ({ type: 'resistance', resistance: { value, unit: 'Ω' } })
export const load = (id: string, from: string, to: string, law: Law, needs?: number): Load => ({
  id,
  from,
  to,
  law,
  ...(needs === undefined ? {} : { needs: { value: needs, unit: 'V' } }),
})

/** Filament lamp between + and −. */
export const lamp = (pen: Pen, id: string, name: string, at: string, law: Law): string =>
  pen.device(
    id,
    name,
    at,
    { kind: 'lamp' },
    { '+': '', '-': '' },
    { loads: [load('filament', '+', '-', law, NEEDS.lamp)] },
  )

/** A switch; its pins are those that its positions join, and it rests at the first. */
export const contact = (
  pen: Pen,
  id: string,
  name: string,
  at: string,
  positions: Readonly<Record<string, readonly (readonly [string, string])[]>>,
): string =>
  pen.device(
    id,
    name,
    at,
    {
      kind: 'switch',
      positions: Object.fromEntries(
        Object.entries(positions).map(([position, pairs]) => [
          position,
          pairs.map(([a, b]) => [a, b] as [string, string]),
        ]),
      ),
      rest: Object.keys(positions)[0]!,
      contactResistance: { value: SWITCH_OHM, unit: 'Ω' },
    },
    Object.fromEntries(
      Object.values(positions)
        .flat(2)
        .map((pin) => [pin, '']),
    ),
  )

/** What all of them draw together, and together at the start. */
export const total = (pen: Pen, laws: readonly Law[]) => {
  const peaks = laws.flatMap((law) => {
    const peak = loadInrush(law, pen.chargeVolts)
    return peak ? [peak] : []
  })
  return {
    current: laws.reduce((sum, law) => sum + loadCurrent(law, pen.chargeVolts), 0),
    ...(peaks.length === 0
      ? {}
      : {
          inrush: {
            current: peaks.reduce((sum, peak) => sum + peak.current, 0),
            time: Math.max(...peaks.map(({ time }) => time)),
          },
        }),
  }
}
export const stallOf = (law: Law): number | undefined => (law.type === 'motor' ? law.stallCurrent.value : undefined)

export interface Relayed {
  readonly id: string
  readonly name: string
  readonly feed: string
  readonly box: string | undefined
  readonly law: Law
  /** Terminals of the load. */
  readonly plus: string
  readonly minus: string
  readonly earth: string
  readonly limit: number
  readonly colours: Colours
  /** Wires from the relay to the load, when more lies between than one wire; gives those of the way. */
  readonly between?: (from: string, fuse: string) => readonly string[]
}

export interface FusedRelay {
  readonly fuse: string
  readonly relay: string
  /** From fuse to relay. */
  readonly wire: string
  readonly ohm: number
}
/** Fuse and relay for a load; the coil (86 +, 85 −) is left to whoever drives it. */
export const fusedRelay = (
  pen: Pen,
  it: { readonly id: string; readonly name: string; readonly feed: string; readonly box: string | undefined },
  draws: ReturnType<typeof total>,
  stall?: number,
): FusedRelay => {
  const fuse = pen.fuse(`fuse-${it.id}`, it.name, it.feed, it.box, draws)
  const relay = pen.relay(`${it.id}-relay`, `${it.name} relay`, pen.at(`${fuse}.2`))
  const wire = pen.wire(`${fuse}.2`, `${relay}.30`, 'RD', draws.current, { behind: fuse, stall })
  pen.say(
    `${relay}: the switch or controller carries only its coil (85 Ω, ${(pen.chargeVolts / 85).toFixed(2)} A), the contact the load of ${draws.current.toFixed(1)} A; choose one rated well above that. Its coil has a resistor across it, so that what drives it sees no high voltage. Coil and contact figures are common practice: enter those of your relay.`,
  )
  return { fuse, relay, wire, ohm: fuseOhm(pen, fuse) + RELAY_OHM }
}

/** Fuse, relay, one load and its earth. */
export const relayed = (pen: Pen, it: Relayed): FusedRelay => {
  const draws = total(pen, [it.law])
  const stall = stallOf(it.law)
  const made = fusedRelay(pen, it, draws, stall)
  const between = it.between?.(`${made.relay}.87`, made.fuse)
  pen.way(
    it.limit,
    [
      made.wire,
      ...(between ?? [pen.wire(`${made.relay}.87`, it.plus, it.colours, draws.current, { behind: made.fuse, stall })]),
      // A fault inside the load puts the fuse’s current into its earth wire too.
      pen.wire(it.minus, it.earth, 'BN', draws.current, { behind: made.fuse, stall }),
    ],
    draws.current,
    made.ohm,
  )
  return made
}

/** A small fuse for coils and the like, on a rail whose own fuse is far too large for thin wire. */
export const coilFuse = (pen: Pen, id: string, name: string, feed: string, at: string, coils = 1): string =>
  pen.fuse(`fuse-${id}`, name, feed, at, { current: COIL_CURRENT * coils }, 'BK')

/** A coil fed from its own circuit's fuse and pulled to earth by a low-side output of the controller. */
export const drivenCoil = (
  pen: Pen,
  it: {
    relay: string
    name: string
    from: string
    behind: string | undefined
    controller: string
    pin: string
    id: string
  },
): string => {
  pen.wire(it.from, `${it.relay}.86`, 'RD/GN', COIL_CURRENT, it.behind === undefined ? {} : { behind: it.behind })
  pen.wire(`${it.relay}.85`, `${it.controller}.${it.pin}`, 'BN/GN', COIL_CURRENT)
  return output(pen, { id: it.id, name: it.name, controller: it.controller, pin: it.pin, drives: it.relay })
}

/** A low-side output; one that the build already has at that pin is taken over, not doubled. */
export const output = (
  pen: Pen,
  it: {
    id: string
    name: string
    controller: string
    pin: string
    drives: string
    driver?: 'low side' | 'half bridge' | 'logic'
    modulated?: boolean
  },
): string => {
  const there = Object.values(pen.build.collections.outputs).find(
    ({ device, pin }) => device === it.controller && pin === it.pin,
  )
  if (there) {
    pen.say(`Output ${there.id} (${there.name}) of pin ${it.pin} is taken over and now drives ${it.drives}.`)
    return pen.replace('outputs', { ...there, drives: it.drives, configured: true })
  }
  return pen.put('outputs', {
    id: it.id,
    name: it.name,
    device: it.controller,
    pin: it.pin,
    driver: it.driver ?? 'low side',
    drives: it.drives,
    configured: true,
    ...(it.modulated === undefined ? {} : { modulated: it.modulated }),
  })
}
/** An input; one that the build already has at that pin is taken over. */
export const input = (
  pen: Pen,
  it: {
    id: string
    name: string
    controller: string
    pin: string
    source?: string
    signal: 'voltage' | 'resistance' | 'frequency' | 'switch' | 'digital bus' | 'lambda cell'
    pullUp?: number
  },
): string => {
  const there = Object.values(pen.build.collections.inputs).find(
    ({ device, pin }) => device === it.controller && pin === it.pin,
  )
  if (there) {
    pen.say(`Input ${there.id} (${there.name}) of pin ${it.pin} is taken over and now reads ${it.source ?? it.name}.`)
    return pen.replace('inputs', {
      ...there,
      ...(it.source === undefined ? {} : { source: it.source }),
      configured: true,
    })
  }
  return pen.put('inputs', {
    id: it.id,
    name: it.name,
    device: it.controller,
    pin: it.pin,
    signal: it.signal,
    ...(it.source === undefined ? {} : { source: it.source }),
    configured: true,
    ...(it.pullUp === undefined ? {} : { pullUp: { value: it.pullUp, unit: 'Ω' } }),
  })
}

/** Short: its pins and fuse are named after it. */
export const stemOf = (name: string): string => slug(name, 'load', 24)
