/** The propeller shaft between gearbox and axle, from the side and from above, slopes drawn larger than they are. */
import { isKnown } from '../../assess/chain/chain.ts'
import type { DrivelineChain } from '../../assess/driveline/chain.ts'
import { planOf, slopeOf } from '../../assess/driveline/shaft.ts'
import { drawn } from '../chain/drawn.tsx'
import { shortText } from '../chain/FigureLine.tsx'
import { measureText } from '../parts/quantityText.ts'

interface DrawingProps {
  readonly stored: DrivelineChain
  readonly tried: DrivelineChain | undefined
  readonly narrow?: boolean
}

const PARTS = ['gearbox', 'shaft', 'axle'] as const
const DEGREE = Math.PI / 180
/** Most that a line is drawn off the level, and how often a slope is enlarged at most. */
const [STEEPEST, ENLARGED] = [20 * DEGREE, 5]
const PIECES = { gearbox: 56, shaft: 178, axle: 52 } as const

/** The two views with one enlargement; undefined where a slope is not known. */
const headingsOf = (chain: DrivelineChain, view: 'side' | 'above') =>
  PARTS.map((part) => {
    const datum = view === 'side' ? slopeOf(chain.facts, part) : planOf(chain.facts, part)
    return { part, datum, angle: isKnown(datum) ? datum.value : undefined }
  })

const enlargement = (chain: DrivelineChain): number => {
  const all = (['side', 'above'] as const).flatMap((view) =>
    headingsOf(chain, view).map(({ angle = 0 }) => Math.abs(angle)),
  )
  const most = Math.max(...all)
  return most === 0 ? 1 : Math.max(1, Math.min(ENLARGED, Math.floor(STEEPEST / most)))
}

export function ShaftDrawing({ stored, tried, narrow = false }: DrawingProps) {
  const shown = tried ?? stored
  const times = enlargement(shown)
  const { station, tag } = drawn({ system: 'driveline', stored, tried, narrow })
  /** The middle line of what is stored, thin below what is tried. */
  const trail = (name: 'side' | 'above', left: number, top: number): string =>
    headingsOf(stored, name).reduce(
      ({ d, x, y }, { part, angle = 0 }) => {
        const [toX, toY] = [x + PIECES[part] * Math.cos(angle * times), y + PIECES[part] * Math.sin(angle * times)]
        return { d: `${d}L${toX} ${toY}`, x: toX, y: toY }
      },
      { d: `M${left + 8} ${top + 66}`, x: left + 8, y: top + 66 },
    ).d
  const view = (name: 'side' | 'above', left: number, top: number) => {
    const headings = headingsOf(shown, name)
    let [x, y] = [left + 8, top + 66]
    const pieces = headings.map(({ part, datum, angle = 0 }) => {
      const turn = angle * times
      const from = [x, y] as const
      x += PIECES[part] * Math.cos(turn)
      // Falling to the rear is down the page; from above, right is down the page as the nose looks left.
      y += PIECES[part] * Math.sin(turn)
      return { part, datum, from, to: [x, y] as const, turn }
    })
    const [gearbox, shaft, axle] = pieces as [(typeof pieces)[0], (typeof pieces)[0], (typeof pieces)[0]]
    const along = (piece: (typeof pieces)[0], half: number): string => {
      const [dx, dy] = [Math.sin(piece.turn) * half, Math.cos(piece.turn) * half]
      return `M${piece.from[0] + dx} ${piece.from[1] - dy}L${piece.to[0] + dx} ${piece.to[1] - dy}L${piece.to[0] - dx} ${piece.to[1] + dy}L${piece.from[0] - dx} ${piece.from[1] + dy}Z`
    }
    const joint = (at: readonly [number, number]) => (
      <g transform={`translate(${at[0]} ${at[1]})`}>
        <circle className="body" r="9" />
        <path className="pen" d="M-9 0H9M0 -9V9" />
      </g>
    )
    return (
      <g key={name}>
        <text x={left} y={top + 14} className="soft-text">
          {name === 'side' ? 'from the side' : 'from above'}
        </text>
        <path className="fine" strokeDasharray="9 3 2 3" d={`M${left} ${gearbox.from[1]}H${left + 312}`} />
        <path className="body" d={along(gearbox, 13)} />
        <path className="body" d={along(shaft, 6)} />
        <path className="body" d={along(axle, 10)} />
        {name === 'side' ? (
          <circle className="body" cx={axle.to[0] + 14} cy={axle.to[1]} r="17" />
        ) : (
          <path className="body" d={`M${axle.to[0]} ${axle.to[1] - 34}h18v68h-18z`} />
        )}
        {tried && <path className="fine" strokeDasharray="6 4" d={trail(name, left, top)} />}
        {joint(gearbox.to)}
        {joint(shaft.to)}
        {pieces.map(({ part, datum, from, to }) => (
          <text
            key={part}
            x={(from[0] + to[0]) / 2}
            y={(from[1] + to[1]) / 2 + (part === 'shaft' && name === 'side' ? 30 : -22)}
            textAnchor="middle"
            className="soft-text"
          >
            {shortText('angle', datum)}
          </text>
        ))}
        {name === 'side' && (
          <>
            {tag('joint-1', gearbox.to[0], gearbox.to[1] + 34)}
            {tag('joint-2', shaft.to[0] - 6, shaft.to[1] + 40)}
          </>
        )}
      </g>
    )
  }
  const { sheet } = shown.facts
  const tube = [
    measureText('length', sheet.propshaftLength),
    sheet.propshaftDiameter && `${measureText('length', sheet.propshaftDiameter)} outside`,
    sheet.propshaftWall && `wall ${measureText('length', sheet.propshaftWall)}`,
    sheet.propshaftTube,
  ].filter((text) => text)
  return (
    <>
      {!narrow && <p>{tube.length === 0 ? 'Nothing of its tube is entered.' : `${tube.join(', ')}.`}</p>}
      <svg
        className={`line-drawing shaft-drawing ${narrow ? 'only-narrow' : 'only-wide'}`}
        viewBox={narrow ? '0 0 356 330' : '0 0 900 176'}
        aria-label="The propeller shaft with its joints, drawn from the side and from above"
      >
        {station(
          'joints',
          narrow ? [300, 8] : [340, 4],
          <>
            {view('side', 10, 0)}
            {narrow ? view('above', 10, 168) : view('above', 470, 0)}
          </>,
        )}
      </svg>
      {!narrow && (
        <p className="small soft">
          Slopes drawn {times === 1 ? 'as they are' : `${times} times as steep as they are`}; figures as entered. Left
          is the front.
        </p>
      )}
    </>
  )
}
