/**
 * A build under the pen. Devices, wires and the rest are added by small calls; a wire between two branch points finds
 * its own way through the loom, a wire between two devices at one point gets a stated short length.
 */
import {
  type Build,
  type CollectionName,
  type Device,
  type Entity,
  emptyBuild,
  type Sheet,
  type SheetName,
  type Wire,
} from '../src/model/build.ts'
import { m, milliohms, mm2 } from './quantities.ts'

type Colour = NonNullable<Wire['colour']>
type WireMore = Partial<Omit<Wire, 'id' | 'from' | 'to' | 'colour' | 'tracer'>>
/** Id, from, to, cross-section in mm², colour (`RD` or `RD/WH`), and whatever else is worth saying. */
export type WireRow = readonly [
  id: string,
  from: string,
  to: string,
  area: number,
  colour: Colour | `${Colour}/${Colour}`,
  more?: WireMore,
]
/** Pins by id; the text is the pin's name, empty where the id says enough. */
type Pins = Record<string, string>

export interface Draft {
  /** Routes the wires, which may name devices that were added after them, and hands over the build. */
  readonly finish: () => Build
  readonly put: <C extends CollectionName>(collection: C, ...records: Entity<C>[]) => void
  readonly sheet: <S extends SheetName>(name: S, value: Sheet<S>) => void
  readonly device: (
    id: string,
    name: string,
    at: string,
    spec: Device['spec'],
    pins: Pins,
    more?: Partial<Device>,
  ) => void
  readonly wires: (circuit: string, rows: readonly WireRow[]) => void
}

export const draft = (title: string): Draft => {
  const build = emptyBuild(title)
  const rowsOf: { circuit: string; row: WireRow }[] = []
  const put: Draft['put'] = (collection, ...records) => {
    const into = build.collections[collection] as Record<string, (typeof records)[number]>
    for (const record of records) {
      if (Object.hasOwn(into, record.id)) throw new Error(`${collection}/${record.id} is entered twice`)
      into[record.id] = record
    }
  }
  return {
    finish: () => {
      for (const { circuit, row } of rowsOf.splice(0)) put('wires', wireOf(build, circuit, row))
      return build
    },
    put,
    sheet: (name, value) => {
      build.sheets[name] = value as Build['sheets'][typeof name]
    },
    device: (id, name, at, spec, pins, more) => {
      put('devices', {
        id,
        name,
        zone: build.collections.branchPoints[at]?.zone,
        at,
        pins: Object.fromEntries(Object.entries(pins).map(([pin, text]) => [pin, text === '' ? {} : { name: text }])),
        spec,
        ...more,
      })
    },
    wires: (circuit, rows) => {
      rowsOf.push(...rows.map((row) => ({ circuit, row })))
    },
  }
}

const wireOf = (build: Build, circuit: string, [id, from, to, area, colours, more]: WireRow): Wire => {
  const [colour, tracer] = colours.split('/') as [Colour, Colour | undefined]
  return {
    id,
    from,
    to,
    area: mm2(area),
    material: 'copper',
    insulation: 'D',
    colour,
    ...(tracer === undefined ? {} : { tracer }),
    ...(more?.length === undefined ? way(build, from, to) : {}),
    ends: { from: crimp(), to: crimp() },
    circuit,
    ...more,
  }
}

/** A good crimp; 1 mΩ ± 0.5 mΩ is common practice, no published source. */
export const crimp = () => ({ method: 'crimped' as const, resistance: milliohms(1, 0.5) })
export const ring = () => ({ method: 'ring' as const, resistance: milliohms(0.2, 0.1) })
export const rings = () => ({ ends: { from: ring(), to: ring() } })

/** Shortest way through the runs; 0.4 m ± 0.1 m for two devices side by side. */
const way = (build: Build, from: string, to: string): Pick<Wire, 'path' | 'length'> => {
  const point = (endpoint: string) => build.collections.devices[endpoint.split('.')[0]!]?.at
  const [start, goal] = [point(from), point(to)]
  if (start === undefined || goal === undefined) throw new Error(`no branch point for ${from} or ${to}`)
  if (start === goal) return { length: m(0.4, 0.1) }
  const path = shortest(build, start, goal)
  if (path === undefined) throw new Error(`no runs lead from ${start} to ${goal}`)
  return { path }
}

const shortest = (build: Build, start: string, goal: string): string[] | undefined => {
  const best = new Map<string, { far: number; path: string[] }>([[start, { far: 0, path: [] }]])
  const open = new Set([start])
  while (open.size > 0) {
    const at = [...open].reduce((a, b) => (best.get(a)!.far <= best.get(b)!.far ? a : b))
    if (at === goal) return best.get(at)!.path
    open.delete(at)
    for (const run of Object.values(build.collections.runs)) {
      if (run.from !== at && run.to !== at) continue
      const next = run.from === at ? run.to : run.from
      const far = best.get(at)!.far + (run.length?.value ?? 1)
      if (far >= (best.get(next)?.far ?? Number.POSITIVE_INFINITY)) continue
      best.set(next, { far, path: [...best.get(at)!.path, run.id] })
      open.add(next)
    }
  }
  return undefined
}
