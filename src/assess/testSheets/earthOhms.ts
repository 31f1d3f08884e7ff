/**
 * What ohms tell of an earth, and what they do not. With an earth open the meter still finds a way: through the filaments
 * of lamps, cold, to another earth. And a joint that takes a tenth of a volt from every ampere is far below what two
 * leads and a hand meter show.
 *
 * "The best method of checking ground circuits is to measure the circuit voltage drop"; an ohmmeter's resolution of about
 * 0.1 Ω limits it to circuits of less than about 5 A (Ford and Lincoln service text, 2012–2013, "Checking
 * Ground-Providing Circuits"; read). More than 0.2 V lost in an earth under load wants looking into (a parts maker's text
 * on blower motors; read).
 */
import {
  type Network,
  type NetworkElement,
  type NetworkSolution,
  prepare,
} from '../../engineering/electrical/network/network.ts'
import type { Build } from '../../model/build.ts'
import { BODY, ENGINE } from '../circuit.ts'
import { deadNetwork } from '../faults/otherReadings.ts'
import { own } from '../make.ts'
import { METER, METER_EMF, METER_OHM, ohmsOf } from './expect.ts'
import { figureOf } from './figures.ts'
import type { Expectation } from './types.ts'

/** V lost under load from which an earth wants looking into. */
const HARM = 0.2
/** Share of the meter's current from which a piece is the earth's own, and not one of several ways. */
const MOST = 0.5
/** Share from which a piece is worth naming: lamps lie beside one another. */
const SOME = 0.1

export interface IfOpen {
  readonly ohm: number
  /** How the meter's current gets round it, in words. */
  readonly by: string
}

/**
 * What a meter shows between two points of the dead car with one piece of the earth open, the least of all; no way left:
 * ∞. The pieces are those between the point and the metal of body or engine; what lies beyond is another earth's.
 */
export const ifEarthOpens = (
  build: Build,
  network: Network,
  a: string,
  b: string,
  without: ReadonlySet<string> = new Set(),
): IfOpen => {
  const elements: NetworkElement[] = [
    ...deadNetwork(network).filter(({ id }) => !without.has(id)),
    { type: 'battery', id: METER_ID, a, b, emf: METER_EMF, internalResistance: METER_OHM },
  ]
  const solveWithout = (open: string | undefined) =>
    prepare({ reference: b, elements: elements.filter(({ id }) => id !== open) }).solve()
  let least: IfOpen = { ohm: Number.POSITIVE_INFINITY, by: '' }
  for (const { id } of piecesOf(elements, carrying(elements, solveWithout(undefined)), a)) {
    const solution = solveWithout(id)
    const ohm = ohmsOf(solution.voltages.get(a) ?? undefined)
    if (ohm < least.ohm) least = { ohm, by: roundabout(build, carrying(elements, solution, SOME)) }
  }
  return least
}

const METER_ID = 'meter:'

/** What carries most of the meter's current, or another share of it. */
const carrying = (
  elements: readonly NetworkElement[],
  { currents }: NetworkSolution,
  share = MOST,
): NetworkElement[] => {
  const whole = Math.abs(currents.get(METER_ID) ?? 0)
  return elements.filter(({ id }) => id !== METER_ID && Math.abs(currents.get(id) ?? 0) > share * whole)
}

/** Of the way, what comes before the body or engine. */
const piecesOf = (
  elements: readonly NetworkElement[],
  way: readonly NetworkElement[],
  from: string,
): NetworkElement[] => {
  const seen = new Set([from])
  for (const here of seen) {
    if (here === BODY || here === ENGINE) continue
    for (const { a, b } of way) if (a === here || b === here) seen.add(a === here ? b : a)
  }
  const before = new Set([...seen].filter((node) => node !== BODY && node !== ENGINE))
  return elements.filter((element) => way.includes(element) && (before.has(element.a) || before.has(element.b)))
}

const roundabout = (build: Build, way: readonly NetworkElement[]): string => {
  const devices = way.flatMap(({ id }) => own(build.collections.devices, id.split('#')[0]!) ?? [])
  if (devices.some(({ spec }) => spec.kind === 'lamp')) return 'through the filaments of lamps'
  const through = devices.find(({ spec }) => !['earth-stud', 'splice', 'connector'].includes(spec.kind))
  return through ? `by way of ${through.name}` : 'by other earths'
}

/** An earth that is not on the sheet in ohms. */
export interface BlindEarth {
  readonly says: string
  readonly most: number
  readonly ifOpen: IfOpen
  /** What tells instead, as a sentence. */
  readonly tells: string
}

/** Why they are not on the sheet: a sentence for those that the same thing proves. */
export const blindSays = (earths: readonly BlindEarth[]): string[] =>
  [...new Set(earths.map(({ tells }) => tells))].map((tells) => {
    const these = earths.filter((earth) => earth.tells === tells)
    const each = these.map(({ says, ifOpen }) => `${says} (open ${figureOf(ifOpen.ohm, 'ohms')}, ${ifOpen.by})`)
    const most = Math.max(...these.map((earth) => earth.most))
    return `Not proved in ohms: ${each.join('; ')}. Sound, a meter shows up to ${figureOf(most, 'ohms')} there for its leads, which is no telling. ${tells}`
  })

/** An open earth might read as a sound one does, within what meter and leads leave to both. */
export const isBlind = ({ most }: Pick<Expectation, 'most'>, { ohm }: IfOpen): boolean =>
  ohm * (1 - METER.ohms.relative) - METER.ohms.absolute <= most

/** Ω that lose too much at so many amperes, where no hand meter shows so few; undefined: it would show them. */
export const unseenOhms = ({ value, most }: Expectation, amps: number): number | undefined => {
  const harm = HARM / Math.abs(amps)
  return (value ?? 0) + harm - METER.ohms.absolute <= most ? harm : undefined
}
