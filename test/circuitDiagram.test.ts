/** The diagram of a circuit, on builds as people have them: whole, small, half and empty. */
import Elk from 'elkjs/lib/elk.bundled.js'
import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild, soundBuild } from '../demo/index.ts'
import { small, wire } from '../src/assess/small.testing.ts'
import { type Build, emptyBuild } from '../src/model/build.ts'
import { type Diagram, diagramOf, type Part } from '../src/web/circuits/drawing/diagram.ts'
import { graphOf, layoutKey, type Placed, placedOf } from '../src/web/circuits/drawing/layout.ts'
import { LABEL } from '../src/web/circuits/drawing/measures.ts'

const partOf = ({ parts }: Diagram, id: string): Part => {
  const part = parts.find((one) => one.id === id)
  if (!part) throw new Error(`no part ${id} among ${parts.map((one) => one.id).join(', ')}`)
  return part
}
const sides = (part: Part): Record<string, string> => Object.fromEntries(part.ports.map(({ pin, side }) => [pin, side]))
const place = async (diagram: Diagram): Promise<Placed> => placedOf(diagram, await new Elk().layout(graphOf(diagram)))

describe('what belongs to a circuit', () => {
  const horn = diagramOf(demoBuild(), 'horn')

  it('holds the circuit’s own wires, each once', () => {
    expect(horn.lines.map(({ id }) => id)).toEqual(['W-50', 'W-51', 'W-52', 'W-53', 'W-54', 'W-55'])
  })
  it('stands a rail with its terminal number for the supply, and the stud for the return', () => {
    expect(partOf(horn, 'bus-30')).toMatchObject({ form: 'rail', terminal: '30', place: 'first' })
    expect(partOf(horn, 'stud-dash')).toMatchObject({ form: 'earth', place: 'last' })
  })
  it('tells terminal 15 through the relay that the ignition switch holds', () => {
    expect(partOf(diagramOf(demoBuild(), 'wipers'), 'bus-15').terminal).toBe('15')
    // Held by the controller from terminal 30, not by the key: no number of a switched supply.
    expect(partOf(diagramOf(demoBuild(), 'fuel-pump'), 'bus-engine').terminal).toBe('87')
  })
  it('draws what only feeds the circuit as a rail under its own name', () => {
    expect(partOf(diagramOf(demoBuild(), 'side-lamps'), 'light-switch')).toMatchObject({
      form: 'rail',
      terminal: '58',
      name: expect.stringContaining('58'),
    })
  })
  it('holds everything of every circuit of the demo and the sound build', () => {
    for (const build of [demoBuild(), soundBuild(), halfBuild()])
      for (const circuit of Object.keys(build.collections.circuits)) {
        const { lines, parts } = diagramOf(build, circuit)
        const wires = Object.values(build.collections.wires).filter((one) => one.circuit === circuit)
        expect(lines.map(({ id }) => id).sort()).toEqual(wires.map(({ id }) => id).sort())
        const ports = new Set(parts.flatMap((part) => part.ports.map(({ id }) => id)))
        for (const { from, to } of lines) expect([ports.has(from), ports.has(to)]).toEqual([true, true])
        expect(new Set(parts.map(({ id }) => id)).size).toBe(parts.length)
      }
  })
  it('says where a wire ends at nothing', () => {
    const build = small((b) => {
      b.collections.wires.W9 = wire('W9', 'fuse.2', 'nowhere.1')
    })
    expect(partOf(diagramOf(build, undefined), 'nowhere').name).toContain('not there')
  })
  it('is empty for an empty build', () => {
    expect(diagramOf(emptyBuild('empty'), undefined)).toEqual({ parts: [], lines: [] })
  })
})

