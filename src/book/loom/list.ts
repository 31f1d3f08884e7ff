/** What a list to print is made of: tables of cells with their headings, what it leaves out and what is not known. */
import { own, pinName } from '../../assess/make.ts'
import { sizeName } from '../../assess/wireData.ts'
import type { Build, Wire } from '../../model/build.ts'

/** A figure stands in the unit of its column's heading; undefined is told as unknown. */
export type Cell = string | number | undefined
export interface Column {
  readonly name: string
  /** Decimals of its figures. */
  readonly digits?: number
}
export interface Table {
  readonly title?: string
  readonly columns: readonly Column[]
  readonly rows: readonly (readonly Cell[])[]
}
export const LISTS = ['runs', 'cut', 'pins', 'splices', 'fuses', 'labels', 'shopping'] as const
export type ListId = (typeof LISTS)[number]
export const LIST_NAMES: Readonly<Record<ListId, string>> = {
  runs: 'Runs and bundles',
  cut: 'Cut list',
  pins: 'Pin tables, from the wire side',
  splices: 'Splice list',
  fuses: 'Fuse chart',
  labels: 'Label sheet',
  shopping: 'Shopping list',
}
export interface List {
  readonly id: ListId
  readonly title: string
  /** What it is for. */
  readonly says: string
  readonly tables: readonly Table[]
  /** How figures came about, what was left out. */
  readonly notes: readonly string[]
  /** Each datum that keeps something in it unknown. */
  readonly missing: readonly string[]
  /** Where there is nothing to list: why. */
  readonly empty?: string
}

export const naturally = (a: string, b: string): number => a.localeCompare(b, 'en', { numeric: true })

/** As it stands on paper. */
export const cellText = (cell: Cell, { digits }: Column): string =>
  cell === undefined ? 'unknown' : typeof cell === 'number' ? cell.toFixed(digits ?? 0) : cell

export const colourText = ({ colour, tracer }: Wire): string | undefined =>
  colour === undefined ? undefined : tracer === undefined ? colour : `${colour}/${tracer}`
export const sizeText = ({ area }: Wire): string | undefined => (area === undefined ? undefined : sizeName(area.value))

/** `crimped, ring M8, sealed`; undefined: not said. */
export const endText = (wire: Wire, end: 'from' | 'to'): string | undefined => {
  const made = wire.ends?.[end]
  return made && [made.method, made.terminal, made.sealed ? 'sealed' : undefined].filter(Boolean).join(', ')
}

/** `Fan relay, pin 87 (contact)`. */
export const endName = (build: Build, endpoint: string): string => {
  const cut = endpoint.lastIndexOf('.')
  const device = own(build.collections.devices, endpoint.slice(0, cut))
  const name = device && own(device.pins, endpoint.slice(cut + 1))?.name
  return `${pinName(build, endpoint)}${name === undefined ? '' : ` (${name})`}`
}

/** Said once, in the order in which it came up. */
export const once = (items: readonly string[]): string[] => [...new Set(items)]

export const counted = (count: number, one: string, many: string): string =>
  count === 1 ? `one ${one}` : `${count} ${many}`
