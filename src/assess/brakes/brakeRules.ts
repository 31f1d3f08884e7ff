/**
 * Rules of brakes: `brake-pedal-force`, `brake-stalled`, `brake-balance`, `brake-circuits`, `brake-heat`,
 * `brake-inspection`, `brake-anti-lock`; those of travel, parking, fluid and vacuum stand in files of their
 * own. None says more than that the
 * arithmetic holds. Anti-lock units are never judged.
 */

import { DRY_ROAD } from '../../engineering/brakes/yardsticks.ts'
import { G } from '../../engineering/exactUnits.ts'
import type { Build } from '../../model/build.ts'
import { combine, isKnown, type Known, known } from '../chain/chain.ts'
import { type Judged, linesOfWorking, unknownFor, waitsFor, withVerdicts } from '../chain/judged.ts'
import type { Context } from '../context.ts'
import { type Finding, VERDICTS, type Verdict } from '../finding.ts'
import { celsius, finding } from '../make.ts'
import { isAdhesion, linesOf } from './adhesion.ts'
import { type BrakeCase, type BrakeChain, brakeChain } from './chain.ts'
import { type BrakeFacts, LOADS } from './facts.ts'
import { fluidFindings } from './fluidRules.ts'
import { parkingFindings } from './parkingRules.ts'
import { limitOf, type PedalRow, pedalRow } from './pedalSheet.ts'
import { isFailure, type State, statesOf, stateWords } from './states.ts'
import { travelFindings } from './travelRules.ts'
import { vacuumFindings } from './vacuumRules.ts'
import { ANTI_LOCK_WORK, BASE, bars, HOLDS, newtons, rate } from './words.ts'

const capital = (text: string): string => `${text[0]!.toUpperCase()}${text.slice(1)}`

const worstOf = (verdicts: readonly Verdict[]): Verdict =>
  [...verdicts].sort((a, b) => VERDICTS.indexOf(a) - VERDICTS.indexOf(b))[0] ?? 'unknown'

/** m: bores that master cylinders are sold with, 5/8 to 1 1/8 inch. Common practice, no published source. */
const BORES = [0.01587, 0.01746, 0.01905, 0.02064, 0.0222, 0.02381, 0.0254, 0.02857] as const

interface RowVerdict {
  readonly verdict: Verdict
  /** `driver only 285 ± 135 N`. */
  readonly short: string
  /** What else is to be said, whole sentences. */
  readonly more: readonly string[]
}
const judgeRow = (row: PedalRow, facts: BrakeFacts): RowVerdict => {
  const { force, limit, frontUsed, rearUsed, wanted } = row
  if (!isKnown(force) || !isKnown(limit) || !isKnown(wanted))
    return { verdict: 'unknown', short: `${row.load} not known`, more: [] }
  const more: string[] = []
  const verdicts: Verdict[] = [
    force.value - force.plusMinus > limit.value
      ? 'no-go'
      : force.value + force.plusMinus > limit.value
        ? 'marginal'
        : 'sound',
  ]
  const least = facts.yardstick?.leastForce
  if (!isFailure(row.state) && least !== undefined && force.value < least) {
    verdicts.push('marginal')
    more.push(`${capital(row.load)} that is less than the ${least} N below which a pedal is too sharp.`)
  }
  if (isKnown(frontUsed) && isKnown(rearUsed)) {
    const [axle, used]: readonly [string, Known] =
      frontUsed.value >= rearUsed.value ? ['front', frontUsed] : ['rear', rearUsed]
    if (used.value > DRY_ROAD) {
      verdicts.push(used.value - used.plusMinus > DRY_ROAD ? 'no-go' : 'marginal')
      more.push(
        `${capital(row.load)} the ${axle} wheels lock before that on a dry road: they would use ${rate(used.value)} of an adhesion of ${DRY_ROAD}.`,
      )
    }
  }
  return { verdict: worstOf(verdicts), short: `${row.load} ${newtons(force)}`, more }
}

