/** The way of the air as one drawing: parts on a duct, the water loop above, temperature and pressure along it below. */
import type { AirChain, AirStation } from '../../assess/air/chain.ts'
import { isKnown } from '../../assess/chain/chain.ts'
import { differenceText, shortText } from '../chain/FigureLine.tsx'
import { StationMark } from '../chain/StationMark.tsx'
import { type Point, pressuresOf, rangeOf, temperaturesOf } from './profile.ts'
import { AirSymbol } from './symbols.tsx'

const WIDTH = 1160
const DUCT = 200
const LOOP = 66
/** The figure that stands under each part. */
export const CHIEF: Readonly<Record<string, string>> = {
  outside: 'outside-density',
  intake: 'intake-rise',
  filter: 'intake-loss',
  compressor: 'compressor-temperature',
  cooler: 'effectiveness',
  loop: 'loop-flow',
  front: 'front-heat',
  store: 'time-constant',
  'charge-pipe': 'charge-loss',
  engine: 'power',
}
export const chiefOf = (station: AirStation | undefined) =>
  station?.figures.find(({ id }) => id === CHIEF[station.id]) ?? station?.figures[0]

/** What a log holds for a station at one moment: in words, and in SI where it lies on a curve. */
export interface Logged {
  readonly says: string
  readonly curve?: 'temperature' | 'pressureAbsolute'
  readonly si?: number
}
export type LoggedAt = ReadonlyMap<string, readonly Logged[]>
const NOTHING_LOGGED: LoggedAt = new Map()

interface CurveProps {
  readonly title: string
  readonly kind: 'temperature' | 'pressureAbsolute'
  readonly stored: readonly Point[]
  readonly tried: readonly Point[] | undefined
  readonly logged: LoggedAt
  readonly xOf: (station: string) => number
  readonly top: number
  readonly height: number
}

function Curve({ title, kind, stored, tried, logged, xOf, top, height }: CurveProps) {
  const spots = [...logged].flatMap(([station, list]) =>
    list.flatMap(({ curve, si }) => (curve === kind && si !== undefined ? [{ station, value: si }] : [])),
  )
  const range = rangeOf(
    [stored, tried ?? []],
    spots.map(({ value }) => value),
  )
  const y = (value: number): number =>
    range ? top + height - ((value - range[0]) / (range[1] - range[0])) * height : top + height
  const line = (points: readonly Point[]): string =>
    points
      .flatMap(({ station, datum }) =>
        isKnown(datum) ? [`${xOf(station).toFixed(1)} ${y(datum.value).toFixed(1)}`] : [],
      )
      .map((place, index) => `${index === 0 ? 'M' : 'L'}${place}`)
      .join('')
  const shown = tried ?? stored
  return (
    <g>
      <text x="8" y={top - 16} className="soft-text">
        {title}
      </text>
      <path className="fine" d={`M40 ${top + height + 8}H${WIDTH - 20}`} />
      <path className={tried ? 'fine' : 'pen'} d={line(stored)} />
      {tried && <path className="heavy" d={line(tried)} />}
      {shown.map(({ station, datum }, index) => {
        const before = shown[index - 1]?.datum
        const same = before && isKnown(before) && isKnown(datum) && Math.abs(before.value - datum.value) < 1e-9
        const change = tried && differenceText(kind, stored.find((point) => point.station === station)?.datum, datum)
        const at = isKnown(datum) ? y(datum.value) : top + height
        return (
          <g key={station}>
            <circle className={tried ? 'heavy' : 'body'} cx={xOf(station)} cy={at} r="3" />
            {!same && (
              <text x={xOf(station)} y={at - 9} textAnchor="middle">
                {shortText(kind, datum)}
              </text>
            )}
            {change && !same && (
              <text x={xOf(station)} y={at + 19} textAnchor="middle" className="change">
                {change}
              </text>
            )}
          </g>
        )
      })}
      {spots.map(({ station, value }) => (
        <g key={station}>
          <path className="heavy" d={`M${xOf(station)} ${y(value) - 6}l6 6l-6 6l-6 -6z`} />
          <text
            x={xOf(station) + (station === 'engine' ? 28 : 10)}
            y={y(value) + (station === 'engine' ? 22 : 15)}
            textAnchor={station === 'engine' ? 'end' : 'start'}
            className="change"
          >
            {shortText(kind, { value, plusMinus: 0, working: [] })}
          </text>
        </g>
      ))}
    </g>
  )
}

