/** What runs near hot metal: from its mean to the side that faces, against what it stands. */
import { isKnown, known } from '../../assess/chain/chain.ts'
import type { ServicesChain } from '../../assess/services/chain.ts'
import { heatRange } from '../../assess/services/nearHeat.ts'
import { nearStation } from '../../assess/services/otherStations.ts'
import { shortText } from '../chain/FigureLine.tsx'

const [LEFT, RIGHT, ROW, TOP] = [8, 352, 44, 22]
/** K: the scale begins in a cool garage and ends where nothing of plastic is left. */
const [COOL, END] = [293.15, 523.15]

export function HeatDrawing({ chain }: { chain: ServicesChain }) {
  const { near, stations } = chain
  if (near.length === 0)
    return <p className="soft">Enter what runs near the exhaust, and how hot it becomes stands here.</p>
  const x = (kelvin: number): number =>
    LEFT + ((Math.min(Math.max(kelvin, COOL), END) - COOL) / (END - COOL)) * (RIGHT - LEFT)
  const floor = TOP + near.length * ROW
  return (
    <svg
      className="line-drawing"
      viewBox={`0 0 360 ${floor + 24}`}
      role="img"
      aria-label={`How hot it becomes near the exhaust: ${near.map(({ near: { name } }) => name).join(', ')}`}
    >
      {near.map((item) => {
        const y = TOP + item.at * ROW
        const range = heatRange(item)
        const verdict = stations.find(({ id }) => id === nearStation(item))?.verdict ?? 'unknown'
        return (
          <g key={item.near.name}>
            <text x={LEFT} y={y - 4}>
              {item.near.name}:{' '}
              {range
                ? `${shortText('temperature', known(range[0]))} to ${shortText('temperature', known(range[1]))}`
                : 'not known'}
            </text>
            <path className="fine" d={`M${LEFT} ${y + 9}H${RIGHT}`} />
            {range && (
              <rect
                className="body"
                x={x(range[0])}
                y={y + 3}
                width={Math.max(x(range[1]) - x(range[0]), 3)}
                height="12"
              />
            )}
            {isKnown(item.limit) && <path className={`mark ${verdict}`} d={`M${x(item.limit.value)} ${y - 1}v20`} />}
          </g>
        )
      })}
      {[50, 100, 150, 200].map((celsius) => (
        <text key={celsius} x={x(celsius + 273.15)} y={floor + 14} textAnchor="middle" className="soft-text">
          {celsius} °C
        </text>
      ))}
    </svg>
  )
}
