/** Rules `exhaust-back-pressure`, `exhaust-blocked`, `heat-near-exhaust`. What it costs in power no source says for all. */
import { MACH_LIMIT } from '../../engineering/services/exhaustGas.ts'
import { isKnown } from '../chain/chain.ts'
import { type Judged, linesOfWorking, unknownFor } from '../chain/judged.ts'
import type { System, Verdict } from '../finding.ts'
import { FUEL_CAUTION, finding, list, QUALIFIED_BRAKES, QUALIFIED_FUEL } from '../make.ts'
import type { ServicesChain } from './chain.ts'
import { CLEARANCE, heatRange, type NearHot } from './nearHeat.ts'
import { nearStation } from './otherStations.ts'
import { bar, degrees, FUMES_CAUTION, HOT_CAUTION, millimetres } from './words.ts'

const BASE = { subject: 'sheet/exhaust', cautions: [FUMES_CAUTION, HOT_CAUTION] } as const
const plain = (value: number) => ({ value, plusMinus: 0, working: [] })
/** Measured over reckoned above which something is in the way: bends and pulses account for half as much again. Common practice. */
const BLOCKED = 2
const COST =
  'What it costs in power is not known: no source holds for every engine and turbocharger; two pulls before and after tell.'
const ORIENTATION =
  'For orientation: one maker of engines allows 100 mbar for all of its own [read in a public lecture, slideshare.net/slideshow/52838697]'

const backFindings = ({ back }: ServicesChain): Judged[] => {
  const { pressure, limit, measured, reckoned, parts } = back
  const base = { ...BASE, system: 'services', rule: 'exhaust-back-pressure', about: 'Exhaust back-pressure' } as const
  const found: Judged[] = []
  const how = isKnown(measured) ? 'measured' : 'reckoned'
  const working = [...linesOfWorking(pressure, ...parts.map(({ loss }) => loss)), ORIENTATION]
  const gap = unknownFor('The back-pressure of the exhaust', reckoned)
  if (!isKnown(pressure) || !isKnown(limit))
    found.push({
      station: 'back-pressure',
      finding: finding({
        ...base,
        ...(isKnown(pressure)
          ? {
              verdict: 'unknown' as const,
              says: `${bar(pressure)} is ${how}; what engine and turbocharger allow is not entered. ${COST}`,
              todo: 'Enter the greatest back-pressure by the maker of the engine or turbocharger.',
              missing: 'greatest back-pressure by the maker',
            }
          : {
              ...gap,
              todo: `Measure it at full load and enter it; or, to reckon it: ${gap.todo}`,
              missing: 'measured back-pressure',
            }),
        working,
      }),
    })
  else {
    const over = pressure.value - pressure.plusMinus > limit.value
    const near = pressure.value + pressure.plusMinus > limit.value
    const verdict: Verdict = over || near ? 'marginal' : 'sound'
    found.push({
      station: 'back-pressure',
      finding: finding({
        ...base,
        verdict,
        says: `${bar(pressure)} of back-pressure is ${how} at full load; the maker allows ${bar(plain(limit.value))}. ${COST}${isKnown(measured) ? '' : ' Reckoned without pulses: true ones lose more.'}`,
        todo:
          verdict === 'sound'
            ? isKnown(measured)
              ? 'Nothing.'
              : 'Measure it at the first full-load run.'
            : `${isKnown(measured) ? 'A wider pipe' : 'Measure it; then a wider pipe'} or fewer bends where most is lost, a silencer that lets more through. Less boost until it is right.`,
        working,
      }),
    })
  }
  if (
    isKnown(measured) &&
    isKnown(reckoned) &&
    measured.value - measured.plusMinus > BLOCKED * (reckoned.value + reckoned.plusMinus)
  )
    found.push({
      station: 'back-pressure',
      finding: finding({
        ...base,
        rule: 'exhaust-blocked',
        about: 'Something in the exhaust’s way',
        verdict: 'marginal',
        says: `${bar(measured)} is measured where the parts account for ${bar(reckoned)}: something stands in its way, or a part is missing from the list.`,
        todo: 'Look, cold, for a melted catalyst, a crushed pipe, a gasket that overhangs, a silencer that has come apart; enter every part.',
        working: linesOfWorking(measured, reckoned),
      }),
    })
  const fast = parts.filter(({ mach }) => isKnown(mach) && mach.value > MACH_LIMIT)
  if (fast.length > 0)
    found.push({
      station: 'back-pressure',
      finding: finding({
        ...base,
        rule: 'exhaust-velocity',
        about: 'Velocity of the exhaust gas',
        verdict: 'marginal',
        says: `In ${list(fast.map(({ name }) => name))} the gas runs faster than ${MACH_LIMIT} of the speed of sound at target power: it loses more than is reckoned here.`,
        todo: 'A wider pipe there, or measure the back-pressure.',
        working: linesOfWorking(...fast.map(({ mach }) => mach)),
      }),
    })
  return found
}

