/**
 * Rule `stall-against-return`: a held motor's current goes home over conductors behind no fuse of their own. They must
 * stand it until the first fuse on its way has opened, or for good where none opens. What holds is not told.
 */
import { slowestTime } from '../../engineering/electrical/fuseGates.ts'
import { stallClause } from '../../engineering/electrical/protection/eventClauses.ts'
import type { JudgedFuse } from '../../engineering/electrical/protection/judgeProtection.ts'
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import { amps, BATTERY_CAUTION, finding, own, restrictedWire, squareMillimetres, wireName } from '../make.ts'
import { conductorFacts, hottestZone, SIZES } from '../wireData.ts'
import { type FuseDevice, fuseOf, judgedAs, judgedFuse, judgedWire } from './facts.ts'
import { feedsRestricted, reachOf } from './reach.ts'
import { heldMotors } from './stalls.ts'

export const heldReturnFindings = (context: Context): Finding[] => {
  const { build } = context
  const behindFuse = new Set(reachOf(context).flatMap(({ below }) => below.map(({ wire }) => wire)))
  const worst = new Map<string, { readonly finding: Finding; readonly temperature: number }>()
  for (const { name, currents } of heldMotors(context)) {
    const first: Opening | undefined = Object.keys(build.collections.devices)
      .flatMap((id) => {
        const fuse = fuseOf(build, id)
        const judged = fuse && judgedFuse(build, fuse).fuse
        const through = currents.get(id)
        return fuse && judged && through !== undefined ? [{ fuse, judged, through }] : []
      })
      // Of fuses that never open the one loaded most is named; Infinity less itself would be no order.
      .reduce<Opening | undefined>((soonest, each) => (soonest && !before(each, soonest) ? soonest : each), undefined)
    if (!first) continue
    for (const [element, inWire] of currents) {
      const id = element.startsWith('wire:') ? element.slice('wire:'.length) : undefined
      const wire = id === undefined || behindFuse.has(id) ? undefined : own(build.collections.wires, id)
      if (!wire || restrictedWire(build, wire.id)) continue
      const judged = judgedWire(context, wire).wire
      // Too hot in service already, without any motor held: `conductor-temperature` has it.
      if (!judged || judged.start >= judged.limit) continue
      const stall = { name, throughFuse: first.through, inWire }
      const clauseOf = (place: typeof judged) => stallClause(first.judged, place, stall)
      const clause = clauseOf(judged)
      const temperature = clause.temperature ?? 0
      if (clause.verdict === 'passed' || (worst.get(wire.id)?.temperature ?? 0) >= temperature) continue
      const bigger = SIZES.find(
        (size) =>
          size.area > wire.area!.value &&
          clauseOf(
            judgedAs(
              conductorFacts({ area: { value: size.area }, material: 'copper' })!,
              size.area,
              wire.insulation!,
              judged.ambient,
              judged.start,
              1,
            ),
          ).verdict === 'passed',
      )
      worst.set(wire.id, {
        temperature,
        finding: finding({
          rule: 'stall-against-return',
          verdict: clause.verdict === 'failed' ? 'no-go' : 'marginal',
          system: 'electrical',
          subject: `wires/${wire.id}`,
          about: wireName(build, wire.id),
          zone: hottestZone(build, wire)?.zone,
          says: `${wireName(build, wire.id)} brings home ${amps(inWire)} of ${name} held fast. ${clause.says}`,
          todo: `Fit ${bigger ? bigger.size : 'a thicker wire'} in place of ${squareMillimetres(wire.area!.value)} on ${wire.id}${feedsRestricted(context, first.fuse.id) ? '' : `, or a smaller fuse at ${first.fuse.name}`}.`,
          working: [`First fuse on its way: ${first.fuse.name}.`, clause.says],
          cautions: [BATTERY_CAUTION],
        }),
      })
    }
  }
  return [...worst.values()].map((each) => each.finding)
}

interface Opening {
  readonly fuse: FuseDevice
  readonly judged: JudgedFuse
  readonly through: number
}
const opens = ({ judged: { type, rating }, through }: Opening): number =>
  slowestTime(type, through / rating) ?? Number.POSITIVE_INFINITY
const before = (one: Opening, other: Opening): boolean =>
  opens(one) < opens(other) ||
  (opens(one) === opens(other) && one.through / one.judged.rating > other.through / other.judged.rating)
