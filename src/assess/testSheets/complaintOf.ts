/** Which search a reading out of tolerance opens, in which state of the car. */
import type { Build, Entity } from '../../model/build.ts'
import { refuse } from '../../units/problem.ts'
import type { SearchStart } from '../faults/types.ts'
import { own } from '../make.ts'
import { type Solved, solveCase } from '../solveCases.ts'
import { aliveAt } from './alive.ts'
import { QUANTITY } from './judge.ts'
import { type LoadBehind, loadBehind } from './loadBehind.ts'
import type { ReadingVerdict } from './types.ts'

type Reading = Entity<'readings'>

/**
 * The complaint with which a reading out of tolerance opens a search: about the load that the point feeds or returns, or
 * that a relay's coil there switches, in the state of the car in which it was read. Ohms are of no such state, and at
 * first power nothing is switched on: those are looked for in the first state in which something is fed through the
 * point. Undefined: nothing is fed through it, or the load would hardly notice.
 */
export const complaintOf = (build: Build, reading: Reading, verdict: ReadingVerdict): SearchStart | undefined => {
  if (verdict.kind !== 'out of tolerance' || reading.at === undefined) return undefined
  const kase = reading.case === undefined ? undefined : own(build.collections.cases, reading.case)
  if (reading.case !== undefined && !kase)
    throw refuse('unknown-case', `There is no operating case ${reading.case}.`, 'Name one of the build.')
  const quantity = QUANTITY[reading.quantity]
  const sheet = reading.test?.slice(0, reading.test.indexOf('/'))
  const firstPower = sheet === 'first-power'
  const alive = kase && quantity === 'volts' ? aliveAt(build, solveCase(build, kase), reading, verdict) : undefined
  // Behind a lamp, or at a plug that hangs free, only "nothing arrives" means what it means in the running car.
  if (
    firstPower &&
    quantity === 'volts' &&
    !(verdict.side === 'low' && reading.value < DEAD * (verdict.expect.value ?? 0))
  )
    return undefined
  if (alive) return { complaint: alive, case: kase!.id }
  if (quantity === 'ohms' && verdict.side === 'low') return undefined
  const others =
    !firstPower && quantity !== 'ohms'
      ? []
      : Object.values(build.collections.cases).filter(
          ({ battery, supply }) => battery === 'connected' && supply === undefined,
        )
  const points = [reading.at, ...(reading.against === undefined ? [] : [reading.against])]
  const found = [...new Set([...(kase ? [kase] : []), ...others])].flatMap((each) => {
    const solved = solveCase(build, each)
    const behind = solved.solved ? loadBehind(build, solved, points, firstPower ? undefined : sheet) : undefined
    return behind ? [{ each, solved, behind }] : []
  })
  // Ohms of a way that many share tell most of the load that draws most through it.
  if (quantity === 'ohms') found.sort((p, q) => rankOfOhms(q) - rankOfOhms(p))
  for (const { each, solved, behind } of found) {
    const share = shareLeft(solved, behind, reading, verdict)
    // A relay that still has more than half its volts holds: the load notices nothing.
    if (behind.coil && share >= HOLDS) return undefined
    const { device, load } = behind
    return {
      complaint: {
        device,
        ...(load === undefined ? {} : { load }),
        kind: behind.coil || share < DEAD ? 'dead' : 'weak',
      },
      case: each.id,
    }
  }
  return undefined
}

/** Share of its volts, or of its current, below which a load counts as dead. */
const DEAD = 0.3
const HOLDS = 0.5
/** V by which a feed has to fall on its way for it to tell what the load draws. */
const TELLING = 0.3

const currentOf = (solved: Solved, { id }: LoadBehind['element']): number => Math.abs(solved.elements.get(id) ?? 0)
const rankOfOhms = ({ solved, behind }: { readonly solved: Solved; readonly behind: LoadBehind }): number =>
  behind.coil ? -1 : currentOf(solved, behind.element)

/** What is left of a load's volts, or of its current, going by one reading. */
const shareLeft = (
  solved: Solved,
  { element, coil }: LoadBehind,
  reading: Reading,
  { expect, side }: Extract<ReadingVerdict, { kind: 'out of tolerance' }>,
): number => {
  const expected = expect.value ?? 0
  const { value } = reading
  if (reading.quantity === 'current') return side === 'low' && expected !== 0 ? value / expected : 1
  const { a, b } = coil ?? element
  const whole = Math.abs((solved.nodes.get(a) ?? 0) - (solved.nodes.get(b) ?? 0))
  if (reading.quantity === 'resistance') {
    const current = currentOf(solved, coil ?? element)
    return current > 0 ? whole / (whole + (value - expected) * current) : 1
  }
  const source = Math.max(...[...solved.nodes.values()].map((volts) => volts ?? 0))
  // An earth, or a drop on the way: it falls with the current, and rises by what the load loses.
  if (Math.abs(expected) < FED) return side === 'low' ? value / (expected || 1) : 1 - (value - expected) / whole
  if (side === 'low') return 1 - (expected - value) / whole
  // A feed that stands too high: less current on its way here.
  const fall = source - expected
  return fall > TELLING ? (source - value) / fall : 1
}
/** V below which a point counts as one of the return. */
const FED = 1
