/** Rules `crankcase-breather` and `breather-end`. */
import { isKnown } from '../chain/chain.ts'
import { type Judged, linesOfWorking, unknownFor } from '../chain/judged.ts'
import type { Verdict } from '../finding.ts'
import { finding } from '../make.ts'
import type { ServicesChain } from './chain.ts'
import { OIL_BASE as BASE, litresPerMinute, millibar } from './words.ts'

const LAW =
  'UN R83, type III test: no gas of the crankcase may leave into the air [from memory]; older cars and other places differ'

export const breatherFindings = ({ breather, facts }: ServicesChain): Judged[] => {
  const { breather: end, crankcaseLimit: limit, catchTankVent, catchTankDrain } = facts.oil
  const { pressure, flow } = breather
  const base = { ...BASE, rule: 'crankcase-breather', about: 'Crankcase breather’s bore' } as const
  const found: Judged[] = []
  if (!isKnown(pressure) || !limit)
    found.push({
      station: 'breather',
      finding: finding({
        ...base,
        ...(isKnown(pressure)
          ? {
              verdict: 'unknown' as const,
              says: `At target power about ${isKnown(flow) ? litresPerMinute(flow, 0) : 'an unknown amount'} of blow-by leave ${millibar(pressure)} in the crankcase; what its seals stand is not entered.`,
              todo: 'Enter the greatest crankcase pressure by the engine’s maker.',
              missing: 'greatest crankcase pressure by the maker',
            }
          : unknownFor('What pressure the breather leaves in the crankcase', pressure)),
      }),
    })
  else {
    const over = pressure.value - pressure.plusMinus > limit.value
    const verdict: Verdict = over || pressure.value + pressure.plusMinus > limit.value ? 'marginal' : 'sound'
    found.push({
      station: 'breather',
      finding: finding({
        ...base,
        verdict,
        says: `At target power about ${isKnown(flow) ? litresPerMinute(flow, 0) : 'an unknown amount'} of blow-by leave ${millibar(pressure)} in the crankcase, of ${millibar({ value: limit.value, plusMinus: 0, working: [] })} that its seals stand${facts.readings['crankcase-pressure'] ? ', as measured' : ''}.`,
        todo:
          verdict === 'sound'
            ? 'Nothing. A separator or catch tank that clogs changes this.'
            : 'A wider or second breather; then look at rings and at the turbocharger’s seals: measure the pressure at the dipstick’s tube.',
        working: linesOfWorking(flow, pressure),
      }),
    })
  }
  const ends = { ...BASE, rule: 'breather-end', about: 'Where the crankcase breathes', working: [LAW] } as const
  const atAir = end === 'open' || (end === 'catch tank' && catchTankVent === 'open')
  const lacks =
    end === undefined
      ? 'where the crankcase breather goes'
      : end === 'catch tank' && !catchTankVent
        ? 'where the catch tank vents'
        : undefined
  found.push({
    station: 'breather',
    finding: finding(
      lacks
        ? { ...ends, verdict: 'unknown', says: `It is not known ${lacks}.`, todo: `Enter ${lacks}.`, missing: lacks }
        : atAir
          ? {
              ...ends,
              verdict: 'marginal',
              says: 'The crankcase breathes into the open air: that may be unlawful where the car is used, it smells in the cabin, and its oil mist burns on hot metal.',
              todo: 'Lead it back to the intake, before the compressor, by way of a separator; ask the local inspection.',
            }
          : {
              ...ends,
              verdict: 'sound',
              says: `The crankcase breathes ${end === 'catch tank' ? 'through a catch tank into the intake' : 'into the intake'}.${end === 'catch tank' && catchTankDrain === 'emptied by hand' ? ' A full tank sends its oil into the engine.' : ''}`,
              todo:
                end === 'catch tank' && catchTankDrain === 'emptied by hand'
                  ? 'Empty the tank at every oil check.'
                  : 'Nothing.',
            },
    ),
  })
  return found
}
