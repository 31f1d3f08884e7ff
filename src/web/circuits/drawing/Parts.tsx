/** The things of a drawing: symbol, name, pins, the volts at each pin, what was found. */
import type { ReactNode } from 'react'
import type { Verdict } from '../../../assess/finding.ts'
import type { Build, Device } from '../../../model/build.ts'
import { VERDICT_WORDS } from '../../parts/VerdictMark.tsx'
import type { Part, Port } from './diagram.ts'
import { DrawnVerdict, pressed } from './Lines.tsx'
import type { Placed, PlacedPart, Spot } from './layout.ts'
import { contactState, isPulledIn, type Live, positionOf, voltsAtText } from './live.ts'
import { BLOCK, blockBody, COLUMN, columnX, LEAD } from './measures.ts'
import type { Pole } from './poles.ts'
import {
  AlternatorMark,
  BatteryMark,
  ChangeOverSymbol,
  CoilSymbol,
  ConnectorSymbol,
  ContactSymbol,
  DiodeSymbol,
  EarthMark,
  FuseSymbol,
  LoadSymbol,
  ResistorSymbol,
} from './symbols.tsx'
import { wrap } from './text.ts'

const BODY_HEIGHT = 48

interface Props {
  readonly build: Build
  readonly placed: Placed
  readonly live: Live | undefined
  readonly chosen: string | undefined
  readonly worstOf: (subject: string) => Verdict | undefined
  /** Shows the thing; a switch also goes on to its next position. */
  readonly touch: (subject: string) => void
}
interface Given {
  readonly placed: PlacedPart
  readonly part: Part
  readonly device: Device | undefined
  readonly live: Live | undefined
  /** Ports that a wire of this circuit hangs on. */
  readonly used: ReadonlySet<string>
  readonly verdict: Verdict | undefined
  readonly pinNote: (endpoint: string) => string | undefined
}

export function Parts({ build, placed, live, chosen, worstOf, touch }: Props) {
  const used = new Set(placed.lines.flatMap(({ from, to }) => [from, to]))
  const notes = pinNotes(build)
  return placed.parts.map((one) => {
    const { part } = one
    const device = build.collections.devices[part.device]
    const subject = `devices/${part.device}`
    const verdict = worstOf(subject)
    const position = device && live && positionOf(device, live)
    const act = (): void => touch(subject)
    return (
      // biome-ignore lint/a11y/useSemanticElements: an element of a drawing; HTML's button cannot stand in SVG.
      <g
        key={part.id}
        role="button"
        tabIndex={0}
        transform={`translate(${one.x} ${one.y})`}
        className={`part ${part.form}${chosen === subject ? ' chosen' : ''}`}
        data-part={part.id}
        aria-pressed={chosen === subject}
        aria-label={[
          part.terminal === undefined ? part.name : `Terminal ${part.terminal}, ${part.name}`,
          device?.spec.kind,
          position && `position ${position}`,
          voltsWords(part, live),
          verdict && VERDICT_WORDS[verdict],
        ]
          .filter(Boolean)
          .join(', ')}
        onClick={act}
        onKeyDown={pressed(act)}
      >
        <rect width={one.width} height={one.height} className="reach" />
        <Drawn
          placed={one}
          part={part}
          device={device}
          live={live}
          used={used}
          verdict={verdict}
          pinNote={(endpoint) => notes.get(endpoint)}
        />
      </g>
    )
  })
}

/** What a controller's pin is for, where an input or output says so; else the pin's own name. */
const pinNotes = (build: Build): ReadonlyMap<string, string> => {
  const notes = new Map<string, string>()
  for (const device of Object.values(build.collections.devices))
    for (const [pin, { name }] of Object.entries(device.pins)) if (name) notes.set(`${device.id}.${pin}`, name)
  for (const { device, pin, name } of [
    ...Object.values(build.collections.inputs),
    ...Object.values(build.collections.outputs),
  ])
    notes.set(`${device}.${pin}`, name)
  return notes
}

