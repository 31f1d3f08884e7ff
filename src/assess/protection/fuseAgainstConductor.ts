/**
 * Rule `fuse-against-conductor`: one finding a pair of fuse and wire, naming the worst clause; the others in its working.
 * Each conductor is judged singly, parallel strands each as if alone.
 */
import { working, workingLines } from '../../engineering/calculation.ts'
import { RATINGS } from '../../engineering/electrical/fuseGates.ts'
import { fuseHold } from '../../engineering/electrical/fuseHold.ts'
import {
  type Clause,
  firstBroken,
  type JudgedFuse,
  type JudgedWire,
  judgeProtection,
  type Protection,
} from '../../engineering/electrical/protection/judgeProtection.ts'
import type { Wire } from '../../model/build.ts'
import type { Context } from '../context.ts'
import { type Finding, VERDICTS } from '../finding.ts'
import {
  amps,
  BATTERY_CAUTION,
  celsius,
  deviceIdOf,
  finding,
  list,
  own,
  pinName,
  restrictedWire,
  squareMillimetres,
  wireName,
} from '../make.ts'
import { CLASS_SOURCE, conductorFacts, hottestZone, SIZES, zonesOfUnknownHeat } from '../wireData.ts'
import { type FuseDevice, fuseOf, judgedAs, judgedFuse, judgedWire, plainName, ratedName } from './facts.ts'
import { lackedBy, weakShorts } from './farShorts.ts'
import { feedsRestricted, type Protected, reachOf } from './reach.ts'
import { SHORT } from './shortNetwork.ts'
import { heldMotors } from './stalls.ts'

const RANK: Record<Clause['verdict'], number> = { failed: 0, doubtful: 1, unknown: 2, passed: 3 }

export const fuseFindings = (context: Context): Finding[] => {
  const byWire = new Map<string, Finding[]>()
  for (const { fuse: id, below } of reachOf(context)) {
    const fuse = fuseOf(context.build, id)
    if (!fuse || fuse.restricted) continue
    for (const each of below) {
      const wire = own(context.build.collections.wires, each.wire)
      if (!wire || restrictedWire(context.build, wire.id)) continue
      const here = byWire.get(wire.id) ?? []
      byWire.set(wire.id, here)
      here.push(judge(context, fuse, wire, each))
    }
  }
  // A wire that two fuses can feed is as ill protected as by the worse of them.
  return [...byWire.values()].map((found) => {
    const worst = found.reduce((a, b) => (VERDICTS.indexOf(b.verdict) < VERDICTS.indexOf(a.verdict) ? b : a))
    const others = found.filter((each) => each !== worst).map(({ says }) => `Another fuse can feed it as well. ${says}`)
    return others.length === 0 ? worst : { ...worst, working: [...worst.working, ...others] }
  })
}

const judge = (context: Context, fuse: FuseDevice, wire: Wire, { far: farEnd }: Protected): Finding => {
  const { build } = context
  const far = pinName(build, farEnd)
  const about = wireName(build, wire.id)
  const place = hottestZone(build, wire)
  const base = {
    rule: 'fuse-against-conductor',
    system: 'electrical',
    subject: `wires/${wire.id}`,
    about,
    zone: place?.zone,
    cautions: [BATTERY_CAUTION],
  } as const
  const unknown = (missing: readonly string[], says: string) =>
    finding({
      ...base,
      verdict: 'unknown',
      says,
      todo: `Enter the ${list(missing)}.`,
      missing: list(missing),
    })
  const judgedF = judgedFuse(build, fuse)
  const judgedW = judgedWire(context, wire)
  const gaps = [...judgedF.gaps, ...judgedW.gaps]
  if (gaps.length > 0 || !judgedF.fuse || !judgedW.wire || !place || !wire.area)
    return unknown(gaps, `${about} behind ${fuse.name} cannot be judged without the ${list(gaps)}.`)
  const stalls = heldMotors(context).flatMap(({ name, currents }) => {
    const [throughFuse, inWire] = [currents.get(fuse.id), currents.get(`wire:${wire.id}`)]
    return throughFuse === undefined || inWire === undefined ? [] : [{ name, throughFuse, inWire }]
  })
  const short = farShort(context, fuse, wire)
  const question: Protection = {
    fuse: judgedF.fuse,
    wire: judgedW.wire,
    stalls,
    ...(short.figure === undefined ? {} : { farShort: short.figure }),
  }
  const clauses = judgeProtection(question)
  const worst = clauses.reduce((a, b) => (RANK[b.verdict] < RANK[a.verdict] ? b : a))
  // A hotter zone could only make it worse: what fails stays failed, what holds is not known to hold.
  const cold = zonesOfUnknownHeat(build, wire)
  if (worst.verdict === 'passed' && cold.length > 0)
    return unknown(
      [`ambient temperature of ${list(cold)}`],
      `${about} behind ${fuse.name} suits the warmest place entered, ${place.name} (${celsius(place.ambient)}); the ambient temperature of ${list(cold)} is not entered.`,
    )
  if (worst.verdict === 'passed' && short.missing.length > 0)
    return unknown(
      short.missing,
      `${about} suits ${fuse.name}; whether a short at ${far} is cleared by the weakest battery is not known without the ${list(short.missing)}.`,
    )
  const lines = [
    `Place: ${place.name}, ${celsius(place.ambient)}; class ${wire.insulation}; in service ${celsius(judgedW.wire.start)}.`,
    ...clauses.map(({ verdict, says }) => `${MARK[verdict]}: ${says}`),
    ...(short.missing.length > 0 ? [`not known: clearing of a short at ${far}: ${list(short.missing)}.`] : []),
    ...twins(context, wire),
    SOURCES,
  ]
  if (worst.verdict === 'passed') {
    const hold = clauses[0]!
    return finding({
      ...base,
      verdict: 'sound',
      says: `${about}, ${squareMillimetres(wire.area.value)}, carries ${amps(hold.allowed ?? 0)} in ${place.name} (${celsius(place.ambient)}), above the ${amps(hold.current ?? 0)} that ${ratedName(fuse, judgedF.fuse.rating)} passes without end${short.figure === undefined ? '' : `; a short at ${far} is cleared`}.`,
      todo: 'Nothing.',
      working: lines,
    })
  }
  return finding({
    ...base,
    verdict: worst.verdict === 'failed' ? 'no-go' : 'marginal',
    says: `${about}, ${squareMillimetres(wire.area.value)} of class ${wire.insulation} in ${place.name}, is ${worst.verdict === 'failed' ? 'not' : 'barely'} protected by ${ratedName(fuse, judgedF.fuse.rating)}. ${worst.says}`,
    todo: nextAct(question, fuse, wire, judgedF.fuse, judgedW.wire, feedsRestricted(context, fuse.id)),
    working: [...lines, ...holdWorking(judgedF.fuse)],
  })
}

