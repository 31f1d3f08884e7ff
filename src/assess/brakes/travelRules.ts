/** Rule `brake-travel`: is there stroke and pedal enough, with both circuits and with either one empty. */
import { isKnown } from '../chain/chain.ts'
import { type Judged, linesOfWorking, unknownFor, waitsFor } from '../chain/judged.ts'
import { VERDICTS, type Verdict } from '../finding.ts'
import { finding } from '../make.ts'
import type { BrakeChain } from './chain.ts'
import { pedalRow } from './pedalSheet.ts'
import { statesOf, stateWords } from './states.ts'
import { travelOf } from './travel.ts'
import { BASE, bars, HOLDS, millimetres } from './words.ts'

/** m: a pedal that goes farther in a hard stop is a long one. Common practice, no published source. */
const LONG = 0.15

const STATES = {
  'all working': 'working',
  'first circuit failed': 'first-circuit',
  'second circuit failed': 'second-circuit',
} as const

const against = (value: number, spread: number, limit: number): Verdict =>
  value - spread > limit ? 'no-go' : value + spread > limit ? 'marginal' : 'sound'

export const travelFindings = ({ facts }: BrakeChain): Judged[] => {
  const found: Judged[] = []
  const atFirst = new Set<string>()
  for (const state of statesOf(facts)) {
    if (state !== 'all working' && state !== 'first circuit failed' && state !== 'second circuit failed') continue
    const words = stateWords(facts, state)
    const base = { ...BASE, rule: 'brake-travel', part: STATES[state], about: `Pedal travel, ${words}` }
    const { row, first, travel, used, left, lost, pedal, chambers } = travelOf(facts, pedalRow(facts, 'laden', state))
    const data = [first, travel, used, left, pedal, ...chambers.flatMap(({ way, stroke }) => [way, stroke])]
    if (
      !isKnown(first) ||
      !isKnown(travel) ||
      !isKnown(used) ||
      !isKnown(left) ||
      data.some((datum) => !isKnown(datum))
    ) {
      const { missing } = waitsFor(...data)
      // What both circuits lack is asked once, not again for each that fails.
      if (state !== 'all working' && missing.every((datum) => atFirst.has(datum))) continue
      for (const datum of missing) atFirst.add(datum)
      found.push({
        station: 'travel',
        finding: finding({ ...base, ...unknownFor(`The pedal travel, ${words},`, ...data) }),
      })
      continue
    }
    const verdicts: Verdict[] = [against(used.value, used.plusMinus, 1)]
    const more: string[] = []
    if (verdicts[0] !== 'sound')
      more.push(
        verdicts[0] === 'no-go'
          ? 'The master cylinder bottoms before that pressure is reached.'
          : 'With the ± of the figures the master cylinder may bottom before that pressure is reached.',
      )
    if (isKnown(pedal)) {
      const verdict = against(travel.value, Math.hypot(travel.plusMinus, pedal.plusMinus), pedal.value)
      verdicts.push(verdict)
      if (verdict !== 'sound')
        more.push(`The pedal ${verdict === 'no-go' ? 'meets' : 'may meet'} what stops it, after ${millimetres(pedal)}.`)
    }
    for (const { name, way, stroke } of chambers) {
      if (!isKnown(way) || !isKnown(stroke)) continue
      const verdict = against(way.value, Math.hypot(way.plusMinus, stroke.plusMinus), stroke.value)
      verdicts.push(verdict)
      if (verdict !== 'sound')
        more.push(
          `In ${name} the piston ${verdict === 'no-go' ? 'bottoms' : 'may bottom'}: ${millimetres(way)} of ${millimetres(stroke)}; that circuit then gets no more pressure.`,
        )
    }
    if (state === 'all working' && travel.value > LONG) {
      verdicts.push('marginal')
      more.push(`More than ${(LONG * 1e3).toFixed(0)} mm is a long pedal [common practice, no published source].`)
    }
    const verdict = [...verdicts].sort((a, b) => VERDICTS.indexOf(a) - VERDICTS.indexOf(b))[0]!
    const ran =
      state !== 'all working' && isKnown(lost) ? ` ${millimetres(lost)} of it run through the empty chamber.` : ''
    found.push({
      station: 'travel',
      finding: finding({
        ...base,
        verdict,
        says: `${words[0]!.toUpperCase()}${words.slice(1)}, laden: first touch at ${millimetres(first)} of the pedal, ${millimetres(travel)} in the stop wanted${isKnown(row.line) ? ` at ${bars(row.line)}` : ''}; ${(used.value * 100).toFixed(0)} % of the stroke used, ${millimetres(left)} left.${ran}${more.length > 0 ? ` ${more.join(' ')}` : ''}${verdict === 'sound' ? ` ${HOLDS}` : ''}`,
        todo:
          verdict === 'sound'
            ? 'Have a qualified person inspect it; measure the travel on the car with the engine running.'
            : 'Less fluid taken (adjusted shoes, new hoses, smaller pistons) or more given (a larger bore, a longer stroke); less pedal ratio shortens the pedal alone. Then look at the pedal force again. Bleed first: air looks the same.',
        working: linesOfWorking(...data, lost),
      }),
    })
  }
  return found
}
