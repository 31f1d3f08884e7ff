/**
 * Rules `impossible-figure` and `fuse-rating`: what was entered and cannot be. It counts as not entered, so what hangs on
 * it is unknown; a fuse of no amperes is told as what it would do.
 */
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import {
  BATTERY_CAUTION,
  deviceName,
  deviceZone,
  finding,
  own,
  restrictedDevice,
  restrictedWire,
  wireName,
} from '../make.ts'
import type { Impossible } from './believed.ts'
import type { Limit } from './limits.ts'

export const impossibleFindings = (context: Context): Finding[] => {
  const told = new Set<string>()
  return context.impossible.flatMap((each) => {
    const found = said(context, each)
    // Both ends of a wire may be wrong alike.
    if (!found || told.has(found.key)) return []
    told.add(found.key)
    return [found]
  })
}

const said = ({ build }: Context, { collection, id, limit, value, load }: Impossible): Finding | undefined => {
  if (collection === 'wires' ? restrictedWire(build, id) : collection === 'devices' && restrictedDevice(build, id))
    return undefined
  const record = own(build.collections[collection] as Readonly<Record<string, { readonly name?: string }>>, id)
  const about =
    collection === 'wires'
      ? wireName(build, id)
      : collection === 'devices'
        ? deviceName(build, id)
        : (record?.name ?? id)
  const base = {
    system: 'electrical',
    subject: `${collection}/${id}`,
    about,
    zone: collection === 'devices' ? deviceZone(build, id) : undefined,
    cautions: collection === 'wires' || collection === 'devices' ? [BATTERY_CAUTION] : [],
  } as const
  if (limit.datum === 'rating' && value <= 0)
    return finding({
      ...base,
      rule: 'fuse-rating',
      verdict: 'no-go',
      says: `${about} is entered with a rating of ${value} A: a fuse of no amperes feeds nothing, and its wires cannot be judged.`,
      todo: `Read the rating off ${about} and enter it.`,
    })
  const name = collection === 'wires' || collection === 'runs' ? id : collection === 'cases' ? `“${about}”` : about
  const missing = `${limit.datum} of ${name}`
  const range = `${shown(limit, limit.min)} to ${shown(limit, limit.max)}`
  return finding({
    ...base,
    rule: 'impossible-figure',
    verdict: 'unknown',
    part: load ?? limit.datum.replaceAll(' ', '-'),
    says: `${about}: the ${limit.datum} is entered as ${shown(limit, value)}, which no car has (${range}). It counts as not entered, and what hangs on it stays unknown.`,
    todo: `Look at the unit and the decimal point, and enter the ${missing}.`,
    missing,
  })
}

const SCALE: Readonly<Record<Limit['unit'], (si: number) => number>> = {
  'mm²': (si) => si * 1e6,
  m: (si) => si,
  Ω: (si) => si,
  V: (si) => si,
  A: (si) => si,
  W: (si) => si,
  A·h: (si) => si / 3600,
  '°C': (si) => si - 273.15,
}
const shown = ({ unit }: Limit, si: number): string =>
  Number.isFinite(SCALE[unit](si)) ? `${Number(SCALE[unit](si).toPrecision(3))} ${unit}` : 'no number'
