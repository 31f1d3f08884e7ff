/**
 * Unit symbols as loggers print them, with what turns a logged value into SI:  SI = factor · x + offset. The factors
 * are those of `src/units`; here stand only the loggers' spellings and the order in which kinds are tried.
 *
 * A log keeps its values in the units it was written in; only a channel bound to a role is converted, so a unit that
 * was read wrongly can be put right without importing again.
 */
import { findUnit } from '../units/find.ts'
import type { Kind } from '../units/kinds.ts'

export interface LogUnit {
  readonly kind: Kind
  readonly factor: number
  readonly offset: number
}

/** Spellings of loggers that nobody would type into a field. Air–fuel ratio is left out: it depends on the fuel. */
const SPELLINGS: Readonly<Record<string, string>> = {
  c: '°C',
  degc: '°C',
  'deg c': '°C',
  'deg. c': '°C',
  celsius: '°C',
  '°c': '°C',
  f: '°F',
  degf: '°F',
  'deg f': '°F',
  'deg. f': '°F',
  fahrenheit: '°F',
  '°f': '°F',
  k: 'K',
  millis: 'ms',
  milliseconds: 'ms',
  us: 'µs',
  microseconds: 'µs',
  volt: 'V',
  volts: 'V',
  amp: 'A',
  amps: 'A',
  ohm: 'Ω',
  ohms: 'Ω',
  kpag: 'kPa gauge',
  'kpa(g)': 'kPa gauge',
  barg: 'bar gauge',
  psig: 'psi gauge',
  'kg/hr': 'kg/h',
  'm/s2': 'm/s²',
  upm: 'rpm',
}

/** Kinds in the order in which a log's unit is most likely meant: "g" is acceleration before mass, "K" a temperature. */
const ORDER: readonly Kind[] = [
  'time',
  'angularSpeed',
  'pressureAbsolute',
  'temperature',
  'ratio',
  'voltage',
  'current',
  'resistance',
  'massFlow',
  'volumeFlow',
  'speed',
  'angle',
  'frequency',
  'torque',
  'power',
  'acceleration',
  'length',
  'volume',
  'mass',
]

const known = new Map<string, LogUnit | undefined>()

/** The unit a symbol stands for, or undefined when it is not one that is known here. */
export function logUnit(symbol: string): LogUnit | undefined {
  const tidy = symbol.trim()
  // Files hold few symbols, rubbish holds many: the memory of them is bounded.
  if (known.has(tidy)) return known.get(tidy)
  const found = tidy === '' || tidy.length > 24 ? undefined : search(tidy)
  if (known.size < 512) known.set(tidy, found)
  return found
}

function search(symbol: string): LogUnit | undefined {
  const spelling = symbol.normalize('NFKC').replace(/[º˚]/g, '°').toLowerCase()
  const wanted = Object.hasOwn(SPELLINGS, spelling) ? SPELLINGS[spelling]! : symbol
  for (const kind of ORDER) {
    const found = findUnit(kind, wanted)
    if (found === undefined) continue
    const { times, per, offset } = found.unit
    const gauge = kind === 'pressureAbsolute' && found.reference === 'gauge'
    if (found.reference === 'vacuum' || found.reference === 'difference')
      return { kind: 'pressureDifference', factor: times / per, offset }
    return { kind: gauge ? 'pressureGauge' : kind, factor: times / per, offset }
  }
  return undefined
}

/** Symbols that stand in unit rows although they carry no quantity, or one that needs more than a factor. */
const BARE = new Set([
  '',
  '-',
  '--',
  'afr',
  'enum',
  'bool',
  'bit',
  'bits',
  'raw',
  'none',
  'count',
  'counts',
  'hex',
  'on/off',
  'state',
  'text',
  'n/a',
  'na',
  'index',
  '°ca',
  '°btdc',
  'deg btdc',
  'gear',
  'hh:mm:ss',
  'date',
  'clock',
  'mg/stroke',
  'g/rev',
  '%/s',
  'kpa/s',
  'rpm/s',
  'c/s',
  'mg/cyl',
  'uint',
  '#',
  'samples',
  'sample',
])

export const looksLikeUnit = (symbol: string): boolean =>
  logUnit(symbol) !== undefined || BARE.has(symbol.trim().toLowerCase())

/** Symbols so plain that they are a unit even behind a name without brackets ("MAP kPa"). */
export const plainlyUnit = (symbol: string): boolean =>
  /^(rpm|1\/min|k?pa|hpa|mpa|m?bar|psi[ag]?|°[cf]|deg[cf]?|ms|µs|us|msec|sec|%|mv|km\/h|kmh|kph|mph|m\/s|k?g\/[sh]|lb\/min|hz|n·?m|kw)$/i.test(
    symbol.normalize('NFKC').replace(/[º˚]/g, '°').replace(/μ/g, 'µ'),
  )

/** A pressure's symbol alone seldom says whether it counts from vacuum or from the air. */
export const sameDimension = (a: Kind, b: Kind): boolean => {
  const family = (kind: Kind): string =>
    kind.startsWith('pressure') ? 'pressure' : kind.startsWith('temperature') ? 'temperature' : kind
  return family(a) === family(b)
}