const voltsAt = (endpoint: string, live: Live | undefined): string | undefined => live && voltsAtText(live, endpoint)

const voltsWords = (part: Part, live: Live | undefined): string | undefined => {
  const seen = new Set<string>()
  const words = part.ports.flatMap(({ endpoint, pin }) => {
    const volts = voltsAt(endpoint, live)
    if (volts === undefined || seen.has(endpoint)) return []
    seen.add(endpoint)
    return [`${pin} ${volts}`]
  })
  return words.length === 0 ? undefined : words.slice(0, 8).join(', ')
}

function Drawn(given: Given) {
  switch (given.part.form) {
    case 'rail':
    case 'battery':
    case 'alternator':
    case 'battery-return':
      return <Rail {...given} />
    case 'earth':
      return <Earth {...given} />
    case 'splice':
      return <Splice {...given} />
    case 'block':
      return <Block {...given} />
    case 'connector':
      return <Way {...given} />
    default:
      return <Upright {...given} />
  }
}

const spotOf = ({ placed }: Given, port: Port): Spot => placed.ports.get(port.id) ?? { x: 0, y: 0 }

function Tag({ x, y, children, end }: { x: number; y: number; children: ReactNode; end?: boolean }) {
  return (
    <text
      x={x}
      y={y}
      className={children === 'unknown' || children === 'floating' ? 'tag not-known' : 'tag'}
      textAnchor={end ? 'end' : 'start'}
    >
      {children}
    </text>
  )
}

function Name({ lines, x, y, anchor }: { lines: readonly string[]; x: number; y: number; anchor?: 'middle' }) {
  const placed = lines.map((line, index) => ({ line, at: y + index * 14 }))
  return (
    <text className="name" textAnchor={anchor}>
      {placed.map(({ line, at }) => (
        <tspan key={at} x={x} y={at}>
          {line}
        </tspan>
      ))}
    </text>
  )
}

/** Name of the thing, then what it is doing, then what was found: four lines at most. */
function Caption({
  x,
  y,
  name,
  width,
  state,
  verdict,
}: {
  x: number
  y: number
  name: string
  width: number
  state?: string | undefined
  verdict: Verdict | undefined
}) {
  const lines = wrap(name, width, state === undefined && verdict === undefined ? 3 : 2)
  const below = y + lines.length * 14
  return (
    <>
      <Name lines={lines} x={x} y={y} />
      {state !== undefined && (
        <text x={x} y={below} className="state">
          {state}
        </text>
      )}
      {verdict !== undefined && <DrawnVerdict verdict={verdict} x={x} y={below + (state === undefined ? 0 : 15)} />}
    </>
  )
}

function Rail(given: Given) {
  const { placed, part, live, verdict } = given
  const isLow = part.ports.length > 0 && part.ports.every(({ side }) => side === 'top')
  const bar = isLow ? 12 : placed.height - 12
  const text = isLow ? 28 : 13
  const hasMark = part.form !== 'rail'
  const left = hasMark ? 34 : 2
  const volts = part.ports[0] && voltsAt(part.ports[0].endpoint, live)
  return (
    <>
      <path d={`M0 ${bar}H${placed.width}`} className="bar" />
      {part.ports.map((port) => {
        const { x, y } = spotOf(given, port)
        return <path key={port.id} d={`M${x} ${y}V${bar}`} className="lead" />
      })}
      {hasMark && (
        <g transform={`translate(16 ${isLow ? 14 : 5})`} className="symbol">
          {part.form === 'alternator' ? <AlternatorMark /> : <BatteryMark />}
        </g>
      )}
      <text x={left} y={text} className="name">
        {wrap(part.name, placed.width - left, 1)[0]}
      </text>
      <text x={left} y={text + 16}>
        {part.terminal !== undefined && <tspan className="terminal">{part.terminal}</tspan>}
        {volts !== undefined && (
          <tspan className="tag" dx={part.terminal === undefined ? 0 : 12}>
            {volts}
          </tspan>
        )}
      </text>
      {verdict !== undefined && <DrawnVerdict verdict={verdict} x={left + 96} y={text + 16} />}
    </>
  )
}

