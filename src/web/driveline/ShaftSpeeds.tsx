/** How fast the propeller shaft turns, on one line with the speeds at which it whirls: above the car’s, below the shaft’s own. */
import { type Datum, isKnown } from '../../assess/chain/chain.ts'
import { waitsFor } from '../../assess/chain/judged.ts'
import type { DrivelineChain } from '../../assess/driveline/chain.ts'
import { WHIRL_SHARE } from '../../engineering/driveline/whirlingSpeed.ts'
import { showPreferred } from '../parts/units.ts'

interface SpeedsProps {
  readonly stored: DrivelineChain
  readonly tried: DrivelineChain | undefined
  readonly narrow?: boolean
}

const RPM = Math.PI / 30
const text = (speed: number): string =>
  showPreferred('angularSpeed', Math.round(speed / RPM) * RPM).replace(/(\d)\.\d+/, '$1')
const valueIn = (datum: Datum): number | undefined => (isKnown(datum) ? datum.value : undefined)

export function ShaftSpeeds({ stored, tried, narrow = false }: SpeedsProps) {
  const shown = tried ?? stored
  const { critical, half, atCruise, atTop } = shown.shaft
  const size = narrow ? 'only-narrow' : 'only-wide'
  if (!isKnown(critical) || !isKnown(half)) {
    const { missing } = waitsFor(critical)
    return <p className={`soft ${size}`}>Where the shaft whirls needs: {missing.join(', ')}.</p>
  }
  const width = narrow ? 356 : 900
  const most = 1.12 * Math.max(critical.value, valueIn(atTop) ?? 0, valueIn(atCruise) ?? 0)
  const x = (speed: number): number => 8 + (speed / most) * (width - 16)
  const axis = 74
  const limit = WHIRL_SHARE.value * critical.value
  const own = [
    { at: half.value, name: 'half' },
    { at: limit, name: `${WHIRL_SHARE.value * 100} %` },
    { at: critical.value, name: 'whirls' },
  ]
  const speeds = [
    { at: valueIn(atCruise), name: 'long journeys', row: 48 },
    { at: valueIn(atTop), name: 'greatest', row: 22 },
  ]
  const before = tried && stored.shaft.critical
  // Thin strokes over the speeds that are not used: closer as it comes to whirl.
  const hatch = Array.from({ length: 200 }, (_, index) => x(limit) + index * 7).filter((at) => at < width - 8)
  const anchor = (at: number): 'start' | 'middle' | 'end' =>
    x(at) > width - 110 ? 'end' : x(at) < 110 ? 'start' : 'middle'
  return (
    <svg
      className={`line-drawing ${size}`}
      viewBox={`0 0 ${width} 124`}
      role="img"
      aria-label={`Speeds of the propeller shaft: it whirls at ${text(critical.value)}; it is used up to ${text(limit)}${
        isKnown(atTop) ? `; at the greatest road speed it turns ${text(atTop.value)}` : ''
      }`}
    >
      <path className="pen" d={`M8 ${axis}H${width - 8}`} />
      <path className="fine" d={hatch.map((at) => `M${at} ${axis}l6 -9`).join('')} />
      {before && isKnown(before) && before.value !== critical.value && before.value < most && (
        <path className="fine" d={`M${x(before.value)} ${axis - 14}v28`} />
      )}
      {own.map(({ at, name }) => (
        <g key={name}>
          <path className={name === 'whirls' ? 'engine-line' : 'pen'} d={`M${x(at)} ${axis - 9}v18`} />
          <text x={x(at)} y={axis + 26} textAnchor="middle" className="soft-text">
            {name}
          </text>
          <text x={x(at)} y={axis + 43} textAnchor="middle">
            {text(at).replace(/\s\S+$/, '')}
          </text>
        </g>
      ))}
      {speeds.map(
        ({ at, name, row }) =>
          at !== undefined && (
            <path
              key={name}
              className={at > limit ? 'shelf no-go' : 'pen'}
              d={`M${x(at)} ${row + 5}V${axis}m-4 -6l4 6l4 -6`}
            />
          ),
      )}
      {speeds.map(
        ({ at, name, row }) =>
          at !== undefined && (
            <text key={name} x={x(at)} y={row} textAnchor={anchor(at)} className={at > limit ? 'clear short' : 'clear'}>
              {name} {text(at)}
            </text>
          ),
      )}
    </svg>
  )
}
