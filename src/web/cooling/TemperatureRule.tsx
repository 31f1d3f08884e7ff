/** A rule of the loop's temperatures, from the air outside up to boiling; what is left below boiling stands as a bar. */
import { type Datum, isKnown } from '../../assess/chain/chain.ts'
import type { CoolingChain } from '../../assess/cooling/chain.ts'
import { differenceText, shortText } from '../chain/FigureLine.tsx'

const HEIGHT = 340
const TOP = 20
const LEAST = 19

interface Mark {
  readonly name: string
  readonly datum: Datum
}
const marksOf = (chain: CoolingChain): readonly Mark[] => {
  const figure = (id: string): Datum =>
    chain.stations.flatMap(({ figures }) => figures).find((each) => each.id === id)?.datum ?? {
      missing: [],
      problems: [],
    }
  return [
    { name: 'boils', datum: chain.boiling },
    { name: 'coolant on the climb', datum: chain.coolant },
    { name: 'thermostat fully open', datum: figure('fully-open') },
    { name: 'thermostat opens', datum: figure('opens') },
    { name: 'air into the core', datum: figure('air-in') },
    { name: 'air outside', datum: chain.facts.outsideTemperature },
  ]
}

/** Labels kept apart, in order from the top, each as near to its own height as room allows. */
const spread = (wanted: readonly number[]): readonly number[] => {
  const placed: number[] = []
  for (const y of wanted) placed.push(Math.max(y, (placed.at(-1) ?? Number.NEGATIVE_INFINITY) + LEAST))
  let limit = TOP + HEIGHT + 8
  for (let i = placed.length - 1; i >= 0; i -= 1) {
    placed[i] = Math.min(placed[i]!, limit)
    limit = placed[i]! - LEAST
  }
  return placed
}

export function TemperatureRule({ stored, tried }: { stored: CoolingChain; tried: CoolingChain | undefined }) {
  const shown = tried ?? stored
  const values = [stored, ...(tried ? [tried] : [])]
    .flatMap(marksOf)
    .flatMap(({ datum }) => (isKnown(datum) ? [datum.value] : []))
  if (values.length < 2) return null
  const [low, high] = [Math.min(...values), Math.max(...values)]
  const y = (value: number): number => TOP + HEIGHT - ((value - low) / Math.max(high - low, 1)) * HEIGHT
  const marks = marksOf(shown)
    .flatMap(({ name, datum }) => (isKnown(datum) ? [{ name, datum, at: y(datum.value) }] : []))
    .sort((a, b) => a.at - b.at)
  const places = spread(marks.map(({ at }) => at))
  const { margin, coolant, boiling } = shown
  const before = new Map(marksOf(stored).map(({ name, datum }) => [name, datum]))
  return (
    <svg
      className="line-drawing temperature-rule"
      viewBox={`0 0 330 ${HEIGHT + 40}`}
      aria-label="Temperatures of the loop"
    >
      <path className="pen" d={`M40 ${TOP}V${TOP + HEIGHT}`} />
      {tried &&
        marksOf(stored).map(({ name, datum }) =>
          isKnown(datum) ? <path key={name} className="fine" d={`M30 ${y(datum.value)}h20`} /> : null,
        )}
      {isKnown(coolant) && isKnown(boiling) && isKnown(margin) && (
        <path
          className={`mark ${margin.value < 0 ? 'no-go' : margin.value - margin.plusMinus < 0 ? 'marginal' : 'sound'}`}
          d={`M24 ${y(coolant.value)}V${y(boiling.value)}M20 ${y(coolant.value)}h8M20 ${y(boiling.value)}h8`}
        />
      )}
      {marks.map(({ name, datum, at }, index) => {
        const change = tried && differenceText('temperature', before.get(name), datum)
        return (
          <g key={name}>
            <path className={change ? 'heavy' : 'pen'} d={`M32 ${at}h16`} />
            <path className="fine" d={`M50 ${at}L72 ${places[index]! - 4}h6`} />
            <text x="82" y={places[index]}>
              {shortText('temperature', datum)} {name}
              {change && <tspan className="change"> {change}</tspan>}
            </text>
          </g>
        )
      })}
    </svg>
  )
}
