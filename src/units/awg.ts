/**
 * American wire gauge of a solid round conductor.   d = 0.005 in · 92^((36 − n) / 39)    A = π d² / 4
 *   n  gauge number   1   −3 (4/0) … 56      d  diameter  m      A  area  m²
 * Errors: `awg-out-of-range` (gauge that is no whole number from 4/0 to 56), `area-not-positive`.
 * Limits: the area of the metal of a solid wire; a stranded wire of the same gauge has about the same.
 * Source: ASTM B258-02, formula read as quoted by liquisearch.com, "American Wire Gauge"; No. 36 is 0.0050 in and 4/0 is 0.4600 in.
 */
import type { Of } from './kinds.ts'
import { refuse } from './problem.ts'

const THICKEST = -3
const THINNEST = 56
const NUMBER_36_DIAMETER = 0.005 * 0.0254

/** Gauge as the trade writes it: 4/0, 3/0, 2/0, 1/0, then 1, 2, 3 … */
export const awgLabel = (gauge: number): string => `AWG ${gauge <= 0 ? `${1 - gauge}/0` : gauge}`

/** Area, m², of a whole gauge number; 0 is 1/0, −1 is 2/0, −2 is 3/0, −3 is 4/0. */
export const awgArea = (gauge: number): Of<'area'> => {
  if (!Number.isInteger(gauge) || gauge < THICKEST || gauge > THINNEST)
    throw refuse('awg-out-of-range', `AWG ${gauge} is not a gauge of ASTM B258.`, 'Give a whole number from 4/0 to 56.')
  const diameter = NUMBER_36_DIAMETER * 92 ** ((36 - gauge) / 39)
  return (Math.PI * diameter * diameter) / 4
}

export interface AwgOfArea {
  /** Gauge number on the continuous scale; whole for a wire made to the standard. */
  readonly gauge: number
  /** Set when the area is that of a gauge to within 0.1 %, which no two gauges share. */
  readonly label?: string
  /** The gauges on either side, when both exist. */
  readonly between?: readonly [thicker: string, thinner: string]
}

/** Where an area, m², stands on the gauge scale. Says "between" rather than rounding a metric size to a gauge. */
export const areaAsAwg = (area: Of<'area'>): AwgOfArea => {
  if (!(area > 0 && Number.isFinite(area)))
    throw refuse('area-not-positive', `${area} m² has no wire gauge.`, 'Give an area above zero.')
  const gauge = 36 - (39 * Math.log(Math.sqrt((4 * area) / Math.PI) / NUMBER_36_DIAMETER)) / Math.log(92)
  const nearest = Math.round(gauge)
  const inRange = nearest >= THICKEST && nearest <= THINNEST
  if (inRange && Math.abs(area / awgArea(nearest) - 1) <= 1e-3) return { gauge, label: awgLabel(nearest) }
  const thicker = Math.floor(gauge)
  return thicker >= THICKEST && thicker < THINNEST
    ? { gauge, between: [awgLabel(thicker), awgLabel(thicker + 1)] }
    : { gauge }
}

/** Gauge number of "AWG 18", "18 AWG", "4/0 AWG", "AWG 00", "#18 AWG"; undefined when the text is no gauge. */
export const readAwg = (text: string): number | undefined => {
  const match = /^(?:#?\s*awg\s*#?\s*(\S+)|#?\s*(\S+?)\s*awg)$/i.exec(text)
  const written = match?.[1] ?? match?.[2]
  if (written === undefined) return undefined
  const aught = /^([1-4])\/0$/.exec(written)
  if (aught !== null) return 1 - Number(aught[1])
  if (/^0{1,4}$/.test(written)) return 1 - written.length
  return /^[1-9]\d?$/.test(written) ? Number(written) : undefined
}
