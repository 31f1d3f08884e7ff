/** The channel through one station: walls as stored, and lighter walls as tried. */
import { inside, type Opening, TARGET_HALF, wall } from './channel.ts'

interface ChannelProps {
  readonly before: Opening
  readonly here: Opening
  readonly tried?: { readonly before: Opening; readonly here: Opening } | undefined
  readonly short: boolean
  readonly aimed: boolean
}
const SIDES = [-1, 1] as const

export function Channel({ before, here, tried, short, aimed }: ChannelProps) {
  const shown = tried ?? { before, here }
  const dash = { known: undefined, beyond: '10 4', unknown: '2 5', none: '10 4' }[shown.here.kind]
  const target = TARGET_HALF * 48
  return (
    <svg className="channel" viewBox="0 0 100 100" preserveAspectRatio="none" aria-hidden="true">
      <path d={inside(shown.before, shown.here)} className="channel-inside" />
      {aimed && (
        <path
          d={`M${50 - target} 0V100M${50 + target} 0V100`}
          className="channel-target"
          vectorEffect="non-scaling-stroke"
        />
      )}
      {tried &&
        SIDES.map((side) => (
          <path key={side} d={wall(before, here, side)} className="channel-stored" vectorEffect="non-scaling-stroke" />
        ))}
      {SIDES.map((side) => (
        <path
          key={side}
          d={wall(shown.before, shown.here, side)}
          className={short ? 'channel-wall short' : 'channel-wall'}
          strokeDasharray={dash}
          vectorEffect="non-scaling-stroke"
        />
      ))}
    </svg>
  )
}
