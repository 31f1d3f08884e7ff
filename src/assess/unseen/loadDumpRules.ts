/**
 * Rule `load-dump`: the battery comes off while the alternator charges, and its field drives the supply up for some
 * tenths of a second. Asked: does what lives on that supply survive the peak?
 */
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import { BATTERY_CAUTION, deviceZone, finding, list, volts } from '../make.ts'

/** V. ISO 16750-2, 12 V systems, no suppression: 79 … 101 V, 40 … 400 ms (read, table 1 of a journal paper quoting it). */
const UNSUPPRESSED = 101
const SOURCE =
  'ISO 16750-2 load dump, 12 V: test A 79 … 101 V for 40 … 400 ms behind 0.5 … 4 Ω (read, table quoted in a journal, jkiees 30-8-629); test B, suppressed in the alternator, 35 V [from memory]; ISO 7637-2 held it before as pulses 5a and 5b.'

export const loadDumpFindings = ({ build }: Context): Finding[] => {
  const devices = Object.values(build.collections.devices).filter(({ restricted }) => !restricted)
  const alternator = devices.find(({ spec }) => spec.kind === 'alternator')
  const controllers = devices.filter(({ spec }) => spec.kind === 'controller')
  if (alternator?.spec.kind !== 'alternator' || controllers.length === 0) return []
  const clamp = alternator.spec.loadDumpClamp?.value
  const peak = clamp ?? UNSUPPRESSED
  const base = {
    rule: 'load-dump',
    system: 'electrical',
    subject: `devices/${alternator.id}`,
    about: alternator.name,
    zone: deviceZone(build, alternator.id),
    working: [SOURCE],
  } as const
  const untold = controllers.filter(({ loadDump }) => !loadDump)
  const weak = controllers.filter(({ loadDump }) => loadDump && loadDump.value < peak)
  if (weak.length > 0 && clamp !== undefined)
    return [
      finding({
        ...base,
        verdict: 'no-go',
        says: `Should the battery come off while ${alternator.name} charges, the supply peaks at ${volts(peak)}; ${list(weak.map(({ name, loadDump }) => `${name} survives ${volts(loadDump!.value)}`))}.`,
        todo: `Fit an alternator whose own suppression stays below ${volts(Math.min(...weak.map(({ loadDump }) => loadDump!.value)))}, or a load-dump suppressor at B+.`,
        cautions: [BATTERY_CAUTION],
      }),
    ]
  const gaps = [
    ...(untold.length > 0
      ? [`load dump that ${list(untold.map(({ name }) => name))} ${untold.length === 1 ? 'survives' : 'survive'}`]
      : []),
    ...(clamp === undefined && (untold.length > 0 || weak.length > 0)
      ? [`peak that ${alternator.name}’s own suppression leaves`]
      : []),
  ]
  if (gaps.length > 0)
    return [
      finding({
        ...base,
        verdict: 'unknown',
        says: `Whether the controller survives the battery coming off while ${alternator.name} charges cannot be judged: without suppression the supply peaks at up to ${volts(UNSUPPRESSED)}.`,
        todo: `Look in the makers’ sheets and enter the ${list(gaps)}.`,
        missing: list(gaps),
      }),
    ]
  return [
    finding({
      ...base,
      verdict: 'sound',
      says: `${list(controllers.map(({ name }) => name))} ${controllers.length === 1 ? 'survives' : 'survive'} the ${volts(peak)} that ${alternator.name} can make should the battery come off.`,
      todo: 'Nothing.',
    }),
  ]
}
