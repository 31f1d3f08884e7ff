/** The wires of a drawing: unbroken lines, each with its label; where wires that share a pin part, a dot. */
import type { KeyboardEvent } from 'react'
import type { Verdict } from '../../../assess/finding.ts'
import type { Build, Wire } from '../../../model/build.ts'
import { formatQuantity } from '../../../units/index.ts'
import { VERDICT_SHAPES, VERDICT_WORDS } from '../../parts/VerdictMark.tsx'
import type { Placed, PlacedLine } from './layout.ts'
import { type Live, type WireFigures, wireFigures } from './live.ts'

/** Letters of IEC 60757, the tracer behind a stroke. */
const lettersOf = ({ colour, tracer }: Wire): string => [colour, tracer].filter(Boolean).join('/')
/** `1 mm² RD`, or what of it is entered. */
export const wireMake = (wire: Wire): string =>
  [wire.area && formatQuantity('area', wire.area.value, { unit: wire.area.unit ?? 'mm²' }), lettersOf(wire)]
    .filter(Boolean)
    .join(' ')

/** A verdict inside a drawing: line and word. */
export function DrawnVerdict({ verdict, x, y }: { verdict: Verdict; x: number; y: number }) {
  return (
    <g transform={`translate(${x} ${y})`} style={{ color: `var(--${verdict})` }} className="drawn-verdict">
      <path
        d={VERDICT_SHAPES[verdict]}
        transform="translate(0 -12.5)"
        strokeDasharray={verdict === 'unknown' ? '3 4' : undefined}
      />
      <text x="32">{VERDICT_WORDS[verdict]}</text>
    </g>
  )
}

export const pressed =
  (act: () => void) =>
  (event: KeyboardEvent): void => {
    if (event.key !== 'Enter' && event.key !== ' ') return
    event.preventDefault()
    act()
  }

interface Props {
  readonly build: Build
  readonly placed: Placed
  readonly live: Live | undefined
  readonly chosen: string | undefined
  readonly worstOf: (subject: string) => Verdict | undefined
  readonly choose: (subject: string) => void
}

export function Lines({ build, placed, live, chosen, worstOf, choose }: Props) {
  return placed.lines.map((line) => {
    const wire = build.collections.wires[line.id]
    if (wire === undefined) return null
    const subject = `wires/${line.id}`
    return (
      <DrawnWire
        key={line.id}
        line={line}
        wire={wire}
        figures={live && wireFigures(live, wire)}
        isChosen={chosen === subject}
        verdict={worstOf(subject)}
        choose={() => choose(subject)}
      />
    )
  })
}

interface WireProps {
  readonly line: PlacedLine
  readonly wire: Wire
  readonly figures: WireFigures | undefined
  readonly isChosen: boolean
  readonly verdict: Verdict | undefined
  readonly choose: () => void
}

function DrawnWire({ line, wire, figures, isChosen, verdict, choose }: WireProps) {
  const path = `M${line.points.map(({ x, y }) => `${x} ${y}`).join('L')}`
  const { x, y } = line.label
  const carried = figures && [figures.amps, figures.temperature].filter(Boolean).join('\u2003')
  return (
    // biome-ignore lint/a11y/useSemanticElements: an element of a drawing; HTML's button cannot stand in SVG.
    <g
      role="button"
      tabIndex={0}
      className={isChosen ? 'wire chosen' : 'wire'}
      data-wire={wire.id}
      aria-pressed={isChosen}
      aria-label={[
        `Wire ${wire.id} from ${wire.from} to ${wire.to}`,
        wireMake(wire),
        carried,
        verdict && VERDICT_WORDS[verdict],
      ]
        .filter(Boolean)
        .join(', ')}
      onClick={choose}
      onKeyDown={pressed(choose)}
    >
      <path d={path} className="reach" />
      <path d={path} className="conductor" />
      {line.junctions.map((at) => (
        <circle key={`${at.x} ${at.y}`} cx={at.x} cy={at.y} r="3" className="dot" />
      ))}
      <text x={x + 5} y={y + 14}>
        <tspan className="id">{wire.id}</tspan> {wireMake(wire)}
      </text>
      {carried !== undefined && (
        <text x={x + 5} y={y + 28} className={figures?.current === null ? 'tag not-known' : 'tag'}>
          {carried}
        </text>
      )}
      {verdict !== undefined && <DrawnVerdict verdict={verdict} x={x + 5} y={y + 43} />}
    </g>
  )
}