const OF: Readonly<
  Record<'wires' | 'fuel' | 'brakes' | 'other', { readonly system: System; readonly cautions: readonly string[] }>
> = {
  wires: { system: 'services', cautions: [] },
  fuel: { system: 'fuel', cautions: [FUEL_CAUTION, QUALIFIED_FUEL] },
  brakes: { system: 'brakes', cautions: [QUALIFIED_BRAKES] },
  other: { system: 'services', cautions: [] },
}

const nearFinding = (item: NearHot): Judged => {
  const { near, limit, mean, facing, distance } = item
  const what = near.what ?? (near.run === undefined ? undefined : 'wires')
  const of = OF[what ?? 'other']
  const base = {
    ...BASE,
    system: of.system,
    rule: 'heat-near-exhaust',
    part: near.name,
    about: `${near.name} near the exhaust`,
    cautions: [HOT_CAUTION, ...of.cautions],
    ...(near.zone === undefined ? {} : { zone: near.zone }),
  } as const
  const inspected = what === 'fuel' || what === 'brakes'
  const tight =
    what !== undefined && what !== 'other' && isKnown(distance) && distance.value - distance.plusMinus < CLEARANCE.value
  const clearance = tight
    ? ` It is ${millimetres(distance)} away; one country’s code asks for ${millimetres(plain(CLEARANCE.value))} whatever stands between, and yours may ask for more.`
    : ''
  const range = heatRange(item)
  const working = [...linesOfWorking(mean, facing, limit), CLEARANCE.source.title]
  if (!range || !isKnown(limit) || what === undefined) {
    const unknown =
      what === undefined
        ? {
            verdict: 'unknown' as const,
            says: 'What it is, wires, fuel, brakes or another thing, is not entered.',
            todo: 'Enter what it is.',
            missing: 'what runs near the exhaust',
          }
        : unknownFor('Whether it stands the heat of the exhaust', mean, limit)
    return {
      station: nearStation(item),
      finding: finding({
        ...base,
        ...unknown,
        ...(tight ? { verdict: 'marginal' as const } : {}),
        says: `${unknown.says}${range ? ` It becomes ${degrees(range[0])} to ${degrees(range[1])}.` : ''}${clearance}`,
        working,
      }),
    }
  }
  const [low, high] = range
  const hot = low > limit.value
  const verdict: Verdict = hot && inspected ? 'no-go' : high > limit.value || tight ? 'marginal' : 'sound'
  return {
    station: nearStation(item),
    finding: finding({
      ...base,
      verdict,
      says: `In still air at full load it becomes ${degrees(low)} to ${degrees(high)}, and stands ${degrees(limit.value)}${near.shielded ? ', a shield between' : ''}.${clearance}${verdict === 'sound' && inspected ? ' The arithmetic holds; a qualified person must inspect it.' : ''}`,
      todo:
        verdict === 'sound'
          ? inspected
            ? 'Have a qualified person inspect it.'
            : 'Nothing.'
          : `Lead it further away${near.shielded ? ' or add a second, bright shield with air on both sides' : ' or put a bright shield with air on both sides between'}; ${inspected ? 'then a qualified person inspects it' : 'then look at it after the first long drive'}.${inspected && hot ? ' Do not drive until then.' : ''}`,
      working,
    }),
  }
}

export const exhaustFindings = (chain: ServicesChain): Judged[] => [
  ...backFindings(chain),
  ...chain.near.map(nearFinding),
]
