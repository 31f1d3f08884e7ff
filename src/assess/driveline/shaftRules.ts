/** Rules `propshaft-whirl` and `joint-angles`. */

import { TUBES } from '../../engineering/driveline/sources.ts'
import { WHIRL_SHARE, whirlingSpeed } from '../../engineering/driveline/whirlingSpeed.ts'
import { isKnown, type Known, known } from '../chain/chain.ts'
import { type Judged, linesOfWorking, unknownFor } from '../chain/judged.ts'
import type { Verdict } from '../finding.ts'
import { VERDICTS } from '../finding.ts'
import { finding, list, percent } from '../make.ts'
import type { DrivelineChain } from './chain.ts'
import { against, BASE, degrees, HOLDS, kmh, revs } from './words.ts'

/** m: tubes that propeller shafts are made of, 2 to 4 inch. Common practice, no published source. */
const OUTSIDES = [0.0508, 0.0635, 0.07, 0.0762, 0.0889, 0.1016] as const
/** Share around half the critical speed in which a joint’s shaking is told. Common practice, no published source. */
const NEAR_HALF = 0.1

/** The smallest usual tube, or the length of a piece, that would keep the share at that speed. */
const whatWould = ({ facts, shaft }: DrivelineChain, top: Known): string => {
  const { propshaftWall, propshaftTube, propshaftLength } = facts.sheet
  if (!propshaftWall || !propshaftTube || !propshaftLength || !isKnown(shaft.critical)) return ''
  const { modulus, density } = TUBES[propshaftTube]
  const needed = (top.value + top.plusMinus) / WHIRL_SHARE.value
  const tube = OUTSIDES.find(
    (diameter) =>
      diameter > (facts.sheet.propshaftDiameter?.value ?? 0) &&
      whirlingSpeed.compute({ length: propshaftLength.value, diameter, wall: propshaftWall.value, modulus, density })
        .critical >= needed,
  )
  const length = propshaftLength.value * Math.sqrt(shaft.critical.value / needed)
  return ` Of this tube a piece of at most ${length.toFixed(2)} m keeps to it: two pieces with a centre bearing${tube ? `; or one piece of ${(tube * 1e3).toFixed(1)} mm outside` : ''}.`
}

const whirlFinding = (chain: DrivelineChain): Judged => {
  const { shaft, facts } = chain
  const base = { ...BASE, rule: 'propshaft-whirl', about: 'Propeller shaft’s critical speed' } as const
  const { atTop, atCruise, critical, half, shareAtTop } = shaft
  if (!isKnown(atTop) || !isKnown(critical) || !isKnown(shareAtTop))
    return {
      station: 'shaft',
      finding: finding({ ...base, ...unknownFor('Whether the propeller shaft whirls', atTop, critical) }),
    }
  const limit = known(
    WHIRL_SHARE.value,
    0,
    `Used up to ${percent(WHIRL_SHARE.value)} of it: ${WHIRL_SHARE.source.title}`,
  )
  const kept = against(shareAtTop, limit)
  // A speed that the engine could turn and the car may never reach condemns nothing.
  const verdict: Verdict = kept === 'no-go' && facts.topIsReckoned ? 'marginal' : kept
  const near =
    isKnown(atCruise) && isKnown(half) && Math.abs(atCruise.value / half.value - 1) < NEAR_HALF
      ? ` Long journeys lie near half of it, ${revs(half)}, where joints at an angle shake the shaft: keep their angles small.`
      : ''
  const cruising =
    isKnown(shaft.shareAtCruise) && shaft.shareAtCruise.value > WHIRL_SHARE.value
      ? ` Even at ${isKnown(facts.cruise) ? kmh(facts.cruise) : 'cruising speed'} it is at ${percent(shaft.shareAtCruise.value)}.`
      : ''
  const speed = isKnown(facts.topSpeed) ? kmh(facts.topSpeed) : 'the greatest speed'
  return {
    station: 'shaft',
    finding: finding({
      ...base,
      verdict,
      says: `At ${speed} the propeller shaft turns ${revs(atTop)}, ${percent(shareAtTop.value)} of the ${revs(critical)} at which it whirls; ${percent(WHIRL_SHARE.value)} is the most.${cruising}${near}${facts.topIsReckoned ? ' That speed is reckoned from engine and gears; the car may not reach it.' : ''}${verdict === 'sound' ? ` ${HOLDS}` : ''}`,
      todo:
        verdict === 'sound'
          ? 'Have it balanced, and a qualified person inspect it.'
          : `${facts.topIsReckoned ? 'Enter the greatest road speed. ' : ''}Do not drive near that speed.${whatWould(chain, atTop)} A specialist makes and balances it.`,
      working: [...linesOfWorking(atTop, critical, shareAtTop), ...limit.working],
    }),
  }
}

