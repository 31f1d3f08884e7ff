/** Rules on raised earths and on what they do to sensors. One finding a cause: the conductor that loses the volts. */
import type { Wire } from '../../model/build.ts'
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
  squareMillimetres,
  volts,
  wireName,
} from '../make.ts'
import { batteryPins } from '../pins.ts'
import { landedSensors } from '../signalRules.ts'
import type { Solved, Step } from '../solveCases.ts'
import { thicker } from '../voltageRemedy.ts'
import { earthsOf } from './raised.ts'
import { limitsOf, sensorErrorsOf, sensorGaps } from './sensorError.ts'
import { STRAY, type Stray, strayCurrents } from './strayCurrents.ts'

/** V, earth side while cranking: a battery-tester manual (read, easymanua.ls auto-meter/sb-5 page 15). */
const CRANKING_LIMIT = 0.3
/** V, high-current connection: repair manual on voltage drop (read, manualshive.com page 967), twice over: post to stud and stud to metal. */
const RUNNING_LIMIT = 0.2
/** Of the limit. Common practice, no published source. */
const NO_GO_FROM = 3
const LIMITS =
  'Limits: 0.3 V on the earth side while cranking (battery-tester manual, read); else 0.2 V, two high-current connections of 0.1 V (repair manual on voltage drop, read).'

/** What hands its current to an earth rather than being part of one. */
const isReturned = (bound: Solved['bound'], id: string): boolean =>
  bound.loads.has(id) || id.startsWith('output:') || /#(coil|solenoid|rotor|lamp)$/.test(id)

/** The wire that loses most between an earth point and the battery's negative post, where the walk ends. */
const culprit = (
  { build }: Context,
  { bound, at, elements, nodes }: Solved,
  endpoint: string,
  raised: number,
): Step | undefined => {
  const ends = new Set(
    Object.values(build.collections.devices).flatMap((device) => {
      const negative = device.spec.kind === 'battery' ? batteryPins(device).negative : undefined
      return negative === undefined ? [] : [bound.nodeOf(endpointOf(device.id, negative))]
    }),
  )
  const start = bound.nodeOf(endpoint)
  const seen = new Set([start])
  const queue = [start]
  let worst: Step | undefined
  for (let here = queue.shift(); here !== undefined; here = queue.shift()) {
    if (ends.has(here)) continue
    for (const index of at.get(here) ?? []) {
      const element = bound.network.elements[index]!
      const current = elements.get(element.id)
      if (element.type !== 'resistor' || isReturned(bound, element.id) || current == null) continue
      const out = element.a === here ? current : -current
      // Volts above the post drive current to it, volts below are driven by current from it.
      if ((raised > 0 ? out : -out) < 1e-3) continue
      const other = element.a === here ? element.b : element.a
      if (seen.has(other)) continue
      seen.add(other)
      queue.push(other)
      const drop = Math.abs((nodes.get(element.a) ?? 0) - (nodes.get(element.b) ?? 0))
      if (element.id.startsWith('wire:') && drop > (worst?.drop ?? 0))
        worst = { element: element.id, drop, current: Math.abs(current) }
    }
  }
  return worst
}

/** Ω of a crimp where none is entered; as the network takes it. Common practice, no published source. */
const CRIMP = 1e-3

/** V of a conductor's drop that rest on joints nobody entered. */
const assumedDrop = (wire: Wire | undefined, current: number): number =>
  current * CRIMP * (['from', 'to'] as const).filter((end) => !wire?.ends?.[end]).length

