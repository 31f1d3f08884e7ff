/**
 * Bands on a voltage axis, drawn upright: 0 V below. A bar a state as wide as its worst case, the gap between two with its
 * size, thresholds as short strokes, and what two buttons held at once show as hatched bars in a lane of their own.
 */
import type { SwitchReading } from '../../engineering/signals/resistanceSwitch/bands.ts'

const HEIGHT = 560
const TOP = 14
const NAME = 172
const LANE = 46

export const millivolts = (value: number): string => `${(value * 1000).toFixed(0)} mV`
export const axisVolts = (value: number): string => `${value.toFixed(2)} V`

export function BandAxis({ reading, fullScale, title }: { reading: SwitchReading; fullScale: number; title: string }) {
  const y = (volts: number): number => TOP + (HEIGHT - 2 * TOP) * (1 - volts / fullScale)
  const ticks = Array.from({ length: 6 }, (_, i) => (fullScale * i) / 5)
  const { bands, thresholds, pairs } = reading
  const alike = new Set(thresholds.filter(({ gap }) => gap <= 0).flatMap(({ below, above }) => [below, above]))
  // Names stand beside their bands, pushed apart where bands lie close.
  const names: number[] = []
  bands.forEach(({ voltage }, i) => {
    const wanted = y((voltage.low + voltage.high) / 2) + 4
    names.push(i === 0 ? wanted : Math.min(wanted, names[i - 1]! - 15))
  })
  const wrong = pairs.filter(({ names: both, readsAs }) => readsAs.some((state) => !both.includes(state)))
  const right = NAME + LANE + 132
  return (
    <figure className="band-axis">
      <svg viewBox={`0 0 ${right + 70} ${HEIGHT}`} role="img" aria-label={title}>
        <defs>
          <pattern id="two-at-once" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
            <path d="M0 0V5" stroke="var(--soft)" strokeWidth="1.4" />
          </pattern>
        </defs>
        <line x1={NAME} x2={NAME} y1={y(fullScale)} y2={y(0)} className="axis" />
        {ticks.map((volts) => (
          <g key={volts}>
            <line x1={NAME - 5} x2={NAME} y1={y(volts)} y2={y(volts)} className="axis" />
            <text x={NAME - 9} y={y(volts) + 4} textAnchor="end" className="tick">
              {volts.toFixed(1)}
            </text>
          </g>
        ))}
        {bands.map(({ name, kind, voltage }, i) => (
          <g key={name} data-band={name}>
            <rect
              x={NAME + 2}
              width={LANE}
              y={y(voltage.high)}
              height={Math.max(2, y(voltage.low) - y(voltage.high))}
              className={alike.has(name) ? 'band alike' : `band ${kind}`}
            />
            <path
              d={`M${NAME + LANE + 4} ${y((voltage.low + voltage.high) / 2)}L${NAME + LANE + 14} ${names[i]! - 4}`}
              className="lead"
            />
            <text x={NAME + LANE + 18} y={names[i]} className={alike.has(name) ? 'state alike' : 'state'}>
              {name.length > 20 ? `${name.slice(0, 19)}…` : name}
            </text>
          </g>
        ))}
        {thresholds.map(({ below, above, voltage, gap }) => (
          <g key={`${below}${above}`}>
            <line x1={NAME - 2} x2={NAME + LANE + 6} y1={y(voltage)} y2={y(voltage)} className="threshold" />
            <text x={NAME - 50} y={y(voltage) + 4} textAnchor="end" className={gap <= 0 ? 'gap alike' : 'gap'}>
              {gap <= 0 ? `overlap ${millivolts(-gap)}` : millivolts(gap)}
            </text>
          </g>
        ))}
        {wrong.map(({ names: both, voltage }, i) => (
          <rect
            key={both.join()}
            x={right + 8 + (i % 4) * 14}
            width={10}
            y={y(voltage.high)}
            height={Math.max(2, y(voltage.low) - y(voltage.high))}
            fill="url(#two-at-once)"
            stroke="var(--soft)"
          >
            <title>{both.join(' with ')}</title>
          </rect>
        ))}
      </svg>
      <figcaption className="small soft">
        Volts at the input; left the gaps in the worst case, strokes where the controller should divide.
        {wrong.length > 0 && ' Hatched: two buttons at once that read as a third.'}
      </figcaption>
    </figure>
  )
}
