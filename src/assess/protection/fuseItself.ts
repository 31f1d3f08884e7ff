/**
 * Rules about a fuse itself: `fuse-breaking` (highest short-circuit current against breaking capacity), `fuse-in-service`
 * (continuous load against the rating at its ambient) and `fuse-inrush` (cold lamps and starting motors). What holds is
 * not told: the wires behind the fuse have their own findings.
 */

import { citation } from '../../engineering/calculation.ts'
import { maxiSheet, RATINGS } from '../../engineering/electrical/fuseGates.ts'
import { CONTINUOUS, fuseGuide, MAXI_AMBIENT } from '../../engineering/electrical/protection/fuseDerating.ts'
import {
  firstBroken,
  type JudgedFuse,
  judgeProtection,
  type Pulse,
} from '../../engineering/electrical/protection/judgeProtection.ts'
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import { amps, BATTERY_CAUTION, deviceName, deviceZone, finding, list, own, restrictedWire } from '../make.ts'
import type { Solved } from '../solveCases.ts'
import { type FuseDevice, fuseOf, judgedFuse, judgedWire, lastingCases, plainName, ratedName } from './facts.ts'
import { lackedBy, strongShorts } from './farShorts.ts'
import { lampPulses } from './lampPulses.ts'
import { opensFirst, SHORTED } from './opening.ts'
import { feedsRestricted, reachOf } from './reach.ts'
import { heldMotors } from './stalls.ts'

export const fuseItselfFindings = (context: Context): Finding[] => [
  ...reachOf(context).flatMap(({ fuse: id }) => {
    const fuse = fuseOf(context.build, id)
    const judged = fuse && judgedFuse(context.build, fuse).fuse
    if (!fuse || fuse.restricted || !judged) return []
    return [...breaking(context, fuse, judged), ...service(context, fuse, judged), ...inrush(context, fuse, judged)]
  }),
  ...unknownSources(context),
]

/** Once a build: what the highest short-circuit current cannot be known without. */
const unknownSources = (context: Context): Finding[] => {
  const { missing } = strongShorts(context)
  const fuse = reachOf(context)
    .flatMap(({ fuse: id }) => fuseOf(context.build, id) ?? [])
    .filter(({ restricted }) => !restricted)
    .sort((a, b) => (a.id < b.id ? -1 : 1))[0]
  if (missing.length === 0 || !fuse) return []
  return [
    finding({
      rule: 'fuse-breaking',
      verdict: 'unknown',
      system: 'electrical',
      subject: `devices/${fuse.id}`,
      part: 'sources',
      about: 'All fuses',
      says: `The highest short-circuit current that the fuses must break is not known without the ${list(missing)}.`,
      todo: `Enter the ${list(missing)}.`,
      missing: list(missing),
    }),
  ]
}

const about = (context: Context, fuse: FuseDevice) =>
  ({
    system: 'electrical',
    subject: `devices/${fuse.id}`,
    about: fuse.name,
    zone: deviceZone(context.build, fuse.id),
    cautions: [BATTERY_CAUTION],
  }) as const