/** The largest bore sold that would keep every load within its limit in that state. */
const boreThatWould = (facts: BrakeFacts, state: State): string => {
  if (!isKnown(facts.bore)) return ''
  const { value } = facts.bore
  const would = [...BORES].reverse().find(
    (bore) =>
      bore < value &&
      LOADS.every((load) => {
        const { force, limit } = pedalRow({ ...facts, bore: known(bore) }, load, state)
        return !isKnown(force) || !isKnown(limit) || force.value + force.plusMinus <= limit.value
      }),
  )
  return would === undefined
    ? ' No usual bore alone would do it.'
    : ` Of the usual bores ${(would * 1e3).toFixed(1)} mm would, with ${((value / would) ** 2).toFixed(2)} times the pedal travel: measure that there is travel for it.`
}

const STATE_NAMES: Readonly<Record<State, string>> = {
  'all working': 'working',
  'first circuit failed': 'first-circuit',
  'second circuit failed': 'second-circuit',
  'servo dead': 'servo-dead',
  'engine stalled': 'stalled',
  'on boost': 'boost',
  'at altitude': 'altitude',
}
const STATIONS: Readonly<Record<State, string>> = {
  'all working': 'pedal',
  'first circuit failed': 'circuits',
  'second circuit failed': 'circuits',
  'servo dead': 'servo',
  'engine stalled': 'vacuum',
  'on boost': 'vacuum',
  'at altitude': 'vacuum',
}

const pedalFindings = (chain: BrakeChain): Judged[] => {
  const { facts, sheet } = chain
  const found: Judged[] = []
  const working = sheet.filter(({ state }) => state === 'all working')
  const lackOf = (rows: readonly PedalRow[]) =>
    waitsFor(...rows.flatMap(({ force, limit, wanted }) => [force, limit, wanted]))
  const atFirst = new Set(lackOf(working).missing)
  for (const state of statesOf(facts)) {
    const rows = sheet.filter((row) => row.state === state)
    const base = {
      ...BASE,
      rule: state === 'engine stalled' ? 'brake-stalled' : 'brake-pedal-force',
      part: STATE_NAMES[state],
      about: `Pedal force, ${stateWords(facts, state)}`,
    }
    const verdicts = rows.map((row) => judgeRow(row, facts))
    const verdict = worstOf(verdicts.map((each) => each.verdict))
    const { missing } = lackOf(rows)
    if (verdict === 'unknown') {
      // What the sound brakes lack is asked once, not again in every state.
      if (state !== 'all working' && missing.every((datum) => atFirst.has(datum))) continue
      const data = rows.flatMap(({ force, limit, wanted }) => [force, limit, wanted])
      const some = verdicts.filter((each) => each.verdict !== 'unknown').map(({ short }) => `${capital(short)}.`)
      const lack = unknownFor(`The pedal force, ${stateWords(facts, state)},`, ...data)
      found.push({
        station: STATIONS[state],
        finding: finding({ ...base, ...lack, says: [lack.says, ...some].join(' ') }),
      })
      continue
    }
    const strokes = state === 'engine stalled' ? stalledWords(chain) : ''
    const [row] = rows
    const line = row && isKnown(row.line) ? ` Line pressure ${bars(row.line)} (${row.load}).` : ''
    const wanted = row && isKnown(row.wanted) ? `, for ${row.wanted.value.toFixed(2)} m/s²` : ''
    const allowed = row && isKnown(row.limit) ? `, of ${row.limit.value.toFixed(0)} N allowed` : ''
    const said = [
      `${capital(stateWords(facts, state))}${wanted}: ${verdicts.map(({ short }) => short).join(', ')}${allowed}.`,
      ...verdicts.flatMap(({ more }) => more),
    ].join(' ')
    found.push({
      station: STATIONS[state],
      finding: finding({
        ...base,
        verdict,
        says: `${said}${strokes}${line}${verdict === 'sound' ? ` ${HOLDS}` : ''}`,
        todo:
          verdict === 'sound'
            ? 'Have a qualified person inspect it.'
            : `${remedyFor(state)}${boreThatWould(facts, state)} Then look at the balance again.`,
        working: linesOfWorking(...rows.flatMap(({ wanted, limit, force }) => [wanted, limit, force])),
      }),
    })
  }
  return found
}

