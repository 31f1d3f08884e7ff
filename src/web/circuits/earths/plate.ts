/** Where each thing of the earths’ drawing stands. Pure: a tree in, coordinates out; px of a sheet 1060 wide. */
import type { EarthPoint, ReturnTree, StrapFlow } from '../../../assess/earths/returnTree.ts'

const ROW = 22
const TOP = 40
const BETWEEN = 22
export const COLUMNS = { names: 268, amps: 350, comb: 372, stud: 430, metal: 700, battery: 1000 } as const
export const WIDE = 1060
/** A below which a return is only counted. */
const FLOWS = 1e-3

interface Row {
  readonly key: string
  readonly name: string
  readonly current: number | null | undefined
  readonly y: number
}
interface StudAt {
  readonly point: EarthPoint
  readonly rows: readonly Row[]
  readonly y: number
}
interface MetalAt {
  readonly name: string
  readonly top: number
  readonly bottom: number
}
interface StrapAt {
  readonly strap: StrapFlow
  readonly y: number
  /** Set where it joins body and engine: upright beside their bars, from here to `to`. */
  readonly to?: number
}
export interface Plate {
  readonly height: number
  readonly studs: readonly StudAt[]
  readonly metals: readonly MetalAt[]
  readonly straps: readonly StrapAt[]
}

const rowsOf = ({ returns }: EarthPoint): Omit<Row, 'y'>[] => {
  const flowing = returns.filter(({ current }) => current === null || Math.abs(current) >= FLOWS)
  const still = returns.length - flowing.length
  const rows: Omit<Row, 'y'>[] = flowing.map(({ wire, name, current }) => ({ key: wire, name, current }))
  if (still > 0) rows.push({ key: 'still', name: `${still} without current`, current: undefined })
  if (rows.length === 0) rows.push({ key: 'nothing', name: 'nothing returns here', current: undefined })
  return rows
}

export const plateOf = ({ points, straps }: ReturnTree): Plate => {
  const studs: StudAt[] = []
  const metals: MetalAt[] = []
  const at: StrapAt[] = []
  let y = TOP
  for (const metal of ['body', 'engine', 'battery negative', undefined] as const) {
    const here = points.filter((point) => point.metal === metal)
    const joined =
      metal === 'body' || metal === 'engine'
        ? straps.filter(({ joins }) => joins.includes('battery negative') && joins.includes(metal))
        : []
    if (here.length === 0 && joined.length === 0) continue
    const top = y
    for (const point of here) {
      const rows = rowsOf(point).map((row, index) => ({ ...row, y: y + index * ROW }))
      // Room for the two lines of words at the stud.
      const deep = Math.max(rows.length, 2) * ROW
      studs.push({ point, rows, y: y + ((rows.length - 1) * ROW) / 2 })
      y += deep + BETWEEN
    }
    // Each strap takes two lines of words.
    y = Math.max(y, top + joined.length * 2 * ROW + BETWEEN)
    const bottom = y - BETWEEN
    if (metal === 'body' || metal === 'engine') {
      metals.push({ name: metal === 'body' ? 'Body' : 'Engine', top: top - 10, bottom })
      joined.forEach((strap, index) => {
        at.push({ strap, y: top + ((index + 0.5) * (bottom - top)) / joined.length })
      })
    }
    y += 16
  }
  const [body, engine] = metals
  if (body && engine)
    for (const strap of straps)
      if (strap.joins.includes('body') && strap.joins.includes('engine'))
        at.push({ strap, y: body.bottom, to: engine.top })
  return { height: y - BETWEEN, studs, metals, straps: at }
}
