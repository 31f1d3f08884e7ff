/** One system over time. Lines are told apart by their stroke, and named above; each unit has its own scale. */
import { useEffect, useRef } from 'react'
import uPlot from 'uplot'
import 'uplot/dist/uPlot.min.css'
import type { Strip } from './strips.ts'

export interface Span {
  readonly from: number
  readonly to: number
}
interface Props {
  readonly system: string
  readonly strips: readonly Strip[]
  /** The time that the values span, which may be more than what is shown. */
  readonly data: Span
  readonly view: Span
  /** Steady windows that the answer rests on. */
  readonly steady: readonly Span[]
  readonly moment: number | undefined
  readonly onWindow: (from: number, to: number) => void
  readonly onMoment: (t: number) => void
}
export const DASHES: readonly (readonly number[])[] = [[], [7, 4], [2, 3], [10, 3, 2, 3], [1, 2], [12, 4]]
const HEIGHT = 160

const scaleOf = (unit: string): string => `u:${unit}`

export function TimeStrip({ system, strips, data, view, steady, moment, onWindow, onMoment }: Props) {
  const frame = useRef<HTMLDivElement>(null)
  const plot = useRef<uPlot>(undefined)
  const now = useRef({ onWindow, onMoment, steady, moment })
  now.current = { onWindow, onMoment, steady, moment }
  const structure = strips.map(({ channel, unit }) => `${channel}\u001f${unit}`).join('\u001e')
  // Made anew only when its channels change: values, window and moment are then only redrawn, sixty times a second if need be.
  // biome-ignore lint/correctness/useExhaustiveDependencies: `structure` stands for the strips' names and units.
  useEffect(() => {
    const element = frame.current
    if (!element) return
    const style = getComputedStyle(document.documentElement)
    const colour = (name: string): string => style.getPropertyValue(name).trim()
    const [ink, line, tint, action] = [colour('--ink'), colour('--line'), colour('--tint'), colour('--action')]
    const font = `12px ${style.getPropertyValue('--plain')}`
    const axis: uPlot.Axis = { stroke: ink, font, grid: { stroke: line, width: 1 }, ticks: { stroke: line, width: 1 } }
    const units = [...new Set(strips.map(({ unit }) => unit))]
    const side = (unit: string, at: number): uPlot.Axis => ({
      ...axis,
      scale: scaleOf(unit),
      side: at === 0 ? 3 : 1,
      size: 56,
      ...(at === 0 ? {} : { grid: { show: false } }),
    })
    const made = new uPlot(
      {
        width: element.clientWidth,
        height: HEIGHT,
        legend: { show: false },
        cursor: { drag: { x: true, y: false, setScale: false } },
        scales: { x: { time: false }, ...Object.fromEntries(units.map((unit) => [scaleOf(unit), { auto: true }])) },
        axes: [axis, ...units.slice(0, 2).map(side)],
        series: [
          {},
          ...strips.flatMap(({ unit }, index): uPlot.Series[] => {
            const dash = [...DASHES[index % DASHES.length]!]
            const stroke: uPlot.Series = {
              stroke: ink,
              width: 1.25,
              dash,
              scale: scaleOf(unit),
              points: { show: false },
              spanGaps: true,
            }
            return [stroke, stroke]
          }),
        ],
        hooks: {
          drawClear: [
            (self) => {
              const { ctx, bbox } = self
              ctx.save()
              ctx.fillStyle = tint
              for (const { from, to } of now.current.steady) {
                const left = Math.max(bbox.left, self.valToPos(from, 'x', true))
                const right = Math.min(bbox.left + bbox.width, self.valToPos(to, 'x', true))
                if (right > left) ctx.fillRect(left, bbox.top, right - left, bbox.height)
              }
              ctx.restore()
            },
          ],
          draw: [
            (self) => {
              const at = now.current.moment
              if (at === undefined) return
              const { ctx, bbox } = self
              const x = self.valToPos(at, 'x', true)
              if (x < bbox.left || x > bbox.left + bbox.width) return
              ctx.save()
              ctx.strokeStyle = action
              ctx.lineWidth = 2
              ctx.beginPath()
              ctx.moveTo(x, bbox.top)
              ctx.lineTo(x, bbox.top + bbox.height)
              ctx.stroke()
              ctx.restore()
            },
          ],
          setSelect: [
            (self) => {
              if (self.select.width < 4) return
              now.current.onWindow(
                self.posToVal(self.select.left, 'x'),
                self.posToVal(self.select.left + self.select.width, 'x'),
              )
              self.setSelect({ left: 0, width: 0, top: 0, height: 0 }, false)
            },
          ],
        },
      },
      [[], ...strips.flatMap(() => [[], []])] as unknown as uPlot.AlignedData,
      element,
    )
    let pressed = 0
    const down = (event: MouseEvent): void => {
      pressed = event.offsetX
    }
    const up = (event: MouseEvent): void => {
      if (Math.abs(event.offsetX - pressed) < 4) now.current.onMoment(made.posToVal(event.offsetX, 'x'))
    }
    made.over.addEventListener('mousedown', down)
    made.over.addEventListener('click', up)
    const watch = new ResizeObserver(() => made.setSize({ width: element.clientWidth, height: HEIGHT }))
    watch.observe(element)
    plot.current = made
    return () => {
      watch.disconnect()
      made.destroy()
      plot.current = undefined
    }
  }, [structure])
  useEffect(() => {
    const pixels = strips[0]?.min.length ?? 0
    const step = (data.to - data.from) / Math.max(1, pixels)
    const times = Array.from({ length: pixels }, (_, index) => data.from + (index + 0.5) * step)
    plot.current?.setData(
      [times, ...strips.flatMap((strip) => [strip.min, strip.max])] as unknown as uPlot.AlignedData,
      false,
    )
    plot.current?.setScale('x', { min: view.from, max: view.to })
  }, [strips, data.from, data.to, view.from, view.to])
  // biome-ignore lint/correctness/useExhaustiveDependencies: both are drawn by the hooks above.
  useEffect(() => plot.current?.redraw(false), [steady, moment])
  return (
    <figure className="strip">
      <figcaption>
        <strong>{system}</strong>
        {strips.map((strip, index) => (
          <span key={strip.channel}>
            <svg width="30" height="8" aria-hidden="true">
              <path d="M0 4H30" stroke="currentColor" strokeDasharray={DASHES[index % DASHES.length]!.join(' ')} />
            </svg>{' '}
            {strip.channel} <span className="soft">{strip.unit === '' ? 'no unit' : strip.unit}</span>
          </span>
        ))}
      </figcaption>
      <div ref={frame} />
    </figure>
  )
}
