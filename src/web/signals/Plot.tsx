/** A line drawing of curves and points, in units already chosen. */
export interface Line {
  readonly name: string
  readonly points: readonly { readonly x: number; readonly y: number }[]
  readonly kind: 'curve' | 'second' | 'bound' | 'rows'
}
interface Props {
  readonly title: string
  readonly x: string
  readonly y: string
  readonly lines: readonly Line[]
  readonly dots?: readonly { readonly x: number; readonly y: number; readonly up?: number | undefined }[]
}

const [WIDTH, HEIGHT, LEFT, BOTTOM, TOP, RIGHT] = [520, 260, 58, 40, 12, 14]

/** 1, 2 or 5 times a power of ten, so that about five fit. */
const stepOf = (span: number): number => {
  const raw = span / 5
  const power = 10 ** Math.floor(Math.log10(raw))
  return [1, 2, 5, 10].find((each) => each * power >= raw)! * power
}
const ticksOf = (low: number, high: number): number[] => {
  const step = stepOf(high - low)
  const ticks: number[] = []
  for (let at = Math.ceil(low / step - 1e-9) * step; at <= high + step * 1e-9; at += step)
    ticks.push(Number(at.toPrecision(10)))
  return ticks
}
const figure = (value: number): string => `${value < 0 ? '−' : ''}${Number(Math.abs(value).toPrecision(6))}`

export function Plot({ title, x: xName, y: yName, lines, dots = [] }: Props) {
  const all = [
    ...lines.flatMap(({ points }) => points),
    ...dots.flatMap(({ x, y, up = 0 }) => [
      { x, y: y - up },
      { x, y: y + up },
    ]),
  ].filter(({ x, y }) => Number.isFinite(x) && Number.isFinite(y))
  if (all.length < 2) return null
  const [x0, x1] = [Math.min(...all.map(({ x }) => x)), Math.max(...all.map(({ x }) => x))]
  let [y0, y1] = [Math.min(...all.map(({ y }) => y)), Math.max(...all.map(({ y }) => y))]
  if (y0 === y1) [y0, y1] = [y0 - 1, y1 + 1]
  const room = (y1 - y0) * 0.06
  ;[y0, y1] = [y0 - room, y1 + room]
  if (x0 === x1) return null
  const px = (value: number): number => LEFT + ((WIDTH - LEFT - RIGHT) * (value - x0)) / (x1 - x0)
  const py = (value: number): number => TOP + (HEIGHT - TOP - BOTTOM) * (1 - (value - y0) / (y1 - y0))
  return (
    <figure className="plot">
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={title}>
        {ticksOf(y0, y1).map((at) => (
          <g key={`y${at}`}>
            <line x1={LEFT} x2={WIDTH - RIGHT} y1={py(at)} y2={py(at)} className={at === 0 ? 'axis' : 'rule'} />
            <text x={LEFT - 6} y={py(at) + 4} textAnchor="end" className="tick">
              {figure(at)}
            </text>
          </g>
        ))}
        {ticksOf(x0, x1).map((at) => (
          <g key={`x${at}`}>
            <line x1={px(at)} x2={px(at)} y1={HEIGHT - BOTTOM} y2={HEIGHT - BOTTOM + 5} className="axis" />
            <text x={px(at)} y={HEIGHT - BOTTOM + 19} textAnchor="middle" className="tick">
              {figure(at)}
            </text>
          </g>
        ))}
        <line x1={LEFT} x2={LEFT} y1={TOP} y2={HEIGHT - BOTTOM} className="axis" />
        <line x1={LEFT} x2={WIDTH - RIGHT} y1={HEIGHT - BOTTOM} y2={HEIGHT - BOTTOM} className="axis" />
        <text x={WIDTH - RIGHT} y={HEIGHT - 5} textAnchor="end" className="tick">
          {xName}
        </text>
        <text x={LEFT + 6} y={TOP + 8} className="tick">
          {yName}
        </text>
        {lines.map(({ name, kind, points }) => (
          <g key={name}>
            <path
              className={`line ${kind}`}
              d={points
                .filter(({ x, y }) => Number.isFinite(x) && Number.isFinite(y))
                .map(({ x, y }, i) => `${i === 0 ? 'M' : 'L'}${px(x).toFixed(1)} ${py(y).toFixed(1)}`)
                .join('')}
            />
            {kind === 'rows' &&
              points.map(({ x, y }) => (
                <rect key={x} x={px(x) - 2.5} y={py(y) - 2.5} width="5" height="5" className="row-mark" />
              ))}
          </g>
        ))}
        {dots.map(({ x, y, up }) => (
          <g key={`${x}/${y}`}>
            {up !== undefined && <line x1={px(x)} x2={px(x)} y1={py(y - up)} y2={py(y + up)} className="whisker" />}
            <circle cx={px(x)} cy={py(y)} r="4" className="dot" />
          </g>
        ))}
      </svg>
      <figcaption className="small soft">
        {lines.map(({ name, kind }) => (
          <span key={name} className="key">
            <svg width="22" height="8" aria-hidden="true">
              <path className={`line ${kind}`} d="M1 4H21" />
            </svg>{' '}
            {name}
          </span>
        ))}
        {dots.length > 0 && <span className="key">● readings</span>}
      </figcaption>
    </figure>
  )
}
