/** Rules `gearing`, `corner-weights`, `gravity-height` and `axle-loads`: the revs of long journeys, and what the car weighs where. */
import { combine, type Datum, entered, isKnown, type Known } from '../chain/chain.ts'
import { type Judged, linesOfWorking, unknownFor } from '../chain/judged.ts'
import type { Verdict } from '../finding.ts'
import { finding, percent } from '../make.ts'
import type { DrivelineChain } from './chain.ts'
import { BASE, HOLDS, kilograms, kmh, LIFTED, metres, revs } from './words.ts'

const gearingFinding = (chain: DrivelineChain): Judged => {
  const { facts, gearing } = chain
  const base = { ...BASE, rule: 'gearing', about: 'Revs on long journeys' } as const
  const { cruise } = gearing.now
  if (!isKnown(cruise) || !isKnown(facts.cruise))
    return {
      station: 'road',
      finding: finding({ ...base, ...unknownFor('What the engine turns on long journeys', cruise) }),
    }
  const { engineLimit } = facts
  const over = isKnown(engineLimit) && cruise.value > engineLimit.value
  const old = gearing.before?.cruise
  const before =
    old && isKnown(old)
      ? `; ${facts.sheet.before?.name ?? 'the old engine'} turned ${revs(old)}, ${percent(Math.abs(cruise.value / old.value - 1))} ${cruise.value < old.value ? 'more' : 'less'}`
      : ''
  return {
    station: 'road',
    finding: finding({
      ...base,
      verdict: over ? 'marginal' : 'sound',
      says: `At ${kmh(facts.cruise)} in top gear the engine turns ${revs(cruise)}${before}.${over ? ' That is beyond the speed of its greatest power.' : ''}`,
      todo: over ? 'A longer final drive or another top gear; the speedometer changes with it.' : 'Nothing.',
      working: linesOfWorking(cruise, ...(old ? [old] : [])),
    }),
  }
}

/** Do two figures of one thing agree within both their ±, or within a share where neither has one? */
const differ = (a: Known, b: Known, share: number): boolean =>
  Math.abs(a.value - b.value) > Math.max(Math.hypot(a.plusMinus, b.plusMinus), share * Math.abs(a.value))
/** Share by which two weighings of an axle may differ. Common practice, no published source. */
const SAME = 0.02
/** Share off an even cross weight that is told. Common practice, no published source. */
const CROSS = 0.02

const axlesOnSheet = ({ facts }: DrivelineChain) => ({
  front: entered(facts.build.sheets.vehicle?.frontMass, 'mass on the front axle'),
  rear: entered(facts.build.sheets.vehicle?.rearMass, 'mass on the rear axle'),
})
const disagreement = (chain: DrivelineChain, front: Datum, rear: Datum): string => {
  const sheet = axlesOnSheet(chain)
  const parts = [
    ['front', front, sheet.front],
    ['rear', rear, sheet.rear],
  ] as const
  return parts
    .flatMap(([axle, found, stored]) =>
      isKnown(found) && isKnown(stored) && differ(found, stored, SAME)
        ? [` The vehicle sheet has ${kilograms(stored)} on the ${axle} axle.`]
        : [],
    )
    .join('')
}

const cornerFinding = (chain: DrivelineChain): Judged[] => {
  if (!chain.facts.sheet.corners) return []
  const base = { ...BASE, rule: 'corner-weights', about: 'Four scales' } as const
  const { front, rear, total, cross, behind, aside } = chain.weights.corners
  if (!isKnown(front) || !isKnown(rear) || !isKnown(total) || !isKnown(cross) || !isKnown(behind) || !isKnown(aside))
    return [
      { station: 'scales', finding: finding({ ...base, ...unknownFor('Where the centre of gravity lies', total) }) },
    ]
  const uneven = Math.abs(cross.value - 0.5) - cross.plusMinus > CROSS
  const other = disagreement(chain, front, rear)
  const verdict: Verdict = uneven || other !== '' ? 'marginal' : 'sound'
  const side = aside.value > 0 ? 'right' : 'left'
  return [
    {
      station: 'scales',
      finding: finding({
        ...base,
        verdict,
        says: `Front ${kilograms(front)}, rear ${kilograms(rear)}: the centre of gravity is ${metres(behind)} behind the front axle and ${Math.abs(aside.value * 1e3).toFixed(0)} mm to the ${side}; cross weight ${(cross.value * 100).toFixed(1)} %.${uneven ? ' More than 2 % off the half: under brakes and on its springs the car is twisted.' : ''}${other}${verdict === 'sound' ? ` ${HOLDS}` : ''}`,
        todo: [
          ...(uneven
            ? ['Weigh again on level pads, then look for a tired spring or a perch at the wrong height.']
            : []),
          ...(other === '' ? [] : ['Put what was weighed on the vehicle sheet: brakes and grip are reckoned from it.']),
          ...(verdict === 'sound' ? ['Nothing.'] : []),
        ].join(' '),
        working: linesOfWorking(total, cross, behind),
      }),
    },
  ]
}

