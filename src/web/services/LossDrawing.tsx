/** Back-pressure from the open end to the engine: every part's loss as a step, what was measured and what is allowed. */
import { isKnown, known } from '../../assess/chain/chain.ts'
import type { ServicesChain } from '../../assess/services/chain.ts'
import { shortText } from '../chain/FigureLine.tsx'

const [LEFT, RIGHT, ROW, TOP] = [8, 352, 34, 26]

export function LossDrawing({ stored, tried }: { stored: ServicesChain; tried: ServicesChain | undefined }) {
  const { back } = tried ?? stored
  const { parts, reckoned, measured, limit } = back
  const marks = [
    ...(isKnown(measured) ? [{ name: 'measured', value: measured.value }] : []),
    ...(isKnown(limit) ? [{ name: 'allowed', value: limit.value }] : []),
  ]
  const sum = isKnown(reckoned) ? reckoned.value : 0
  const most = Math.max(sum, ...marks.map(({ value }) => value)) * 1.04
  if (most === 0)
    return <p className="soft">Enter the parts of the exhaust or its measured back-pressure, and they stand here.</p>
  const x = (value: number): number => LEFT + (value / most) * (RIGHT - LEFT)
  const floor = TOP + parts.length * ROW
  let before = 0
  const rows = parts.map(({ id, name, loss }, index) => {
    const start = before
    if (isKnown(loss)) before += loss.value
    return { id, name, loss, start, end: before, y: TOP + index * ROW }
  })
  return (
    <svg
      className="line-drawing"
      viewBox={`0 0 360 ${floor + 26 + marks.length * 18}`}
      role="img"
      aria-label={`Back-pressure by part: ${parts.map(({ name, loss }) => `${name} ${shortText('pressureDifference', loss)}`).join(', ')}`}
    >
      {rows.map(({ id, name, loss, start, end, y }) => (
        <g key={id}>
          <text x={LEFT} y={y - 4}>
            {name} {shortText('pressureDifference', loss)}
          </text>
          <path className="fine" d={`M${LEFT} ${y + 7}H${RIGHT}`} />
          {isKnown(loss) && (
            <rect className="body" x={x(start)} y={y + 1} width={Math.max(x(end) - x(start), 2)} height="12" />
          )}
        </g>
      ))}
      {marks.map(({ name, value }, index) => (
        <g key={name}>
          <path className={name === 'allowed' ? 'heavy' : 'pen'} d={`M${x(value)} ${TOP}V${floor + 6 + index * 18}`} />
          <text x={Math.min(x(value), RIGHT)} y={floor + 20 + index * 18} textAnchor="end">
            {name} {shortText('pressureGauge', known(value))}
          </text>
        </g>
      ))}
    </svg>
  )
}
