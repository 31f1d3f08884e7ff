/** Rule `strap-open`: each engine and body strap opened in turn, cranking and at full load; what then carries its current. */
import type { NetworkSolution } from '../../engineering/electrical/network/network.ts'
import { capacity } from '../conductorRules.ts'
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import {
  amps,
  BATTERY_CAUTION,
  deviceIdOf,
  deviceName,
  deviceZone,
  endpointOf,
  finding,
  list,
  own,
  restrictedDevice,
  restrictedWire,
  squareMillimetres,
  wireName,
} from '../make.ts'
import { hiddenDraws, type Solved } from '../solveCases.ts'
import { CLASS_TEMPERATURE, conductorFacts, hottestZone } from '../wireData.ts'
import { screenElement, withOpen } from './resolve.ts'
import { speedShare, starterMotors } from './starterTurns.ts'
import { type Strap, strapsOf } from './strapsOf.ts'

/** A: from here on a thing's share of a strap's current is told. Common practice, no published source. */
const TOLD = { incidental: 1, screen: 0.1, sensor: 0.05 } as const
const TOLD_WORDS =
  'Told from 1 A in metal not meant to carry current, 0.1 A in a screen, 0.05 A in a sensor wire, and from what its class allows in any other wire: common practice, no published source.'

export interface Bearer {
  readonly id: string
  /** As a person knows it. */
  readonly name: string
  readonly what: 'incidental' | 'screen' | 'sensor' | 'wire'
  readonly current: number
  /** A that it carries; undefined: not meant to carry any, or not known. */
  readonly carries?: number
}

/** What may bear a strap's current, and how much of it is too much. Made once for all straps. */
const bearers = ({ build }: Context) => {
  const { wires, devices } = build.collections
  // A heater inside a sensor draws its own current; its pins are no signal's.
  const signals = new Set(
    Object.values(devices).flatMap(({ id, spec, pins, loads }) =>
      spec.kind !== 'sensor'
        ? []
        : Object.keys(pins)
            .filter((pin) => !loads?.some(({ from, to }) => pin === from || pin === to))
            .map((pin) => endpointOf(id, pin)),
    ),
  )
  const list: { element: string; bearer: Omit<Bearer, 'current'>; limit: number | undefined }[] = []
  for (const device of Object.values(devices))
    if (device.notForCurrent && !restrictedDevice(build, device.id))
      list.push({
        element: device.id,
        bearer: { id: `devices/${device.id}`, name: device.name, what: 'incidental' },
        limit: TOLD.incidental,
      })
  for (const wire of Object.values(wires)) {
    if (restrictedWire(build, wire.id)) continue
    if (wire.screenEarths && wire.screenEarths.length > 1)
      list.push({
        element: screenElement(wire.id),
        bearer: { id: `wires/${wire.id}`, name: `the screen of ${wire.id}`, what: 'screen' },
        limit: TOLD.screen,
      })
    const sensor = signals.has(wire.from) || signals.has(wire.to)
    // The ends of a throttle cable are told with the cable.
    const ends = [wire.from, wire.to].some((end) => own(devices, deviceIdOf(end))?.notForCurrent)
    if (ends) continue
    const facts = conductorFacts(wire)
    const carries =
      facts && wire.insulation
        ? capacity(facts, CLASS_TEMPERATURE[wire.insulation], hottestZone(build, wire)?.ambient ?? 293.15)
        : undefined
    const what = wire.notForCurrent ? 'incidental' : sensor ? 'sensor' : 'wire'
    list.push({
      element: `wire:${wire.id}`,
      bearer: {
        id: `wires/${wire.id}`,
        name: wire.remark && wire.notForCurrent ? `${wire.id} (${wire.remark})` : wireName(build, wire.id),
        what,
        ...(what === 'wire' && carries !== undefined ? { carries } : {}),
      },
      limit: what === 'wire' ? carries : TOLD[what],
    })
  }
  return list
}

const borne = (
  all: ReturnType<typeof bearers>,
  opened: NetworkSolution,
  before: ReadonlyMap<string, number | null>,
): Bearer[] =>
  all
    .flatMap(({ element, bearer, limit }): Bearer[] => {
      const current = Math.abs(opened.currents.get(element) ?? 0)
      const was = Math.abs(before.get(element) ?? 0)
      if (limit === undefined || current <= limit || current < was + Math.min(limit, 1) / 2) return []
      return [{ ...bearer, current }]
    })
    .sort((a, b) => ORDER.indexOf(a.what) - ORDER.indexOf(b.what) || b.current - a.current)
/** Wires that take on an ampere or more and whose own limit is not entered. */
const unknownBearers = (
  all: ReturnType<typeof bearers>,
  opened: NetworkSolution,
  before: ReadonlyMap<string, number | null>,
): string[] =>
  all.flatMap(({ element, bearer, limit }) =>
    limit === undefined &&
    Math.abs(opened.currents.get(element) ?? 0) > Math.abs(before.get(element) ?? 0) + TOLD.incidental
      ? [`cross-section, material and insulation class of ${bearer.id.slice('wires/'.length)}`]
      : [],
  )