interface AirDrawingProps {
  readonly stored: AirChain
  readonly tried: AirChain | undefined
  /** By station. */
  readonly logged?: LoggedAt
}

export function AirDrawing({ stored, tried, logged = NOTHING_LOGGED }: AirDrawingProps) {
  const shown = tried ?? stored
  const onDuct = shown.stations.filter(({ line }) => line === 'air')
  const pitch = (WIDTH - 160) / Math.max(onDuct.length - 1, 1)
  const xOf = (id: string): number => 80 + pitch * onDuct.findIndex((station) => station.id === id)
  const label = (station: AirStation, x: number, y: number, anchor: 'middle' | 'start' = 'middle') => {
    const chief = chiefOf(station)
    const change =
      tried &&
      chief &&
      differenceText(chief.kind, chiefOf(stored.stations.find(({ id }) => id === station.id))?.datum, chief.datum)
    return (
      <>
        <text x={x} y={y} textAnchor={anchor}>
          {station.name.split(',')[0]}
        </text>
        <text x={x} y={y + 17} textAnchor={anchor} className={chief?.origin === 'measured' ? 'change' : undefined}>
          {chief &&
            `${chief.symbol} ${shortText(chief.kind, chief.datum)}${chief.origin === 'measured' ? ' measured' : ''}`}
        </text>
        {change && (
          <text x={x} y={y + 34} textAnchor={anchor} className="change">
            {change}
          </text>
        )}
        {logged.get(station.id)?.map(({ says }, line) => (
          <text key={says} x={x} y={y + 34 + 17 * line} textAnchor={anchor} className="change">
            {says}
          </text>
        ))}
      </>
    )
  }
  const water = shown.stations.filter(({ line }) => line === 'water')
  const cooler = xOf('cooler')
  const spots: Readonly<Record<string, readonly [number, number]>> = {
    loop: [cooler - 150, LOOP + 34],
    store: [cooler + 40, LOOP - 22],
    front: [cooler + 235, LOOP + 34],
  }
  return (
    <svg className="line-drawing only-wide" viewBox={`0 0 ${WIDTH} 560`} aria-label="The way of the air, drawn">
      {onDuct.slice(1).map(({ id }) => (
        <path
          key={id}
          className="pen"
          d={`M${xOf(id) - pitch + 27} ${DUCT - 7}H${xOf(id) - 27}M${xOf(id) - pitch + 27} ${DUCT + 7}H${xOf(id) - 27}`}
        />
      ))}
      {water.length > 0 && (
        <path
          className="fine"
          d={`M${cooler - 12} ${DUCT - 24}V${LOOP + 80}H${cooler - 150}V${LOOP - 22}H${cooler + 235}V${LOOP + 80}H${cooler + 12}V${DUCT - 24}`}
        />
      )}
      {water.map((station) => {
        const [x, y] = spots[station.id]!
        return (
          <StationMark key={station.id} station={station} system="air" mark={[x - 14, y + 24]}>
            <g transform={`translate(${x} ${y})`}>
              <AirSymbol id={station.id} />
            </g>
            {station.id === 'loop'
              ? label(station, x - 190, y - 6, 'start')
              : label(station, x + 36, y - (station.id === 'store' ? -14 : 6), 'start')}
          </StationMark>
        )
      })}
      {onDuct.map((station) => (
        <StationMark key={station.id} station={station} system="air" mark={[xOf(station.id) - 14, DUCT + 30]}>
          <g transform={`translate(${xOf(station.id)} ${DUCT})`}>
            <AirSymbol id={station.id} />
          </g>
          {label(station, xOf(station.id), DUCT + 64)}
        </StationMark>
      ))}
      <Curve
        title="Temperature along the way"
        kind="temperature"
        stored={temperaturesOf(stored)}
        tried={tried && temperaturesOf(tried)}
        logged={logged}
        xOf={xOf}
        top={356}
        height={70}
      />
      <Curve
        title="Pressure along the way"
        kind="pressureAbsolute"
        stored={pressuresOf(stored)}
        tried={tried && pressuresOf(tried)}
        logged={logged}
        xOf={xOf}
        top={478}
        height={56}
      />
    </svg>
  )
}