const breaking = (context: Context, fuse: FuseDevice, judged: JudgedFuse): Finding[] => {
  const shorts = strongShorts(context)
  const base = { ...about(context, fuse), rule: 'fuse-breaking' }
  const current = shorts.close(fuse.id)
  if (!current) return []
  const highest = current(fuse.id)
  const clause = judgeProtection({ fuse: judged, highestShort: highest })[0]!
  if (clause.verdict === 'passed') return []
  // A stand-in of no length lets through too much: what fails only by it is not known to fail. What a source of unknown
  // figures adds could only make it worse.
  const missing = lackedBy(shorts, current, highest)
  if (missing.length > 0)
    return [
      finding({
        ...base,
        verdict: 'unknown',
        says: `${fuse.name}: up to ${amps(highest)} in a short, more than the ${amps(clause.allowed ?? 0)} it is sure to break; how much less is not known without the ${list(missing)}.`,
        todo: `Enter the ${list(missing)}.`,
        missing: list(missing),
      }),
    ]
  return [
    finding({
      ...base,
      verdict: 'no-go',
      says: `${ratedName(fuse, judged.rating)}, may not break the short-circuit current of this battery. ${clause.says}`,
      todo: feedsRestricted(context, fuse.id)
        ? `Put a fuse that breaks so much above ${fuse.name}; it feeds an airbag or anti-lock circuit as well and stays as it is.`
        : judged.type === 'bolt-down'
          ? `Fit a fuse of higher breaking capacity at ${fuse.name} and enter it, or place ${fuse.name} farther along the conductor, behind another fuse.`
          : `Fit a bolt-down fuse in place of ${fuse.name} (2 000 A at 32 V by makers’ sheets [from memory]), or put one above it.`,
      working: [
        clause.says,
        'Short at the load side to the body, solved over the whole car: battery full (12.8 V) or at the top of its ±, copper at −20 °C, cold fuse, alternator at its cold output; loads away.',
      ],
    }),
  ]
}

/** Wires behind a fuse that a larger one would not protect, said as what has to go with it. */
const tooThinFor = (context: Context, fuse: FuseDevice, larger: JudgedFuse): string => {
  const below = reachOf(context).find((reach) => reach.fuse === fuse.id)?.below ?? []
  const thin = below.flatMap(({ wire: id }) => {
    const wire = own(context.build.collections.wires, id)
    if (!wire || restrictedWire(context.build, id)) return []
    const judged = judgedWire(context, wire).wire
    return judged === undefined || firstBroken({ fuse: larger, wire: judged }) !== undefined ? [id] : []
  })
  if (thin.length === 0) return ', which its wires stand'
  return `, once ${list(thin.slice(0, 4))}${thin.length > 4 ? ` and ${thin.length - 4} more` : ''} ${thin.length === 1 ? 'is' : 'are'} thick enough for it`
}

const service = (context: Context, fuse: FuseDevice, judged: JudgedFuse): Finding[] => {
  let load = 0
  let name = ''
  let worst: Solved | undefined
  for (const solved of lastingCases(context)) {
    const current = Math.abs(solved.elements.get(fuse.id) ?? 0)
    // Of cases that load it alike the first is named, whatever the last digits say.
    if (current > load * (1 + 1e-6)) [load, name, worst] = [current, solved.kase.name, solved]
  }
  const clause = judgeProtection({ fuse: judged, load })[0]!
  // What holds at the hottest place that a fuse may stand in holds anywhere.
  const coolest = MAXI_AMBIENT.at(-1)![1] / MAXI_AMBIENT[0]![1]
  if (clause.verdict === 'passed' || (clause.verdict === 'unknown' && load <= CONTINUOUS * coolest * judged.rating))
    return []
  const base = { ...about(context, fuse), rule: 'fuse-in-service' }
  if (clause.verdict === 'unknown') {
    const missing = `ambient temperature where ${fuse.name} stands`
    return [
      finding({
        ...base,
        verdict: 'unknown',
        says: `${ratedName(fuse, judged.rating)}, carries ${amps(load)} in “${name}”; whether it keeps that is not known without the ${missing}.`,
        todo: `Enter the ${missing}.`,
        missing,
      }),
    ]
  }
  const bigger = RATINGS[judged.type].find(
    (rating) =>
      rating > judged.rating && judgeProtection({ fuse: { ...judged, rating }, load })[0]!.verdict === 'passed',
  )
  const first = worst && opensFirst(context, worst, fuse.id)
  return [
    finding({
      ...base,
      verdict: clause.verdict === 'failed' ? 'no-go' : 'marginal',
      says: `${ratedName(fuse, judged.rating)}, ${clause.verdict === 'failed' ? 'would open in service' : 'has little in hand'}. In “${name}” it ${clause.says.replace(/^C/, 'c')}`,
      todo: feedsRestricted(context, fuse.id)
        ? `Take the other loads off ${fuse.name} and give them a fuse of their own: it feeds an airbag or anti-lock circuit as well, which nobody but its specialist alters.`
        : first !== undefined
          ? `Mend what opens ${deviceName(context.build, first)} first (its own finding): the same current runs through both.`
          : load >= SHORTED * judged.rating
            ? `Look for the short behind ${plainName(fuse, judged.rating)} before anything else: a wire on the wrong pin, or a load entered far too large.`
            : bigger === undefined
              ? `Split the load of ${fuse.name} between two fuses, or move it to a cooler place.`
              : `Fit ${bigger} A in place of ${amps(judged.rating)} at ${plainName(fuse, judged.rating)}${tooThinFor(context, fuse, { ...judged, rating: bigger })}; or split its load, or move it to a cooler place.`,
      working: [
        clause.says,
        `Source: ${citation(fuseGuide)}; ${citation(maxiSheet)}: the only table of ambient that was read, taken for every type.`,
      ],
    }),
  ]
}

