/**
 * The chain from the crankshaft to the tyres, and below it, as engine torque in the chosen gear, what each part stands:
 * a shelf at its height, its ± as a stroke. A shelf below the engine's torque gives way. Narrow, it is turned on its side.
 */
import { isKnown, type Known, type Station } from '../../assess/chain/chain.ts'
import type { DrivelineChain } from '../../assess/driveline/chain.ts'
import { against } from '../../assess/driveline/words.ts'
import { drawn } from '../chain/drawn.tsx'
import { showPreferred } from '../parts/units.ts'
import { SYMBOLS } from './symbols.tsx'

interface DrawingProps {
  readonly stored: DrivelineChain
  readonly tried: DrivelineChain | undefined
  readonly narrow?: boolean
}

const NAMES: Readonly<Record<string, string>> = {
  crank: 'Engine',
  clutch: 'Clutch',
  gearbox: 'Gearbox',
  mounts: 'Mounts',
  shaft: 'Shaft',
  joints: 'Joints',
  axle: 'Axle',
  tyres: 'Tyres',
}
const bare = (torque: number): string => showPreferred('torque', Number(torque.toPrecision(3))).replace(/\.0+\b/, '')
const numberOnly = (torque: number): string => bare(torque).replace(/\s\S+$/, '')

/** What a part is held against: the engine, and no more than the tyres pass. */
const seenIn = (chain: DrivelineChain): Known | undefined =>
  isKnown(chain.torques.intoGearbox) ? chain.torques.intoGearbox : undefined

const capacityOf = (chain: DrivelineChain, id: string): Known | undefined => {
  const found = chain.stations.find((station) => station.id === id)?.capacity
  return found && isKnown(found) ? found : undefined
}

/** A round figure above all that matters; parts far stronger end in an arrow. */
const topOf = (chain: DrivelineChain): number => {
  const { torque } = chain.facts
  const { gripAsEngine } = chain.torques
  const most = Math.max(isKnown(torque) ? torque.value : 0, seenIn(chain)?.value ?? 0, 50)
  const grip = isKnown(gripAsEngine) && gripAsEngine.value < 2.2 * most ? gripAsEngine.value : 0
  const step = most > 150 ? 100 : 25
  return Math.ceil(Math.max(1.75 * most, 1.1 * grip) / step) * step
}

const WIDE = { width: 960, height: 408, from: 384, to: 190 } as const
const NARROW = { width: 356, row: 76, head: 44, from: 112, to: 322 } as const