/** Laden, stop after stop, until the force no longer changes. */
const stalledWords = ({ stalled, strokesLeft }: BrakeChain): string => {
  const forces = (stalled ?? []).flatMap(({ force }) => (isKnown(force) ? [force.value] : []))
  if (strokesLeft === undefined || forces.length === 0) return ''
  const last = forces.findIndex((force, index) => index > 0 && Math.abs(force - forces.at(-1)!) < 1)
  const told = forces.slice(0, last < 0 ? 6 : last + 1).map((force) => force.toFixed(0))
  return ` Laden, firm stop after firm stop: ${told.join(', ')} N${
    strokesLeft === 'more'
      ? ', within the limit however often the pedal is pressed.'
      : strokesLeft === 0
        ? '; not even the first is within the limit.'
        : `; ${strokesLeft} ${strokesLeft === 1 ? 'stop is' : 'stops are'} within the limit.`
  }`
}

const remedyFor = (state: State): string => {
  if (state === 'engine stalled')
    return 'A vacuum reservoir on the servo’s side of its check valve, or a servo of larger chambers; else less force needed: smaller bore, more pedal ratio, larger pistons.'
  if (state === 'on boost')
    return 'A reservoir or a larger servo, so that one full stop is held in store; or a vacuum pump.'
  if (state === 'at altitude') return 'A larger servo, or less force needed: smaller bore, larger pistons.'
  return 'Less force needed: smaller bore, more pedal ratio, larger pistons, linings of higher friction at both axles alike; or a larger servo where it is not a servo’s failure.'
}

const balanceFinding = (chain: BrakeChain): Judged[] => {
  const { facts, adhesion } = chain
  const base = { ...BASE, rule: 'brake-balance', about: 'Which axle locks first' } as const
  const curves = LOADS.map((load) => adhesion[load])
  const complete = curves.filter(isAdhesion)
  if (complete.length < LOADS.length) {
    const lacks = curves.flatMap((each) => (isAdhesion(each) ? [] : [each]))
    return [{ station: 'tyres', finding: finding({ ...base, ...unknownFor('Which axle locks first', ...lacks) }) }]
  }
  const verdicts: Verdict[] = []
  const says: string[] = []
  let rear = false
  for (const curve of complete) {
    const lines = linesOf(curve, facts)
    const name = capital(curve.load)
    const range = facts.yardstick?.rearBelow
    if (!curve.rearFirst) {
      says.push(
        `${name}: the front locks first on every road up to an adhesion of ${DRY_ROAD}${curve.rearFirstAtWorst ? `, but with the linings at the ends of their range the rear does from ${rate(curve.rearFirstAtWorst[0])} g` : ''}.`,
      )
      rear ||= curve.rearFirstAtWorst !== undefined
      verdicts.push(curve.rearFirstAtWorst ? 'marginal' : 'sound')
    } else {
      const [from, to] = curve.rearFirst
      rear = true
      says.push(
        `${name}: the rear locks first between ${rate(from)} and ${rate(to)} g${range ? `; ${facts.yardstick?.name} allows none between ${range[0]} and ${range[1]}` : ''}.`,
      )
      verdicts.push(lines.rearAbove ? 'no-go' : 'marginal')
    }
    if (lines.shortAt !== undefined) {
      says.push(
        `${name}: on a road of adhesion ${rate(lines.shortAt)} less deceleration is reached than ${facts.yardstick?.name} asks.`,
      )
      verdicts.push('marginal')
    }
  }
  const verdict = worstOf(verdicts)
  if (facts.antiLock)
    return [
      {
        station: 'tyres',
        finding: finding({
          ...base,
          verdict: 'unknown',
          says: `${says.join(' ')} That is the base brakes alone: the car has an anti-lock unit, and how both work together is ${ANTI_LOCK_WORK}.`,
          todo: 'Tell the brake specialist what was changed; drive only with the unit’s lamp proved and its work done.',
          missing: 'the judgement of a brake specialist',
        }),
      },
    ]
  return [
    {
      station: 'tyres',
      finding: finding({
        ...base,
        verdict,
        says: `${says.join(' ')}${verdict === 'sound' ? ` ${HOLDS}` : rear ? ' Rear wheels that lock first turn the car round.' : ''}`,
        todo:
          verdict === 'sound'
            ? 'Have a qualified person inspect it, on a brake tester.'
            : rear
              ? 'Less at the rear: smaller wheel cylinders or a valve that begins earlier; or more at the front. Prove it on a brake tester before any road.'
              : 'The front does too much of the work when laden: a larger rear brake with a valve by load would use the rear’s grip. Prove it on a brake tester.',
        working: [
          ...complete.flatMap(({ load, points }) =>
            points
              .filter((_, index) => index % 5 === 4)
              .map(
                (point) =>
                  `${load}, ${rate(point.rate)} g: front uses ${rate(point.front)}, rear ${rate(point.rear)} of the adhesion`,
              ),
          ),
          ...linesOfWorking(chain.row.frontUsed),
          ...(facts.yardstick
            ? [
                `Yardstick: ${facts.yardstick.source.title} [from memory]: the rear curve not above the front’s between ${facts.yardstick.rearBelow.join(' and ')} g; z ≥ 0.1 + ${facts.yardstick.share} × (k − 0.2) for k from 0.2 to 0.8.`,
              ]
            : []),
        ],
      }),
    },
  ]
}

