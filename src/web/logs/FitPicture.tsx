/** Windows with their ± against the model's curve. */
export interface Mark {
  readonly x: number
  readonly y: number
  readonly half?: number
  readonly shape?: 'round' | 'square' | 'open'
}
export interface Curve {
  readonly points: readonly (readonly [number, number])[]
  readonly dash?: readonly number[]
  readonly label: string
}
interface Props {
  readonly title: string
  readonly across: string
  readonly up: string
  readonly marks: readonly Mark[]
  readonly curves: readonly Curve[]
  /** Between low and high: the interval of a curve. */
  readonly band?: readonly (readonly [x: number, low: number, high: number])[]
}
const [WIDE, HIGH, LEFT, BOTTOM] = [360, 230, 48, 40]

const ticks = (low: number, high: number): number[] => {
  const rough = (high - low) / 4
  const power = 10 ** Math.floor(Math.log10(rough))
  const step = [1, 2, 5, 10].find((each) => each * power >= rough)! * power
  const out: number[] = []
  for (let at = Math.ceil(low / step) * step; at <= high + 1e-9 * step; at += step) out.push(Number(at.toPrecision(8)))
  return out
}

export function FitPicture({ title, across, up, marks, curves, band = [] }: Props) {
  const xs = [...marks.map(({ x }) => x), ...curves.flatMap(({ points }) => points.map(([x]) => x))]
  const ys = [
    ...marks.flatMap(({ y, half = 0 }) => [y - half, y + half]),
    ...curves.flatMap(({ points }) => points.map(([, y]) => y)),
    ...band.flatMap(([, low, high]) => [low, high]),
  ]
  if (xs.length < 2) return null
  const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)]
  const x = (value: number): number => LEFT + ((value - x0) / (x1 - x0 || 1)) * (WIDE - LEFT - 8)
  const y = (value: number): number => HIGH - BOTTOM - ((value - y0) / (y1 - y0 || 1)) * (HIGH - BOTTOM - 8)
  const path = (points: readonly (readonly [number, number])[]): string =>
    points.map(([a, b], i) => `${i === 0 ? 'M' : 'L'}${x(a).toFixed(1)} ${y(b).toFixed(1)}`).join('')
  return (
    <figure className="fit">
      <figcaption>{title}</figcaption>
      <svg viewBox={`0 0 ${WIDE} ${HIGH}`} role="img" aria-label={`${title}: ${up} against ${across}`}>
        {band.length > 1 && (
          <path
            className="band"
            d={`${path(band.map(([a, low]) => [a, low]))}L${path(
              [...band].reverse().map(([a, , high]) => [a, high]),
            ).slice(1)}Z`}
          />
        )}
        <path className="axis" d={`M${LEFT} 4V${HIGH - BOTTOM}H${WIDE - 4}`} />
        {ticks(x0, x1).map((at) => (
          <text key={`x${at}`} x={x(at)} y={HIGH - BOTTOM + 15} textAnchor="middle">
            {at}
          </text>
        ))}
        {ticks(y0, y1).map((at) => (
          <text key={`y${at}`} x={LEFT - 5} y={y(at) + 4} textAnchor="end">
            {at}
          </text>
        ))}
        <text x={(WIDE + LEFT) / 2} y={HIGH - 6} textAnchor="middle">
          {across}
        </text>
        <text x={LEFT + 4} y={14}>
          {up}
        </text>
        {marks.map(({ x: a, y: b, half, shape = 'round' }) => (
          <g key={`${a},${b},${shape}`} className={`mark ${shape}`}>
            {half !== undefined && <path d={`M${x(a)} ${y(b - half)}V${y(b + half)}`} />}
            {shape === 'square' ? (
              <rect x={x(a) - 2.2} y={y(b) - 2.2} width="4.4" height="4.4" />
            ) : (
              <circle cx={x(a)} cy={y(b)} r="2.2" />
            )}
          </g>
        ))}
        {curves.map(({ points, dash = [], label }) => (
          <path key={label} className="curve" d={path(points)} strokeDasharray={dash.join(' ')} />
        ))}
      </svg>
      <p className="soft small">
        {curves.map(({ label, dash = [] }) => (
          <span key={label} className="key">
            <svg width="30" height="8" aria-hidden="true">
              <path d="M0 4H30" stroke="currentColor" strokeDasharray={dash.join(' ')} />
            </svg>{' '}
            {label}
          </span>
        ))}
      </p>
    </figure>
  )
}
