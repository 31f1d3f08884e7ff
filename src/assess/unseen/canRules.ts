/** Rules on the CAN pair: `can-ends` (60 Ω unpowered), `can-stub` (0.3 m at 1 Mbit/s), `can-twist`. */
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import { deviceIdOf, deviceName, deviceZone, finding, list, own } from '../make.ts'
import { acrossPair, type CanPair, canPairs, stubs } from './canPair.ts'

/** Ω. Two of 108 … 132 Ω side by side: ISO 11898-2 (read, instrument reference manual quoting it). */
const [LEAST, MOST] = [54, 66]
/** m, at 1 Mbit/s. ISO 11898 (read, the same). */
const STUB = 0.3
const SOURCE =
  'ISO 11898-2: 120 Ω (108 … 132 Ω) at each end; at 1 Mbit/s 40 m of line and stubs of 0.3 m (read, TRION-CAN technical reference manual quoting it).'

const PLUGS_OFF = 'Measure it with the battery off and every unit plugged in.'

export const canFindings = (context: Context): Finding[] => canPairs(context).flatMap((pair) => judge(context, pair))

const judge = (context: Context, pair: CanPair): Finding[] => {
  const { build, circuit } = context
  const [first] = pair.units
  if (first === undefined || pair.units.length < 2) return []
  const about = `CAN pair of ${list(pair.units.map((id) => deviceName(build, id)))}`
  const base = {
    system: 'signals',
    subject: `devices/${first}`,
    about,
    zone: deviceZone(build, first),
  } as const
  const findings: Finding[] = []
  const ohm = acrossPair(context, pair)
  const ends = pair.ends.map(({ device, ohm: each }) => `${deviceName(build, device)} ${each} Ω`)
  const reads = ohm === undefined ? 'is open' : `reads ${ohm.toFixed(0)} Ω`
  const good = ohm !== undefined && ohm >= LEAST && ohm <= MOST && pair.ends.length === 2
  if (pair.ends.length === 0)
    findings.push(
      finding({
        ...base,
        rule: 'can-ends',
        verdict: 'unknown',
        says: `Which units of the ${about} have a termination inside is not entered; two of 120 Ω are needed, one at each end.`,
        todo: `${PLUGS_OFF} 60 Ω: both are there, 120 Ω: one. Enter them as loads of 120 Ω between CAN-H and CAN-L.`,
        missing: 'terminations of the CAN pair',
        working: [SOURCE],
      }),
    )
  else
    findings.push(
      finding({
        ...base,
        rule: 'can-ends',
        verdict: good ? 'sound' : 'no-go',
        says: good
          ? `The ${about} ${reads} unpowered: ended at both ends.`
          : `The ${about} ${reads} unpowered and should read 60 Ω: ${list(ends)} ${ends.length === 1 ? 'is its only end' : 'are across it'}.`,
        todo: good
          ? 'Nothing.'
          : pair.ends.length < 2
            ? 'Fit a resistor of 120 Ω between CAN-H and CAN-L at the other end of the line.'
            : pair.ends.length > 2
              ? `Take out all terminations but the two at the ends of the line: ${list(ends)}.`
              : `Fit 120 Ω at each end: ${list(ends)}.`,
        working: [
          `Solved over the wires of the pair, meter at ${deviceName(build, first)}: ${reads}.`,
          PLUGS_OFF,
          SOURCE,
        ],
      }),
    )
  const off = stubs(context, pair)
  const long = off.filter(({ length }) => length > STUB)
  if (long.length > 0)
    findings.push(
      finding({
        ...base,
        rule: 'can-stub',
        verdict: 'marginal',
        says: `${list(long.map(({ unit, length }) => `${deviceName(build, unit)} hangs ${length.toFixed(2)} m off the line`))}; at 1 Mbit/s a stub may be ${STUB} m.`,
        todo: `Take the line to ${list(long.map(({ unit }) => deviceName(build, unit)))} and back, so that it passes the plug, or run the bus slower.`,
        working: ['From each unit’s plug to the nearest point of the line between the two ends.', SOURCE],
      }),
    )
  else {
    const unknown = off.filter(({ known }) => !known)
    if (unknown.length > 0)
      findings.push(
        finding({
          ...base,
          rule: 'can-stub',
          verdict: 'unknown',
          says: `How far ${list(unknown.map(({ unit }) => deviceName(build, unit)))} ${unknown.length === 1 ? 'hangs' : 'hang'} off the CAN line cannot be told: wires on the way have no length.`,
          todo: 'Enter the lengths of the wires of the CAN pair.',
          missing: 'lengths of the wires of the CAN pair',
        }),
      )
  }
  const loose = [...pair.high]
    .flatMap((node) => circuit.wiresAt.get(node) ?? [])
    .filter((id, index, all) => all.indexOf(id) === index)
    .filter((id) => {
      const mate = own(build.collections.wires, id)?.twistedWith
      const wire = mate === undefined ? undefined : own(build.collections.wires, mate)
      return !wire || !(pair.low.has(wire.from) || pair.low.has(wire.to))
    })
    // A wire inside a plug or splice box is too short to twist.
    .filter((id) => {
      const wire = own(build.collections.wires, id)
      return wire !== undefined && deviceIdOf(wire.from) !== deviceIdOf(wire.to)
    })
  if (loose.length > 0)
    findings.push(
      finding({
        ...base,
        rule: 'can-twist',
        verdict: 'marginal',
        says: `${list(loose.slice(0, 6))} of the ${about} ${loose.length === 1 ? 'is' : 'are'} not twisted with ${loose.length === 1 ? 'its' : 'their'} CAN-L wire.`,
        todo: 'Twist the two wires of the pair together, about 40 turns a metre, and enter which goes with which.',
        working: [
          'ISO 11898-2: one twisted pair of 120 Ω (read, transceiver data sheet TCAN1043-Q1). 33 to 50 twists a metre [from memory].',
        ],
      }),
    )
  return findings
}
