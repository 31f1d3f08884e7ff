/**
 * A drawing at full size cut into sheets of paper that are glued edge over edge.
 *   Sheets: ISO 216, A4 210 × 297 mm and A3 297 × 420 mm [from memory]. MARGIN is what a printer leaves white, OVERLAP what
 *   two neighbours share: common practice, no published source.
 * Only sheets that something lies on are made. All lengths in metres, x to the right and y down.
 */
export const PAPERS = { A4: [0.21, 0.297], A3: [0.297, 0.42] } as const
export type Paper = keyof typeof PAPERS
export const MARGIN = 0.01
export const OVERLAP = 0.01

/** A stroke with its half-width, or a box as a stroke of its middle line. */
export interface Mark {
  readonly from: readonly [number, number]
  readonly to: readonly [number, number]
  readonly half: number
}
export interface Tile {
  /** `C2`: column C from the left, row 2 from the top. */
  readonly name: string
  readonly column: number
  readonly row: number
  /** Top left of what it shows, m on the board. */
  readonly x: number
  readonly y: number
}
export interface Tiling {
  readonly paper: Paper
  readonly turned: boolean
  /** Paper as it lies, m. */
  readonly sheet: readonly [number, number]
  /** What a sheet shows, m: the paper without its margins. */
  readonly shown: readonly [number, number]
  readonly columns: number
  readonly rows: number
  readonly tiles: readonly Tile[]
}

const letters = (column: number): string =>
  column < 26 ? String.fromCharCode(65 + column) : `${letters(Math.floor(column / 26) - 1)}${letters(column % 26)}`

/** The way of laying the sheets, upright or across, that needs the fewer. */
export const tile = (marks: readonly Mark[], paper: Paper): Tiling => {
  const [upright, across] = [laid(marks, paper, false), laid(marks, paper, true)]
  return across.tiles.length < upright.tiles.length ? across : upright
}

const laid = (marks: readonly Mark[], paper: Paper, turned: boolean): Tiling => {
  const [short, long] = PAPERS[paper]
  const sheet = turned ? ([long, short] as const) : ([short, long] as const)
  const shown = [sheet[0] - 2 * MARGIN, sheet[1] - 2 * MARGIN] as const
  const step = [shown[0] - OVERLAP, shown[1] - OVERLAP] as const
  const reach = (axis: 0 | 1): readonly [number, number] => [
    Math.min(...marks.map(({ from, to, half }) => Math.min(from[axis], to[axis]) - half)),
    Math.max(...marks.map(({ from, to, half }) => Math.max(from[axis], to[axis]) + half)),
  ]
  if (marks.length === 0) return { paper, turned, sheet, shown, columns: 0, rows: 0, tiles: [] }
  const [[left, right], [top, bottom]] = [reach(0), reach(1)]
  const count = (size: number, axis: 0 | 1): number => Math.max(1, Math.ceil((size - OVERLAP) / step[axis] - 1e-9))
  const [columns, rows] = [count(right - left, 0), count(bottom - top, 1)]
  // What is over is shared out, so that the drawing lies in the middle of its sheets.
  const x0 = left - (columns * step[0] + OVERLAP - (right - left)) / 2
  const y0 = top - (rows * step[1] + OVERLAP - (bottom - top)) / 2
  const tiles: Tile[] = []
  for (let row = 0; row < rows; row += 1)
    for (let column = 0; column < columns; column += 1) {
      const [x, y] = [x0 + column * step[0], y0 + row * step[1]]
      if (marks.some((mark) => touches(mark, x, y, x + shown[0], y + shown[1])))
        tiles.push({ name: `${letters(column)}${row + 1}`, column, row, x, y })
    }
  return { paper, turned, sheet, shown, columns, rows, tiles }
}

/** Whether a stroke enters the box, its half-width added on all sides (Liang and Barsky's clipping of a line). */
const touches = ({ from, to, half }: Mark, x0: number, y0: number, x1: number, y1: number): boolean => {
  let [enter, leave] = [0, 1]
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]]
  for (const [step, room] of [
    [-dx, from[0] - (x0 - half)],
    [dx, x1 + half - from[0]],
    [-dy, from[1] - (y0 - half)],
    [dy, y1 + half - from[1]],
  ] as const) {
    if (step === 0) {
      if (room < 0) return false
    } else if (step < 0) enter = Math.max(enter, room / step)
    else leave = Math.min(leave, room / step)
  }
  return enter <= leave
}
