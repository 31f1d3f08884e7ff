/** What returns where, and by which strap it gets home: from the devices on the left to the battery’s negative on the right. */
import type { ReturnTree } from '../../../assess/earths/returnTree.ts'
import { sizeName } from '../../../assess/wireData.ts'
import type { Build } from '../../../model/build.ts'
import { ampsText, voltsText } from '../drawing/live.ts'
import { COLUMNS, plateOf, WIDE } from './plate.ts'

interface Props {
  readonly build: Build
  readonly tree: ReturnTree
  readonly caseName: string
  /** The strap that is thought open. */
  readonly open: string | undefined
}

const LONGEST = 36
const short = (name: string): string => (name.length > LONGEST ? `${name.slice(0, LONGEST - 1)}…` : name)

export function EarthsDrawing({ build, tree, caseName, open }: Props) {
  const { height, studs, metals, straps } = plateOf(tree)
  const { names, amps, comb, stud, metal, battery } = COLUMNS
  const last = Math.max(...metals.map(({ bottom }) => bottom), 60)
  return (
    <figure className="earths-plate">
      <svg
        width={WIDE}
        height={height}
        viewBox={`0 0 ${WIDE} ${height}`}
        role="img"
        aria-label={`Earth returns in “${caseName}”; the table below holds the same.`}
      >
        {studs.map(({ point, rows, y }) => (
          <g key={point.device}>
            {rows.map((row) => (
              <g key={row.key}>
                <text x={names} y={row.y + 4} textAnchor="end" className={row.current === undefined ? 'soft' : ''}>
                  {short(row.name)}
                </text>
                {row.current !== undefined && (
                  <>
                    <text x={amps} y={row.y + 4} textAnchor="end" className="figure">
                      {row.current !== null && row.current < 0 ? '−' : ''}
                      {ampsText(row.current)}
                    </text>
                    <path d={`M${amps + 6} ${row.y}H${comb}V${y}H${stud}`} />
                  </>
                )}
              </g>
            ))}
            <circle cx={stud} cy={y} r="4.5" className="stud" />
            <path d={`M${stud + 4.5} ${y}H${point.metal === undefined ? stud + 30 : metal}`} />
            <text x={stud + 10} y={y - 7}>
              {short(point.name)}
            </text>
            <text x={stud + 10} y={y + 17} className="figure">
              {point.current === null && point.raised === null
                ? 'unknown'
                : `${ampsText(point.current)}, raised ${voltsText(point.raised, false)}`}
            </text>
          </g>
        ))}
        {metals.map(({ name, top, bottom }) => (
          <g key={name}>
            <path d={`M${metal} ${top}V${bottom}`} className="bar" />
            <text x={metal + 10} y={top + 4} className="metal">
              {name}
            </text>
          </g>
        ))}
        {straps.map(({ strap, y, to }) => {
          const area = build.collections.wires[strap.wire]?.area?.value
          const isOpen = strap.wire === open
          const words = `${strap.wire}${area === undefined ? '' : `, ${sizeName(area)}`}`
          const flow = isOpen
            ? 'open'
            : strap.current === null
              ? 'unknown'
              : `${ampsText(strap.current)}, loses ${voltsText(strap.drop, false)}`
          const middle = (metal + battery) / 2
          const line =
            to === undefined
              ? isOpen
                ? `M${metal} ${y}H${middle - 12}l8 -9M${middle + 12} ${y}H${battery}`
                : `M${metal} ${y}H${battery}`
              : isOpen
                ? `M${metal} ${y}v6M${metal} ${to}v-6`
                : `M${metal} ${y}V${to}`
          return (
            <g key={strap.wire} className={isOpen ? 'strap open' : 'strap'}>
              <path d={line} />
              <text x={metal + 70} y={(to === undefined ? y : (y + to) / 2) - 7}>
                {words}
              </text>
              <text x={metal + 70} y={(to === undefined ? y : (y + to) / 2) + 17} className="figure">
                {flow}
              </text>
            </g>
          )
        })}
        <path d={`M${battery} 30V${last}`} className="bar" />
        <text x={battery} y="20" textAnchor="middle" className="metal">
          Battery −
        </text>
      </svg>
      <figcaption className="small soft">
        Left to right: what returns, its stud, the metal it stands on, the strap home. A minus: the current goes out
        there, as to the alternator. Raised: above the battery’s negative post.
      </figcaption>
    </figure>
  )
}