const inrush = (context: Context, fuse: FuseDevice, judged: JudgedFuse): Finding[] => {
  const pulses: Pulse[] = [...lampPulses(context, fuse.id)]
  for (const { device, name, currents } of heldMotors(context)) {
    const peak = currents.get(fuse.id)
    if (peak !== undefined) pulses.push({ name, peak, decay: startOf(context, device) })
  }
  const failed = judgeProtection({ fuse: judged, pulses }).filter(({ verdict }) => verdict !== 'passed')
  if (failed.length === 0) return []
  const worst = failed.reduce((a, b) => ((b.multiple ?? 0) > (a.multiple ?? 0) ? b : a))
  return [
    finding({
      ...about(context, fuse),
      rule: 'fuse-inrush',
      verdict: 'marginal',
      says: `${ratedName(fuse, judged.rating)}, may open at switch-on. ${worst.says}`,
      todo: feedsRestricted(context, fuse.id)
        ? `Feed the load on its own: ${fuse.name} feeds an airbag or anti-lock circuit as well and stays as it is.`
        : slower(context, judged, pulses, fuse),
      working: [
        ...failed.map(({ says }) => says),
        'Quickest side of the gates of ISO 8820 [from memory]: about a third of the melting I²t that makers’ sheets print, the share they allow for 10 000 pulses.',
        'Lamps: ten times their current, falling to twice in 5 ms (lamp-driver note, read). Motors: stalled current, falling to 1/e in the time entered, else 0.1 s, fans 0.3 s (common practice, no published source).',
      ],
    }),
  ]
}
/** The smallest fuse that stands every start: of its own family, else a slower one; ratings that the trade has only. */
const slower = (context: Context, judged: JudgedFuse, pulses: readonly Pulse[], fuse: FuseDevice): string => {
  const stands = (other: JudgedFuse) =>
    judgeProtection({ fuse: other, pulses }).every(({ verdict }) => verdict === 'passed')
  const families = judged.type === 'blade' ? (['blade', 'maxi'] as const) : [judged.type]
  for (const type of families)
    for (const rating of RATINGS[type]) {
      const other = { ...judged, type, rating }
      if (rating < judged.rating || !stands(other)) continue
      const what =
        type === judged.type ? `${amps(rating)}` : `a high-current blade fuse of ${amps(rating)}, which is slower,`
      return `Fit ${what} in place of ${amps(judged.rating)} at ${plainName(fuse, judged.rating)}${tooThinFor(context, fuse, other)}; or measure how long the start lasts and enter it, or feed the load on its own.`
    }
  return `Measure how long the start lasts and enter it; or feed the load on its own behind ${fuse.name}.`
}

/** s. Common practice, no published source. */
const START = 0.1
const FAN_START = 0.3
const startOf = ({ build }: Context, device: string): number => {
  const laws = own(build.collections.devices, device)?.loads ?? []
  for (const { law } of laws) if (law?.type === 'motor' && law.startTime) return law.startTime.value
  return build.sheets.cooling?.fans?.includes(device) ? FAN_START : START
}
