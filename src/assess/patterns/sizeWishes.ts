/** Gives each wished wire its way, its insulation class and its cross-section, and says why. */

import type { FuseType } from '../../engineering/electrical/fuseGates.ts'
import {
  type Candidate,
  type ConductorChoice,
  chooseConductor,
} from '../../engineering/electrical/sizing/chooseConductor.ts'
import type { Build, Wire } from '../../model/build.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { amps, celsius, deviceIdOf, deviceName, list, own } from '../make.ts'
import { COPPER_SIZES } from '../sizing/candidates.ts'
import { CLASS_TEMPERATURE, hottestZone, JOINT, wireLength, zonesOfUnknownHeat } from '../wireData.ts'
import { route } from './route.ts'

export type InsulationClass = NonNullable<Wire['insulation']>
export interface Wish {
  readonly wire: Wire
  /** A, continuous. */
  readonly current: number
  /** A at which its drop counts, where that lasts too short to warm it. */
  readonly briefly?: number | undefined
  /** Fuse above it. */
  readonly behind?: { readonly type: FuseType; readonly rating: number; readonly name: string } | undefined
  readonly stall?: number | undefined
  /** Must be no thinner than this, m², and why. */
  readonly least?: { readonly area: number; readonly because: string } | undefined
  /** A link whose form is given: not sized. */
  readonly fixed?: boolean
}
/** Wires in series whose drop, with what else lies in the way, has a limit. */
export interface Way {
  readonly wires: readonly string[]
  /** V. */
  readonly limit: number
  /** Ω of fuse and contacts, at the way's own current. */
  readonly ohm: number
  readonly current: number
}

/** Two devices at one branch point. Common practice, no published source. */
const SIDE_BY_SIDE = 0.4
/** The lowest class this far above the hottest place leaves the conductor something to warm by. Common practice. */
const HEADROOM = 40

const pathProblem = (path: string, says: string, todo: string): Problem => ({ code: 'no-way', path, says, todo })

/** Path and, where both ends sit at one point, a length. */
export const wayOf = (build: Build, wire: Wire): (Pick<Wire, 'path'> & { length?: Wire['length'] }) | Problem => {
  const [from, to] = [wire.from, wire.to].map((end) => own(build.collections.devices, deviceIdOf(end)))
  for (const device of [from, to])
    if (device && device.at === undefined)
      return pathProblem(
        `devices/${device.id}/at`,
        `Where in the loom ${device.name} sits is not entered, so no way can be found to it.`,
        `Enter the branch point of ${device.id}.`,
      )
  const [start, goal] = [from?.at, to?.at]
  if (start === undefined || goal === undefined)
    return pathProblem(`wires/${wire.id}`, `${wire.id} has an end that is not there.`, 'Name another end.')
  if (start === goal) return { length: wire.length ?? { value: SIDE_BY_SIDE, unit: 'm' } }
  const found = route(build, start, goal)
  if (!found)
    return pathProblem(
      'runs',
      `No runs of the loom lead from ${start} to ${goal}.`,
      'Enter the run between them, with its length and zone.',
    )
  if (found.unmeasured.length > 0)
    return pathProblem(
      `runs/${found.unmeasured[0]}/length`,
      `The length of ${list(found.unmeasured)} is not entered, and ${wire.id} would run there.`,
      `Measure ${list(found.unmeasured)}.`,
    )
  return { path: [...found.path], length: undefined }
}

/** Insulation class: as asked for, else the lowest with headroom over the hottest place on any way. */
const classOf = (asked: InsulationClass | undefined, hottest: number): InsulationClass | undefined =>
  asked ??
  (['B', 'C', 'D', 'E', 'F', 'G', 'H'] as const).find((letter) => CLASS_TEMPERATURE[letter] >= hottest + HEADROOM)

const jointsOf = ({ ends }: Wire): number =>
  (ends?.from ? JOINT[ends.from.method] : 0) + (ends?.to ? JOINT[ends.to.method] : 0)

const peak = ({ briefly, current }: Wish): number => briefly ?? current

/** V that each wire may lose: of each way the part that its current and length ask for, of all ways the least. */
const shares = (
  wishes: readonly Wish[],
  ways: readonly Way[],
  lengthOf: (id: string) => number,
): Map<string, number> => {
  const byId = new Map(wishes.map((wish) => [wish.wire.id, wish]))
  const allowed = new Map<string, number>()
  for (const way of ways) {
    const members = way.wires.map((id) => byId.get(id)!)
    const joints = members.reduce((sum, member) => sum + jointsOf(member.wire) * peak(member), 0)
    const left = way.limit - joints - way.ohm * way.current
    const weight = members.reduce((sum, member) => sum + peak(member) * lengthOf(member.wire.id), 0)
    for (const member of members) {
      const { wire } = member
      const share = (left * peak(member) * lengthOf(wire.id)) / weight
      allowed.set(wire.id, Math.min(share, allowed.get(wire.id) ?? Number.POSITIVE_INFINITY))
    }
  }
  return allowed
}

const say = (wish: Wish, length: number, ambient: number, choice: ConductorChoice, wire: Wire): string => {
  const { chosen, rejected } = choice
  const last = rejected.at(-1)
  const behind = wish.behind === undefined ? '' : `, behind ${wish.behind.name}`
  return `${wire.id} (${wire.from} to ${wire.to}): ${chosen!.candidate.size}, class ${wire.insulation}, ${length.toFixed(2)} m${wire.path === undefined ? '' : ' with tails'}, at most ${celsius(ambient)} round it; ${amps(peak(wish))}${wish.briefly === undefined ? '' : ' for moments'}${behind}; loses ${(chosen!.drop * 1e3).toFixed(0)} mV, warms to ${celsius(chosen!.temperature)}.${last === undefined ? '' : ` ${last.what} ${last.because}.`}`
}

