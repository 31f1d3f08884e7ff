/** One figure of a station: closed a line, opened its working. Where something is tried, both figures and the difference. */
import { type ReactNode, useState } from 'react'
import { type Datum, type Figure, isKnown } from '../../assess/chain/chain.ts'
import type { Kind } from '../../units/kinds.ts'
import { showPreferred, showPreferredOr } from '../parts/units.ts'

/** What the trade writes beside a pipe or a header, where the person has typed no other unit. */
const UNITS: Partial<Record<Kind, string>> = { speed: 'm/s', volume: 'l' }
const write = (kind: Kind, value: number, plusMinus?: number, unit = UNITS[kind]): string =>
  unit === undefined ? showPreferred(kind, value, plusMinus) : showPreferredOr(kind, unit, value, plusMinus)

export const datumText = (kind: Kind, datum: Datum | undefined, unit?: string): string =>
  datum !== undefined && isKnown(datum)
    ? write(kind, datum.value, datum.plusMinus === 0 ? undefined : datum.plusMinus, unit)
    : 'unknown'
/** Without its ±, for a drawing: three digits in the unit shown. */
export const shortText = (kind: Kind, datum: Datum | undefined, unit?: string): string =>
  datum === undefined || !isKnown(datum)
    ? '?'
    : write(kind, datum.value, undefined, unit).replace(/\d+\.\d+/, (digits) =>
        String(Number(Number(digits).toPrecision(3))),
      )

/** A difference of temperatures or of absolute pressures is of its own kind. */
const DIFFERENCE: Partial<Record<Kind, Kind>> = {
  temperature: 'temperatureDifference',
  pressureAbsolute: 'pressureDifference',
  pressureGauge: 'pressureDifference',
}
export const differenceText = (
  kind: Kind,
  stored: Datum | undefined,
  tried: Datum | undefined,
  unit?: string,
): string | undefined => {
  if (!stored || !tried || !isKnown(stored) || !isKnown(tried)) return undefined
  const change = tried.value - stored.value
  if (Math.abs(change) < 1e-6 * Math.max(Math.abs(stored.value), Math.abs(tried.value))) return undefined
  return `${change > 0 ? '+' : '−'}${write(DIFFERENCE[kind] ?? kind, Number(Math.abs(change).toPrecision(3)), undefined, unit)}`
}

/** What a sheet holds says so in the first line of its working. */
const howCome = (datum: Datum): 'entered' | 'reckoned' =>
  isKnown(datum) && datum.working[0]?.endsWith(', as entered') ? 'entered' : 'reckoned'

const workingOf = ({ datum, superseded, reading, name }: Figure): readonly string[] => {
  const own = isKnown(datum)
    ? datum.working
    : [
        ...datum.problems.map(({ says, todo }) => `${says} ${todo}`),
        ...(datum.missing.length > 0 ? [`Missing: ${datum.missing.join(', ')}.`] : []),
      ]
  return superseded && isKnown(superseded)
    ? [
        ...own,
        `Reading ${reading} stands in place of what was ${howCome(superseded)} for “${name}”:`,
        ...superseded.working,
      ]
    : own
}

interface FigureLineProps {
  readonly stored: Figure
  readonly tried: Figure | undefined
  /** Stands below the working. */
  readonly children?: ReactNode
}

export function FigureLine({ stored, tried, children }: FigureLineProps) {
  // Its working is written out only once asked for: a chain has fifty figures.
  const [opened, setOpened] = useState(false)
  const shown = tried ?? stored
  const change = tried && differenceText(stored.kind, stored.datum, tried.datum, stored.unit)
  return (
    <details className="fig" data-figure={stored.id} onToggle={(event) => setOpened(event.currentTarget.open)}>
      <summary>
        <span className="fig-name">
          {shown.name} <i>{shown.symbol}</i>
        </span>
        <span className="fig-value">
          {change && <span className="soft">{datumText(stored.kind, stored.datum, stored.unit)} → </span>}
          <b>{datumText(shown.kind, shown.datum, shown.unit)}</b>
          {change && <span className="fig-change"> {change}</span>}
        </span>
        {shown.origin === 'measured' && (
          <span className="fig-origin">
            measured, {shown.reading}
            {shown.superseded &&
              `; ${howCome(shown.superseded)} ${datumText(shown.kind, shown.superseded, shown.unit)}`}
          </span>
        )}
      </summary>
      {opened && (
        <>
          <pre className="working">{workingOf(shown).join('\n') || 'As entered.'}</pre>
          {children}
        </>
      )}
    </details>
  )
}
