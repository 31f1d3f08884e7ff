/** Hot oil pressure at each speed that was read, and what is asked of it there. */
import { PSI, RPM } from '../../engineering/exactUnits.ts'
import { type Datum, isKnown, type Known, known, lacking } from '../chain/chain.ts'
import type { ServiceFacts } from './facts.ts'

export interface PressurePoint {
  readonly speed: number
  readonly pressure: Known
  /** Lacking where the maker’s figures do not reach to this speed. */
  readonly need: Datum
  /** About the idle speed, where the readings of hot idle stand. */
  readonly idle: boolean
}
export interface OilPressure {
  readonly points: readonly PressurePoint[]
  /** By whom the need is: its maker, or a rule of thumb that condemns nothing. */
  readonly by: 'maker' | 'rule'
  /** Speeds between which the pressure falls by more than the ± of both, though the relief valve is not open below. */
  readonly falls: readonly [PressurePoint, PressurePoint] | undefined
  /** Of the fastest point, which feeds the turbocharger at full load. */
  readonly top: Datum
  readonly topSpeed: Datum
}

/** Pa for rad/s: 7 to 10 psi for every 1000 rpm. */
export const RULE_OF_THUMB = {
  low: (7 * PSI) / (1000 * RPM),
  high: (10 * PSI) / (1000 * RPM),
  source:
    'rule of thumb, hot: 10 psi for every 1000 rpm [read at vehiclepilot.com and engineerfix.com]; 7 to 10 psi [read at roadkillcustoms.com]',
} as const

/** Share of the idle speed by which a point may lie beside it and still be the idle. */
const ABOUT_IDLE = 0.15

type Row = readonly [{ readonly value: number }, { readonly value: number; readonly plusMinus?: number | undefined }]
const bySpeed = (rows: readonly Row[]): readonly Row[] => [...rows].sort(([a], [b]) => a.value - b.value)

/** Between two of the maker’s points by a straight line; beyond them nothing is known. */
const makersNeed = (rows: readonly Row[], speed: number): Datum => {
  const sorted = bySpeed(rows)
  const after = sorted.findIndex(([at]) => at.value >= speed)
  const [above, below] = [sorted[after], sorted[after - 1] ?? sorted[after]]
  if (!above || !below || (after === 0 && above[0].value > speed))
    return lacking('the maker’s least oil pressure at that speed')
  const span = above[0].value - below[0].value
  const share = span === 0 ? 0 : (speed - below[0].value) / span
  return known(
    below[1].value + share * (above[1].value - below[1].value),
    0,
    'Least hot oil pressure by the engine’s maker, a straight line between two speeds',
  )
}

export const oilPressureOf = ({ oil, readings, idleSpeed }: ServiceFacts): OilPressure => {
  const rows: Row[] = [...(oil.pressures ?? [])]
  const slow = isKnown(idleSpeed) ? idleSpeed.value : undefined
  const reading = readings['hot idle oil pressure']
  // The idle figure stands at the idle speed; a reading stands in its place, and in that of a point read about there.
  const idle = reading ?? oil.hotIdlePressure
  if (idle && slow !== undefined) {
    const near = rows.findIndex(([speed]) => Math.abs(speed.value / slow - 1) < ABOUT_IDLE)
    if (near < 0) rows.push([{ value: slow }, idle])
    else if (reading) rows[near] = [rows[near]![0], reading]
  }
  const made = oil.leastPressures ?? []
  const relief = oil.relief?.value ?? Number.POSITIVE_INFINITY
  const points = bySpeed(rows).map(
    ([speed, pressure]): PressurePoint => ({
      speed: speed.value,
      idle: slow !== undefined && Math.abs(speed.value / slow - 1) < ABOUT_IDLE,
      pressure: known(
        pressure.value,
        pressure.plusMinus ?? 0,
        `Hot oil pressure, as ${pressure === reading ? `reading ${reading?.id}` : 'entered'}`,
      ),
      need:
        made.length > 0
          ? makersNeed(made, speed.value)
          : known(
              Math.min(RULE_OF_THUMB.high * speed.value, relief),
              0,
              `No least pressure of the maker is entered: ${RULE_OF_THUMB.source}; never more than the relief valve lets through`,
            ),
    }),
  )
  const falls = points
    .slice(1)
    .map((point, index) => [points[index]!, point] as const)
    .find(
      ([before, after]) =>
        before.pressure.value - after.pressure.value >
          Math.hypot(before.pressure.plusMinus, after.pressure.plusMinus) && before.pressure.value < 0.95 * relief,
    )
  const last = points.at(-1)
  return {
    points,
    by: made.length > 0 ? 'maker' : 'rule',
    falls,
    top: last?.pressure ?? lacking('hot oil pressure by engine speed'),
    topSpeed: last ? known(last.speed) : lacking('hot oil pressure by engine speed'),
  }
}
