/**
 * What a tank holds against the height of the liquid: box, lying cylinder, or a loft of sections measured through its height.
 *
 * A section is the level area at a height; between sections the area changes in a straight line, so that the volume is
 * exact for that shape (and Simpson's rule for any prismoid whose middle section was measured).
 */
import { type Problem, Refusal } from '../../../units/problem.ts'
import { segmentArea } from './cylinderVolume.ts'

export interface Section {
  /** m above the inside bottom. */
  readonly height: number
  /** m² */
  readonly area: number
}

export type TankShape =
  | { readonly shape: 'box'; readonly length: number; readonly width: number; readonly height: number }
  | { readonly shape: 'lying cylinder'; readonly diameter: number; readonly length: number }
  | { readonly shape: 'loft'; readonly height: number; readonly sections: readonly Section[] }

export interface Tank {
  /** m inside. */
  readonly height: number
  /** m³ to the brim. */
  readonly capacity: number
  /** m³ at a height in m; `undefined` outside the tank. */
  volumeAt(height: number): number | undefined
  /** m for a volume in m³; `undefined` outside the tank. */
  heightAt(volume: number): number | undefined
}

function shapeProblems(tank: TankShape): Problem[] {
  const found: Problem[] = []
  const above0 = (path: string, value: number): void => {
    if (!(value > 0) || !Number.isFinite(value))
      found.push({
        code: 'out-of-range',
        path,
        says: `The tank’s ${path} is ${value} m.`,
        todo: 'Measure the inside, and enter it above 0.',
      })
  }
  if (tank.shape === 'box') {
    above0('length', tank.length)
    above0('width', tank.width)
    above0('height', tank.height)
  } else if (tank.shape === 'lying cylinder') {
    above0('diameter', tank.diameter)
    above0('length', tank.length)
  } else {
    above0('height', tank.height)
    if (tank.sections.length < 2)
      found.push({
        code: 'missing-input',
        path: 'sections',
        says: `The tank has ${tank.sections.length} sections, two are needed.`,
        todo: 'Measure length and width at the bottom, the top and wherever the shape changes.',
      })
    tank.sections.forEach(({ height, area }, i) => {
      if (!(height >= 0) || height > tank.height)
        found.push({
          code: 'outside-tank',
          path: `sections/${i + 1}`,
          says: `Section ${i + 1} at ${height} m lies outside the tank, which is ${tank.height} m high.`,
          todo: 'Measure the section’s height from the inside bottom again.',
        })
      if (!(area >= 0) || !Number.isFinite(area))
        found.push({
          code: 'out-of-range',
          path: `sections/${i + 1}`,
          says: `The area of section ${i + 1} is ${area} m².`,
          todo: 'Enter 0 or more.',
        })
    })
    const heights = tank.sections.map(({ height }) => height).sort((a, b) => a - b)
    if (new Set(heights).size < heights.length)
      found.push({
        code: 'doubled-section',
        path: 'sections',
        says: 'Two sections stand at one height.',
        todo: 'Keep one of them, or move one by a millimetre where the tank has a step.',
      })
    if (found.length === 0 && (heights[0] !== 0 || heights.at(-1) !== tank.height))
      found.push({
        code: 'missing-input',
        path: 'sections',
        says: 'The sections do not reach from the bottom to the top of the tank.',
        todo: 'Add the bottom (0 m) and the top; an edge has area 0.',
      })
  }
  return found
}

/** Throws `Refusal`: `out-of-range`, `missing-input`, `outside-tank`, `doubled-section`. */
export function tankOf(shape: TankShape): Tank {
  const problems = shapeProblems(shape)
  if (problems.length > 0) throw new Refusal(problems)
  let height: number
  let fill: (h: number) => number
  if (shape.shape === 'box') {
    height = shape.height
    fill = (h) => shape.length * shape.width * h
  } else if (shape.shape === 'lying cylinder') {
    height = shape.diameter
    fill = (h) => shape.length * segmentArea(shape.diameter / 2, h)
  } else {
    const sections = [...shape.sections].sort((a, b) => a.height - b.height)
    height = shape.height
    fill = (h) => {
      let volume = 0
      for (let i = 1; i < sections.length; i += 1) {
        const [a, b] = [sections[i - 1]!, sections[i]!]
        if (h <= a.height) break
        const part = Math.min(h, b.height) - a.height
        const slope = (b.area - a.area) / (b.height - a.height)
        volume += part * (a.area + (slope * part) / 2)
      }
      return volume
    }
  }
  const capacity = fill(height)
  return {
    height,
    capacity,
    volumeAt: (h) => (h >= 0 && h <= height ? fill(h) : undefined),
    heightAt(volume) {
      if (!(volume >= 0) || volume > capacity) return undefined
      let [low, high] = [0, height]
      for (let turn = 0; turn < 60; turn += 1) {
        const mid = (low + high) / 2
        if (fill(mid) < volume) low = mid
        else high = mid
      }
      return (low + high) / 2
    },
  }
}
