/**
 * The layout board: the loom at full size on sheets of A4 or A3. Every drawing unit is a millimetre, the view box of a
 * sheet is its paper, so that a printer told "actual size" prints 100 mm as 100 mm; a bar on each sheet proves it.
 * Sheets meet at the crosses: cut two of them there, lay cross on cross, glue. Bare sheets are not made.
 */
import {
  MARGIN,
  type Mark,
  OVERLAP,
  type Paper,
  type Tile,
  type Tiling,
  tile,
} from '../../engineering/electrical/loom/tiles.ts'
import type { Build } from '../../model/build.ts'
import { type Drawing, type DrawnRun, loomDrawing, type Spot } from './drawing.ts'
import { counted } from './list.ts'
import { type Shape, shape } from './shape.ts'

export interface Board {
  readonly paper: Paper
  readonly tiling: Tiling
  /** How the sheets lie, with the loom on them. */
  readonly map: Shape
  readonly sheets: readonly { readonly tile: Tile; readonly drawing: Shape }[]
  /** How to use it, and what on it is not at its true length. */
  readonly notes: readonly string[]
  readonly empty: string | undefined
}

/** mm. */
const TEXT = 4
const LINE = TEXT * 1.3
/** Width of a character over the height of the type, generous, so that no sheet with a piece of a word is left out. */
const WIDE = 0.58
const INK = '#000'
const SOFT = '#555'

/** A thing on the board, mm, with the strokes that say on which sheets it lies. */
interface Thing {
  readonly shapes: readonly Shape[]
  readonly marks: readonly Mark[]
}

const mm = (spot: Spot): Spot => [spot[0] * 1e3, spot[1] * 1e3]
const round = (value: number): number => Math.round(value * 1e3) / 1e3
const stroke = (from: Spot, to: Spot, half: number): Mark => ({
  from: [from[0] / 1e3, from[1] / 1e3],
  to: [to[0] / 1e3, to[1] / 1e3],
  half: half / 1e3,
})
const line = ([x1, y1]: Spot, [x2, y2]: Spot, more: Shape['attributes'] = {}): Shape =>
  shape('line', {
    x1: round(x1),
    y1: round(y1),
    x2: round(x2),
    y2: round(y2),
    stroke: INK,
    'stroke-width': 0.35,
    ...more,
  })

/** `lean`: rad, of the line of words about its first point, clockwise as the eye sees it. */
const lettering = (
  at: Spot,
  lines: readonly string[],
  anchor: 'start' | 'middle' | 'end',
  size = TEXT,
  lean = 0,
): Thing => {
  const [cos, sin] = [Math.cos(lean), Math.sin(lean)]
  const turned: Shape['attributes'] =
    lean === 0 ? {} : { transform: `rotate(${round((lean * 180) / Math.PI)} ${round(at[0])} ${round(at[1])})` }
  const shapes = lines.map((text, index) =>
    shape(
      'text',
      {
        x: round(at[0]),
        y: round(at[1] + index * size * 1.3),
        'font-size': size,
        'font-family': 'sans-serif',
        'text-anchor': anchor,
        fill: INK,
        stroke: '#fff',
        'stroke-width': 0.8,
        'paint-order': 'stroke',
        ...turned,
        ...(index === 0 ? { 'font-weight': 600 } : {}),
      },
      text,
    ),
  )
  const wide = Math.max(...lines.map((text) => text.length)) * size * WIDE
  const left = anchor === 'start' ? 0 : anchor === 'end' ? -wide : -wide / 2
  const spot = (x: number, y: number): Spot => [at[0] + x * cos - y * sin, at[1] + x * sin + y * cos]
  return {
    shapes,
    marks: lines.map((_, index) => {
      const y = index * size * 1.3 - size / 2
      return stroke(spot(left, y), spot(left + wide, y), size * 0.7)
    }),
  }
}

