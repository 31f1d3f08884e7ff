/** One figure of a station: closed a line, opened its working. Where something is tried, both figures and the difference. */
import type { ReactNode } from 'react'
import { type Datum, type Figure, isKnown } from '../../assess/chain/chain.ts'
import type { Kind } from '../../units/kinds.ts'
import { showPreferred, showPreferredOr } from '../parts/units.ts'

/** What the trade writes beside a fuel line, where the person has typed no other unit. */
const UNITS: Partial<Record<Kind, string>> = { volumeFlow: 'l/h', massFlow: 'g/min', speed: 'm/s', ratio: '%' }
const write = (kind: Kind, value: number, plusMinus?: number): string =>
  UNITS[kind] === undefined
    ? showPreferred(kind, value, plusMinus)
    : showPreferredOr(kind, UNITS[kind], value, plusMinus)

export const datumText = (kind: Kind, datum: Datum): string =>
  isKnown(datum) ? write(kind, datum.value, datum.plusMinus === 0 ? undefined : datum.plusMinus) : 'unknown'

/** A difference of temperatures or of absolute pressures is of its own kind. */
const DIFFERENCE: Partial<Record<Kind, Kind>> = {
  temperature: 'temperatureDifference',
  pressureAbsolute: 'pressureDifference',
  pressureGauge: 'pressureDifference',
}
export const differenceText = (kind: Kind, stored: Datum, tried: Datum): string | undefined => {
  if (!isKnown(stored) || !isKnown(tried)) return undefined
  const change = tried.value - stored.value
  // Less than a reader would act on only hides what did change.
  if (Math.abs(change) < 2e-3 * Math.max(Math.abs(stored.value), Math.abs(tried.value))) return undefined
  return `${change > 0 ? '+' : '−'}${write(DIFFERENCE[kind] ?? kind, Number(Math.abs(change).toPrecision(3)))}`
}

const linesOf = (datum: Datum): readonly string[] =>
  isKnown(datum)
    ? datum.working
    : [
        ...datum.problems.map(({ says, todo }) => `${says} ${todo}`),
        ...(datum.missing.length > 0 ? [`Missing: ${datum.missing.join(', ')}.`] : []),
      ]
export const workingText = (datum: Datum): string => linesOf(datum).join('\n') || 'As entered.'

const workingOf = ({ datum, superseded, reading }: Figure): readonly string[] => [
  ...(reading && superseded && isKnown(superseded)
    ? [`Reading ${reading} stands in place of the computed figure, whose working follows it.`]
    : []),
  ...linesOf(datum),
  ...(superseded && isKnown(superseded) ? superseded.working : []),
]

interface FigureLineProps {
  readonly stored: Figure
  readonly tried?: Figure | undefined
  /** Stands below the working. */
  readonly children?: ReactNode
}

export function FigureLine({ stored, tried, children }: FigureLineProps) {
  const shown = tried ?? stored
  const change = tried && differenceText(stored.kind, stored.datum, tried.datum)
  const lines = workingOf(shown)
  return (
    <details className="figure-line" data-figure={stored.id}>
      <summary>
        <span>{shown.name}</span>{' '}
        <span className="value">
          {change && <span className="soft">{datumText(stored.kind, stored.datum)} → </span>}
          <b>{datumText(shown.kind, shown.datum)}</b>
          {change && <span> ({change})</span>}
        </span>
        {shown.origin === 'measured' && (
          <span className="origin">
            measured, {shown.reading}
            {shown.superseded && `; computed ${datumText(shown.kind, shown.superseded)}`}
          </span>
        )}
      </summary>
      <pre className="working">{lines.length > 0 ? lines.join('\n') : 'As entered.'}</pre>
      {children}
    </details>
  )
}
