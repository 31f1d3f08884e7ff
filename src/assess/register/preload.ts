/** What a torque does to its bolt: clamping force and share of the proof load, with the range of the nut factor carried. */
import { propagate, working, workingLines } from '../../engineering/calculation.ts'
import { boltPreload } from '../../engineering/fixings/boltPreload.ts'
import { formatQuantity } from '../../units/index.ts'
import { Refusal } from '../../units/problem.ts'
import { percent } from '../make.ts'
import type { Fixing, Part, SeenTo } from './standing.ts'

const uncertain = ({ value, plusMinus }: { readonly value: number; readonly plusMinus?: number | undefined }) =>
  plusMinus === undefined ? value : { value, plusMinus }

/** Undefined where no bolt or no torque is entered. */
export const preloadOf = (
  { of, bolt }: Fixing,
  newest: SeenTo | undefined,
): (Part & { readonly working: readonly string[] }) | undefined => {
  if (of !== 'torque' || !bolt || newest?.value === undefined) return undefined
  if (!bolt.factor)
    return {
      verdict: 'unknown',
      says: 'How hard the bolt clamps is not known.',
      missing: 'the nut factor of the bolt, with its range',
      working: [],
    }
  const given = {
    torque: uncertain({ value: newest.value, plusMinus: newest.plusMinus }),
    factor: uncertain(bolt.factor),
    grade: bolt.grade,
    diameter: uncertain(bolt.diameter),
    pitch: uncertain(bolt.pitch),
  }
  try {
    const { force, share } = propagate(boltPreload, given).outputs
    const most = share.value + (share.plusMinus ?? 0)
    const says = `The bolt clamps with ${formatQuantity('force', force.value as never, { unit: 'kN', ...(force.plusMinus === undefined ? {} : { plusMinus: force.plusMinus }) })}, ${percent(share.value)} of its proof load${share.plusMinus ? `, ${percent(Math.max(0, share.value - share.plusMinus))} to ${percent(most)}` : ''}.`
    const lines = workingLines(working(boltPreload, given))
    if (share.value > 1) return { verdict: 'marginal', says: `${says} Above 100 % it stays stretched.`, working: lines }
    return {
      verdict: most > 1 ? 'marginal' : 'sound',
      says: most > 1 ? `${says} With the least friction it would stay stretched.` : says,
      working: lines,
    }
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return {
      verdict: 'unknown',
      says: `How hard the bolt clamps cannot be reckoned: ${error.problems.map(({ says }) => says).join(' ')}`,
      missing: 'diameter, pitch, torque or nut factor that can be',
      working: [],
    }
  }
}