const runThings = ({ lying, dressed, from: start, to: goal, thick, isTrue, off }: DrawnRun): Thing[] => {
  const [from, to] = [mm(start), mm(goal)]
  const long = Math.hypot(to[0] - from[0], to[1] - from[1])
  if (long === 0) return []
  const [ux, uy] = [(to[0] - from[0]) / long, (to[1] - from[1]) / long]
  const half = (thick * 1e3) / 2
  const side = (way: 1 | -1, [x, y]: Spot, by = half): Spot => [x - way * uy * by, y + way * ux * by]
  const dash: Shape['attributes'] = isTrue ? {} : { 'stroke-dasharray': '6 4' }
  const along = (far: number): Spot => [from[0] + ux * far, from[1] + uy * far]
  const shapes: Shape[] = [
    line(from, to, { stroke: SOFT, 'stroke-width': 0.2, 'stroke-dasharray': '8 2 1 2' }),
    ...(half > 0
      ? [line(side(1, from), side(1, to), dash), line(side(-1, from), side(-1, to), dash)]
      : [line(from, to, dash)]),
  ]
  // A tick every 100 mm from its first end.
  if (isTrue)
    for (let far = 100; far < long - 1; far += 100)
      shapes.push(line(side(1, along(far), half + 2), side(-1, along(far), half + 2), { 'stroke-width': 0.2 }))
  const { run } = lying
  const { bundle, over, tubing, bend } = dressed
  const length = run.length ? `${Math.round(run.length.value * 1e3)} mm` : 'length not known'
  const words = [
    `${run.id}  ${length}${off === undefined ? '' : `, drawn ${Math.round(Math.abs(off) * 1e3)} mm too ${off > 0 ? 'long' : 'short'}`}`,
    `${counted(lying.wires.length, 'wire', 'wires')}, ${bundle && over ? `Ø ${Math.round(over * 1e3)} mm as laid` : 'thickness not known'}`,
    [
      run.sleeve === undefined
        ? 'no sleeve'
        : run.sleeveBore
          ? `${run.sleeve}, ${Math.round(run.sleeveBore.value * 1e3)} mm inside`
          : typeof tubing === 'object'
            ? `${run.sleeve} size ${tubing.size}`
            : run.sleeve,
      bend ? `bend ≥ ${Math.ceil(bend.free * 1e3 - 1e-9)} mm` : '',
    ]
      .filter(Boolean)
      .join('; '),
  ]
  // Words run along the bundle, above it, and are never upside down.
  const isBack = ux < -1e-9 || (Math.abs(ux) <= 1e-9 && uy > 0)
  const lean = Math.atan2(isBack ? -uy : uy, isBack ? -ux : ux)
  const beyond = (at: Spot, out: number): Spot => [at[0] + Math.sin(lean) * out, at[1] - Math.cos(lean) * out]
  const label = lettering(beyond(along(long / 2), half + 4 + (words.length - 1) * LINE), words, 'middle', TEXT, lean)
  const again: Thing[] = []
  for (let far = 200; far < long - 80; far += 200)
    if (Math.abs(far - long / 2) >= 80)
      again.push(lettering(beyond(along(far), -half - TEXT - 1), [run.id], 'middle', 3, lean))
  return [{ shapes, marks: [stroke(from, to, half + 2)] }, label, ...again]
}

/** More than these are told by their number. */
const MOST_DEVICES = 6

const pointThings = ({ points }: Drawing): Thing[] =>
  points.flatMap(({ name, at, devices, free }) => {
    const [x, y] = mm(at)
    const peg: Thing = {
      shapes: [
        line([x - 6, y], [x + 6, y]),
        line([x, y - 6], [x, y + 6]),
        shape('circle', { cx: round(x), cy: round(y), r: 3, fill: 'none', stroke: INK, 'stroke-width': 0.35 }),
      ],
      marks: [stroke([x - 6, y], [x + 6, y], 6)],
    }
    const told = devices.slice(0, devices.length > MOST_DEVICES ? MOST_DEVICES - 1 : MOST_DEVICES)
    const lines = [
      name,
      ...told.map((device) => `${device.name}: ${counted(device.wires, 'wire', 'wires')}`),
      ...(devices.length > told.length ? [`and ${devices.length - told.length} more, see the pin tables`] : []),
    ]
    const [cos, sin] = [Math.cos(free), Math.sin(free)]
    const anchor = cos > 0.35 ? 'start' : cos < -0.35 ? 'end' : 'middle'
    const top =
      y +
      sin * 14 +
      (sin >= 0.35 ? TEXT : sin <= -0.35 ? -(lines.length - 1) * LINE : (-lines.length * LINE) / 2 + TEXT)
    return [peg, lettering([x + cos * 14, top], lines, anchor)]
  })

const partOf = (drawing: Drawing, zone: string | undefined): Drawing => {
  if (zone === undefined) return drawing
  const runs = drawing.runs.filter(({ lying }) => lying.run.zone === zone)
  const ends = new Set(runs.flatMap(({ lying }) => [lying.run.from, lying.run.to]))
  return {
    ...drawing,
    runs,
    points: drawing.points.filter(({ id }) => ends.has(id)),
    missing: drawing.missing.filter(({ lying }) => lying.run.zone === zone),
  }
}

