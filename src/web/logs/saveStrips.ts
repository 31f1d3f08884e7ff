/** The strips as they stand, as a file: SVG and PNG from the same lines, CSV from the same values. */
import type { SystemStrip } from './systems.ts'
import { DASHES, type Span } from './TimeStrip.tsx'

const WIDTH = 1000
const BAND = 150
const LEFT = 70
const TOP = 34

interface Line {
  readonly points: readonly (readonly [number, number])[]
  readonly dash: readonly number[]
}
interface Drawn {
  readonly height: number
  readonly lines: readonly Line[]
  readonly texts: readonly { readonly x: number; readonly y: number; readonly text: string }[]
}

const tidy = (value: number): string => String(Number(value.toPrecision(4)))

const draw = (systems: readonly SystemStrip[], data: Span, view: Span, title: string): Drawn => {
  const lines: Line[] = []
  const texts: { x: number; y: number; text: string }[] = [{ x: LEFT, y: 18, text: title }]
  systems.forEach(({ system, strips }, row) => {
    const top = TOP + row * (BAND + 40) + 16
    texts.push({
      x: LEFT,
      y: top - 4,
      text: `${system}: ${strips.map(({ channel, unit }) => `${channel}${unit ? ` (${unit})` : ''}`).join(', ')}`,
    })
    lines.push({
      points: [
        [LEFT, top],
        [LEFT, top + BAND],
        [WIDTH - 10, top + BAND],
      ],
      dash: [],
    })
    for (const [at, time] of [
      [LEFT, view.from],
      [WIDTH - 60, view.to],
    ] as const)
      texts.push({ x: at, y: top + BAND + 14, text: `${tidy(time)} s` })
    const units = [...new Set(strips.map(({ unit }) => unit))]
    units.forEach((unit, at) => {
      const of = strips.filter((strip) => strip.unit === unit)
      const values = of.flatMap(({ min, max }) => [...min, ...max]).filter((value): value is number => value !== null)
      const [low, high] = [Math.min(...values), Math.max(...values)]
      if (values.length === 0) return
      if (at === 0) {
        texts.push({ x: 4, y: top + 10, text: tidy(high) }, { x: 4, y: top + BAND, text: tidy(low) })
      }
      for (const strip of of) {
        const step = (data.to - data.from) / strip.min.length
        for (const side of [strip.min, strip.max]) {
          const points = side.flatMap((value, i): [number, number][] => {
            const time = data.from + (i + 0.5) * step
            if (value === null || time < view.from || time > view.to) return []
            const x = LEFT + ((time - view.from) / (view.to - view.from)) * (WIDTH - LEFT - 10)
            return [[x, top + BAND - ((value - low) / (high - low || 1)) * BAND]]
          })
          lines.push({ points, dash: DASHES[strips.indexOf(strip) % DASHES.length]! })
        }
      }
    })
  })
  return { height: TOP + systems.length * (BAND + 40) + 10, lines, texts }
}

const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;')

export const stripsAsSvg = (systems: readonly SystemStrip[], data: Span, view: Span, title: string): string => {
  const { height, lines, texts } = draw(systems, data, view, title)
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${height}" viewBox="0 0 ${WIDTH} ${height}" font-family="sans-serif" font-size="12"><rect width="100%" height="100%" fill="#fff"/>${lines
    .map(
      ({ points, dash }) =>
        `<polyline fill="none" stroke="#111" stroke-width="1"${dash.length > 0 ? ` stroke-dasharray="${dash.join(' ')}"` : ''} points="${points.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(' ')}"/>`,
    )
    .join('')}${texts.map(({ x, y, text }) => `<text x="${x}" y="${y}">${escaped(text)}</text>`).join('')}</svg>\n`
}

export const stripsAsPng = (systems: readonly SystemStrip[], data: Span, view: Span, title: string): Promise<Blob> => {
  const { height, lines, texts } = draw(systems, data, view, title)
  const canvas = document.createElement('canvas')
  canvas.width = 2 * WIDTH
  canvas.height = 2 * height
  const context = canvas.getContext('2d')!
  context.scale(2, 2)
  context.fillStyle = '#fff'
  context.fillRect(0, 0, WIDTH, height)
  context.strokeStyle = '#111'
  context.fillStyle = '#111'
  context.font = '12px sans-serif'
  for (const { points, dash } of lines) {
    context.setLineDash([...dash])
    context.beginPath()
    points.forEach(([x, y], i) => {
      if (i === 0) context.moveTo(x, y)
      else context.lineTo(x, y)
    })
    context.stroke()
  }
  for (const { x, y, text } of texts) context.fillText(text, x, y)
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error('the browser made no picture'))), 'image/png')
  })
}

export const stripsAsCsv = (systems: readonly SystemStrip[], data: Span, view: Span): string => {
  const strips = systems.flatMap((each) => each.strips)
  const cell = (text: string): string => (/[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text)
  const head = [
    'time [s]',
    ...strips.flatMap(({ channel, unit }) =>
      ['least', 'most'].map((end) => cell(`${channel}, ${end}${unit ? ` [${unit}]` : ''}`)),
    ),
  ]
  const count = strips[0]?.min.length ?? 0
  const step = (data.to - data.from) / Math.max(1, count)
  const rows = Array.from({ length: count }, (_, i) => i)
    .map((i) => ({ i, time: data.from + (i + 0.5) * step }))
    .filter(({ time }) => time >= view.from && time <= view.to)
    .map(({ i, time }) => [tidy(time), ...strips.flatMap(({ min, max }) => [min[i] ?? '', max[i] ?? ''])].join(','))
  return `${[head.join(','), ...rows].join('\n')}\n`
}

export const saveAs = (name: string, content: Blob): void => {
  const address = URL.createObjectURL(content)
  const link = document.createElement('a')
  link.href = address
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(address), 1000)
}