const ORDER: readonly Bearer['what'][] = ['incidental', 'screen', 'sensor', 'wire']

/** Below this share of its speed at rated volts a starter turns no engine. Common practice, no published source. */
const CREEPS = 0.1
const stillCranks = (opened: NetworkSolution, solved: Solved): boolean | undefined => {
  const motors = starterMotors(solved.bound)
  return motors.length === 0 ? undefined : motors.some((motor) => speedShare(motor, opened) > CREEPS)
}

const carriesWords = ({ what, carries }: Bearer): string =>
  what === 'wire' ? (carries === undefined ? '' : ` (it carries ${amps(carries)})`) : ' (it is not meant to carry any)'

export const strapFindings = (context: Context): Finding[] => {
  const { cases } = context
  const heavy = cases.filter(
    ({ solved, kase }) =>
      solved &&
      (kase.engine === 'cranking' || kase.engine === 'full load') &&
      !kase.supply &&
      kase.battery === 'connected',
  )
  if (heavy.length === 0) return []
  const straps = strapsOf(context)
  if (straps.length === 0) return []
  const all = bearers(context)
  return straps.flatMap((strap) => {
    const found = judge(context, strap, straps, heavy, all)
    return found ? [found] : []
  })
}

const judge = (
  { build }: Context,
  { wire, joins }: Strap,
  straps: readonly Strap[],
  heavy: readonly Solved[],
  all: ReturnType<typeof bearers>,
): Finding | undefined => {
  const told: string[] = []
  const working: string[] = []
  const unjudged = new Set<string>()
  let worst: Bearer | undefined
  for (const solved of heavy) {
    const carried = Math.abs(solved.elements.get(`wire:${wire.id}`) ?? 0)
    const opened = carried < 1 ? undefined : withOpen(build, solved, [`wire:${wire.id}`])
    if (!opened) continue
    const bears = borne(all, opened, solved.elements)
    for (const each of unknownBearers(all, opened, solved.elements)) unjudged.add(each)
    for (const { subject, datum } of hiddenDraws({ missing: solved.missing, nodes: opened.voltages }))
      unjudged.add(`${datum} of ${deviceName(build, subject.slice('devices/'.length))}`)
    const cranks = stillCranks(opened, solved)
    working.push(
      `${wire.id} carries ${amps(carried)} in “${solved.kase.name}”; opened and solved again: ${bears.length === 0 ? 'nothing carries more than it may' : bears.map((each) => `${each.name} ${amps(each.current)}${carriesWords(each)}`).join('; ')}${cranks === false ? '; the starter does not turn' : ''}`,
    )
    if (bears.length === 0) continue
    worst ??= bears[0]
    told.push(
      `in “${solved.kase.name}” ${list(bears.slice(0, 4).map((each) => `${each.name} ${amps(each.current)}${carriesWords(each)}`))}${bears.length > 4 ? ` and ${bears.length - 4} more` : ''}`,
    )
  }
  if (working.length === 0) return undefined
  const others = straps.filter((each) => each.wire.id !== wire.id && joins.every((metal) => each.joins.includes(metal)))
  const about = wireName(build, wire.id)
  if (!worst && unjudged.size > 0) {
    const missing = list([...unjudged].slice(0, 4))
    return finding({
      rule: 'strap-open',
      verdict: 'unknown',
      system: 'electrical',
      subject: `wires/${wire.id}`,
      about,
      zone: deviceZone(build, deviceIdOf(wire.to)),
      says: `What carries the current of ${about}, ${joins.join(' to ')}, should it break, cannot be judged without the ${missing}.`,
      todo: `Enter the ${missing}.`,
      missing,
      working,
    })
  }
  return finding({
    rule: 'strap-open',
    verdict: worst ? 'marginal' : 'sound',
    system: 'electrical',
    subject: `wires/${wire.id}`,
    about,
    zone: deviceZone(build, deviceIdOf(wire.to)),
    says: worst
      ? `Should ${about}, ${joins.join(' to ')}, break or work loose, its current goes elsewhere: ${told.join('; ')}.`
      : `Should ${about}, ${joins.join(' to ')}, break or work loose, nothing else carries more than it may.`,
    todo: worst
      ? `Fit a second strap${wire.area ? ` of ${squareMillimetres(Math.max(wire.area.value, 16e-6))}` : ''}, ${joins.join(' to ')}, apart from ${wire.id}${worst.what === 'screen' ? ', and free one end of that screen' : ''}.`
      : 'Nothing.',
    working: [
      ...working,
      others.length === 0
        ? `No other strap joins ${joins.join(' and ')} directly.`
        : `Beside it: ${others.map((each) => each.wire.id).join(', ')}.`,
      `${TOLD_WORDS} Steady capacity at the insulation’s class; cranking lasts seconds, so a wire may bear more for one start than it does for good.`,
    ],
    cautions: [BATTERY_CAUTION],
  })
}