/** ± over height beyond which the weighing tells little. Common practice, no published source. */
const VAGUE = 0.2

const heightFinding = (chain: DrivelineChain): Judged[] => {
  const { facts, weights } = chain
  if (!facts.sheet.tilt) return []
  const base = {
    ...BASE,
    rule: 'gravity-height',
    about: 'Height of the centre of gravity',
    cautions: [LIFTED, ...BASE.cautions],
  }
  const { height, above } = weights.tilt
  const at = (draft: Parameters<typeof finding>[0]): Judged[] => [{ station: 'tilt', finding: finding(draft) }]
  if (!isKnown(height) || !isKnown(above))
    return at({ ...base, ...unknownFor('The height of the centre of gravity', height) })
  const working = linesOfWorking(height)
  if (height.plusMinus > VAGUE * height.value)
    return at({
      ...base,
      verdict: 'unknown',
      says: `The tilt gives ${metres(height)}: the scales cannot tell it closer.`,
      todo: 'Raise the axle more, or weigh with finer scales, suspension blocked.',
      missing: 'a weighing with the axle raised more, or on finer scales',
      working,
    })
  const stored = facts.loads['driver only'].height
  const off = isKnown(stored) && differ(height, stored, 0)
  return at({
    ...base,
    verdict: off || !isKnown(stored) ? 'marginal' : 'sound',
    says: `By tilting, the centre of gravity stands ${metres(height)} above the road${isKnown(stored) ? `; the vehicle sheet has ${metres(stored)}` : '; the vehicle sheet has none'}.${off || !isKnown(stored) ? '' : ` ${HOLDS}`}`,
    todo:
      off || !isKnown(stored)
        ? `Put ${metres(height)} on the vehicle sheet: brakes and tyres are reckoned from it.`
        : 'Nothing.',
    working,
  })
}

const swapFinding = (chain: DrivelineChain): Judged[] => {
  const { facts, weights } = chain
  if (!facts.sheet.swap) return []
  const base = { ...BASE, rule: 'axle-loads', about: 'Axle loads with the new engine' } as const
  const { frontAfter, rearAfter, share } = weights.swap
  if (!isKnown(frontAfter) || !isKnown(rearAfter) || !isKnown(share))
    return [
      {
        station: 'swap',
        finding: finding({ ...base, ...unknownFor('What the new engine does to the axles', frontAfter) }),
      },
    ]
  const change = combine(
    [frontAfter, entered(facts.sheet.swap.frontBefore, 'mass on the front axle with the old engine')],
    (after = 0, before = 0) => after - before,
    'Change = after − before',
  )
  const other = disagreement(chain, frontAfter, rearAfter)
  return [
    {
      station: 'swap',
      finding: finding({
        ...base,
        verdict: other === '' ? 'sound' : 'marginal',
        says: `With the new engine the front axle carries ${kilograms(frontAfter)}${isKnown(change) ? `, ${Math.abs(change.value).toFixed(0)} kg ${change.value < 0 ? 'less' : 'more'} than before` : ''}, the rear ${kilograms(rearAfter)}; ${percent(share.value)} on the front.${other}${other === '' ? ` ${HOLDS}` : ''}`,
        todo:
          other === ''
            ? 'Weigh the car; then look at springs, dampers, tyres and the rear brake valve for the new load.'
            : 'Weigh the car, and put what the scales say on the vehicle sheet.',
        working: linesOfWorking(frontAfter, rearAfter),
      }),
    },
  ]
}

export const carFindings = (chain: DrivelineChain): Judged[] => [
  gearingFinding(chain),
  ...cornerFinding(chain),
  ...heightFinding(chain),
  ...swapFinding(chain),
]
