/**
 * Adhesion that front and rear use, against braking rate: the curve that lies higher locks first. The linings' range
 * as a thin line beside each; where something is tried, the stored curves stay thin.
 */
import { type Adhesion, type AdhesionPoint, isAdhesion } from '../../assess/brakes/adhesion.ts'
import type { BrakeChain } from '../../assess/brakes/chain.ts'

interface AdhesionProps {
  readonly stored: BrakeChain
  readonly tried: BrakeChain | undefined
}

const [LEFT, TOP, SIDE] = [46, 16, 280]
const GREATEST = 1
const x = (rate: number): number => LEFT + (rate / GREATEST) * SIDE
const y = (used: number): number => TOP + SIDE - (used / GREATEST) * SIDE

const within = (points: readonly AdhesionPoint[], axle: 'front' | 'rear') =>
  points.filter((point) => point[axle] <= GREATEST)
const path = (points: readonly AdhesionPoint[], axle: 'front' | 'rear'): string =>
  `M${x(0)} ${y(0)}${within(points, axle)
    .map((point) => `L${x(point.rate).toFixed(1)} ${y(point[axle]).toFixed(1)}`)
    .join('')}`

const of = (chain: BrakeChain | undefined): Adhesion | undefined => {
  const found = chain?.adhesion[chain.case.load]
  return found && isAdhesion(found) ? found : undefined
}

export function AdhesionDrawing({ stored, tried }: AdhesionProps) {
  const shown = tried ?? stored
  const curves = of(shown)
  const before = tried && of(stored)
  const lacking = shown.adhesion[shown.case.load]
  if (!curves)
    return (
      <p className="soft">
        The drawing of which axle locks first needs:{' '}
        {isAdhesion(lacking)
          ? ''
          : [...lacking.missing, ...lacking.problems.map(({ says, todo }) => `${says} ${todo}`)].join(', ')}
        .
      </p>
    )
  // Where the two are far enough apart to be told.
  const middle = (axle: 'front' | 'rear') => {
    const points = within(curves.points, axle)
    return points[Math.floor(points.length * 0.6)]
  }
  const [frontMid, rearMid] = [middle('front'), middle('rear')]
  const { yardstick } = shown.facts
  const heavy = tried ? 'heavy' : 'pen'
  return (
    <svg className="line-drawing adhesion" viewBox="0 0 350 346" role="img" aria-labelledby="adhesion-title">
      <title id="adhesion-title">
        Adhesion used by front and rear against braking rate, {curves.load}: {verdictWords(curves)}
      </title>
      <path className="pen" d={`M${LEFT} ${TOP}V${TOP + SIDE}H${LEFT + SIDE}`} />
      {[0.2, 0.4, 0.6, 0.8, 1].map((tick) => (
        <g key={tick}>
          <path className="fine" d={`M${x(tick)} ${y(0)}v5M${x(0)} ${y(tick)}h-5`} />
          <text x={x(tick)} y={y(0) + 19} textAnchor="middle">
            {tick}
          </text>
          <text x={x(0) - 9} y={y(tick) + 4} textAnchor="end">
            {tick}
          </text>
        </g>
      ))}
      <path className="fine" d={`M${x(0)} ${y(0)}L${x(1)} ${y(1)}`} strokeDasharray="1 5" />
      {yardstick && (
        <path
          className="fine"
          strokeDasharray="7 3 1 3"
          d={`M${x(0.1)} ${y(0.2)}L${x(0.1 + yardstick.share * 0.6)} ${y(0.8)}`}
        />
      )}
      {before && (
        <>
          <path className="fine" d={path(before.points, 'front')} />
          <path className="fine" strokeDasharray="6 4" d={path(before.points, 'rear')} />
        </>
      )}
      {!before && (
        <>
          <path className="fine" d={path(curves.rearMost, 'front')} />
          <path className="fine" d={path(curves.frontMost, 'front')} />
          <path className="fine" strokeDasharray="6 4" d={path(curves.rearMost, 'rear')} />
          <path className="fine" strokeDasharray="6 4" d={path(curves.frontMost, 'rear')} />
        </>
      )}
      <path className={heavy} d={path(curves.points, 'front')} />
      <path className={heavy} strokeDasharray="7 4" d={path(curves.points, 'rear')} />
      {frontMid && (
        <text x={x(frontMid.rate) - 8} y={y(frontMid.front) - 10} textAnchor="end">
          front
        </text>
      )}
      {rearMid && (
        <text x={x(rearMid.rate) + 12} y={y(rearMid.rear) + 18}>
          rear
        </text>
      )}
      <text x={LEFT + SIDE / 2} y={TOP + SIDE + 42} textAnchor="middle">
        braking rate, g
      </text>
      <text transform={`translate(14 ${TOP + SIDE / 2}) rotate(-90)`} textAnchor="middle">
        adhesion used
      </text>
    </svg>
  )
}

export const verdictWords = ({ rearFirst, rearFirstAtWorst }: Adhesion): string =>
  rearFirst
    ? `the rear locks first between ${rearFirst[0].toFixed(2)} and ${rearFirst[1].toFixed(2)} g`
    : rearFirstAtWorst
      ? `the front locks first, but at the ends of the linings’ range the rear does from ${rearFirstAtWorst[0].toFixed(2)} g`
      : 'the front locks first on every road up to an adhesion of 0.8'
