/** The cooling loop as a loop: engine and radiator, the hoses between them, fan, pump, thermostat, header and cap. */
import type { CoolingChain } from '../../assess/cooling/chain.ts'
import { drawn } from '../chain/drawn.tsx'

interface DrawingProps {
  readonly stored: CoolingChain
  readonly tried: CoolingChain | undefined
  readonly narrow?: boolean
}

export function CoolingDrawing({ stored, tried, narrow = false }: DrawingProps) {
  const [width, height] = narrow ? [356, 400] : [720, 400]
  const [engineX, engineWidth] = [8, narrow ? 92 : 170]
  const engineRight = engineX + engineWidth
  const radiator = narrow ? 246 : 520
  const core = narrow ? 34 : 48
  const top = 150
  const bottom = 290
  const middle = (engineRight + radiator) / 2
  const { station, tag } = drawn({ system: 'cooling', stored, tried, narrow })
  return (
    <svg
      className={`line-drawing ${narrow ? 'only-narrow' : 'only-wide'}`}
      viewBox={`0 0 ${width} ${height}`}
      aria-label="The cooling loop, drawn"
    >
      <path
        className="pen"
        d={`M${engineRight} ${top - 6}H${radiator}M${engineRight} ${top + 6}H${radiator}M${engineRight} ${bottom - 6}H${radiator}M${engineRight} ${bottom + 6}H${radiator}`}
      />
      <path className="fine" d={`M${middle + 20} 74V${bottom - 6}`} strokeDasharray="4 4" />
      {station(
        'engine',
        [engineX + 8, top + 118],
        <>
          <rect className="body" x={engineX} y={top - 30} width={engineWidth} height={190} />
          {[0, 1, 2, 3].map((n) => (
            <rect
              key={n}
              className="fine"
              x={engineX + 8 + n * ((engineWidth - 16) / 4)}
              y={top - 20}
              width={(engineWidth - 16) / 4 - 6}
              height={44}
            />
          ))}
          <text x={engineX + engineWidth / 2} y={top + 48} textAnchor="middle">
            Engine
          </text>
          {tag('sustained', engineX + engineWidth / 2, top + 68)}
          {tag('heat', engineX + engineWidth / 2, top + 102)}
        </>,
      )}
      {station(
        'thermostat',
        [engineRight + 8, top + 22],
        <>
          <circle className="body" cx={engineRight + 22} cy={top} r="13" />
          <path className="pen" d={`M${engineRight + 13} ${top + 9}l18 -18m-8 0h8v8`} />
          {tag('coolant', engineRight + 4, top - 22, 'start')}
          {!narrow && (
            <text x={engineRight + 44} y={top + 30} className="soft-text">
              Thermostat
            </text>
          )}
        </>,
      )}
      {station(
        'flow',
        [engineRight + 8, bottom + 22],
        <>
          <circle className="body" cx={engineRight + 22} cy={bottom} r="15" />
          <path className="pen" d={`M${engineRight + 33} ${bottom - 10}l-26 10 26 10`} />
          {tag('coolant-flow', engineRight + 4, bottom + 58, 'start')}
          {!narrow && (
            <text x={engineRight + 44} y={bottom + 34} className="soft-text">
              Coolant pump
            </text>
          )}
        </>,
      )}
      {station(
        'air',
        [radiator + core + 14, top - 20],
        <>
          <path
            className="pen"
            d={[top + 30, top + 60, top + 90, top + 120]
              .map((y) => `M${width - 4} ${y}H${radiator + core + 12}m10 -5l-10 5 10 5`)
              .join('')}
          />
          <path
            className="pen"
            d={`M${radiator - 20} ${top + 18}v104M${radiator - 20} ${top + 70}q-14 -26 0 -50M${radiator - 20} ${top + 70}q-14 26 0 50`}
          />
          <rect className="body" x={radiator - 40} y={top + 58} width="20" height="24" />
          {tag('radiator-air', width - 4, bottom + 58, 'end')}
          {tag('fan-volts', radiator - 46, top + 75, 'end')}
          {tag('air-in', width - 4, top + 14, 'end')}
        </>,
      )}
      {station(
        'radiator',
        [radiator + 4, top - 62],
        <>
          <rect className="body" x={radiator} y={top - 24} width={core} height={bottom - top + 48} />
          <path
            className="fine"
            d={Array.from({ length: 13 }, (_, n) => `M${radiator} ${top - 14 + n * 14}h${core}`).join('')}
          />
          {tag('radiator-out', radiator - 6, bottom + 24, 'end')}
          <text x={radiator + core / 2} y={top - 52} textAnchor="middle">
            Radiator
          </text>
          {tag('radiator-effectiveness', radiator + core / 2, top - 34)}
        </>,
      )}
      {station(
        'header',
        [middle + 58, 52],
        <>
          <rect className="body" x={middle - 10} y="24" width="60" height="50" />
          <path className="fine" d={`M${middle - 10} 52h60`} />
          {tag('growth', middle - 18, 56, 'end')}
        </>,
      )}
      {station(
        'cap',
        [middle + 58, 30],
        <>
          <rect className="body" x={middle + 8} y="14" width="24" height="10" />
          {tag('boiling', middle + 58, 22, 'start')}
          {tag('cap-pressure', middle - 18, 22, 'end')}
        </>,
      )}
    </svg>
  )
}