/** `zone`: only the runs that lie in it; without it the whole loom. */
export const layoutBoard = (build: Build, paper: Paper, zone?: string): Board => {
  const drawing = partOf(loomDrawing(build), zone)
  const things = [...drawing.runs.flatMap(runThings), ...pointThings(drawing)]
  const tiling = tile(
    things.flatMap(({ marks }) => marks),
    paper,
  )
  const untrue = drawing.runs.filter(({ isTrue }) => !isTrue)
  const angle = Math.round((drawing.turned * 180) / Math.PI)
  return {
    paper,
    tiling,
    map: mapOf(tiling, drawing),
    sheets: tiling.tiles.map((each, index) => ({ tile: each, drawing: sheet(tiling, each, index, things) })),
    notes: [
      `${counted(tiling.tiles.length, 'sheet', 'sheets')} of ${paper}, laid ${tiling.turned ? 'across' : 'upright'}. Print at actual size, 100 %, never “fit to page”, and measure the bar on each sheet: it is 100 mm long, or the sheet is wrong.`,
      'Sheets that would be bare are left out. Lay cross on cross, cut one of each pair along its dashed line, and glue.',
      'The loom is seen from above, nose to the left, laid flat: each run straight at its length along its way in the car.',
      ...(angle >= 1
        ? [
            `So that runs that form rings close at their true lengths, they are turned by up to ${angle}° from their direction in the car.`,
          ]
        : []),
      ...(untrue.length > 0
        ? [
            `Not at their true length, drawn in dashes: ${untrue.map(({ lying }) => lying.run.id).join(', ')}. Lay none of the loom by them.`,
          ]
        : []),
      ...drawing.missing.map(({ lying, lacks }) => `Run ${lying.run.id} cannot be drawn: it lacks ${lacks}.`),
      'Tails to the devices are not drawn: their length is in the cut list.',
    ],
    empty:
      tiling.tiles.length > 0
        ? undefined
        : drawing.missing.length > 0
          ? 'No run can be drawn yet: each lacks its length, or where its ends lie on the plan.'
          : zone !== undefined
            ? 'No run of the loom lies in that zone.'
            : 'The loom has no run yet. Enter branch points and the runs between them.',
  }
}

const EDGE = MARGIN * 1e3
const LAP = OVERLAP * 1e3

const sheet = (
  { sheet: [w, h], shown, tiles, paper }: Tiling,
  each: Tile,
  index: number,
  things: readonly Thing[],
): Shape => {
  const [width, height] = [w * 1e3, h * 1e3]
  const [left, top] = [each.x * 1e3, each.y * 1e3]
  const [inW, inH] = [shown[0] * 1e3, shown[1] * 1e3]
  const inside = things
    .filter(({ marks }) => marks.some((mark) => onSheet(mark, left, top, inW, inH)))
    .flatMap(({ shapes }) => shapes)
  // The line in the middle of what two sheets share.
  const [x0, x1, y0, y1] = [EDGE + LAP / 2, width - EDGE - LAP / 2, EDGE + LAP / 2, height - EDGE - LAP / 2]
  const faint = { stroke: SOFT, 'stroke-width': 0.15, 'stroke-dasharray': '2 2' }
  const cross = ([x, y]: Spot): Shape[] => [
    line([x - 4, y], [x + 4, y], { 'stroke-width': 0.25 }),
    line([x, y - 4], [x, y + 4], { 'stroke-width': 0.25 }),
  ]
  const beside = (dx: number, dy: number): string | undefined =>
    tiles.find(({ column, row }) => column === each.column + dx && row === each.row + dy)?.name
  const small = (x: number, y: number, text: string, anchor: string, size = 3): Shape =>
    shape('text', { x, y, 'font-size': size, 'font-family': 'sans-serif', 'text-anchor': anchor, fill: INK }, text)
  const neighbours = (
    [
      [-1, 0, x0 + 2, height / 2, 'start', '← '],
      [1, 0, x1 - 2, height / 2, 'end', '→ '],
      [0, -1, width / 2, y0 + 4, 'middle', '↑ '],
      [0, 1, width / 2, y1 - 2, 'middle', '↓ '],
    ] as const
  ).flatMap(([dx, dy, x, y, anchor, arrow]) => {
    const name = beside(dx, dy)
    return name === undefined ? [] : [small(x, y, `${arrow}${name}`, anchor)]
  })
  const barY = y1 - 6
  return shape(
    'svg',
    {
      width: `${width}mm`,
      height: `${height}mm`,
      viewBox: `0 0 ${width} ${height}`,
      role: 'img',
      'aria-label': `Sheet ${each.name}`,
    },
    shape('rect', { x: 0, y: 0, width, height, fill: '#fff' }),
    shape(
      'svg',
      {
        x: EDGE,
        y: EDGE,
        width: inW,
        height: inH,
        viewBox: `${round(left)} ${round(top)} ${inW} ${inH}`,
        overflow: 'hidden',
      },
      ...inside,
    ),
    line([x0, y0], [x1, y0], faint),
    line([x0, y1], [x1, y1], faint),
    line([x0, y0], [x0, y1], faint),
    line([x1, y0], [x1, y1], faint),
    ...cross([x0, y0]),
    ...cross([x1, y0]),
    ...cross([x0, y1]),
    ...cross([x1, y1]),
    ...neighbours,
    shape('rect', { x: x0 + 3, y: barY - 7, width: 140, height: 11, fill: '#fff' }),
    shape('rect', { x: x0 + 5, y: barY - 1.5, width: 50, height: 3, fill: INK, 'data-bar': 'first' }),
    shape('rect', {
      x: x0 + 5,
      y: barY - 1.5,
      width: 100,
      height: 3,
      fill: 'none',
      stroke: INK,
      'stroke-width': 0.25,
      'data-bar': '100 mm',
    }),
    small(x0 + 5, barY - 3.2, '0', 'middle'),
    small(x0 + 55, barY - 3.2, '50', 'middle'),
    small(x0 + 105, barY - 3.2, '100 mm', 'middle'),
    small(x0 + 112, barY + 1.5, `${each.name}`, 'start', 7),
    small(x0 + 126, barY + 1.5, `${index + 1}/${tiles.length} ${paper}`, 'start'),
  )
}

