/** The loom laid flat to one scale: lengths, angles and thicknesses alike. A run leads to what lies in it. */
import { useEffect, useRef, useState } from 'react'
import type { Drawing, Spot } from '../../book/loom/drawing.ts'
import { placeLabels } from './labels.ts'
import { runPlace } from './places.ts'

interface Props {
  readonly drawing: Drawing
  readonly chosen: string | undefined
}

/** Under this width the nose is up and the loom runs down the page. */
const NARROW = 640
const LETTER = 6.6
const LINE = 15
const MARGIN = 14

export function LoomDrawing({ drawing, chosen }: Props) {
  const frame = useRef<HTMLElement>(null)
  const [room, setRoom] = useState(0)
  useEffect(() => {
    const element = frame.current
    if (!element) return
    const watch = new ResizeObserver(([entry]) => setRoom(Math.floor(entry!.contentRect.width)))
    watch.observe(element)
    return () => watch.disconnect()
  }, [])
  const isNarrow = room < NARROW
  // On the phone the board is turned: nose up, the right-hand side of the car to the right.
  const turn = ([x, y]: Spot): Spot => (isNarrow ? [-y, x] : [x, y])
  const spots = drawing.runs.flatMap(({ from, to }) => [turn(from), turn(to)])
  const [left, right] = [Math.min(...spots.map(([x]) => x)), Math.max(...spots.map(([x]) => x))]
  const [top, bottom] = [Math.min(...spots.map(([, y]) => y)), Math.max(...spots.map(([, y]) => y))]
  const side = isNarrow ? MARGIN + 34 : MARGIN + 60
  const scale = Math.min((room - 2 * side) / Math.max(right - left, 0.2), 900 / Math.max(bottom - top, 0.2))
  const height = (bottom - top) * scale + 2 * (MARGIN + LINE)
  const shift = (room - (right - left) * scale) / 2
  const at = (spot: Spot): Spot => {
    const [x, y] = turn(spot)
    return [shift + (x - left) * scale, MARGIN + LINE + (y - top) * scale]
  }
  const lines = drawing.runs.map((run) => ({
    run,
    id: run.lying.run.id,
    from: at(run.from),
    to: at(run.to),
    thick: Math.max(1.5, run.thick * scale),
  }))
  const runWords = lines.map(({ id, from, to, thick }) => {
    const [mx, my] = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]
    const long = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1
    const [nx, ny] = [-(to[1] - from[1]) / long, (to[0] - from[0]) / long]
    const width = id.length * LETTER + 2
    const places = [0, 0.18, -0.18, 0.3, -0.3].flatMap((along) =>
      [1, -1].map((way): Spot => {
        const out = thick / 2 + 4
        const [cx, cy] = [
          mx + (to[0] - from[0]) * along + way * nx * (out + (Math.abs(nx) * width) / 2),
          my + (to[1] - from[1]) * along + way * ny * (out + (Math.abs(ny) * LINE) / 2),
        ]
        return [cx - width / 2, cy - LINE / 2]
      }),
    )
    return { id: `run ${id}`, width, places }
  })
  const pointWords = drawing.points.map(({ id, name, at: where, free }) => {
    const [x, y] = at(where)
    const width = name.length * LETTER + 2
    const turned = isNarrow ? free + Math.PI / 2 : free
    const places = [0, 0.5, -0.5, 1, -1, 1.6, -1.6, 2.2, -2.2, Math.PI].flatMap((off) =>
      [9, 22, 36].map((out): Spot => {
        const [cos, sin] = [Math.cos(turned + off), Math.sin(turned + off)]
        return [x + cos * out - (width * (1 - cos)) / 2, y + sin * out - (LINE * (1 - sin)) / 2]
      }),
    )
    return { id: `point ${id}`, width, places }
  })
  const boxes = placeLabels(
    [...pointWords, ...runWords],
    LINE,
    [
      ...lines.map(({ from, to, thick }) => [from, to, thick] as const),
      // A point is a short line: no word on it.
      ...drawing.points.map(({ at: where }) => {
        const [x, y] = at(where)
        return [[x - 4, y], [x + 4, y], 8] as const
      }),
    ],
    [room, height],
  )
  const barLength = scale > 260 ? 0.5 : 1
  return (
    <figure ref={frame} className="loom-frame">
      {room > 0 && (
        <svg width={room} height={height + 30} className="loom-drawing">
          <title>The loom laid flat, to scale</title>
          {lines.map(({ run, id, from, to, thick }) => {
            const [x1, y1, x2, y2] = [...from, ...to]
            return (
              <a
                key={id}
                href={`#${runPlace(id)}`}
                aria-label={tellRun(run)}
                aria-current={chosen === id ? 'true' : undefined}
                data-run={id}
              >
                <line {...{ x1, y1, x2, y2 }} className="touch" strokeWidth={Math.max(24, thick)} />
                <line
                  {...{ x1, y1, x2, y2 }}
                  className={run.isTrue ? 'run' : 'run untrue'}
                  strokeWidth={thick}
                  strokeDasharray={run.isTrue ? undefined : '7 5'}
                />
                {run.dressed.bundle === undefined && run.lying.wires.length > 0 && (
                  <line {...{ x1, y1, x2, y2 }} className="thin" strokeDasharray="2 3" strokeWidth={thick * 0.5} />
                )}
              </a>
            )
          })}
          {drawing.points.map(({ id, at: where }) => {
            const [cx, cy] = at(where)
            return <circle key={id} {...{ cx, cy }} r={3} className="point" />
          })}
          {drawing.points.map(({ id, name }) => {
            const box = boxes.get(`point ${id}`)!
            return (
              <text key={id} x={box.x + 1} y={box.y + 12} className="point-name">
                {name}
              </text>
            )
          })}
          {lines.map(({ id }) => {
            const box = boxes.get(`run ${id}`)!
            return (
              <text key={id} x={box.x + 1} y={box.y + 12} className={chosen === id ? 'run-name chosen' : 'run-name'}>
                {id}
              </text>
            )
          })}
          <path
            d={`M${MARGIN} ${height + 8}V${height + 14}H${MARGIN + barLength * scale}V${height + 8}`}
            className="scale-bar"
          />
          <text x={MARGIN + barLength * scale + 6} y={height + 16} className="point-name">
            {barLength} m
          </text>
        </svg>
      )}
    </figure>
  )
}

const tellRun = ({ lying, dressed }: Drawing['runs'][number]): string => {
  const { run, wires } = lying
  const thick = dressed.over === undefined ? 'thickness not known' : `${Math.round(dressed.over * 1e3)} mm thick`
  const long = run.length ? `${run.length.value.toFixed(2)} m` : 'length not known'
  return `Run ${run.id}, ${lying.fromName} to ${lying.toName}: ${long}, ${wires.length} ${wires.length === 1 ? 'wire' : 'wires'}, ${thick}`
}
