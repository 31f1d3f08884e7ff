/** Rules `brake-parking` (the gradient asked, laden) and `brake-parking-inspection` (the share of the weight asked). */
import { DRY_ROAD } from '../../engineering/brakes/yardsticks.ts'
import { combine, isKnown, known } from '../chain/chain.ts'
import { type Judged, linesOfWorking, unknownFor } from '../chain/judged.ts'
import type { Verdict } from '../finding.ts'
import { finding } from '../make.ts'
import type { BrakeChain } from './chain.ts'
import { slidesAt } from './parking.ts'
import { BASE, HOLDS, newtons, percent } from './words.ts'

const CHOCK = 'Chock the wheels whenever the car stands on a slope or is worked on; a parking brake is not a stand.'
const base = { ...BASE, cautions: [...BASE.cautions, CHOCK] } as const

const REMEDY =
  'More ratio at the lever or the wheel, free and short cables, larger drums or linings of higher friction at the rear. Check that the shoes are adjusted before the cable is.'

const gradientFinding = ({ parking }: BrakeChain): Judged => {
  const { needed, limit, brake, asked, uphill, downhill, efficiency } = parking
  const slides = slidesAt(parking)
  const draft = { ...base, rule: 'brake-parking', about: 'Parking brake on a gradient' } as const
  if (!isKnown(needed) || !isKnown(limit) || !isKnown(asked) || !isKnown(slides)) {
    const tyres =
      isKnown(uphill) && isKnown(downhill)
        ? ` The rear tyres would slide at ${percent(uphill)} facing uphill and ${percent(downhill)} facing downhill.`
        : ''
    const lack = unknownFor('What the parking brake holds', needed, limit, asked, slides)
    return { station: 'parking', finding: finding({ ...draft, ...lack, says: `${lack.says}${tyres}` }) }
  }
  const byBrake: Verdict =
    needed.value - needed.plusMinus > limit.value
      ? 'no-go'
      : needed.value + needed.plusMinus > limit.value
        ? 'marginal'
        : 'sound'
  const byTyres: Verdict =
    slides.value + slides.plusMinus < asked.value
      ? 'no-go'
      : slides.value - slides.plusMinus < asked.value
        ? 'marginal'
        : 'sound'
  const verdict: Verdict = [byBrake, byTyres].includes('no-go')
    ? 'no-go'
    : [byBrake, byTyres].includes('marginal')
      ? 'marginal'
      : 'sound'
  const tyres = isKnown(uphill) && isKnown(downhill) ? [percent(uphill), percent(downhill)] : []
  return {
    station: 'parking',
    finding: finding({
      ...draft,
      verdict,
      says: `Laden, ${percent(asked)} takes ${newtons(needed)} on the grip, of ${limit.value.toFixed(0)} N allowed; with that force the brake ${isKnown(brake) ? `holds ${percent(brake)}` : 'pulls with more than the weight, and the tyres alone are the limit'}. On an adhesion of ${DRY_ROAD} the rear tyres slide at ${tyres[0]} facing uphill and ${tyres[1]} facing downhill.${byTyres === 'sound' ? '' : ' There the tyres give out before the brake counts.'}${verdict === 'sound' ? ` ${HOLDS}` : ''}`,
      todo:
        verdict === 'sound'
          ? 'Have a qualified person inspect it, on a brake tester and on a slope with chocks ready.'
          : byBrake === 'sound'
            ? 'No brake on the rear axle alone can hold that gradient: more mass on it, or a brake on the other axle. Ask a qualified person.'
            : REMEDY,
      working: linesOfWorking(limit, asked, efficiency, brake, needed),
    }),
  }
}

const inspectionFinding = ({ facts, parkingAlone: { efficiency, limit } }: BrakeChain): Judged[] => {
  const { inspection } = facts.brakes
  if (!inspection?.parking) return []
  const asked = known(inspection.parking.value)
  const draft = { ...base, rule: 'brake-parking-inspection', about: 'Parking brake at the inspection' } as const
  if (!isKnown(efficiency) || !isKnown(limit))
    return [
      {
        station: 'parking',
        finding: finding({
          ...draft,
          ...unknownFor('Whether the parking brake reaches what is asked', efficiency, limit),
        }),
      },
    ]
  const verdict: Verdict =
    efficiency.value + efficiency.plusMinus < asked.value
      ? 'no-go'
      : efficiency.value - efficiency.plusMinus < asked.value
        ? 'marginal'
        : 'sound'
  const { rear, total } = facts.loads['driver only']
  const grip = combine(
    [rear, total],
    (part = 0, all = 1) => (DRY_ROAD * part) / all,
    'Adhesion × share on the rear axle',
  )
  const locks =
    isKnown(grip) && efficiency.value > grip.value
      ? ` The rear tyres lock before that, at ${percent(grip)}, on an adhesion of ${DRY_ROAD}.`
      : ''
  return [
    {
      station: 'parking',
      finding: finding({
        ...draft,
        verdict,
        says: `${percent(asked)} of the weight is asked by ${inspection.name ?? 'the inspection of the place'}. Driver only, ${limit.value.toFixed(0)} N on the grip give ${percent(efficiency)}.${locks}${verdict === 'sound' ? ` ${HOLDS}` : ''}`,
        todo: verdict === 'sound' ? 'Have it measured on a brake tester.' : REMEDY,
        working: linesOfWorking(limit, efficiency),
      }),
    },
  ]
}

export const parkingFindings = (chain: BrakeChain): Judged[] => [gradientFinding(chain), ...inspectionFinding(chain)]