function Earth(given: Given) {
  const { placed, part, device, live, verdict } = given
  const spots = part.ports.map((port) => spotOf(given, port))
  const xs = spots.map(({ x }) => x)
  // Wires that leave downwards would run through a name below the bar: it then stands beside them.
  const leaves = part.ports.some(({ side }) => side === 'bottom')
  const [left, right] = [Math.min(...xs, placed.width), Math.max(...xs, 0)]
  const middle = xs.length === 0 ? placed.width / 2 : leaves ? right + 32 : (left + right) / 2
  const volts = part.ports[0] && voltsAt(part.ports[0].endpoint, live)
  const on = device?.spec.kind === 'earth-stud' ? device.spec.on : 'isolated'
  return (
    <>
      {(xs.length > 1 || leaves) && <path d={`M${left} 12H${leaves ? middle : right}`} className="bar" />}
      {spots.map(({ x, y }) => (
        <path key={`${x} ${y}`} d={`M${x} ${y}V12`} className="lead" />
      ))}
      <g transform={`translate(${middle} 12)`} className="symbol">
        <EarthMark on={on} />
      </g>
      <Caption
        x={middle + 24}
        y={29}
        name={part.name}
        width={leaves ? placed.width - middle - 24 : placed.width / 2 - 10}
        state={volts}
        verdict={verdict}
      />
    </>
  )
}

function Splice(given: Given) {
  const { placed, part, live } = given
  const spots = part.ports.map((port) => ({ ...spotOf(given, port), side: port.side }))
  const xs = spots.map(({ x }) => x)
  const [left, right] = [Math.min(...xs, placed.width / 2), Math.max(...xs, placed.width / 2)]
  const middle = placed.height / 2
  const dots = [...new Set(xs)].filter((x) => {
    const meet = spots.filter((spot) => spot.x === x).length + Number(x > left) + Number(x < right)
    return meet > 2 || spots.length < 3
  })
  const top = spots.find(({ side }) => side === 'top')
  const volts = part.ports[0] && voltsAt(part.ports[0].endpoint, live)
  return (
    <>
      {xs.length > 1 && <path d={`M${left} ${middle}H${right}`} className="lead" />}
      {spots.map(({ x, y }) => (
        <path key={`${x} ${y}`} d={`M${x} ${y}V${middle}`} className="lead" />
      ))}
      {dots.map((x) => (
        <circle key={x} cx={x} cy={middle} r="3.5" className="dot" />
      ))}
      {volts !== undefined && (
        <Tag x={(top?.x ?? left) + 7} y={middle - 5}>
          {volts}
        </Tag>
      )}
    </>
  )
}

function Lead({ given, port, to }: { given: Given; port: Port; to: number }) {
  const { x, y } = spotOf(given, port)
  const isTop = port.side === 'top'
  const volts = voltsAt(port.endpoint, given.live)
  const goesOn = port.elsewhere && !given.used.has(port.id)
  return (
    <>
      <path d={`M${x} ${goesOn ? (isTop ? 4 : y - 4) : y}V${to}`} className="lead" />
      {goesOn && (
        <path d={isTop ? `M${x - 4} 8L${x} 2L${x + 4} 8` : `M${x - 4} ${y - 8}L${x} ${y - 2}L${x + 4} ${y - 8}`} />
      )}
      {given.part.form !== 'block' && given.part.form !== 'connector' && (
        <text x={x - (goesOn ? 8 : 5)} y={isTop ? 17 : y - 8} textAnchor="end" className="pin">
          {port.pin}
        </text>
      )}
      {volts !== undefined && (
        <Tag x={x + 5} y={isTop ? 14 : y - 5}>
          {volts}
        </Tag>
      )}
    </>
  )
}

