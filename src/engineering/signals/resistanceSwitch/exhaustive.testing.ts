/** The peer that the branch and bound is held to, in tests and bench: every choice tried. */
import { within } from '../interval.ts'
import { envelopeOf } from './circuit.ts'
import type { DesignQuestion } from './design.ts'

/** V: the widest smallest gap of every choice there is, without an end-of-line resistor; shares no code with the search but the envelope. */
export function exhaustive(question: DesignQuestion): number {
  const { topology, buttons, circuit, around } = question
  let best = 0
  for (const pullUp of question.pullUps) {
    const envelope = envelopeOf({ ...circuit, pullUp: within(pullUp.nominal, pullUp.tolerance) })
    const low = (r: number): number => envelope.lowest(1 / (1 / r + 1 / around.insulation))
    const open = envelope.lowest(around.insulation)
    const each = question.parts.map(({ nominal, tolerance }) => within(nominal, tolerance))
    const go = (step: number, y: number, sumLow: number, sumHigh: number, smallest: number, from: number): void => {
      if (step === buttons) {
        best = Math.max(best, Math.min(smallest, open - y))
        return
      }
      for (let i = from; i < each.length; i += 1) {
        const [l, h] =
          topology === 'chain' ? [sumLow + each[i]!.low, sumHigh + each[i]!.high] : [each[i]!.low, each[i]!.high]
        const gap = low(l) - y
        go(
          step + 1,
          envelope.highest(h + around.contact),
          l,
          h,
          Math.min(smallest, gap),
          topology === 'chain' ? 0 : i + 1,
        )
      }
    }
    go(0, envelope.highest(around.short), 0, 0, Number.POSITIVE_INFINITY, 0)
  }
  const mid = circuit.reference === 'supply' ? circuit.supply : circuit.reference
  return (best * (mid.low + mid.high)) / 2
}