const MARK: Record<Clause['verdict'], string> = {
  passed: 'holds',
  failed: 'fails',
  doubtful: 'doubtful (fails as computed, holds within the ± 20 % of the heat balance, or beside idle neighbours)',
  unknown: 'not known',
}
/** Gates begin at 3 A; those of the smallest ratings are taken to be no slower. */
const holdWorking = ({ type, rating }: JudgedFuse): readonly string[] => {
  const { min, max } = fuseHold.inputs.rating
  return rating >= min && rating <= max
    ? workingLines(working(fuseHold, { type, rating }))
    : [`Gates of ISO 8820 begin at ${min} A: those of its type are taken for ${amps(rating)}.`]
}
const SOURCES = `For good the lower of heat balance and published rating decides, as for the current in service. Gates: ISO 8820-3 and -5 [from memory] with makers’ sheets read; ${CLASS_SOURCE}. Up to 350 % of rating by transient heat loss, above with no heat lost (IEC 60949).`

/** The bolted short at the far end, or what it lacks. */
const farShort = (
  context: Context,
  fuse: FuseDevice,
  wire: Wire,
): {
  readonly figure?: { readonly throughFuse: number; readonly inWire: number }
  readonly missing: readonly string[]
} => {
  const shorts = weakShorts(context)
  const current = shorts.close(wire.id)
  if (!current)
    return { missing: shorts.missing.length > 0 ? shorts.missing : ['way back from the body to the battery'] }
  const throughFuse = current(fuse.id)
  const missing = lackedBy(shorts, current, current(SHORT))
  if (missing.length > 0) return { missing }
  // A strand beside it may be open: each carries all that the fuse lets through.
  return { figure: { throughFuse, inWire: Math.max(throughFuse, current(`wire:${wire.id}`)) }, missing: [] }
}

const twins = ({ build, circuit }: Context, wire: Wire): string[] => {
  const beside = (circuit.wiresAt.get(wire.from) ?? []).filter((id) => {
    const other = own(build.collections.wires, id)
    return id !== wire.id && other && (other.to === wire.to || (other.from === wire.to && other.to === wire.from))
  })
  return beside.length === 0 ? [] : [`Lies in parallel with ${list(beside)}: each is judged as if alone.`]
}

const holds = (question: Protection): boolean => firstBroken(question) === undefined

/** A smaller fuse, a bigger wire, or both ways, each tried by the same law. */
const nextAct = (
  question: Protection,
  fuse: FuseDevice,
  wire: Wire,
  judged: JudgedFuse,
  place: JudgedWire,
  fixed: boolean,
): string => {
  // A fuse that an airbag or anti-lock circuit hangs on as well stays as it is.
  const smaller = fixed
    ? undefined
    : [...RATINGS[judged.type]]
        .reverse()
        .find((rating) => rating < judged.rating && holds({ ...question, fuse: { ...judged, rating } }))
  const bigger = SIZES.find((size) => {
    if (size.area <= wire.area!.value) return false
    const facts = conductorFacts({ area: { value: size.area }, material: 'copper' })!
    // Its start is taken as it was: a thicker wire runs cooler. A short draws more through it, never less.
    return holds({
      ...question,
      wire: judgedAs(facts, size.area, wire.insulation!, place.ambient, place.start, place.share ?? 1),
    })
  })
  const ways = [
    smaller === undefined
      ? undefined
      : `fit ${smaller} A in place of ${amps(judged.rating)} at ${plainName(fuse, judged.rating)} if the load allows it`,
    bigger === undefined
      ? undefined
      : `fit ${bigger.size} in place of ${squareMillimetres(wire.area!.value)} on ${wire.id}`,
  ].filter((way): way is string => way !== undefined)
  if (ways.length > 0) return `${ways.join('; or ').replace(/^f/, 'F')}.`
  return wire.insulation !== 'H'
    ? `Give ${wire.id} a fuse of its own at ${deviceIdOf(wire.from)}, a cooler path, or an insulation of a higher class.`
    : `Give ${wire.id} a fuse of its own, or a cooler path.`
}