function Block(given: Given) {
  const { placed, part, device, verdict, pinNote } = given
  const { top, bottom } = blockBody(part)
  const hasTop = part.ports.some(({ side }) => side === 'top')
  const nameTop = top + (hasTop ? BLOCK.pin : 0)
  const lines = wrap(part.name, placed.width - 16, verdict === undefined ? 2 : 1)
  return (
    <>
      <rect x="0.5" y={top} width={placed.width - 1} height={bottom - top} className="box" />
      {part.ports.map((port) => {
        const { x } = spotOf(given, port)
        const isTop = port.side === 'top'
        const note = pinNote(port.endpoint)
        return (
          <g key={port.id}>
            <Lead given={given} port={port} to={isTop ? top : bottom} />
            <text x={x} y={isTop ? top + 14 : bottom - 6} textAnchor="middle" className="pin">
              {port.pin}
            </text>
            {note !== undefined && (
              <text x={x} y={isTop ? top + 28 : bottom - 20} textAnchor="middle" className="note">
                {wrap(note, COLUMN, 1)[0]}
              </text>
            )}
          </g>
        )
      })}
      <Name lines={lines} x={placed.width / 2} y={nameTop + 20} anchor="middle" />
      {lines.length === 1 && verdict === undefined && device && (
        <text x={placed.width / 2} y={nameTop + 35} textAnchor="middle" className="note">
          {device.spec.kind}
        </text>
      )}
      {verdict !== undefined && <DrawnVerdict verdict={verdict} x={placed.width / 2 - 44} y={nameTop + 40} />}
    </>
  )
}

function Way(given: Given) {
  const { placed, part, live, verdict } = given
  const x = part.ports[0] ? spotOf(given, part.ports[0]).x : placed.width / 2
  const volts = part.ports[0] && voltsAt(part.ports[0].endpoint, live)
  return (
    <>
      <g transform={`translate(${x} 0)`} className="symbol">
        <ConnectorSymbol height={placed.height} />
      </g>
      {part.ports.map((port) => {
        const at = spotOf(given, port)
        // Several wires on one side of a way meet at it.
        return at.x === x ? null : <path key={port.id} d={`M${at.x} ${at.y}H${x}`} className="lead" />
      })}
      {volts !== undefined && (
        <Tag x={x + 5} y={11}>
          {volts}
        </Tag>
      )}
      <Caption x={x + 14} y={29} name={part.name} width={placed.width - x - 14} verdict={verdict} />
    </>
  )
}

function Upright(given: Given) {
  const { placed, part, device, live, verdict } = given
  const last = columnX(Math.max(0, ...part.ports.map(({ column }) => Math.floor(column ?? 0))))
  const low = LEAD + BODY_HEIGHT
  const position = device && live && positionOf(device, live)
  const held = device && live && device.spec.kind === 'relay' ? isPulledIn(device, live) : undefined
  const state =
    position ??
    (device?.spec.kind === 'relay' && live
      ? held === undefined
        ? 'state unknown'
        : held
          ? 'pulled in'
          : 'at rest'
      : ratingOf(device))
  const left = last + (part.form === 'fuse' || part.form === 'resistor' || part.form === 'diode' ? 16 : 24)
  return (
    <>
      {part.ports.map((port) => (
        <Lead key={port.id} given={given} port={port} to={port.side === 'top' ? LEAD : low} />
      ))}
      <g className="symbol">
        <Body given={given} />
      </g>
      <Caption x={left} y={LEAD + 13} name={part.name} width={placed.width - left} state={state} verdict={verdict} />
    </>
  )
}

const ratingOf = (device: Device | undefined): string | undefined => {
  if (device?.spec.kind === 'fuse') {
    if (!device.spec.rating) return 'rating unknown'
    const rating = `${Number(device.spec.rating.value.toPrecision(3))} A`
    // Many builders put it in the name.
    return ` ${device.name.replace(/\s/g, ' ')}`.includes(` ${rating}`) ? undefined : rating
  }
  if (device?.spec.kind === 'resistor' && device.spec.resistance)
    return `${Number(device.spec.resistance.value.toPrecision(3))}\u202fΩ`
  return undefined
}

