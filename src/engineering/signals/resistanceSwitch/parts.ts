/** What a shop sells of a series, as parts to choose from. */
import { refuse } from '../../../units/problem.ts'
import { CUSTOMARY_TOLERANCE, preferredValues, type Series } from '../preferredValues.ts'
import type { Part } from './design.ts'

/** Tolerance left out: the series' customary one (IEC 60063); E3 has none and must be told. */
export function seriesParts(
  series: Series,
  least: number,
  most: number,
  tolerance = CUSTOMARY_TOLERANCE[series],
): Part[] {
  if (tolerance === undefined)
    throw refuse(
      'missing-input',
      `${series} has no customary tolerance.`,
      'Read it from the resistors’ last ring.',
      'tolerance',
    )
  return preferredValues(series, least, most).map((nominal) => ({ nominal, tolerance }))
}
