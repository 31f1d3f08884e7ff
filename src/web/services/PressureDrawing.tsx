/** Hot oil pressure against engine speed: what was read with its ±, and the least that is asked. */
import { isKnown, known } from '../../assess/chain/chain.ts'
import type { ServicesChain } from '../../assess/services/chain.ts'
import { RPM } from '../../engineering/exactUnits.ts'
import { shortText } from '../chain/FigureLine.tsx'

const [LEFT, RIGHT, TOP, FLOOR] = [52, 348, 18, 196]
/** More figures than these would stand in each other’s way: the stations have them all. */
const LABELLED = 5

export function PressureDrawing({ stored, tried }: { stored: ServicesChain; tried: ServicesChain | undefined }) {
  const { pressure, facts } = tried ?? stored
  const { points } = pressure
  if (points.length === 0)
    return <p className="soft">Enter hot oil pressure at two speeds or more, and its line stands here.</p>
  const limit = isKnown(facts.targetSpeed) ? facts.targetSpeed.value : 0
  const fastest = Math.max(limit, ...points.map(({ speed }) => speed))
  const most = Math.max(...points.map(({ pressure: read }) => read.value + read.plusMinus)) * 1.1
  const x = (speed: number): number => LEFT + (speed / fastest) * (RIGHT - LEFT)
  const y = (value: number): number => FLOOR - (value / most) * (FLOOR - TOP)
  const line = (list: readonly (readonly [number, number])[]): string =>
    list.map(([speed, value], index) => `${index === 0 ? 'M' : 'L'}${x(speed)} ${y(value)}`).join('')
  const least = points.flatMap(({ speed, need }) => (isKnown(need) ? [[speed, need.value] as const] : []))
  const thousands = Array.from({ length: Math.floor(fastest / (1000 * RPM)) }, (_each, index) => (index + 1) * 1000)
  const asked = pressure.by === 'maker' ? 'the maker’s least' : 'rule of thumb'
  return (
    <svg
      className="line-drawing"
      viewBox="0 0 360 250"
      role="img"
      aria-label={`Hot oil pressure at ${points.length} speeds, up to ${shortText('angularSpeed', known(points.at(-1)?.speed ?? 0))}, against ${asked}`}
    >
      <path className="pen" d={`M${LEFT} ${TOP}V${FLOOR}H${RIGHT}`} />
      {thousands
        .filter((rpm) => thousands.length < 7 || rpm % 2000 === 0)
        .map((rpm) => (
          <g key={rpm}>
            <path className="fine" d={`M${x(rpm * RPM)} ${FLOOR}v5`} />
            <text x={x(rpm * RPM)} y={FLOOR + 20} textAnchor="middle">
              {rpm / 1000}
            </text>
          </g>
        ))}
      <text x={RIGHT} y={FLOOR + 40} textAnchor="end" className="soft-text">
        thousand rpm
      </text>
      <path className="fine" strokeDasharray="5 4" d={line(least)} />
      {least.length > 0 && (
        <text x={RIGHT} y={FLOOR - 10} textAnchor="end" className="soft-text">
          dashed: {asked}
        </text>
      )}
      {tried && (
        <path
          className="fine"
          d={line(stored.pressure.points.map(({ speed, pressure: read }) => [speed, read.value] as const))}
        />
      )}
      <path
        className={tried ? 'heavy' : 'pen'}
        d={line(points.map(({ speed, pressure: read }) => [speed, read.value] as const))}
      />
      {points.map(({ speed, pressure: read }) => (
        <g key={speed}>
          <path
            className="pen"
            d={`M${x(speed)} ${y(read.value - read.plusMinus)}V${y(read.value + read.plusMinus)}M${x(speed) - 4} ${y(read.value)}h8`}
          />
          {points.length <= LABELLED && (
            <text x={Math.max(x(speed) - 8, LEFT + 52)} y={y(read.value) - 10} textAnchor="end">
              {shortText('pressureGauge', read, 'bar').replace(/\s*gauge$/, '')}
            </text>
          )}
        </g>
      ))}
    </svg>
  )
}
