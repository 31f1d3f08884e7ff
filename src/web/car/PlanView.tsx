/** The car from above, nose up, from its entered outlines; the loom in it; what was found and what is to do, as text. */
import { useEffect, useRef, useState } from 'react'
import type { PlanRun, PlanZone } from './drawing.ts'
import { spreadLabels } from './drawing.ts'

export interface ZoneCount {
  readonly worst: 'no-go' | 'marginal' | 'unknown' | undefined
  readonly findings: number
  readonly jobs: number
  /** Accesses that are open. */
  readonly open: number
}
interface Props {
  readonly zones: readonly PlanZone[]
  readonly runs: readonly PlanRun[]
  readonly length: number | undefined
  readonly width: number | undefined
  readonly countOf: (zone: string) => ZoneCount
  readonly hrefOf: (zone: string) => string
}

/** Under this width of the drawing, findings and jobs take a line each. */
const NARROW = 480
const countWords = ({ findings, jobs, open }: ZoneCount): readonly string[] => [
  ...(findings > 0 ? [`${findings} finding${findings === 1 ? '' : 's'}`] : []),
  ...(jobs > 0 ? [`${jobs} job${jobs === 1 ? '' : 's'}`] : []),
  ...(open > 0 ? [`${open} open`] : []),
]
const tellCount = (count: ZoneCount): string => countWords(count).join(', ') || 'nothing open'

export function PlanView({ zones, runs, length, width, countOf, hrefOf }: Props) {
  const frame = useRef<HTMLElement>(null)
  const [room, setRoom] = useState(0)
  useEffect(() => {
    const element = frame.current
    if (!element) return
    const watch = new ResizeObserver(([entry]) => setRoom(Math.floor(entry!.contentRect.width)))
    watch.observe(element)
    return () => watch.disconnect()
  }, [])

  const points = [...zones.flatMap((zone) => zone.outline), ...runs.flatMap((run) => [run.from, run.to])]
  const long = length ?? Math.max(...points.map(([x]) => x))
  const half = (width ?? 2 * Math.max(...points.map(([, y]) => Math.abs(y)))) / 2
  const narrow = room < NARROW
  const label = narrow ? 67 : 44
  const margin = narrow ? 112 : Math.min(170, room * 0.28)
  const scale = Math.max(20, Math.min((room - 2 * margin) / (2 * half), 680 / long))
  const middle = room / 2
  const at = ([x, y]: readonly [number, number]): readonly [number, number] => [middle + y * scale, 6 + x * scale]
  const path = (outline: PlanZone['outline']): string => `M${outline.map((corner) => at(corner).join(' ')).join('L')}Z`

  // A zone across the whole car goes to whichever side has fewer labels.
  const left: PlanZone[] = []
  const right: PlanZone[] = []
  for (const zone of [...zones].sort((a, b) => a.middle[0] - b.middle[0])) {
    const across = zone.outline.map(([, y]) => y)
    const central = Math.min(...across) < 0 && Math.max(...across) > 0
    const side = central ? (left.length <= right.length ? left : right) : zone.middle[1] < 0 ? left : right
    side.push(zone)
  }
  const drawn = Math.max(long * scale + 12, Math.max(left.length, right.length) * label)
  return (
    <figure ref={frame} className="plan-frame">
      {room > 0 && (
        <svg width={room} height={drawn} className={narrow ? 'plan narrow' : 'plan'}>
          <title>Plan view of the car, nose up</title>
          {length !== undefined && (
            <rect
              x={middle - half * scale}
              y={6}
              width={2 * half * scale}
              height={long * scale}
              rx={0.22 * scale}
              className="body"
            />
          )}
          {zones.map((zone) => (
            <path key={zone.id} d={path(zone.outline)} className="zone" />
          ))}
          {runs.map((run) => {
            const [[x1, y1], [x2, y2]] = [at(run.from), at(run.to)]
            // A bundle's thickness goes with the root of its metal: 1 mm² draws as 1.
            const thick = Math.max(1, Math.sqrt(run.metal * 1e6))
            return <line key={run.id} {...{ x1, y1, x2, y2 }} className="run" strokeWidth={thick} />
          })}
          {[left, right].map((side) => {
            const tops = spreadLabels(
              side.map((zone) => at(zone.middle)[1]),
              label,
              drawn,
            )
            return side.map((zone, index) => {
              const onLeft = side === left
              const [x, y] = at(zone.middle)
              const top = tops[index]!
              const edge = onLeft ? margin - 8 : room - margin + 8
              const count = countOf(zone.id)
              return (
                <a key={zone.id} href={hrefOf(zone.id)} aria-label={`${zone.name}: ${tellCount(count)}`}>
                  <path
                    d={`M${edge} ${top + 14}L${onLeft ? edge + 8 : edge - 8} ${top + 14}L${x} ${y}`}
                    className="leader"
                  />
                  <circle cx={x} cy={y} r={2} className="leader-end" />
                  <rect x={onLeft ? 0 : edge} y={top} width={margin - 8} height={label - 4} fill="transparent" />
                  <text x={onLeft ? edge - 4 : edge + 4} y={top + 17} textAnchor={onLeft ? 'end' : 'start'}>
                    <tspan className="name">{zone.name}</tspan>
                    {(narrow ? countWords(count) : [countWords(count).join(', ')]).map((line) => (
                      <tspan
                        key={line}
                        x={onLeft ? edge - 4 : edge + 4}
                        dy={15}
                        className={`count ${line.includes('finding') ? (count.worst ?? '') : ''}`}
                      >
                        {line}
                      </tspan>
                    ))}
                  </text>
                </a>
              )
            })
          })}
        </svg>
      )}
    </figure>
  )
}
