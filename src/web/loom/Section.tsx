/** The bundle cut across, as tight as it was found to go, with the circle that it takes laid by hand. */
import type { Strand } from '../../assess/loom/loom.ts'
import type { Bundle } from '../../engineering/electrical/loom/bundle.ts'
import { millimetres } from './words.ts'

const SIZE = 220

export function Section({ bundle, strands }: { readonly bundle: Bundle; readonly strands: readonly Strand[] }) {
  const scale = (SIZE - 8) / Math.max(bundle.laid, bundle.floor)
  const middle = SIZE / 2
  return (
    <figure className="bundle-section">
      <svg width={SIZE} height={SIZE} viewBox={`0 0 ${SIZE} ${SIZE}`} role="img" aria-label="The bundle cut across">
        <circle cx={middle} cy={middle} r={(bundle.laid / 2) * scale} className="laid" />
        {bundle.circles.map(({ x, y, radius }, index) => (
          <circle
            key={strands[index]!.wires.join(' ')}
            cx={middle + x * scale}
            cy={middle + y * scale}
            r={radius * scale}
            className="strand"
          >
            <title>{strands[index]!.wires.join(' and ')}</title>
          </circle>
        ))}
      </svg>
      <figcaption className="soft small">
        Cut across: tightest {millimetres(bundle.floor)}, dashed as laid by hand {millimetres(bundle.laid)}
      </figcaption>
    </figure>
  )
}