export const sizeWishes = (
  build: Build,
  wishes: readonly Wish[],
  ways: readonly Way[],
  asked: InsulationClass | undefined,
  /** Share of its current that a bundle leaves a wire in that run, 0 … 1. */
  shareIn: (run: string) => number | undefined,
): { readonly wires: readonly Wire[]; readonly explains: readonly string[] } => {
  const problems: Problem[] = []
  const routed: Wire[] = []
  for (const { wire, fixed } of wishes) {
    const way = fixed ? {} : wayOf(build, wire)
    if ('code' in way) problems.push(way)
    else routed.push({ ...wire, ...way })
  }
  if (problems.length > 0) throw new Refusal(unique(problems))
  const heat = new Map<string, number>()
  for (const wire of routed) {
    const unknown = zonesOfUnknownHeat(build, wire)
    const place = hottestZone(build, wire)
    if (unknown.length > 0 || !place)
      problems.push({
        code: 'no-ambient',
        path: `wires/${wire.id}`,
        says: `How hot it gets in ${unknown.length > 0 ? list(unknown) : `the zone of ${deviceName(build, deviceIdOf(wire.from))}`} is not entered, so no wire there can be sized.`,
        todo: `Enter the highest ambient temperature of ${unknown.length > 0 ? list(unknown) : 'that zone'}.`,
      })
    else heat.set(wire.id, place.ambient)
  }
  if (problems.length > 0) throw new Refusal(unique(problems))
  const hottest = Math.max(...heat.values(), 0)
  const insulation = classOf(asked, hottest)
  if (insulation === undefined)
    throw new Refusal([
      {
        code: 'too-hot',
        says: `No insulation class stands the ${celsius(hottest)} on the way.`,
        todo: 'Lay the circuit through cooler places.',
      },
    ])
  const explains =
    asked === undefined
      ? [
          `Insulation class ${insulation} (${celsius(CLASS_TEMPERATURE[insulation])}) taken: the hottest place on the way is ${celsius(hottest)}.`,
        ]
      : []
  const lengths = new Map(routed.map((wire) => [wire.id, wireLength(build, wire)!]))
  const allowed = shares(wishes, ways, (id) => lengths.get(id)!)
  for (const [id, volt] of allowed)
    if (volt <= 0)
      problems.push({
        code: 'no-drop-left',
        path: `wires/${id}`,
        says: `Fuse, contacts and joints on the way of ${id} alone lose all the drop that is allowed.`,
        todo: 'Allow more drop, or take the load over two circuits.',
      })
  const crowded = [...new Set(routed.flatMap(({ path = [] }) => path))].filter((run) => shareIn(run) === undefined)
  for (const run of crowded)
    problems.push({
      code: 'bundle-too-large',
      path: `runs/${run}`,
      says: `${run} holds more loaded wires than any figure for bundles knows.`,
      todo: `Divide the bundle of ${run}, or lay the circuit elsewhere.`,
    })
  if (problems.length > 0) throw new Refusal(unique(problems))
  if (routed.some(({ path }) => path === undefined) && wishes.some(({ fixed }) => !fixed))
    explains.push(
      `Between two devices at one branch point ${SIDE_BY_SIDE} m is reckoned, common practice: measure what you cut.`,
    )
  const wires: Wire[] = []
  for (const [index, plain] of routed.entries()) {
    const wish = wishes[index]!
    if (wish.fixed) {
      wires.push({ ...plain, insulation })
      continue
    }
    const { least } = wish
    const candidates: readonly Candidate[] =
      least === undefined ? COPPER_SIZES : COPPER_SIZES.filter(({ area }) => area >= least.area * 0.999)
    const choice = chooseConductor(
      {
        current: wish.current,
        length: lengths.get(plain.id)!,
        joints: 0,
        dropLimit: allowed.get(plain.id),
        dropCurrent: wish.briefly,
        ambient: heat.get(plain.id)!,
        limit: CLASS_TEMPERATURE[insulation],
        bundleShare: Math.min(1, ...(plain.path ?? []).map((run) => shareIn(run) ?? 0)),
        fuse: wish.behind,
        stall: wish.stall,
      },
      candidates,
    )
    if (!choice.chosen) {
      const last = choice.rejected.at(-1)
      problems.push({
        code: 'no-conductor',
        path: `wires/${plain.id}`,
        says: `No conductor up to ${last?.what} will do from ${plain.from} to ${plain.to}: ${last?.what} ${last?.because}.`,
        todo: 'Allow more drop, place the fuse nearer, choose a higher insulation class, or share the load.',
      })
      continue
    }
    const wire: Wire = {
      ...plain,
      area: { value: choice.chosen.candidate.area, unit: 'mm²' },
      material: 'copper',
      insulation,
    }
    wires.push(wire)
    explains.push(
      say(wish, lengths.get(wire.id)!, heat.get(wire.id)!, choice, wire) +
        (least && choice.rejected.length === 0 ? ` No thinner: ${least.because}.` : ''),
    )
  }
  if (problems.length > 0) throw new Refusal(problems)
  return { wires, explains }
}

const unique = (problems: readonly Problem[]): Problem[] => [
  ...new Map(problems.map((problem) => [problem.says, problem])).values(),
]
