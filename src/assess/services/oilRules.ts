/** Rules `oil-pressure`, `oil-pressure-range`, `turbo-oil-feed`, `turbo-oil-drain`; the breather’s own stand in `breatherRules.ts`. */
import { isKnown } from '../chain/chain.ts'
import { type Judged, linesOfWorking, unknownFor } from '../chain/judged.ts'
import { VERDICTS, type Verdict } from '../finding.ts'
import { finding, list } from '../make.ts'
import { breatherFindings } from './breatherRules.ts'
import type { ServicesChain } from './chain.ts'
import type { PressurePoint } from './oilPressure.ts'
import { FOAM } from './turboOil.ts'
import { OIL_BASE as BASE, bar, litresPerMinute, millimetres, revs } from './words.ts'

/** Share of the highest engine speed up to which a pressure must have been read. */
const READ_TO = 0.95
const DRAIN_SOURCE =
  'Notes of turbocharger makers [read at garrettmotion.com, oil drainage, and bullseyepower.com, oil drain requirements]: no narrower than the outlet, falling all the way, into the sump above its oil'

const worstOf = (verdicts: readonly Verdict[]): Verdict =>
  [...verdicts].sort((a, b) => VERDICTS.indexOf(a) - VERDICTS.indexOf(b))[0] ?? 'sound'

/** Below what the maker asks it condemns; a rule of thumb only doubts. */
const verdictAt = ({ pressure, need }: PressurePoint, by: 'maker' | 'rule'): Verdict | undefined => {
  if (!isKnown(need)) return undefined
  if (pressure.value + pressure.plusMinus < need.value) return by === 'maker' ? 'no-go' : 'marginal'
  return pressure.value - pressure.plusMinus < need.value ? 'marginal' : 'sound'
}

const pressureFindings = ({ pressure, facts }: ServicesChain): Judged[] => {
  const { points, by, falls } = pressure
  const base = { ...BASE, rule: 'oil-pressure', about: 'Hot oil pressure' } as const
  const judged = points.flatMap((point) => {
    const verdict = verdictAt(point, by)
    return verdict && isKnown(point.need) ? [{ point, verdict, need: point.need }] : []
  })
  if (judged.length === 0)
    return [
      {
        station: 'pressure',
        finding: finding({
          ...base,
          ...unknownFor('Whether hot oil pressure is enough', points[0]?.need ?? pressure.top),
        }),
      },
    ]
  const verdict = worstOf([...judged.map((each) => each.verdict), ...(falls ? (['marginal'] as const) : [])])
  const short = judged.filter((each) => each.verdict !== 'sound')
  const asked = by === 'maker' ? 'the maker’s least' : 'the rule of thumb'
  const slack = [...judged].sort(
    (a, b) => a.point.pressure.value / a.need.value - b.point.pressure.value / b.need.value,
  )[0]!
  const says = [
    short.length > 0
      ? `Hot, the oil stands at ${list(short.map(({ point, need }) => `${bar(point.pressure)} at ${revs(point.speed)} where ${asked} is ${bar(need)}`))}.`
      : `Hot oil pressure meets ${asked} at all ${judged.length} speeds that can be judged; nearest at ${revs(slack.point.speed)}: ${bar(slack.point.pressure)} of ${bar(slack.need)}.`,
    ...(falls
      ? [
          `It falls from ${bar(falls[0].pressure)} at ${revs(falls[0].speed)} to ${bar(falls[1].pressure)} at ${revs(falls[1].speed)}.`,
        ]
      : []),
    ...(by === 'rule' ? ['A rule of thumb proves nothing: the maker’s own figure decides.'] : []),
  ]
  const pressing = judged.map(({ point, need }) => `${revs(point.speed)}: ${bar(point.pressure)}, least ${bar(need)}`)
  const found: Judged[] = [
    {
      station: 'pressure',
      finding: finding({
        ...base,
        verdict,
        says: says.join(' '),
        todo:
          verdict === 'sound'
            ? 'Nothing.'
            : falls && short.length === 0
              ? 'Oil level and pick-up first: air in the oil, or a pick-up that runs dry, lets pressure fall with speed. Do not hold that speed until it is found.'
              : `Read it again with a mechanical gauge at the gallery, oil hot; then level, oil grade, fuel in the oil, filter, relief valve, bearings.${by === 'rule' ? ' Enter the maker’s least pressures.' : ' Do not load the engine until it is right.'}`,
        working: [...pressing, ...linesOfWorking(slack.need, slack.point.pressure)],
      }),
    },
  ]
  const { targetSpeed } = facts
  if (isKnown(pressure.topSpeed) && isKnown(targetSpeed) && pressure.topSpeed.value < READ_TO * targetSpeed.value)
    found.push({
      station: 'pressure',
      finding: finding({
        ...BASE,
        rule: 'oil-pressure-range',
        about: 'Hot oil pressure at full speed',
        verdict: 'unknown',
        says: `It was read up to ${revs(pressure.topSpeed.value)}; the target power stands at ${revs(targetSpeed.value)}.`,
        todo: `Read hot oil pressure at ${revs(targetSpeed.value)}, from a log, not from the gauge while driving.`,
        missing: `hot oil pressure at ${revs(targetSpeed.value)}`,
      }),
    })
  return found
}

