/** The circuit with suspicion as density of hatching on it, and the two leads of the meter where they go. */
import { useMemo } from 'react'
import type { NextTest, SearchView, Suspect } from '../../assess/faults/faults.ts'
import { pointEndpoint, pointWire } from '../../assess/faults/words.ts'
import { deviceIdOf } from '../../assess/make.ts'
import { batteryPins } from '../../assess/pins.ts'
import type { Build } from '../../model/build.ts'
import { CircuitDrawing } from '../circuits/drawing/CircuitDrawing.tsx'
import type { Placed, Spot } from '../circuits/drawing/layout.ts'
import type { ShownSearch } from './searchEngine.ts'

/** Gaps between the strokes, px: the more suspect, the denser. Below the last nothing is hatched. */
const DENSITIES = [
  [0.5, 3],
  [0.2, 5],
  [0.07, 8],
  [0.02, 12],
] as const
const gapOf = (probability: number): number | undefined => DENSITIES.find(([least]) => probability >= least)?.[1]

const suspicionOf = (suspects: readonly Suspect[]): ReadonlyMap<string, number> => {
  const found = new Map<string, number>()
  for (const { devices, wires, probability } of suspects) {
    // A joint belongs to a wire and to a device: the hatching stands on the thing that a person would touch.
    const things = wires.length > 0 ? wires.map((id) => `wires/${id}`) : devices.map((id) => `devices/${id}`)
    for (const thing of things) found.set(thing, (found.get(thing) ?? 0) + probability)
    for (const id of wires.length > 0 ? devices : [])
      found.set(`devices/${id}`, (found.get(`devices/${id}`) ?? 0) + probability)
  }
  return found
}

const DRAWN = 'search'

/** A car of nothing but what can make the complaint and where probes can go: from the source to the load and back. */
const carOfSearch = (build: Build, { points, parts }: ShownSearch): Build => {
  const ids = new Set([
    ...[...parts.values()].flatMap((part) => part.wires),
    ...[...points.values()].flatMap(({ wire }) => wire ?? []),
  ])
  const wires: Build['collections']['wires'] = {}
  const devices: Build['collections']['devices'] = {}
  const add = (id: string): void => {
    const device = build.collections.devices[id]
    if (device) devices[id] = { ...device, circuit: DRAWN }
  }
  for (const id of ids) {
    const wire = build.collections.wires[id]
    if (!wire) continue
    wires[id] = { ...wire, circuit: DRAWN }
    for (const end of [wire.from, wire.to]) add(deviceIdOf(end))
  }
  for (const part of parts.values()) part.devices.forEach(add)
  return { ...build, collections: { ...build.collections, wires, devices } }
}

interface Props {
  readonly build: Build
  readonly ready: ShownSearch
  readonly name: string
  readonly view: SearchView
}

export function SuspicionDrawing({ build, ready, name, view }: Props) {
  const suspicion = useMemo(() => suspicionOf(view.suspects), [view.suspects])
  const drawn = useMemo(() => carOfSearch(build, ready), [build, ready])
  const negative = useMemo(() => negativePost(build), [build])
  return (
    <CircuitDrawing
      build={drawn}
      circuit={DRAWN}
      name={name}
      live={undefined}
      chosen={view.next ? `devices/${deviceIdOf(pointEndpoint(view.next.at))}` : undefined}
      worstOf={() => undefined}
      choose={() => undefined}
      touch={() => undefined}
      behind={(placed) => <Hatching placed={placed} suspicion={suspicion} />}
      before={(placed) => view.next && <Leads placed={placed} next={view.next} negative={negative} />}
      caption="The denser the hatching, the more suspect. + is where the red lead goes, − the black one."
    />
  )
}

function Hatching({ placed, suspicion }: { placed: Placed; suspicion: ReadonlyMap<string, number> }) {
  return (
    <g className="hatching">
      <defs>
        {DENSITIES.map(([, gap]) => (
          <pattern
            key={gap}
            id={`hatch-${gap}`}
            width={gap}
            height={gap}
            patternUnits="userSpaceOnUse"
            patternTransform="rotate(45)"
          >
            <line x1="1" y1="0" x2="1" y2={gap} className="hatch" />
          </pattern>
        ))}
      </defs>
      {placed.lines.map((line) => {
        const gap = gapOf(suspicion.get(`wires/${line.id}`) ?? 0)
        if (gap === undefined) return null
        return (
          <path
            key={line.id}
            d={`M${line.points.map(({ x, y }) => `${x} ${y}`).join('L')}`}
            style={{ fill: 'none', stroke: `url(#hatch-${gap})`, strokeWidth: 20 }}
          />
        )
      })}
      {placed.parts.map((one) => {
        const gap = gapOf(suspicion.get(`devices/${one.part.device}`) ?? 0)
        if (gap === undefined) return null
        return (
          <rect
            key={one.part.id}
            x={one.x - 6}
            y={one.y}
            width={one.width + 12}
            height={one.height}
            style={{ fill: `url(#hatch-${gap})`, stroke: 'none' }}
          />
        )
      })}
    </g>
  )
}

/** Where a point of the model lies in the drawing: at the pin, or a little along the wire whose terminal it is. */
const spotOf = (placed: Placed, point: string): Spot | undefined => {
  const endpoint = pointEndpoint(point)
  for (const { part, x, y, ports } of placed.parts) {
    const port = part.ports.find((one) => one.endpoint === endpoint)
    const spot = port && ports.get(port.id)
    if (!port || !spot) continue
    const wire = pointWire(point)
    const down = port.side === 'top' ? -1 : 1
    return { x: x + spot.x, y: y + spot.y + (wire === undefined ? 0 : 14 * down) }
  }
  return undefined
}

const negativePost = (build: Build): string | undefined => {
  const battery = Object.values(build.collections.devices).find(({ spec }) => spec.kind === 'battery')
  const pin = battery && batteryPins(battery).negative
  return pin === undefined ? undefined : `${battery!.id}.${pin}`
}

function Leads({ placed, next, negative }: { placed: Placed; next: NextTest; negative: string | undefined }) {
  const red = spotOf(placed, next.at)
  const other = next.against ?? negative
  const black = other === undefined ? undefined : spotOf(placed, other)
  return (
    <g className="leads">
      {red && <Lead at={red} width={placed.width} sign="+" />}
      {black && <Lead at={black} width={placed.width} sign="−" />}
    </g>
  )
}

/** A probe drawn as a long stroke with its sign: plus and minus, so that it does not hang on colour. */
function Lead({ at, width, sign }: { at: Spot; width: number; sign: string }) {
  const side = at.x < width - 70 ? 1 : -1
  return (
    <g>
      <path d={`M${at.x} ${at.y}l${22 * side} -16l${26 * side} 0`} />
      <circle cx={at.x} cy={at.y} r="3.5" />
      <text x={at.x + 53 * side} y={at.y - 11} textAnchor={side > 0 ? 'start' : 'end'}>
        {sign}
      </text>
    </g>
  )
}
