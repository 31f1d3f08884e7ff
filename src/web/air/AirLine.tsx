/** The way of the air for a phone: the same parts down one line, the water loop's parts beside it, figures at each. */
import type { AirChain } from '../../assess/air/chain.ts'
import { differenceText, shortText } from '../chain/FigureLine.tsx'
import { StationMark } from '../chain/StationMark.tsx'
import { chiefOf, type LoggedAt } from './AirDrawing.tsx'
import { AirSymbol } from './symbols.tsx'

const PITCH = 84
const X = 40

interface AirLineProps {
  readonly stored: AirChain
  readonly tried: AirChain | undefined
  /** By station. */
  readonly logged?: LoggedAt
}

export function AirLine({ stored, tried, logged }: AirLineProps) {
  const shown = tried ?? stored
  return (
    <svg
      className="line-drawing only-narrow"
      viewBox={`0 0 356 ${shown.stations.length * PITCH + (logged ? 24 : 0)}`}
      aria-label="The way of the air, drawn"
    >
      {shown.stations.map((station, index) => {
        const y = 40 + index * PITCH
        const chief = chiefOf(station)
        const before = chiefOf(stored.stations.find(({ id }) => id === station.id))
        const change = tried && chief && differenceText(chief.kind, before?.datum, chief.datum)
        const water = station.line === 'water'
        const shift = water ? 26 : 0
        return (
          <StationMark key={station.id} station={station} system="air" mark={[X + shift + 40, y - 30]}>
            {index < shown.stations.length - 1 && (
              <path
                className={water || shown.stations[index + 1]?.line === 'water' ? 'fine' : 'pen'}
                d={`M${X - 5} ${y + 27}v${PITCH - 54}M${X + 5} ${y + 27}v${PITCH - 54}`}
              />
            )}
            {water && <path className="fine" d={`M${X} ${y - 42}v84M${X} ${y}h10`} />}
            <g transform={`translate(${X + shift} ${y})`}>
              <AirSymbol id={station.id} />
            </g>
            <text x={X + shift + 72} y={y - 18}>
              {station.name}
            </text>
            {chief && (
              <text x={X + shift + 40} y={y + 4} className={chief.origin === 'measured' ? 'change' : undefined}>
                {chief.symbol} {shortText(chief.kind, chief.datum)}
                {chief.origin === 'measured' ? ' measured' : ''}
              </text>
            )}
            {change && (
              <text x={X + shift + 40} y={y + 22} className="change">
                {change}
              </text>
            )}
            {logged?.get(station.id)?.map(({ says }, line) => (
              <text key={says} x={X + shift + 40} y={y + 22 + 17 * line} className="change">
                {says}
              </text>
            ))}
          </StationMark>
        )
      })}
    </svg>
  )
}