describe('which end is on top', () => {
  it('runs every wire downwards from supply to return, however it was entered', () => {
    const turned = (build: Build): Build => {
      for (const one of Object.values(build.collections.wires)) [one.from, one.to] = [one.to, one.from]
      return build
    }
    const ends = ({ lines }: Diagram) => lines.map(({ id, from, to }) => [id, from, to])
    expect(ends(diagramOf(turned(demoBuild()), 'horn'))).toEqual(ends(diagramOf(demoBuild(), 'horn')))
    for (const { asEntered } of diagramOf(turned(demoBuild()), 'horn').lines) expect(asEntered).toBe(false)
  })
  it('puts the fed pin of fuse, lamp, relay and switch on top', () => {
    const horn = diagramOf(demoBuild(), 'horn')
    expect(sides(partOf(horn, 'fuse-horn'))).toEqual({ 1: 'top', 2: 'bottom' })
    expect(sides(partOf(horn, 'horn'))).toEqual({ '+': 'top', '-': 'bottom' })
    expect(sides(partOf(horn, 'horn-relay'))).toEqual({ 30: 'top', 86: 'top', 85: 'bottom', 87: 'bottom' })
    expect(sides(partOf(horn, 'horn-push'))).toEqual({ 1: 'top', 2: 'bottom' })
    expect(sides(partOf(diagramOf(demoBuild(), 'headlamps'), 'headlamp-left'))).toEqual({
      '56a': 'top',
      '56b': 'top',
      31: 'bottom',
    })
  })
  it('draws a plug with a way out and a way back as two ways', () => {
    const ids = diagramOf(demoBuild(), 'fuel-pump').parts.map(({ id }) => id)
    expect(ids).toContain('tank-connector/1')
    expect(ids).toContain('tank-connector/2')
  })
  it('draws what a controller feeds and what it takes in as two parts under one name', () => {
    const sensors = diagramOf(demoBuild(), 'sensors')
    expect(new Set(partOf(sensors, 'ecu/out').ports.map(({ side }) => side))).toEqual(new Set(['bottom']))
    expect(partOf(sensors, 'ecu/out').name).toBe(partOf(sensors, 'ecu').name)
    expect(sides(partOf(sensors, 'ecu'))).toMatchObject({ B24: 'top' })
  })
  it('tells a change-over switch from one with several makes', () => {
    const { parts } = diagramOf(demoBuild(), 'headlamps')
    const poles = (id: string) => parts.find((part) => part.id === id)!.poles
    expect(poles('dip-switch').map(({ common, changesOver }) => [common, changesOver])).toEqual([['56', true]])
    expect(poles('light-switch').map(({ common, changesOver }) => [common, changesOver])).toEqual([['30', false]])
  })
  it('keeps the wires as entered where the build has no supply', () => {
    const build = small((b) => {
      delete b.collections.devices.battery
      delete b.collections.devices.stud
      for (const one of Object.values(b.collections.wires))
        if (/battery|stud/.test(one.from + one.to)) delete b.collections.wires[one.id]
    })
    const { lines } = diagramOf(build, undefined)
    expect(lines.length).toBeGreaterThan(0)
    expect(lines.every(({ asEntered }) => asEntered)).toBe(true)
  })
})

describe('the layout', () => {
  it('lays every circuit out with supply above return and every wire upright or level', async () => {
    for (const build of [demoBuild(), soundBuild()])
      for (const circuit of Object.keys(build.collections.circuits)) {
        const placed = await place(diagramOf(build, circuit))
        const tops = placed.parts.filter(({ part }) => part.place === 'first').map(({ y }) => y)
        const lows = placed.parts.filter(({ part }) => part.place === 'last').map(({ y }) => y)
        if (tops.length > 0 && lows.length > 0) expect(Math.max(...tops)).toBeLessThan(Math.min(...lows))
        for (const { points } of placed.lines) {
          expect(points.length).toBeGreaterThan(1)
          for (const [index, point] of points.slice(1).entries()) {
            const before = points[index]!
            expect(Math.min(Math.abs(point.x - before.x), Math.abs(point.y - before.y))).toBeLessThan(0.5)
          }
        }
      }
  })
  it('lays no thing over another, and no label over a thing', async () => {
    const placed = await place(diagramOf(demoBuild(), 'headlamps'))
    const boxes = [
      ...placed.parts.map(({ x, y, width, height }) => ({ x, y, width, height })),
      ...placed.lines.map(({ label }) => ({ ...label, ...LABEL })),
    ]
    const clash = boxes.flatMap((a, index) =>
      boxes
        .slice(index + 1)
        .filter((b) => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height)
        .map((b) => [a, b]),
    )
    expect(clash).toEqual([])
  })
  it('gives the same places for the same circuit, and knows it by its structure alone', async () => {
    const first = diagramOf(demoBuild(), 'horn')
    const changed = demoBuild()
    changed.collections.wires['W-55']!.area = { value: 4e-6 as never }
    changed.collections.devices['horn-relay']!.zone = undefined
    const again = diagramOf(changed, 'horn')
    expect(layoutKey(again)).toBe(layoutKey(first))
    const spots = ({ parts, lines }: Placed) => [parts.map(({ x, y }) => [x, y]), lines.map(({ points }) => points)]
    expect(spots(await place(again))).toEqual(spots(await place(first)))
    delete changed.collections.wires['W-55']
    expect(layoutKey(diagramOf(changed, 'horn'))).not.toBe(layoutKey(first))
  })
})