export const raisedEarthFindings = (context: Context): Finding[] => {
  const { build, cases } = context
  const causes = new Map<string, { step: Step; raised: number; over: number; solved: Solved; points: Set<string> }>()
  for (const row of earthsOf(context)) {
    const solved = cases.find((each) => each.case === row.case)
    if (!solved || row.raised === null || row.endpoint === null || solved.kase.supply) continue
    const limit = solved.kase.engine === 'cranking' ? CRANKING_LIMIT : RUNNING_LIMIT
    const over = Math.abs(row.raised) / limit
    if (over <= 1) continue
    const step = culprit(context, solved, row.endpoint, row.raised)
    if (!step) continue
    const at = causes.get(step.element)
    const points = at?.points ?? new Set<string>()
    points.add(row.name)
    if (!at || over > at.over) causes.set(step.element, { step, raised: row.raised, over, solved, points })
  }
  const errors = sensorErrorsOf(context)
  const strays = strayCurrents(context)
  const raisedFindings = [...causes.values()].map(({ step, raised, solved, points, over }): Finding => {
    const wire = step.element.slice('wire:'.length)
    const about = wireName(build, wire)
    const limit = Math.abs(raised) / over
    // What crosses three times the limit by joints that are only assumed is not known to.
    const sure = (Math.abs(raised) - assumedDrop(own(build.collections.wires, wire), step.current)) / limit > NO_GO_FROM
    const beside = strays
      .filter(({ cause }) => cause?.wire.id === wire)
      .map(
        ({ name, current, solved: where }) =>
          `${name} carries ${amps(current)} of it in “${where.kase.name}” and is not meant to carry any`,
      )
    const worse = errors
      .filter(({ case: id, error }) => id === solved.case && error !== null && error !== 0)
      .slice(0, 3)
      .map(({ device, words }) => `${deviceName(build, device)} ${words}`)
    return finding({
      rule: 'raised-earth',
      verdict: sure ? 'no-go' : 'marginal',
      system: 'electrical',
      subject: `wires/${wire}`,
      about,
      zone: deviceZone(build, deviceIdOf(own(build.collections.wires, wire)?.to ?? '')),
      says: `${about} loses ${volts(step.drop)} at ${amps(step.current)} in “${solved.kase.name}”: ${list([...points].slice(0, 4))} ${points.size === 1 ? 'stands' : 'stand'} up to ${volts(Math.abs(raised))} ${raised > 0 ? 'above' : 'below'} the battery’s negative post${worse.length === 0 ? '' : `; sensors that return elsewhere than their controller are off: ${list(worse)}`}${beside.length === 0 ? '' : `; ${list(beside)}`}.`,
      todo: thicker(build, step, Math.max(0.01, step.drop - limit * 0.8)),
      working: [
        `U = U(earth point) − U(battery −), solved over the whole network in “${solved.kase.name}”: ${volts(raised)}; limit ${volts(limit)}`,
        `${wire}: ${volts(step.drop)} at ${amps(step.current)}`,
        `${LIMITS} No-go from three times the limit: common practice, no published source.`,
        ...(over > NO_GO_FROM && !sure
          ? [`How ${wire} ends is not entered; without the crimps of 1 mΩ assumed there it stays below that.`]
          : []),
      ],
      cautions: [BATTERY_CAUTION],
    })
  })
  const told = new Set(raisedFindings.map(({ subject }) => subject))
  return [
    ...raisedFindings,
    ...strays
      .filter(({ cause }) => !cause || !told.has(`wires/${cause.wire.id}`))
      .map((stray) => strayFinding(context, stray)),
  ]
}

/** Rule `stray-current`: where no raised earth is told of the strap behind it. */
const strayFinding = ({ build }: Context, { subject, name, zone, current, solved, cause }: Stray): Finding =>
  finding({
    rule: 'stray-current',
    verdict: 'marginal',
    system: 'electrical',
    subject,
    about: name,
    zone,
    says: `${name} is not meant to carry current and carries ${amps(current)} in “${solved.kase.name}”${cause ? `, because ${wireName(build, cause.wire.id)} loses ${volts(cause.drop)} beside it` : ''}.`,
    todo: cause
      ? `Fit a thicker strap in place of ${cause.wire.id}${cause.wire.area ? `, ${squareMillimetres(cause.wire.area.value)}` : ''}, or a second one beside it.`
      : `Join what ${name} joins with a strap.`,
    working: [
      `Current of ${name}, solved over the whole network in “${solved.kase.name}”: ${amps(current)}`,
      `Told from ${STRAY} A on: common practice, no published source.`,
    ],
    cautions: [BATTERY_CAUTION],
  })

/** Sensors that return as they should, or read by another path than `sensor-return` tells, and are still moved. */
export const sensorErrorFindings = (context: Context): Finding[] => {
  const { build } = context
  const landed = landedSensors(context)
  const rows = sensorErrorsOf(context)
  return Object.values(build.collections.sensors).flatMap((sensor): Finding[] => {
    const device = own(build.collections.devices, sensor.device)
    if (!device || device.restricted) return []
    const base = {
      rule: 'sensor-error',
      system: 'signals',
      subject: `sensors/${sensor.id}`,
      about: sensor.name,
      zone: deviceZone(build, device.id),
    } as const
    const gaps = sensorGaps(context, sensor)
    if (gaps.length > 0)
      return [
        finding({
          ...base,
          verdict: 'unknown',
          says: `How far earth currents move ${sensor.name} cannot be told without the ${list(gaps)}.`,
          todo: `Enter the ${list(gaps)}.`,
          missing: list(gaps.map((gap) => `${gap} of ${sensor.name}`)),
        }),
      ]
    if (landed.has(device.id)) return []
    const worst = rows.find(({ sensor: id, error }) => id === sensor.id && error !== null)
    if (!worst || worst.error === null) return []
    if (worst.error === 0)
      return [
        finding({
          ...base,
          verdict: 'sound',
          says: `No current in any case moves the return of ${sensor.name} against the controller’s sensor earth.`,
          todo: 'Nothing.',
        }),
      ]
    const { marginal, noGo, from } = limitsOf(sensor)
    const size = Math.abs(worst.error)
    return [
      finding({
        ...base,
        verdict: size > noGo ? 'no-go' : size > marginal ? 'marginal' : 'sound',
        says: `${sensor.name} reads ${worst.words} in “${worst.caseName}”, its worst case, from ${volts(worst.offset ?? 0)} between its return and the controller’s sensor earth.`,
        todo:
          size > marginal ? `Give ${sensor.name} a return of its own to the controller’s sensor earth.` : 'Nothing.',
        working: [
          `Return of ${sensor.name} against the sensor earth, solved in “${worst.caseName}”: ${volts(worst.offset ?? 0)}; through the ${sensor.form} curve: ${worst.words}`,
          `Limits: ${from}.`,
        ],
      }),
    ]
  })
}
