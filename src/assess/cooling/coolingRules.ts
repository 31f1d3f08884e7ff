/**
 * Rules of cooling: `boil-margin`, `radiator-air`, `header-room`, `pressure-hold`, `cooling-repair`, `cooling-readings`. Never an
 * act on hot coolant. From the sheets and stored readings, never from logs.
 */
import type { Build } from '../../model/build.ts'
import { type Datum, isKnown, type Known } from '../chain/chain.ts'
import { type Judged, waitsFor, withVerdicts } from '../chain/judged.ts'
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import { celsius, finding, HOT_CAUTION, kilowatts, list, percent } from '../make.ts'
import { type CoolingChain, coolingChain, coolingChainOf, MARGIN } from './chain.ts'

const NEVER_OPEN = 'Never open the cooling system hot: it is under pressure and scalds.'
const BASE = { system: 'cooling', subject: 'sheet/cooling', cautions: [NEVER_OPEN, HOT_CAUTION] } as const
/** Share of the reckoned air that is missing before something is wrong with shroud or seals. Common practice. */
const AIR_SHORT = 0.85

const lines = (...data: readonly Datum[]): string[] => data.flatMap((datum) => (isKnown(datum) ? datum.working : []))
const kelvin = ({ value, plusMinus }: Known): string =>
  `${value.toFixed(0).replace('-', '−')} K${plusMinus > 0 ? ` ± ${plusMinus.toPrecision(2)} K` : ''}`
const seconds = (time: number): string => (time < 120 ? `${time.toFixed(0)} s` : `${(time / 60).toFixed(0)} min`)

const boilFinding = (chain: CoolingChain, figures: Record<string, number>): Judged[] => {
  const { margin, coolant, boiling, facts, timeToBoil, capacity } = chain
  const base = { ...BASE, rule: 'boil-margin', about: 'Coolant on a long climb' } as const
  if (!isKnown(margin) || !isKnown(coolant) || !isKnown(boiling)) {
    const { missing, says } = waitsFor(margin)
    return [
      {
        station: 'cap',
        finding: finding({
          ...base,
          verdict: 'unknown',
          says: `How near the coolant comes to boiling is not known${says === '' ? `: ${list(missing)} ${missing.length === 1 ? 'is' : 'are'} missing` : ''}.${says === '' ? '' : ` ${says}`}`,
          todo: `Enter ${list(missing)}.`,
          missing: list(missing),
        }),
      },
    ]
  }
  figures.boilMargin = margin.value
  figures.coolantTemperature = coolant.value
  const verdict =
    margin.value + margin.plusMinus < 0
      ? 'no-go'
      : margin.value - margin.plusMinus < 0 || margin.value < MARGIN
        ? 'marginal'
        : 'sound'
  const climb = facts.readings['coolant-temperature-climb']
  const power = isKnown(facts.sustained) ? kilowatts(facts.sustained.value) : 'that power'
  const limit = isKnown(capacity) ? ` It holds ${kilowatts(capacity.value)} for good with ${MARGIN} K in hand.` : ''
  const burst = isKnown(timeToBoil)
    ? ` From thermostat heat full power boils it after about ${seconds(timeToBoil.value)}, the heat that the engine’s own metal takes left out.`
    : timeToBoil.problems.some(({ code }) => code === 'inconsistent-inputs')
      ? ' Full power does not boil it.'
      : ''
  return [
    {
      station: 'cap',
      finding: finding({
        ...base,
        verdict,
        says: `At ${power} for long the coolant stands at ${celsius(coolant.value)}${climb ? ` (reading ${climb.id})` : ''} and boils at ${celsius(boiling.value)}: ${kelvin(margin)} to spare.${limit}${burst}`,
        todo:
          verdict === 'sound'
            ? 'Nothing.'
            : 'More air first: shroud the fan, seal the gaps round the core, see the fan’s volts; then coolant flow, a larger core, the right cap. Ease off and stop before it boils; let it cool shut.',
        working: [...lines(coolant), ...lines(boiling), ...lines(margin)],
      }),
    },
  ]
}

const airFinding = ({ airSide, facts, coolant }: CoolingChain): Judged[] => {
  const found: Judged[] = []
  const reading = facts.readings['radiator-air-flow']
  const { reckoned } = airSide
  if (reading && isKnown(reckoned)) {
    const share = reading.value / reckoned.value
    const short = reading.value + reading.plusMinus < AIR_SHORT * reckoned.value - reckoned.plusMinus
    found.push({
      station: 'air',
      finding: finding({
        ...BASE,
        rule: 'radiator-air',
        verdict: short ? 'marginal' : 'sound',
        about: 'Air through the radiator',
        says: `Measured ${reading.value.toFixed(2)} m³/s ± ${reading.plusMinus.toPrecision(1)} (reading ${reading.id}), ${percent(share)} of the ${reckoned.value.toFixed(2)} m³/s reckoned from fan, ram and core.`,
        todo: short
          ? 'Look for air that goes round the core: gaps at its edges, a fan without shroud, no way out of the bay; and that the fan blows the right way.'
          : 'Nothing.',
        working: [...reading.working, ...lines(reckoned)],
      }),
    })
  } else if (!isKnown(reckoned) && reckoned.problems.length > 0) {
    const { missing, says } = waitsFor(reckoned)
    found.push({
      station: 'air',
      finding: finding({
        ...BASE,
        rule: 'radiator-air',
        verdict: 'unknown',
        about: 'Air through the radiator',
        says: `The air through the core cannot be reckoned. ${says}`,
        todo: `Enter ${list(missing)}.`,
        missing: list(missing),
      }),
    })
  }
  const climb = facts.readings['coolant-temperature-climb']
  if (climb && isKnown(facts.outsideTemperature) && climb.value < facts.outsideTemperature.value && isKnown(coolant))
    found.push({
      station: 'thermostat',
      finding: finding({
        ...BASE,
        rule: 'cooling-readings',
        verdict: 'marginal',
        about: 'Coolant temperature as measured',
        says: `Reading ${climb.id} (${celsius(climb.value)}) is colder than the air outside, on a climb.`,
        todo: 'Look whether air and coolant sensors are swapped, or the sensor hangs in gas, not coolant.',
      }),
    })
  return found
}