const circuitFinding = ({ facts }: BrakeChain): Judged[] =>
  facts.brakes.circuits !== 'single'
    ? []
    : [
        {
          station: 'circuits',
          finding: finding({
            ...BASE,
            rule: 'brake-circuits',
            verdict: 'marginal',
            about: 'One circuit',
            says: 'One circuit works all brakes: one leak takes them all, and the hand brake is what is left.',
            todo: 'Ask whether a tandem cylinder with two circuits can be fitted; newer law asks for two. Till then look at every hose and pipe before each drive, and prove the hand brake.',
          }),
        },
      ]

const heatFinding = ({ facts, heat }: BrakeChain): Judged[] => {
  const { liningLimit, stops } = facts.brakes
  const base = { ...BASE, rule: 'brake-heat', about: 'Heat of a row of stops' } as const
  const limit =
    liningLimit === undefined
      ? { missing: ['temperature that the linings stand'], problems: [] }
      : known(liningLimit.value, liningLimit.plusMinus ?? 0)
  const ends = [heat.front.end, heat.rear.end] as const
  const [front, rear] = ends
  if (!isKnown(front) || !isKnown(rear) || !isKnown(limit)) {
    const told = (['front', 'rear'] as const).flatMap((axle, index) => {
      const end = ends[index]!
      return isKnown(end) ? [`${axle} ${celsius(end.value)}`] : []
    })
    const lack = unknownFor('How hot the brakes get in a row of stops', ...ends, limit)
    return [
      {
        station: 'heat',
        finding: finding({
          ...base,
          ...lack,
          says: told.length > 0 ? `${lack.says} Reckoned so far: ${told.join(', ')}.` : lack.says,
        }),
      },
    ]
  }
  const over = (end: Known): boolean => end.value - end.plusMinus > limit.value
  const near = (end: Known): boolean => end.value + end.plusMinus > limit.value
  const cooled = (stops?.interval?.value ?? 0) > 0
  // Uncooled is a bound from above: it can acquit, not condemn.
  const verdict: Verdict =
    cooled && (over(front) || over(rear)) ? 'no-go' : near(front) || near(rear) ? 'marginal' : 'sound'
  return [
    {
      station: 'heat',
      finding: finding({
        ...base,
        verdict,
        says: `${stops?.count} stops in a row from ${((stops?.from?.value ?? 0) * 3.6).toFixed(0)} km/h, laden, ${cooled ? 'with the cooling measured' : 'without cooling, the safe side'}: front ${celsius(front.value)}, rear ${celsius(rear.value)}; the linings stand ${celsius(limit.value)}.${verdict === 'sound' ? ` ${HOLDS}` : ''}`,
        todo:
          verdict === 'sound'
            ? 'Have a qualified person inspect it.'
            : `${cooled ? '' : 'Measure how fast they cool and enter it with the time between stops; then, if still too hot: '}more iron (larger or ventilated discs) or linings for more heat. Fresh fluid of high wet boiling point; never ride the brakes downhill.`,
        working: linesOfWorking(front, rear),
      }),
    },
  ]
}

