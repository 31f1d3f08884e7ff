/** The gates in their order, each judged by its evidence; what locks, what waits, and what comes next. */
import type { Build } from '../../model/build.ts'
import type { Finding, Verdict } from '../finding.ts'
import { sheetStanding, type TestSheet } from '../testSheets/testSheet.ts'
import { judgeAsk } from './asks.ts'
import { closingOf, gatesOf } from './row.ts'
import type { AskStanding, Gate, GateStanding, Next, Stand } from './types.ts'

/** What lets a gate be closed: nothing missing, nothing against it. Marginal is said, and the builder goes on knowing it. */
const ORDER: readonly Verdict[] = ['no-go', 'unknown', 'marginal', 'sound']
export const canClose = (verdict: Verdict): boolean => verdict === 'sound' || verdict === 'marginal'

const worstOf = (asks: readonly AskStanding[]): Verdict =>
  ORDER.find((verdict) => asks.some((ask) => ask.verdict === verdict)) ?? 'unknown'

const nextOf = (asks: readonly AskStanding[], verdict: Verdict): Next | undefined => {
  const first = asks.find((ask) => ask.verdict === verdict)
  return first?.next ?? (first?.missing === undefined ? undefined : { says: `Missing: ${first.missing}.` })
}

/**
 * `sheet`: the first-power sheet of this build, which takes a second to reckon; while it is not there its lines are
 * `unknown`. `findings`: of the same build.
 */
export const judgeGates = (
  build: Build,
  findings: readonly Finding[],
  sheet: TestSheet | undefined,
): readonly GateStanding[] => {
  const found = sheet && { sheet, standing: sheetStanding(build, sheet) }
  let lock: Gate | undefined
  let wait: Gate | undefined
  return gatesOf(build).map((gate): GateStanding => {
    const asks = gate.asks.map((ask) => judgeAsk(build, ask, findings, found))
    const verdict = worstOf(asks)
    const closedBy = closingOf(build, gate.id)
    const holds = canClose(verdict)
    const stand: Stand =
      lock !== undefined
        ? 'locked'
        : wait !== undefined
          ? 'waits'
          : closedBy === undefined
            ? 'in turn'
            : holds
              ? 'closed'
              : 'asks again'
    const behind = lock ?? wait
    const next = stand === 'in turn' && holds ? { says: 'Close this gate.' } : holds ? undefined : nextOf(asks, verdict)
    if (verdict === 'no-go') lock ??= gate
    if (stand !== 'closed') wait ??= gate
    return {
      gate,
      verdict,
      asks,
      stand,
      ...(behind === undefined ? {} : { behind }),
      ...(closedBy === undefined ? {} : { closedBy }),
      ...(next === undefined ? {} : { next }),
    }
  })
}
