/** The chain from pedal to tyre as a line drawing: pedal, servo with its vacuum, cylinder, circuits, brakes, road. */
import type { BrakeChain } from '../../assess/brakes/chain.ts'
import { drawn } from '../chain/drawn.tsx'

interface DrawingProps {
  readonly stored: BrakeChain
  readonly tried: BrakeChain | undefined
  readonly narrow?: boolean
}

const PLACES = {
  wide: {
    size: [720, 330],
    pedal: [52, 96],
    servo: [190, 96],
    vacuum: [190, 30],
    master: [292, 96],
    circuits: [400, 96],
    front: [520, 96],
    rear: [520, 232],
    road: 300,
  },
  narrow: {
    size: [356, 520],
    pedal: [40, 92],
    servo: [150, 92],
    vacuum: [150, 26],
    master: [240, 92],
    circuits: [60, 262],
    front: [120, 262],
    rear: [120, 398],
    road: 476,
  },
} as const

export function BrakeDrawing({ stored, tried, narrow = false }: DrawingProps) {
  const shown = tried ?? stored
  const at = narrow ? PLACES.narrow : PLACES.wide
  const [width, height] = at.size
  const { circuits } = shown.facts.brakes
  const { station, tag } = drawn({ system: 'brakes', stored, tried, narrow, changeBelow: narrow })
  const name = (words: string, x: number, y: number, anchor: 'start' | 'middle' | 'end' = 'middle') => (
    <text x={x} y={y} textAnchor={anchor} className="soft-text">
      {words}
    </text>
  )
  const [px, py] = at.pedal
  const [sx, sy] = at.servo
  const [mx, my] = at.master
  const [vx, vy] = at.vacuum
  const [cx, cy] = at.circuits
  const turn = narrow ? `V${cy - 58}H${cx}V${cy}` : `H${cx}`
  const brake = (axle: 'front' | 'rear') => {
    const [x, y] = at[axle]
    const kind = shown.facts.brakes[`${axle}Kind`]
    const wheel = x + 58
    const ground = y + 46
    return station(
      axle,
      [x - 16, y + 38],
      <>
        <circle className="body" cx={wheel} cy={y} r="46" />
        {kind && <circle className="fine" cx={wheel} cy={y} r={kind === 'drum' ? 26 : 30} />}
        {kind === undefined ? null : kind === 'drum' ? (
          <path
            className="pen"
            d={`M${wheel - 8} ${y - 20}q-18 20 0 40M${wheel + 8} ${y - 20}q18 20 0 40M${wheel - 8} ${y - 20}h16`}
          />
        ) : (
          <path className="pen" d={`M${wheel - 34} ${y - 12}h14v24h-14zM${wheel - 27} ${y - 12}v24`} />
        )}
        <path className="pen" d={`M${x} ${ground}H${wheel + 54}`} />
        {name(axle === 'front' ? 'Front' : 'Rear', wheel + 60, y - 30, 'start')}
        {tag(`${axle}-torque`, wheel + 60, y - 10, 'start')}
        {tag(`${axle}-road`, wheel + 60, y + (narrow && tried ? 24 : 10), 'start')}
      </>,
    )
  }
  const used = (axle: 'front' | 'rear') => {
    const [x, y] = at[axle]
    return tag(`${axle}-used`, x + 118, y + (narrow && tried ? 58 : 30), 'start')
  }
  return (
    <svg
      className={`line-drawing ${narrow ? 'only-narrow' : 'only-wide'}`}
      viewBox={`0 0 ${width} ${height}`}
      aria-label="The brakes from pedal to tyre, drawn"
    >
      <path className="pen" d={`M${px + 20} ${py}H${sx - 40}`} />
      <path className="pen" d={`M${sx + 40} ${sy}H${mx - 28}`} />
      {circuits === 'single' ? (
        <path className="pen" d={`M${mx + 28} ${my}${turn}`} />
      ) : (
        <path className="pen" d={`M${mx + 28} ${my - 5}${turn.replace(/H(\d+)$/, (_all, to: string) => `H${to}`)}`} />
      )}
      {circuits !== 'single' && !narrow && <path className="pen" d={`M${mx + 28} ${my + 5}H${cx}`} />}
      <path className="fine" d={`M${vx} ${vy + 12}V${sy - 38}`} strokeDasharray="4 4" />
      {station(
        'pedal',
        [px - 34, py + 66],
        <>
          <path className="heavy" d={`M${px + 12} ${py - 66}L${px + 18} ${py}L${px - 14} ${py + 56}`} />
          <circle className="body" cx={px + 12} cy={py - 66} r="5" />
          <path className="pen" d={`M${px - 24} ${py + 50}l20 12`} />
          {tag('force', px - 40, py + 98, 'start')}
        </>,
      )}
      {station(
        'servo',
        [sx - 14, sy + 44],
        <>
          <path
            className="body"
            d={`M${sx - 40} ${sy - 14}q10 -24 40 -24q30 0 40 24v28q-10 24 -40 24q-30 0 -40 -24z`}
          />
          <path className="fine" d={`M${sx - 4} ${sy - 37}V${sy + 37}`} />
          {name('Servo', sx, sy + (narrow ? 78 : 78))}
          {tag('servo-help', sx, sy + (narrow ? 94 : 96))}
        </>,
      )}
      {station(
        'vacuum',
        [vx + 20, vy - 10],
        <>
          <path className="body" d={`M${vx - 12} ${vy - 8}h24v18h-24z`} />
          <path className="pen" d={`M${vx - 6} ${vy + 6}l6 -8 6 8`} />
          {tag('vacuum', vx + (narrow ? 54 : 54), vy + 4, 'start')}
        </>,
      )}
      {station(
        'master',
        [mx - 14, my + 20],
        <>
          <rect className="body" x={mx - 28} y={my - 14} width="56" height="28" />
          <path className="fine" d={`M${mx - 12} ${my - 14}v28M${mx + 8} ${my - 14}v28`} />
          <path className="pen" d={`M${mx - 16} ${my - 14}v-10h12v10M${mx + 4} ${my - 14}v-10h12v10`} />
          {narrow ? tag('line', mx - 28, my - 32, 'start') : tag('line', mx, my + 54)}
        </>,
      )}
      {station(
        'circuits',
        narrow ? [cx - 50, cy + 60] : [cx + 10, cy + 20],
        <>
          <path
            className="pen"
            d={
              narrow
                ? `M${cx} ${cy}H${at.front[0] + 24}M${cx} ${cy}V${at.rear[1]}H${at.rear[0] + 24}`
                : `M${cx} ${cy - 5}H${at.front[0] + 24}M${cx} ${cy + (circuits === 'single' ? -5 : 5)}V${at.rear[1]}H${at.rear[0] + 24}`
            }
          />
          <rect className="body" x={cx - 9} y={(cy + at.rear[1]) / 2 - 9} width="18" height="18" />
          <path className="fine" d={`M${cx - 9} ${(cy + at.rear[1]) / 2 + 9}l18 -18`} />
          {!narrow && tag('to-rear', cx + 18, (cy + at.rear[1]) / 2 + 5, 'start')}
        </>,
      )}
      {brake('front')}
      {brake('rear')}
      {station(
        'tyres',
        [at.rear[0] + 128, at.road + 10],
        <>
          {used('front')}
          {used('rear')}
          {name('wanted', at.rear[0] + 42, at.road + 22, 'end')}
          {tag('wanted', at.rear[0] + 50, at.road + 22, 'start')}
        </>,
      )}
    </svg>
  )
}