export function TorqueDrawing({ stored, tried, narrow = false }: DrawingProps) {
  const shown = tried ?? stored
  const ids = ['crank', ...shown.parts, 'tyres']
  const { station } = drawn({ system: 'driveline', stored, tried, narrow })
  const top = topOf(shown)
  const { from, to } = narrow ? NARROW : WIDE
  /** Where a torque lies on the scale: down the page, or across it. */
  const at = (torque: number): number => from + ((to - from) * Math.min(torque, top)) / top
  const height = narrow ? NARROW.head + ids.length * NARROW.row + 8 : WIDE.height
  const width = narrow ? NARROW.width : WIDE.width
  const place = (index: number): number =>
    narrow ? NARROW.head + NARROW.row * (index + 0.45) : 70 + (index * (WIDE.width - 110)) / (ids.length - 1)
  /** A stroke along the chain, or across it, at a torque. */
  const level = (torque: number, start: number, end: number): string =>
    narrow ? `M${at(torque)} ${start}V${end}` : `M${start} ${at(torque)}H${end}`
  const [start, end] = narrow ? [NARROW.head - 8, height - 6] : [44, WIDE.width - 6]
  const engine = isKnown(shown.facts.torque) ? shown.facts.torque : undefined
  const grip = isKnown(shown.torques.gripAsEngine) ? shown.torques.gripAsEngine : undefined
  const seen = seenIn(shown)
  const gripAbove = grip !== undefined && engine !== undefined && grip.value > engine.value

  const shelf = (part: string, index: number) => {
    const capacity = capacityOf(shown, part)
    const middle = place(index)
    const half = narrow ? 22 : 34
    if (!capacity)
      return (
        <g key={part}>
          <path className="unknown" fill="none" d={narrow ? `M${from} ${middle}H${to}` : `M${middle} ${from}V${to}`} />
          <text
            x={narrow ? to + 8 : middle}
            y={narrow ? middle + 4 : to - 8}
            textAnchor={narrow ? 'start' : 'middle'}
            className="soft-text"
          >
            ?
          </text>
        </g>
      )
    const { value, plusMinus } = capacity
    const verdict = seen ? against(seen, capacity) : 'sound'
    const beyond = value > top
    const y = at(value)
    const before = tried && capacityOf(stored, part)
    const broken = verdict === 'no-go'
    // Away from the line of the engine, which lies to the right of what is too weak.
    const leftOf = y > 270 || (verdict !== 'sound' && y > from + 52)
    const line = broken
      ? `${level(value, middle - half, middle - 6)}${level(value, middle + 6, middle + half)}`
      : level(value, middle - half, middle + half)
    const words = `${numberOnly(value)}${part === shown.weakest ? ' first' : ''}`
    return (
      <g key={part}>
        {before && before.value !== value && (
          <path className="fine" d={level(before.value, middle - half, middle + half)} />
        )}
        <path
          className={verdict === 'sound' ? (tried && before?.value !== value ? 'heavy' : 'pen') : `shelf ${verdict}`}
          d={line}
        />
        {beyond ? (
          <path className="pen" d={narrow ? `M${y - 6} ${middle - 5}l8 5l-8 5` : `M${middle - 5} ${y + 6}l5 -8l5 8`} />
        ) : (
          plusMinus > 0 && (
            <path
              className="fine"
              d={
                narrow
                  ? `M${at(value - plusMinus)} ${middle}H${at(value + plusMinus)}`
                  : `M${middle} ${at(value - plusMinus)}V${at(value + plusMinus)}`
              }
            />
          )
        )}
        <text
          x={narrow ? y + (leftOf ? -6 : 6) : middle}
          y={narrow ? middle - 8 : y - 7}
          textAnchor={narrow ? (leftOf ? 'end' : 'start') : 'middle'}
          className={verdict === 'sound' ? 'clear' : 'clear short'}
        >
          {words}
        </text>
      </g>
    )
  }

  return (
    <svg
      className={`line-drawing ${narrow ? 'only-narrow' : 'only-wide'}`}
      viewBox={`0 0 ${width} ${height}`}
      aria-label="The driveline from the crankshaft to the tyres, drawn, with the engine torque that each part stands"
    >
      {narrow ? (
        <path className="fine" d={`M40 ${place(0)}V${place(ids.length - 1)}`} />
      ) : (
        <path className="pen" d={`M${place(0)} 62H${place(ids.length - 1)}`} />
      )}
      {ids.map((id, index) => {
        const found: Station | undefined = shown.stations.find((each) => each.id === id)
        const [x, y] = narrow ? [42, place(index) - 6] : [place(index), id === 'mounts' ? 86 : 62]
        return (
          found && (
            <g key={id}>
              {station(
                id,
                narrow ? [80, place(index) - 14] : [place(index) - 14, 138],
                <>
                  <g transform={`translate(${x} ${y})${narrow ? ' scale(0.8)' : ''}`}>{SYMBOLS[id]}</g>
                  <text x={x} y={narrow ? place(index) + 32 : 130} textAnchor="middle" className="soft-text">
                    {NAMES[id]}
                  </text>
                </>,
              )}
            </g>
          )
        )
      })}
      {[0, 0.25, 0.5, 0.75, 1].map((share) => {
        const torque = share * top
        return (
          <g key={share}>
            <path className="fine" d={narrow ? `M${at(torque)} ${start}v5` : `M${start} ${at(torque)}h-6`} />
            {(!narrow || share % 0.5 === 0) && (
              <text
                x={narrow ? at(torque) : start - 10}
                y={narrow ? start - 20 : at(torque) + 4}
                textAnchor={narrow ? (share === 1 ? 'end' : 'middle') : 'end'}
                className="soft-text"
              >
                {share === 1 && narrow ? bare(torque) : numberOnly(torque)}
              </text>
            )}
          </g>
        )
      })}
      {!narrow && (
        <text x="4" y={to - 14} className="soft-text">
          {/\S+$/.exec(bare(top))?.[0]}
        </text>
      )}
      {engine && (
        <>
          <path className={tried ? 'heavy' : 'engine-line'} d={level(engine.value, start, end)} />
          <text
            x={narrow ? at(engine.value) : start + 4}
            y={narrow ? start - 5 : at(engine.value) + (gripAbove ? 16 : -6)}
            textAnchor={narrow ? 'middle' : 'start'}
            className="engine-text clear"
          >
            engine {numberOnly(engine.value)}
          </text>
        </>
      )}
      {grip && grip.value < top && <path className="pen" strokeDasharray="7 5" d={level(grip.value, start, end)} />}
      {shown.parts.map((part) => shelf(part, ids.indexOf(part)))}
      {grip && grip.value < top && (
        <text
          className="clear"
          x={narrow ? at(grip.value) + (gripAbove ? 8 : -8) : place(ids.length - 1)}
          y={narrow ? place(ids.length - 1) + 4 : at(grip.value) + (gripAbove ? -6 : 16)}
          textAnchor={narrow ? (gripAbove ? 'start' : 'end') : 'middle'}
        >
          {narrow ? 'spin' : 'spin at'} {numberOnly(grip.value)}
        </text>
      )}
    </svg>
  )
}