const onSheet = ({ from, to, half }: Mark, left: number, top: number, width: number, height: number): boolean => {
  const out = (axis: 0 | 1, low: number, size: number): boolean =>
    Math.max(from[axis], to[axis]) * 1e3 + half * 1e3 < low ||
    Math.min(from[axis], to[axis]) * 1e3 - half * 1e3 > low + size
  return !out(0, left, width) && !out(1, top, height)
}

/** mm that margins, heading and notes take of the first page: what is left is the map's. */
const BESIDE = 30
const ABOVE = 115

const mapOf = ({ sheet: paper, shown, tiles }: Tiling, { runs }: Drawing): Shape => {
  const [w, h] = [shown[0] * 1e3, shown[1] * 1e3]
  const [left, top] = [Math.min(...tiles.map(({ x }) => x)) * 1e3, Math.min(...tiles.map(({ y }) => y)) * 1e3]
  const right = Math.max(...tiles.map(({ x }) => x)) * 1e3 + w
  const bottom = Math.max(...tiles.map(({ y }) => y)) * 1e3 + h
  if (tiles.length === 0) return shape('svg', { width: '1mm', height: '1mm', viewBox: '0 0 1 1' })
  const scale = Math.min((paper[0] * 1e3 - BESIDE) / (right - left), (paper[1] * 1e3 - ABOVE) / (bottom - top))
  const thin = 0.25 / scale
  return shape(
    'svg',
    {
      width: `${round((right - left) * scale)}mm`,
      height: `${round((bottom - top) * scale)}mm`,
      viewBox: `${round(left)} ${round(top)} ${round(right - left)} ${round(bottom - top)}`,
      role: 'img',
      'aria-label': 'How the sheets lie',
    },
    ...tiles.flatMap(({ name, x, y }) => [
      shape('rect', {
        x: round(x * 1e3 + LAP / 2),
        y: round(y * 1e3 + LAP / 2),
        width: round(w - LAP),
        height: round(h - LAP),
        fill: '#fff',
        stroke: SOFT,
        'stroke-width': thin,
      }),
      shape(
        'text',
        {
          x: round(x * 1e3 + w / 2),
          y: round(y * 1e3 + h / 2),
          'font-size': round(Math.min(3.6 / scale, h / 3)),
          'font-family': 'sans-serif',
          'text-anchor': 'middle',
          fill: SOFT,
        },
        name,
      ),
    ]),
    ...runs.map(({ from, to, thick }) =>
      line(mm(from), mm(to), { 'stroke-width': Math.max(thin * 2, thick * 1e3), 'stroke-opacity': 0.75 }),
    ),
  )
}