const headerFinding = ({ growth, facts, headerPressure }: CoolingChain): Judged[] => {
  const space = facts.cooling.headerSpace
  if (!isKnown(growth) || !space) return []
  const full = growth.value + growth.plusMinus >= space.value
  const { cap } = facts
  const vents = !full && isKnown(headerPressure) && isKnown(cap) && headerPressure.value > cap.value
  const litres = (volume: number): string => `${(volume * 1e3).toFixed(2)} l`
  return [
    {
      station: 'header',
      finding: finding({
        ...BASE,
        rule: 'header-room',
        verdict: full || vents ? 'marginal' : 'sound',
        about: 'Room in the header',
        says: `Warming, the coolant grows by ${litres(growth.value)}; the header has ${litres(space.value)} of gas cold${full ? ': it pushes coolant out' : vents ? ': squeezing that gas alone opens the cap' : ''}.`,
        todo:
          full || vents ? 'Fill less, cold, or fit a larger header; an overflow bottle must draw back.' : 'Nothing.',
        working: lines(growth, headerPressure),
      }),
    },
  ]
}

const holdFinding = ({ hold, facts }: CoolingChain): Judged[] => {
  if (!hold) return []
  const rate =
    isKnown(hold.rate) && hold.answer === 'not tight'
      ? ` As liquid ${(hold.rate.value * 3.6e9).toFixed(0)} ml/h ± ${(hold.rate.plusMinus * 3.6e9).toPrecision(2)}.`
      : ''
  return [
    {
      station: 'hold',
      finding: finding({
        ...BASE,
        rule: 'pressure-hold',
        verdict: hold.wrong || hold.answer === 'not tight' ? 'marginal' : hold.answer === 'tight' ? 'sound' : 'unknown',
        about: 'Pressure-hold test',
        says: `${hold.wrong ? `${hold.wrong} ` : ''}The test says: ${hold.answer}. ${hold.because}${rate}`,
        todo: hold.next,
        ...(hold.answer === 'cannot tell' ? { missing: 'a pressure-hold test that can tell' } : {}),
        working: lines(hold.rate, hold.expected),
        cautions: [
          'Cold only, never above the pressure on the cap.',
          NEVER_OPEN,
          ...(facts.cooling.hold ? ['Stand clear of old hoses under test.'] : []),
        ],
      }),
    },
  ]
}

const RISKS = {
  soldered: 'a soldered seam in a hot, shaking core lasts as long as the brass around it is sound',
  welded: 'a welded seam lasts if the metal is clean; the metal beside it is as old as before',
  bonded: 'a bonded seam on a plastic tank lets go hot, at once and without warning',
  'sealant in the coolant': 'sealant also stops heater, header hose and small passages, and hides a leak that grows',
} as const

const repairFindings = ({ facts }: CoolingChain): Judged[] =>
  (facts.cooling.repairs ?? []).flatMap((repair): Judged[] => {
    if (repair.how === 'replaced') return []
    const rests = repair.how === 'soldered' || repair.how === 'welded'
    return [
      {
        station: 'hold',
        finding: finding({
          ...BASE,
          rule: 'cooling-repair',
          part: repair.id,
          verdict: rests && repair.spare ? 'sound' : 'marginal',
          about: repair.name,
          says: `${repair.name} is repaired (${repair.how}): ${RISKS[repair.how]}. Lost coolant at load costs the engine; the part new costs far less (common practice, no published source).`,
          todo: repair.spare
            ? 'Fit the spare at the next draining; till then look under it, cold, before each long drive.'
            : 'Order a replacement; till then look under it, cold, before each long drive.',
        }),
      },
    ]
  })

/** Nothing is judged where no cooling sheet stands. */
export const judgeCooling = (chain: CoolingChain, figures: Record<string, number> = {}): Judged[] =>
  Object.keys(chain.facts.cooling).length === 0
    ? []
    : [
        ...boilFinding(chain, figures),
        ...airFinding(chain),
        ...headerFinding(chain),
        ...holdFinding(chain),
        ...repairFindings(chain),
      ]

export const coolingFindings = (context: Context): Finding[] => {
  if (context.build.sheets.cooling === undefined) return []
  const full = context.cases.find(({ kase }) => kase.engine === 'full load')
  return judgeCooling(coolingChain(context.build, full), context.figures).map(({ finding: found }) => found)
}

/** For a screen: the chain with the verdict at each station. */
export const judgedCooling = (build: Build): { readonly chain: CoolingChain; readonly judged: readonly Judged[] } => {
  const chain = coolingChainOf(build)
  const judged = judgeCooling(chain)
  return { chain: withVerdicts(chain, judged), judged }
}