function Body({ given }: { given: Given }) {
  const { part, device, live } = given
  const at = (column: number, child: ReactNode, key?: string): ReactNode => (
    <g key={key ?? column} transform={`translate(${columnX(column)} ${LEAD})`}>
      {child}
    </g>
  )
  const low = LEAD + BODY_HEIGHT
  switch (part.form) {
    case 'fuse':
      return at(0, <FuseSymbol />)
    case 'resistor':
      return at(0, <ResistorSymbol />)
    case 'diode':
      return at(0, <DiodeSymbol turned={isTurned(part, device)} />)
    case 'switch':
    case 'relay':
      return device && live ? <Poles part={part} device={device} live={live} /> : null
    default: {
      const columns = part.ports.filter(({ side }) => side === 'top').map(({ column = 0 }) => column)
      if (columns.length < 2) return at(0, <LoadSymbol kind={device?.spec.kind ?? 'module'} />)
      return (
        <>
          {columns.map((column) => at(column, <LoadSymbol kind={device?.spec.kind ?? 'module'} />))}
          <path d={`M${columnX(Math.min(...columns))} ${low}H${columnX(Math.max(...columns))}`} />
        </>
      )
    }
  }
}

/** The diode stands on its head where its cathode is the higher pin. */
const isTurned = (part: Part, device: Device | undefined): boolean => {
  const top = part.ports.find(({ side }) => side === 'top')?.pin
  if (device === undefined || top === undefined) return false
  const anode = ['A', '+', '1'].find((pin) => Object.hasOwn(device.pins, pin))
  return anode !== undefined && anode !== top
}

function Poles({ part, device, live }: { part: Part; device: Device; live: Live }) {
  const middle = LEAD + BODY_HEIGHT / 2
  const contacts = part.poles.filter(({ what }) => what === 'contact')
  const coil = part.poles.find(({ what }) => what === 'coil')
  const ends = contacts.flatMap((pole) =>
    pole.changesOver ? [columnX(pole.commonColumn)] : pole.throws.map(({ column }) => columnX(column)),
  )
  const linkFrom = coil ? columnX(coil.commonColumn) + 17 : Math.min(...ends) - 22
  return (
    <>
      {(coil || ends.length > 0) && <path d={`M${linkFrom} ${middle}H${Math.max(...ends) - 5}`} className="link" />}
      {!coil && <path d={`M${linkFrom} ${middle - 5}V${middle + 5}`} />}
      {coil && (
        <g transform={`translate(${columnX(coil.commonColumn)} ${LEAD})`}>
          <CoilSymbol held={isPulledIn(device, live)} />
        </g>
      )}
      {contacts.map((pole) => (
        <OnePole key={pole.common} pole={pole} device={device} live={live} />
      ))}
    </>
  )
}

function OnePole({ pole, device, live }: { pole: Pole; device: Device; live: Live }) {
  const flipped = pole.commonSide === 'bottom'
  const stateOf = (pin: string) => contactState(device, pole.common, pin, live)
  if (pole.changesOver)
    return (
      <g transform={`translate(${columnX(pole.commonColumn)} ${LEAD})`}>
        <ChangeOverSymbol
          states={[stateOf(pole.throws[0]!.pin), stateOf(pole.throws[1]!.pin)]}
          half={COLUMN / 2}
          flipped={flipped}
        />
      </g>
    )
  const xs = pole.throws.map(({ column }) => columnX(column))
  const hub = flipped ? LEAD + BODY_HEIGHT : LEAD
  return (
    <>
      {xs.length > 1 && <path d={`M${Math.min(...xs)} ${hub}H${Math.max(...xs)}`} />}
      {pole.throws.map(({ pin, column, breaks }) => (
        <g key={pin} transform={`translate(${columnX(column)} ${LEAD})`}>
          <ContactSymbol state={stateOf(pin)} breaks={breaks} flipped={xs.length > 1 && !flipped} />
        </g>
      ))}
    </>
  )
}