const feedFinding = ({ turbo, facts, oil }: ServicesChain): Judged => {
  const base = { ...BASE, rule: 'turbo-oil-feed', about: 'Turbocharger’s oil feed' } as const
  const { atInlet, mostCold, mostHot } = turbo
  const { turboLeastPressure: least, turboMostPressure: most, turboRestrictor } = facts.oil
  if (!isKnown(atInlet) || (!least && !most))
    return {
      station: 'feed',
      finding: finding({
        ...base,
        ...(isKnown(atInlet)
          ? {
              verdict: 'unknown' as const,
              says: `${bar(atInlet)} is left at the turbocharger; what its maker asks is not entered.`,
              todo: 'Enter the least oil pressure at its inlet, from its maker’s sheet.',
              missing: 'least oil pressure of the turbocharger',
            }
          : unknownFor('What oil pressure reaches the turbocharger', atInlet, oil.hot)),
      }),
    }
  const low = least && atInlet.value < least.value
  const high = most && atInlet.value > most.value
  const doubtful =
    (least && atInlet.value - atInlet.plusMinus < least.value) ||
    (most && atInlet.value + atInlet.plusMinus > most.value)
  const verdict: Verdict =
    least && atInlet.value + atInlet.plusMinus < least.value ? 'no-go' : doubtful ? 'marginal' : 'sound'
  const asked = [
    ...(least ? [`at least ${bar({ value: least.value, plusMinus: 0, working: [] })}`] : []),
    ...(most ? [`at most ${bar({ value: most.value, plusMinus: 0, working: [] })}`] : []),
  ]
  const cold = isKnown(mostCold) ? ` At the coldest start it passes no more than ${litresPerMinute(mostCold, 2)}.` : ''
  return {
    station: 'feed',
    finding: finding({
      ...base,
      verdict,
      says: `Hot and at the highest speed read, ${bar(atInlet)} is left at the turbocharger; its maker asks for ${list(asked)}.${cold}`,
      todo:
        verdict === 'sound'
          ? 'Nothing. After a cold start let it idle until the oil has come.'
          : low
            ? `${turboRestrictor ? 'A wider restrictor, or none; then a' : 'A'} wider or shorter feed, taken from the main gallery.`
            : high
              ? `A ${turboRestrictor ? 'narrower restrictor' : 'restrictor'} at its inlet, of the size its maker names: too much pressure passes the seals.`
              : 'Measure the pressure at its inlet, hot and at full speed.',
      working: linesOfWorking(atInlet, turbo.feedLoss, turbo.restrictorLoss, mostHot),
    }),
  }
}

