/**
 * The smallest conductor among the candidates that satisfies drop, temperature and protection, and why each smaller one
 * fails.
 *   current      continuous current                          A
 *   length       length of conductor that current passes     m, out and back if both are meant
 *   joints       resistance in series that is not wire       Ω
 *   dropCurrent  current at which the drop counts, where it is brief   A
 *   dropLimit    voltage that may be lost over both          V; not given: drop is not asked
 *   ambient      hottest air on the way                      K
 *   limit        temperature that the insulation stands for good   K
 *   bundleShare  share of its lone current that it keeps in its bundle   0 … 1
 *   fuse         the fuse above it; stall: the motor's current when held fast   A
 * Rules: heat balance of one wire in still air (conductor-current, conductor-temperature); current at most 80 % of what
 * brings it to the limit, since the balance differs from safety tables by a fifth, and no more than the published rating
 * where a table lists the size; every clause of judgeProtection that fuse, conductor and stalled motor decide.
 * Nothing is clamped: an answer without `chosen` says why none will do.
 */
import { run } from '../../calculation.ts'
import { conductorCurrent } from '../conductorCurrent.ts'
import { conductorTemperature } from '../conductorTemperature.ts'
import type { FuseType } from '../fuseGates.ts'
import { firstBroken, type Stall } from '../protection/judgeProtection.ts'
import { ratingOf } from '../publishedRating.ts'
import { type METALS, warmer } from '../sources.ts'
import type { Rejected } from './chooseFuse.ts'

export interface Candidate {
  /** As a builder says it: `1.5 mm²`. */
  readonly size: string
  /** m². */
  readonly area: number
  readonly metal: keyof typeof METALS
  /** Ω/m at 20 °C, the largest that the standard allows. */
  readonly resistance: number
  readonly conductorDiameter: number
  readonly outerDiameter: number
}
export interface ConductorTask {
  readonly current: number
  readonly length: number
  readonly joints: number
  readonly dropLimit?: number | undefined
  /** A at which the drop counts, where that lasts too short to warm the wire (a starter); else `current`. */
  readonly dropCurrent?: number | undefined
  readonly ambient: number
  readonly limit: number
  readonly bundleShare: number
  readonly fuse?: { readonly type: FuseType; readonly rating: number } | undefined
  readonly stall?: number | undefined
  /** Motors held fast whose current through fuse and conductor is known apart; besides `stall`. */
  readonly stalls?: readonly Stall[] | undefined
}
export interface Judged {
  readonly candidate: Candidate
  /** V over wire and joints, the conductor at the temperature that it reaches. */
  readonly drop: number
  /** K. */
  readonly temperature: number
  /** A that brings it to its limit in its bundle. */
  readonly carries: number
}
export interface ConductorChoice {
  readonly chosen?: Judged
  readonly rejected: readonly Rejected[]
}

const MODEL_MARGIN = 0.8
const OVERLOAD_RISE = 50
const amps = (value: number): string => `${Number(value.toPrecision(3))} A`
const volts = (value: number): string => (value < 0.1 ? `${(value * 1e3).toPrecision(2)} mV` : `${value.toFixed(2)} V`)
const celsius = (kelvin: number): string => `${(kelvin - 273.15).toFixed(0)} °C`

const balance = (candidate: Candidate, task: ConductorTask) => ({
  metal: candidate.metal,
  resistance: candidate.resistance,
  conductorDiameter: candidate.conductorDiameter,
  outerDiameter: candidate.outerDiameter,
  ambient: task.ambient,
})
const currentAt = (candidate: Candidate, task: ConductorTask, temperature: number): number =>
  run(conductorCurrent, { temperature, ...balance(candidate, task) }).outputs.current * task.bundleShare

/** A sentence for the first rule that the candidate breaks, or what it comes to. */
const judge = (candidate: Candidate, task: ConductorTask): Judged | string => {
  const { current, limit, fuse, stall } = task
  const balanced = currentAt(candidate, task, limit)
  const published = ratingOf(candidate.size, limit, task.ambient, 1)
  const carries = Math.min(balanced, published === undefined ? balanced : published * task.bundleShare)
  if (carries < balanced && current > carries)
    return `is rated ${amps(carries)} by its table in air of ${celsius(task.ambient)}, less than ${amps(current)}`
  if (current > MODEL_MARGIN * balanced)
    return `reaches ${celsius(limit)} at ${amps(balanced)} in air of ${celsius(task.ambient)}; ${amps(current)} is more than ${MODEL_MARGIN * 100} % of that`
  // Heat in a bundle is that of a lone wire with so much more current.
  const { temperature } = run(conductorTemperature, {
    current: current / task.bundleShare,
    ...balance(candidate, task),
  }).outputs
  const at = task.dropCurrent ?? current
  const drop = at * (candidate.resistance * warmer(candidate.metal, temperature) * task.length + task.joints)
  if (task.dropLimit !== undefined && drop > task.dropLimit)
    return `loses ${volts(drop)} at ${amps(at)}, more than the ${volts(task.dropLimit)} allowed`
  if (fuse) {
    const broken = firstBroken({
      fuse,
      wire: {
        ...balance(candidate, task),
        area: candidate.area,
        start: Math.min(Math.ceil(temperature), limit),
        limit,
        shortTermLimit: limit + OVERLOAD_RISE,
        share: task.bundleShare,
        published,
      },
      stalls: [
        ...(stall === undefined ? [] : [{ name: 'The motor', throughFuse: stall, inWire: stall }]),
        ...(task.stalls ?? []),
      ],
    })
    if (broken) return `is not protected by the ${amps(fuse.rating)} fuse: ${broken.says.replace(/\.$/, '')}`
  } else if (stall !== undefined && stall > carries)
    return `carries ${amps(carries)}, less than the ${amps(stall)} of the stalled motor, and no fuse ends it`
  return { candidate, drop, temperature, carries }
}

export const chooseConductor = (task: ConductorTask, candidates: readonly Candidate[]): ConductorChoice => {
  const rejected: Rejected[] = []
  for (const candidate of [...candidates].sort((a, b) => a.area - b.area)) {
    const judged =
      task.limit <= task.ambient
        ? `its insulation stands ${celsius(task.limit)} and the air on its way is ${celsius(task.ambient)}`
        : judge(candidate, task)
    if (typeof judged !== 'string') return { chosen: judged, rejected }
    rejected.push({ what: candidate.size, because: judged })
  }
  return { rejected }
}
