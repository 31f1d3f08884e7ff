/** One strip: what shares a unit, over time. Lines are told apart by their stroke, and named at its side. */
import { useEffect, useRef } from 'react'
import uPlot from 'uplot'
import 'uplot/dist/uPlot.min.css'
import type { Strip } from './strips.ts'

interface Props {
  readonly strips: readonly Strip[]
  readonly t0: number
  readonly t1: number
  readonly onWindow: (from: number, to: number) => void
}
const DASHES: readonly (readonly number[])[] = [[], [7, 4], [2, 3], [10, 3, 2, 3]]
const HEIGHT = 150

export function TimeStrip({ strips, t0, t1, onWindow }: Props) {
  const frame = useRef<HTMLDivElement>(null)
  const told = useRef(onWindow)
  told.current = onWindow
  useEffect(() => {
    const element = frame.current
    if (!element) return
    const style = getComputedStyle(document.documentElement)
    const ink = style.getPropertyValue('--ink').trim()
    const line = style.getPropertyValue('--line').trim()
    const pixels = strips[0]?.min.length ?? 0
    const step = (t1 - t0) / Math.max(1, pixels)
    const times = Array.from({ length: pixels }, (_, index) => t0 + (index + 0.5) * step)
    const font = `12px ${style.getPropertyValue('--plain')}`
    const axis: uPlot.Axis = { stroke: ink, font, grid: { stroke: line, width: 1 }, ticks: { stroke: line, width: 1 } }
    const plot = new uPlot(
      {
        width: element.clientWidth,
        height: HEIGHT,
        legend: { show: false },
        cursor: { drag: { x: true, y: false, setScale: false } },
        scales: { x: { time: false, min: t0, max: t1 } },
        axes: [axis, { ...axis, size: 56 }],
        series: [
          {},
          ...strips.flatMap((_, index): uPlot.Series[] => {
            const dash = [...DASHES[index % DASHES.length]!]
            const stroke: uPlot.Series = { stroke: ink, width: 1.25, dash, points: { show: false }, spanGaps: true }
            return [stroke, stroke]
          }),
        ],
        hooks: {
          setSelect: [
            (self) => {
              if (self.select.width < 4) return
              told.current(
                self.posToVal(self.select.left, 'x'),
                self.posToVal(self.select.left + self.select.width, 'x'),
              )
            },
          ],
        },
      },
      [times, ...strips.flatMap((strip) => [[...strip.min], [...strip.max]])],
      element,
    )
    const watch = new ResizeObserver(() => plot.setSize({ width: element.clientWidth, height: HEIGHT }))
    watch.observe(element)
    return () => {
      watch.disconnect()
      plot.destroy()
    }
  }, [strips, t0, t1])
  const unit = strips[0]?.unit ?? ''
  return (
    <figure className="strip">
      <figcaption>
        {strips.map((strip, index) => (
          <span key={strip.channel}>
            <svg width="30" height="8" aria-hidden="true">
              <path d="M0 4H30" stroke="currentColor" strokeDasharray={DASHES[index % DASHES.length]!.join(' ')} />
            </svg>{' '}
            {strip.channel}
          </span>
        ))}
        <span className="soft">{unit === '' ? 'no unit' : unit}</span>
      </figcaption>
      <div ref={frame} />
    </figure>
  )
}