const drainFinding = ({ turbo, facts }: ServicesChain): Judged => {
  const base = { ...BASE, rule: 'turbo-oil-drain', about: 'Turbocharger’s oil drain' } as const
  const { turboDrainBore: bore, turboOutletBore: outlet, turboDrainAbove: above, turboDrainFall: fall } = facts.oil
  const verdicts: Verdict[] = []
  const says: string[] = []
  const todo: string[] = []
  const told = (verdict: Verdict, what: string, mend: string): void => {
    verdicts.push(verdict)
    says.push(what)
    todo.push(mend)
  }
  const { inHand, drainHot, need } = turbo
  if (fall && fall.value + (fall.plusMinus ?? 0) <= 0)
    told(
      'no-go',
      'The drain does not fall from the turbocharger to the sump: its oil cannot run off.',
      'Lead it down all the way, or fit a scavenge pump.',
    )
  else if (isKnown(inHand) && isKnown(drainHot) && isKnown(need)) {
    const amount = `half full it takes ${litresPerMinute(drainHot)} of hot oil, ${inHand.value.toFixed(1)} times the ${litresPerMinute(need)} that come`
    if (inHand.value + inHand.plusMinus < 1)
      told('no-go', `The drain is too small: ${amount}.`, 'A wider or steeper drain.')
    else if (inHand.value - inHand.plusMinus < FOAM)
      told(
        'marginal',
        `The drain has too little in hand for foam: ${amount}; behind bearings it is foam of several times the volume.`,
        'A wider or steeper drain.',
      )
  }
  if (above && above.value - (above.plusMinus ?? 0) < 0)
    told(
      'marginal',
      `The drain ends ${above.value < 0 ? `${millimetres({ value: -above.value, plusMinus: 0, working: [] })} below` : 'at'} the oil’s level: the sump’s oil and blow-by hold it back, and it smokes.`,
      'Lead it into the sump above the oil’s level.',
    )
  if (bore && outlet && bore.value < outlet.value)
    told(
      'marginal',
      `At ${millimetres({ value: bore.value, plusMinus: 0, working: [] })} the drain is narrower than the outlet’s ${millimetres({ value: outlet.value, plusMinus: 0, working: [] })}.`,
      'No part of the drain narrower than the outlet.',
    )
  const working = [
    ...linesOfWorking(turbo.slope, drainHot, need, inHand),
    DRAIN_SOURCE,
    `In hand for foam: ${FOAM} times; common practice, no published source`,
  ]
  if (says.length > 0)
    return {
      station: 'drain',
      finding: finding({ ...base, verdict: worstOf(verdicts), says: says.join(' '), todo: todo.join(' '), working }),
    }
  if (!isKnown(inHand) || !above)
    return {
      station: 'drain',
      finding: finding({
        ...base,
        ...(isKnown(inHand)
          ? {
              verdict: 'unknown' as const,
              says: 'Whether the drain ends above the oil’s level is not known.',
              todo: 'Enter how far above the oil’s level, engine running, the drain enters the sump.',
              missing: 'height of the drain’s end above the oil’s level',
            }
          : unknownFor('Whether the turbocharger’s oil can run off', inHand)),
      }),
    }
  return {
    station: 'drain',
    finding: finding({
      ...base,
      verdict: 'sound',
      says: `Half full the drain takes ${inHand.value.toFixed(0)} times the oil that comes, hot and without foam, and ends above the oil’s level.`,
      todo: 'Nothing. No dip and no kink along it.',
      working,
    }),
  }
}

export const oilFindings = (chain: ServicesChain): Judged[] => [
  ...pressureFindings(chain),
  ...(chain.facts.turbo ? [feedFinding(chain), drainFinding(chain)] : []),
  ...breatherFindings(chain),
]