/** Degrees that every joint needs so that its needles turn, and by which both may differ. Spicer’s basic rules. */
const [LEAST, APART] = [0.5, 1] as const
const DEGREE = Math.PI / 180

const jointFinding = (chain: DrivelineChain): Judged => {
  const { first, second, phase, left, allowed } = chain.shaft
  const base = { ...BASE, rule: 'joint-angles', about: 'Angles of the propeller shaft’s joints' } as const
  const { angle: a, limitAtTop } = first
  const { angle: b } = second
  if (!isKnown(a) || !isKnown(b) || !isKnown(limitAtTop) || !isKnown(left) || !isKnown(allowed))
    return {
      station: 'joints',
      finding: finding({
        ...base,
        ...unknownFor('Whether the joints’ angles suit the shaft’s speed', a, b, limitAtTop, phase),
      }),
    }
  const verdicts: Verdict[] = ['sound']
  const more: string[] = []
  const mend: string[] = []
  const told = (verdict: Verdict, says: string, todo: string): void => {
    verdicts.push(verdict)
    more.push(says)
    mend.push(todo)
  }
  const joints = [
    { name: 'first', angle: a, limit: first.limit },
    { name: 'second', angle: b, limit: second.limit },
  ] as const
  for (const { name, angle, limit } of joints) {
    if (isKnown(limit) && against(angle, limit) === 'no-go')
      told(
        'no-go',
        `The ${name} is beyond the ${degrees(limit)} allowed even on long journeys.`,
        `Lessen the angle of the ${name}: lower or raise the gearbox’s tail or turn the pinion.`,
      )
    else if (against(angle, limitAtTop) !== 'sound')
      told(
        'marginal',
        `The ${name} comes up to the ${degrees(limitAtTop)} allowed at the greatest speed.`,
        `Lessen the angle of the ${name}: lower or raise the gearbox’s tail or turn the pinion.`,
      )
    if (angle.value + angle.plusMinus < LEAST * DEGREE)
      told(
        'marginal',
        `The ${name} has less than ${LEAST}°: its needles do not turn and dent their cups.`,
        `Give the ${name} at least ${LEAST}°.`,
      )
  }
  const apart = Math.abs(a.value - b.value)
  if (apart > APART * DEGREE && (!isKnown(phase) || phase.value < 0.01))
    told(
      'marginal',
      `They differ by ${(apart / DEGREE).toFixed(1)}°; within ${APART}° they cancel.`,
      'Make both angles alike with wedges under the axle or plates under the gearbox’s mount.',
    )
  if (against(left, allowed) !== 'sound')
    told(
      'marginal',
      `${degrees(left)} is left behind both, of ${degrees(allowed)} allowed at the greatest speed${isKnown(phase) && phase.value > 0.01 ? `, with the joints ${degrees(phase)} out of phase` : ''}.`,
      isKnown(phase) && phase.value > 0.01
        ? 'Line up the shaft’s two yokes at its spline; where the parts do not lie in one plane a specialist sets the yokes.'
        : 'Make both angles alike.',
    )
  const verdict = [...verdicts].sort((x, y) => VERDICTS.indexOf(x) - VERDICTS.indexOf(y))[0]!
  return {
    station: 'joints',
    finding: finding({
      ...base,
      verdict,
      says: [
        `The joints stand at ${degrees(a)} and ${degrees(b)}; ${degrees(limitAtTop)} is the most at the greatest speed.`,
        ...(verdict === 'sound'
          ? [`${degrees(left)} is left behind both, of ${degrees(allowed)} allowed.`, HOLDS]
          : more),
      ].join(' '),
      todo:
        verdict === 'sound'
          ? 'Have a qualified person inspect it.'
          : `${list([...new Set(mend)].map((each) => each.replace(/\.$/, '')))}.`,
      working: linesOfWorking(a, b, limitAtTop, phase, left),
    }),
  }
}

export const shaftFindings = (chain: DrivelineChain): Judged[] =>
  chain.parts.includes('shaft') ? [whirlFinding(chain), jointFinding(chain)] : []
