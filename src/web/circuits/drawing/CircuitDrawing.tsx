/** A circuit drawn: it lays itself out again when a thing, pin or wire changes, never when a figure does. */
import { type ReactNode, useEffect, useMemo, useRef, useState } from 'react'
import type { Verdict } from '../../../assess/finding.ts'
import type { Build } from '../../../model/build.ts'
import { Empty } from '../../parts/Empty.tsx'
import { diagramOf } from './diagram.ts'
import { Lines } from './Lines.tsx'
import { layOut, layoutKey, type Placed } from './layout.ts'
import type { Live } from './live.ts'
import { Parts } from './Parts.tsx'
import './drawing.css'

interface Props {
  readonly build: Build
  readonly circuit: string | undefined
  readonly name: string
  readonly live: Live | undefined
  readonly chosen: string | undefined
  readonly worstOf: (subject: string) => Verdict | undefined
  readonly choose: (subject: string) => void
  /** A thing was tapped: it is shown, and a switch goes on to its next position. */
  readonly touch: (subject: string) => void
  /** Drawn under the circuit, and over it, where everything stands as placed. */
  readonly behind?: (placed: Placed) => ReactNode
  readonly before?: (placed: Placed) => ReactNode
  /** In place of what is said below a live drawing. */
  readonly caption?: string
}

const CAPTION =
  'Current runs downwards. A dot joins; lines that cross do not. An arrow: the pin’s wire belongs to another circuit. Tap a thing for its figures, a switch to move it.'

/** Never under 1: the smallest text would fall below 12 px. */
const SCALES = [1, 1.25, 1.5, 2]

export function CircuitDrawing({
  build,
  circuit,
  name,
  live,
  chosen,
  worstOf,
  choose,
  touch,
  behind,
  before,
  caption = CAPTION,
}: Props) {
  const diagram = useMemo(() => diagramOf(build, circuit), [build, circuit])
  const key = layoutKey(diagram)
  const [placed, setPlaced] = useState<Placed>()
  const [failed, setFailed] = useState(false)
  const [scale, setScale] = useState(1)
  const room = useRef<HTMLDivElement>(null)
  // The key stands for the diagram: another object of the same structure changes nothing.
  // biome-ignore lint/correctness/useExhaustiveDependencies: see above.
  useEffect(() => {
    let isWanted = true
    setFailed(false)
    layOut(diagram).then(
      (result) => isWanted && setPlaced(result),
      () => isWanted && setFailed(true),
    )
    return () => {
      isWanted = false
    }
  }, [key])
  // It opens at its supply, wherever that stands in a wide drawing.
  useEffect(() => {
    const supply = placed?.parts.find(({ part }) => part.place === 'first')
    if (supply && room.current) room.current.scrollLeft = supply.x + supply.width / 2 - room.current.clientWidth / 2
  }, [placed])
  // A thing chosen elsewhere is brought into view within the drawing; the page itself stays where it is.
  useEffect(() => {
    const frame = room.current
    const element = chosen === undefined || placed === undefined ? null : frame?.querySelector('.chosen')
    if (!frame || !element) return
    const [inside, outside] = [element.getBoundingClientRect(), frame.getBoundingClientRect()]
    if (inside.left < outside.left || inside.right > outside.right)
      frame.scrollLeft += (inside.left + inside.right - outside.left - outside.right) / 2
    if (inside.top < outside.top || inside.bottom > outside.bottom)
      frame.scrollTop += (inside.top + inside.bottom - outside.top - outside.bottom) / 2
  }, [chosen, placed])
  if (diagram.parts.length === 0)
    return <Empty says="Nothing is drawn yet: this circuit has neither wire nor device." />
  if (failed)
    return (
      <p role="alert">
        The drawing could not be laid out here. The tables below hold the same circuit; load the page again to try once
        more.
      </p>
    )
  if (placed === undefined) return <p role="status">Laying out the drawing …</p>
  return (
    <figure className="circuit-drawing">
      <div className="drawing-room" ref={room}>
        {/* biome-ignore lint/a11y/useSemanticElements: a drawing holds the things that are pressed; no fieldset can stand in SVG. */}
        <svg
          width={placed.width * scale}
          height={placed.height * scale}
          viewBox={`0 0 ${placed.width} ${placed.height}`}
          role="group"
          aria-label={`Circuit diagram: ${name}`}
        >
          {behind?.(placed)}
          <Lines {...{ build, placed, live, chosen, worstOf, choose }} />
          <Parts {...{ build, placed, live, chosen, worstOf, touch }} />
          {before?.(placed)}
        </svg>
      </div>
      <figcaption className="small soft">
        <span>{caption}</span>
        <span className="row">
          Scale
          {SCALES.map((one) => (
            <button key={one} type="button" aria-pressed={one === scale} onClick={() => setScale(one)}>
              {one * 100} %
            </button>
          ))}
        </span>
      </figcaption>
    </figure>
  )
}
