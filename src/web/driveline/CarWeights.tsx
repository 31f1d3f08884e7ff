/** The car from above with what lies on each wheel, and its centre of gravity; the nose is up. */
import { isKnown } from '../../assess/chain/chain.ts'
import { waitsFor } from '../../assess/chain/judged.ts'
import type { DrivelineChain } from '../../assess/driveline/chain.ts'
import { datumText } from '../chain/FigureLine.tsx'
import { showPreferred } from '../parts/units.ts'

const [MIDDLE, FRONT, REAR, HALF] = [160, 70, 250, 62]

export function CarWeights({ chain }: { chain: DrivelineChain }) {
  const { corners, tilt } = chain.weights
  const { front, rear, total, behind, aside, cross } = corners
  if (!isKnown(behind) || !isKnown(aside) || !isKnown(cross)) {
    const { missing } = waitsFor(total)
    return <p className="soft">The car’s weights from above need: {missing.join(', ')}.</p>
  }
  const wheelbase = chain.facts.wheelbase
  const share = isKnown(wheelbase) ? behind.value / wheelbase.value : 0.5
  const y = FRONT + share * (REAR - FRONT)
  // Four times to the side: a few centimetres would not be seen.
  const x = MIDDLE + Math.max(-HALF, Math.min(HALF, aside.value * 4 * 100))
  const entered = chain.facts.sheet.corners
  const wheel = (left: boolean, ahead: boolean, mass: { readonly value: number } | undefined) => {
    const [wx, wy] = [MIDDLE + (left ? -HALF : HALF), ahead ? FRONT : REAR]
    return (
      <g>
        <rect className="body" x={wx - 8} y={wy - 20} width="16" height="40" />
        <text x={left ? wx - 14 : wx + 14} y={wy + 4} textAnchor={left ? 'end' : 'start'}>
          {mass ? showPreferred('mass', mass.value) : '?'}
        </text>
      </g>
    )
  }
  return (
    <>
      <svg
        className="line-drawing car-weights"
        viewBox="0 0 320 316"
        role="img"
        aria-label={`Front axle ${datumText('mass', front)}, rear axle ${datumText('mass', rear)}; centre of gravity ${datumText('length', behind)} behind the front axle`}
      >
        <path
          className="pen"
          d={`M${MIDDLE - 46} 300V60Q${MIDDLE - 46} 18 ${MIDDLE} 16Q${MIDDLE + 46} 18 ${MIDDLE + 46} 60V300Z`}
        />
        <path className="fine" d={`M${MIDDLE - HALF} ${FRONT}h${2 * HALF}M${MIDDLE - HALF} ${REAR}h${2 * HALF}`} />
        <path className="fine" strokeDasharray="9 3 2 3" d={`M${MIDDLE} 26V296`} />
        {wheel(true, true, entered?.frontLeft)}
        {wheel(false, true, entered?.frontRight)}
        {wheel(true, false, entered?.rearLeft)}
        {wheel(false, false, entered?.rearRight)}
        <circle className="body" cx={x} cy={y} r="11" />
        <path className="pen" d={`M${x - 11} ${y}h22M${x} ${y - 11}v22`} />
      </svg>
      <p>
        Front {datumText('mass', front)}, rear {datumText('mass', rear)}; centre of gravity{' '}
        {datumText('length', behind)} behind the front axle
        {isKnown(tilt.height) && <>, {datumText('length', tilt.height)} above the road</>}; cross weight{' '}
        {(cross.value * 100).toFixed(1)} %.
      </p>
    </>
  )
}
