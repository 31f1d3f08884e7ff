/** What the line drawings of a chain share: a station to press, and a figure as a tag with its difference. */
import type { ReactNode } from 'react'
import type { Chain, Figure } from '../../assess/chain/chain.ts'
import { differenceText, shortText } from './FigureLine.tsx'
import { StationMark } from './StationMark.tsx'

export type Anchor = 'start' | 'middle' | 'end'

const figureOf = (chain: Chain | undefined, id: string): Figure | undefined =>
  chain?.stations.flatMap(({ figures }) => figures).find((figure) => figure.id === id)

interface Drawn {
  readonly system: 'cooling' | 'brakes' | 'driveline'
  readonly stored: Chain
  readonly tried: Chain | undefined
  readonly narrow: boolean
  /** The difference stands on a line of its own. */
  readonly changeBelow?: boolean
}

export const drawn = ({ system, stored, tried, narrow, changeBelow = false }: Drawn) => {
  const shown = tried ?? stored
  return {
    /** Nothing where the chain has no such station. `mark`: the left end of its verdict's line. */
    station: (id: string, mark: readonly [number, number], children: ReactNode) => {
      const found = shown.stations.find((each) => each.id === id)
      return found ? (
        <StationMark station={found} system={system} mark={mark}>
          {children}
        </StationMark>
      ) : null
    },
    tag: (id: string, x: number, y: number, anchor: Anchor = 'middle') => {
      const figure = figureOf(shown, id)
      if (!figure) return null
      const change = tried && differenceText(figure.kind, figureOf(stored, id)?.datum, figure.datum, figure.unit)
      return (
        <text x={x} y={y} textAnchor={anchor} className={figure.origin === 'measured' ? 'change' : undefined}>
          {figure.symbol} {shortText(figure.kind, figure.datum, figure.unit)}
          {figure.origin === 'measured' ? (narrow ? ' meas.' : ' measured') : ''}
          {change && (
            <tspan className="change" {...(changeBelow ? { x, dy: 15 } : {})}>
              {' '}
              {change}
            </tspan>
          )}
        </text>
      )
    },
  }
}
