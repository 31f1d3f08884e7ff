/** Readings over the months as marks with their ±, joined by nothing: the line through them is only drawn where it tells. */
import type { Trend } from '../../assess/trends/trends.ts'
import { formatQuantity } from '../../units/index.ts'
import { dayText } from '../jobs/today.ts'

const WIDTH = 340
const HEIGHT = 96
const EDGE = 8

export function TrendDrawing({ trend: { points, watched, verdict, slope } }: { trend: Trend }) {
  if (points.length < 2) return null
  const [first, last] = [points[0]!, points.at(-1)!]
  const reach = points.flatMap(({ value, plusMinus = 0 }) => [value - plusMinus, value + plusMinus])
  const [low, high] = [Math.min(...reach), Math.max(...reach)]
  const span = high - low || Math.abs(high) * 0.1 || 1
  const x = (at: number): number => EDGE + ((at - first.at) / (last.at - first.at || 1)) * (WIDTH - 2 * EDGE)
  const y = (value: number): number => HEIGHT - EDGE - ((value - low) / span) * (HEIGHT - 2 * EDGE)
  const mean = points.reduce((sum, { value }) => sum + value, 0) / points.length
  const middle = points.reduce((sum, { at }) => sum + at, 0) / points.length
  const line = (at: number): number => mean + ((slope?.value ?? 0) * (at - middle)) / (30 * 86_400)
  const day = (at: number): string => dayText(new Date(at * 1000).toISOString().slice(0, 10))
  const show = (value: number): string => formatQuantity(watched.kind, value as never, { unit: watched.unit })
  return (
    <figure className="trend">
      <svg
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        role="img"
        aria-label={`${watched.title}: ${points.length} readings from ${day(first.at)} to ${day(last.at)}, between ${show(Math.min(...points.map(({ value }) => value)))} and ${show(Math.max(...points.map(({ value }) => value)))}`}
      >
        <path d={`M${EDGE} ${HEIGHT - 1}H${WIDTH - EDGE}`} className="axis" />
        {slope && verdict === 'marginal' && (
          <path d={`M${x(first.at)} ${y(line(first.at))}L${x(last.at)} ${y(line(last.at))}`} className="through" />
        )}
        {points.map(({ at, value, plusMinus = 0 }) => (
          <path
            key={at}
            className="mark"
            d={`M${x(at) - 4} ${y(value)}h8M${x(at)} ${y(value - plusMinus)}V${y(value + plusMinus)}`}
          />
        ))}
      </svg>
      <figcaption className="small soft">
        <span>{day(first.at)}</span>
        <span>{day(last.at)}</span>
      </figcaption>
    </figure>
  )
}
