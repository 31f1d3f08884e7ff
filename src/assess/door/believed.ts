/** A build without the figures that cannot be, and what was taken out. What holds nothing impossible is handed on as it is. */
import type { Build, Device, OperatingCase, Wire } from '../../model/build.ts'
import {
  AREA,
  CASE_AMBIENT,
  JOINT_RESISTANCE,
  LAW,
  LENGTH,
  type Limit,
  SPEC,
  SUPPLY,
  within,
  ZONE_AMBIENT,
} from './limits.ts'

export interface Impossible {
  readonly collection: 'wires' | 'devices' | 'zones' | 'cases' | 'runs'
  readonly id: string
  readonly limit: Limit
  /** SI, as entered. */
  readonly value: number
  /** Load whose law it is in: then `limit.datum` names the figure and the whole law is set aside. */
  readonly load?: string
}
interface Entered {
  readonly value: number
}
type Told = (limit: Limit, value: number, load?: string) => void

/** The record without those of its figures that lie outside their limits; the record itself where all lie inside. */
const without = <T extends object>(record: T, limits: Readonly<Record<string, Limit>>, told: Told): T => {
  let kept = record
  for (const key of Object.keys(limits)) {
    const entered = (record as Record<string, unknown>)[key] as Entered | undefined
    if (entered === undefined || within(limits[key]!, entered.value)) continue
    told(limits[key]!, entered.value)
    kept = { ...kept }
    delete (kept as Record<string, unknown>)[key]
  }
  return kept
}

const WIRE = { area: AREA, length: LENGTH }
const believedWire = (wire: Wire, told: Told): Wire => {
  const kept = without(wire, WIRE, told)
  let ends = kept.ends
  for (const end of ['from', 'to'] as const) {
    const joint = ends?.[end]
    if (!ends || !joint) continue
    const here = without(joint, { resistance: JOINT_RESISTANCE }, told)
    if (here !== joint) ends = { ...ends, [end]: here }
  }
  return ends === kept.ends ? kept : { ...kept, ends }
}

const believedDevice = (device: Device, told: Told): Device => {
  const limits = SPEC[device.spec.kind]
  const spec = limits ? without(device.spec, limits, told) : device.spec
  let { loads } = device
  for (const [index, load] of (loads ?? []).entries()) {
    const wrong = Object.entries(load.law ?? {}).find(([key, entered]) => {
      const range = Object.hasOwn(LAW, key) ? LAW[key] : undefined
      return range !== undefined && !within({ min: range[0], max: range[1] }, (entered as unknown as Entered).value)
    })
    if (!wrong) continue
    const [min, max] = LAW[wrong[0]]!
    const unit = wrong[0] === 'resistance' ? 'Ω' : /voltage/i.test(wrong[0]) ? 'V' : /power/i.test(wrong[0]) ? 'W' : 'A'
    told(
      { datum: `what ${load.name ?? load.id} draws`, min, max, unit },
      (wrong[1] as unknown as Entered).value,
      load.id,
    )
    const { law: _law, ...rest } = load
    loads = loads!.map((each, i) => (i === index ? rest : each))
  }
  return spec === device.spec && loads === device.loads
    ? device
    : { ...device, spec, ...(loads === undefined ? {} : { loads }) }
}

const ZONE = { ambient: ZONE_AMBIENT }
const CASE = { ambient: CASE_AMBIENT, supply: SUPPLY }
const RUN = { length: LENGTH }

export const believedCase = (kase: OperatingCase): OperatingCase => without(kase, CASE, () => {})

export const believed = (build: Build): { readonly build: Build; readonly impossible: readonly Impossible[] } => {
  const impossible: Impossible[] = []
  const each = <T extends { readonly id: string }>(
    collection: Impossible['collection'],
    records: Readonly<Record<string, T>>,
    look: (record: T, told: Told) => T,
  ): Record<string, T> => {
    let kept: Record<string, T> = records
    for (const id of Object.keys(records)) {
      const record = records[id]!
      const here = look(record, (limit, value, load) =>
        impossible.push({ collection, id, limit, value, ...(load === undefined ? {} : { load }) }),
      )
      if (here === record) continue
      if (kept === records) kept = { ...records }
      kept[id] = here
    }
    return kept
  }
  const { wires, devices, zones, cases, runs } = build.collections
  const kept = {
    wires: each('wires', wires, believedWire),
    devices: each('devices', devices, believedDevice),
    zones: each('zones', zones, (zone, told) => without(zone, ZONE, told)),
    cases: each('cases', cases, (kase, told) => without(kase, CASE, told)),
    runs: each('runs', runs, (run, told) => without(run, RUN, told)),
  }
  return {
    build: impossible.length === 0 ? build : { ...build, collections: { ...build.collections, ...kept } },
    impossible,
  }
}