const inspectionFinding = ({ facts }: BrakeChain): Judged[] => {
  const { inspection } = facts.brakes
  // Without a yardstick its figures are those of the pedal-force sheet already.
  if (!inspection?.service || !facts.yardstick) return []
  const place = inspection.name ?? 'the inspection of the place'
  const limit = inspection.force
    ? known(inspection.force.value, 0, 'Greatest pedal force of the inspection, as entered')
    : limitOf(facts)
  const wanted = combine(
    [known(inspection.service.value)],
    (z = 0) => z * G,
    'Deceleration = braking rate asked × gravity',
  )
  const row = { ...pedalRow(facts, 'driver only', 'all working', { wanted }), limit }
  const base = { ...BASE, rule: 'brake-inspection', about: `Braking rate for ${place}` } as const
  const judged = judgeRow(row, { ...facts, yardstick: undefined })
  const asked = `${(inspection.service.value * 100).toFixed(0)} % is asked by ${place}.`
  if (judged.verdict === 'unknown')
    return [
      {
        station: 'pedal',
        finding: finding({ ...base, ...unknownFor('Whether the braking rate asked is reached', row.force, row.limit) }),
      },
    ]
  return [
    {
      station: 'pedal',
      finding: finding({
        ...base,
        verdict: judged.verdict,
        says: [
          asked,
          `${capital(judged.short)}${isKnown(row.limit) ? `, of ${row.limit.value.toFixed(0)} N allowed` : ''}.`,
          ...judged.more,
          ...(judged.verdict === 'sound' ? [HOLDS] : []),
        ].join(' '),
        todo:
          judged.verdict === 'sound'
            ? 'Have it measured on a brake tester.'
            : `Less force needed: smaller bore, more pedal ratio, larger pistons.${boreThatWould(facts, 'all working')}`,
        working: linesOfWorking(row.wanted, row.limit, row.force),
      }),
    },
  ]
}

/** A unit among the devices has its own finding; one that only the sheet knows gets it here. */
const antiLockFinding = ({ facts }: BrakeChain): Judged[] =>
  facts.brakes.antiLock !== true ||
  Object.values(facts.build.collections.devices).some(({ restricted }) => restricted === 'anti-lock')
    ? []
    : [
        {
          station: 'circuits',
          finding: finding({
            ...BASE,
            rule: 'brake-anti-lock',
            verdict: 'unknown',
            about: 'Anti-lock unit',
            says: `An anti-lock unit is fitted. It is ${ANTI_LOCK_WORK}.`,
            todo: 'Leave it as it is, and give it to a brake specialist with the maker’s procedure.',
            missing: 'the judgement of a brake specialist',
          }),
        },
      ]

/** Nothing is judged where neither sheet stands. */
export const judgeBrakes = (chain: BrakeChain, figures: Record<string, number> = {}): Judged[] => {
  const { facts } = chain
  const none = Object.keys(facts.brakes).length === 0
  const working = chain.sheet.find(({ load, state }) => load === 'laden' && state === 'all working')
  if (!none && working && isKnown(working.force)) figures.pedalForce = working.force.value
  return [
    ...(none
      ? []
      : [
          ...pedalFindings(chain),
          ...travelFindings(chain),
          ...balanceFinding(chain),
          ...circuitFinding(chain),
          ...heatFinding(chain),
          ...fluidFindings(chain),
          ...parkingFindings(chain),
          ...inspectionFinding(chain),
          ...antiLockFinding(chain),
        ]),
    ...vacuumFindings(chain),
  ]
}

export const brakeFindings = (context: Context): Finding[] => {
  const { brakes, vacuum } = context.build.sheets
  if (brakes === undefined && vacuum === undefined) return []
  return judgeBrakes(brakeChain(context.build), context.figures).map(({ finding: found }) => found)
}

/** For a screen: the chain of a chosen case with the verdict at each station. */
export const judgedBrakes = (
  build: Build,
  chosen?: BrakeCase,
): { readonly chain: BrakeChain; readonly judged: readonly Judged[] } => {
  const chain = brakeChain(build, chosen)
  const judged = judgeBrakes(chain)
  return { chain: withVerdicts(chain, judged), judged }
}
