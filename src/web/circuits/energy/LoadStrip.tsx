/** What the car takes in one case, circuit by circuit along a scale of amperes, against what the alternator gives hot. */
import type { EnergyRow } from '../../../assess/energy/energy.ts'
import { ampsText } from '../drawing/live.ts'
import { stripOf, WIDE } from './strip.ts'

export function LoadStrip({ row }: { row: EnergyRow }) {
  const { parts, ticks, available, end } = stripOf(row)
  return (
    <figure className="load-strip">
      <svg
        viewBox={`0 0 ${WIDE} 118`}
        width={WIDE}
        height="118"
        role="img"
        aria-label={`“${row.caseName}”: taken ${ampsText(row.load)}, available ${row.available === null ? 'unknown' : ampsText(row.available)}; the table below holds the same.`}
      >
        {parts.map((part, at) => (
          <g key={part.circuit}>
            <rect
              x={part.from}
              y="42"
              width={Math.max(part.to - part.from, 0.5)}
              height="26"
              className={`fill-${at % 3}`}
            />
            {part.to - part.from > 22 && (
              <text x={(part.from + part.to) / 2} y="60" textAnchor="middle">
                {at + 1}
              </text>
            )}
          </g>
        ))}
        <path d={`M0 76H${WIDE}`} className="scale" />
        {ticks.map(({ x, amps }) => (
          <g key={amps}>
            <path d={`M${x} 76v6`} className="scale" />
            <text x={x} y="98" textAnchor={x === 0 ? 'start' : 'middle'} className="soft">
              {amps}
              {amps === ticks.at(-1)?.amps ? ' A' : ''}
            </text>
          </g>
        ))}
        {available !== undefined && (
          <g className="available">
            {available.to > available.from && (
              <path d={`M${available.from} 34V30H${available.to}V34`} className="band" />
            )}
            <path d={`M${available.at} 30V76`} />
            <text x={Math.min(available.at, WIDE - 4)} y="22" textAnchor={available.at > WIDE / 2 ? 'end' : 'start'}>
              {ampsText(row.available)} given hot
            </text>
          </g>
        )}
        <path d={`M${end} 36V76`} className="end" />
      </svg>
    </figure>
  )
}
