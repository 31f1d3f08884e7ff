/** The lists of the loom: each figure traced to the build, what is unknown told, the board true. */
import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild, soundBuild } from '../../../demo/index.ts'
import { cutOf } from '../../assess/loom/cut.ts'
import { type Build, emptyBuild } from '../../model/build.ts'
import { writeBuild } from '../../model/read.ts'
import { layoutBoard } from './board.ts'
import { loomDrawing } from './drawing.ts'
import { boardPage, listPage } from './htmlPage.ts'
import { LISTS, type List } from './list.ts'
import { loomList } from './lists.ts'
import { shape, shapeAsText } from './shape.ts'
import { listAsCsv, listAsRows } from './spreadsheet.ts'

const demo = demoBuild()
const rowsOf = (list: List, table = 0) => list.tables[table]!.rows

describe('the cut list', () => {
  it('has every wire once, thickest first, with its length and both ends', () => {
    const rows = rowsOf(loomList(demo, 'cut'))
    const wires = Object.values(demo.collections.wires).filter((wire) => !wire.notForCurrent)
    expect(rows.length).toBe(wires.filter(({ fitted, restricted }) => !fitted && !restricted).length)
    expect(new Set(rows.map(([id]) => id)).size).toBe(rows.length)
    for (const [id, , , , cut] of rows) expect(cut).toBe(cutOf(demo, demo.collections.wires[String(id)]!).cut)
    // Earth strap to the controller: three runs of 0.6, 0.35 and 0.45 m, tails and service 2 × 0.2 m.
    expect(rows.find(([id]) => id === 'W-204')?.slice(0, 5)).toEqual([
      'W-204',
      '2.5 mm²',
      'BN',
      'D',
      expect.closeTo(1.8, 9),
    ])
  })
  it('says which length, size and end is missing, and for which wire', () => {
    const build = demoBuild()
    delete build.collections.runs['R-18']!.length
    delete build.collections.wires['W-301']!.area
    const list = loomList(build, 'cut')
    expect(list.missing.some((each) => /^the length of run R-18, for W-/.test(each))).toBe(true)
    expect(list.missing).toContain('cross-section of W-301')
    expect(rowsOf(list).some((row) => row[4] === undefined)).toBe(true)
    expect(listAsCsv(list)).toContain(',unknown,unknown,')
  })
  it('leaves airbag wiring and what is fitted to others, and says so', () => {
    const build = soundBuild()
    build.collections.wires['W-29']!.restricted = 'airbag'
    build.collections.wires['W-30']!.fitted = true
    for (const id of ['cut', 'labels'] as const) {
      const list = loomList(build, id)
      expect(rowsOf(list).map(([wire]) => wire)).not.toContain('W-29')
      expect(rowsOf(list).map(([wire]) => wire)).not.toContain('W-30')
      expect(list.notes.join(' ')).toMatch(/one wire is fitted already.*airbag or anti-lock/)
    }
  })
})

describe('the other lists', () => {
  it('pin tables: each wired pin with its wire and where it leads; free pins of a plug as empty', () => {
    const list = loomList(demo, 'pins')
    const ecu = list.tables.find(({ title }) => title?.startsWith('Engine controller'))!
    expect(ecu.rows.find(([pin]) => pin === 'B1')?.slice(0, 6)).toEqual([
      'B1',
      '',
      'W-242',
      '0.75 mm²',
      'WH',
      'crimped',
    ])
    expect(ecu.rows.map(([pin]) => pin)).toEqual(
      Object.keys(demo.collections.devices.ecu!.pins)
        .sort((a, b) => a.localeCompare(b, 'en', { numeric: true }))
        .flatMap((pin) => ecu.rows.filter(([each]) => each === pin).map(() => pin)),
    )
    expect(listAsCsv(list)).not.toMatch(/airbag module/i)
  })
  it('splices: the metal of all their wires together', () => {
    // Five wires: 1.5 mm² in, four of 0.75 mm² out.
    expect(rowsOf(loomList(demo, 'splices')).find(([name]) => name === 'Splice, injector supply')?.[4]).toBe('4.5 mm²')
  })
  it('fuses: what each feeds, and the next fuse behind it', () => {
    const rows = rowsOf(loomList(demo, 'fuses'))
    expect(rows.find(([name]) => name === 'Blower fuse, 20 A')?.slice(0, 5)).toEqual([
      'Blower fuse, 20 A',
      20,
      'blade',
      'Heater blower',
      'W-71 4 mm² BK/TQ',
    ])
    expect(rows.find(([name]) => String(name).startsWith('Body feed'))?.[3]).toContain('on to Horn fuse')
  })
  it('labels: two a wire, each naming its own end first', () => {
    const rows = rowsOf(loomList(soundBuild(), 'labels'))
    expect(rows.length).toBe(60)
    expect(rows[1]).toEqual([rows[0]![0], rows[0]![1], rows[0]![3], rows[0]![2]])
  })
  it('shopping: metres add up to the cut list, and waste goes on top, settable', () => {
    const build = soundBuild()
    const cut = rowsOf(loomList(build, 'cut')).reduce((sum, row) => sum + Number(row[4]), 0)
    const wire = rowsOf(loomList(build, 'shopping'))
    expect(wire.reduce((sum, row) => sum + Number(row[4]), 0)).toBeCloseTo(cut, 9)
    for (const row of wire) expect(row[5]).toBe(Math.ceil(Number(row[4]) * 1.1 - 1e-9))
    build.sheets.loom = { waste: { value: 0.5 as never } }
    for (const row of rowsOf(loomList(build, 'shopping'))) expect(row[5]).toBe(Math.ceil(Number(row[4]) * 1.5 - 1e-9))
    const ends = rowsOf(loomList(build, 'shopping'), 1)
    expect(ends.reduce((sum, row) => sum + Number(row[3]), 0)).toBe(60)
  })
  it('a piece of unknown length is told, never bought as nothing', () => {
    const build = soundBuild()
    delete build.collections.runs['R-1']!.length
    const rows = rowsOf(loomList(build, 'shopping'))
    expect(rows.some((row) => row[4] === undefined && row[5] === undefined)).toBe(true)
    expect(rows.some((row) => /of unknown length$/.test(String(row[6])))).toBe(true)
  })
})

describe('the three builds', () => {
  it.each([
    ['demo', demoBuild],
    ['sound', soundBuild],
    ['half', halfBuild],
    ['empty', () => emptyBuild('Empty')],
  ] as const)('%s: every list and board can be made, and nothing in them is not a number', (what, make) => {
    const build: Build = make()
    for (const id of LISTS) {
      const list = loomList(build, id)
      expect(list.empty !== undefined, id).toBe(list.tables.every(({ rows }) => rows.length === 0))
      if (what === 'empty') expect(list.empty, id).toBeDefined()
      const text = listPage(build, list, '2025-06-01') + listAsCsv(list)
      expect(text).not.toMatch(/NaN|undefined|Infinity/)
      for (const row of listAsRows(list)) for (const cell of row) expect(cell.value).toBeDefined()
    }
    const board = layoutBoard(build, 'A4')
    expect(board.empty !== undefined).toBe(what === 'empty')
    expect(boardPage(build, board)).not.toMatch(/NaN|undefined|Infinity/)
  })
})

describe('the layout board', () => {
  it('of the demo draws every run at its true length', () => {
    const { runs, missing } = loomDrawing(demo)
    expect(missing).toEqual([])
    expect(runs.length).toBe(Object.keys(demo.collections.runs).length)
    for (const { lying, from, to } of runs)
      expect(Math.hypot(to[0] - from[0], to[1] - from[1])).toBeCloseTo(lying.run.length!.value, 4)
  })
  it('has a millimetre for a unit: view box, paper and the bar agree; runs join from sheet to sheet', () => {
    const { sheets, tiling } = layoutBoard(demo, 'A3')
    for (const { tile, drawing } of sheets) {
      const { width, height, viewBox } = drawing.attributes
      expect(`0 0 ${Number.parseFloat(String(width))} ${Number.parseFloat(String(height))}`).toBe(viewBox)
      expect([width, height]).toEqual(tiling.sheet.map((side) => `${side * 1e3}mm`))
      const bar = drawing.inside.find((each) => typeof each !== 'string' && each.attributes['data-bar'] === '100 mm')
      expect(bar).toMatchObject({ attributes: { width: 100 } })
      const window = drawing.inside.find((each) => typeof each !== 'string' && each.tag === 'svg')!
      const [left, , wide] = String((window as typeof drawing).attributes.viewBox)
        .split(' ')
        .map(Number)
      expect((window as typeof drawing).attributes.width).toBe(wide)
      expect(left).toBeCloseTo(tile.x * 1e3, 2)
    }
  })
  it('names a run that cannot be drawn, draws one of unknown length in dashes, and says not to lay by it', () => {
    const build = demoBuild()
    delete build.collections.runs['R-20']!.length
    delete build.collections.runs['R-21']!.length
    delete build.collections.branchPoints.gearbox!.x
    const { notes } = layoutBoard(build, 'A4')
    expect(notes).toContain(
      'Run R-21 cannot be drawn: it lacks its length, or where Dash, middle and Gearbox lie on the plan.',
    )
    expect(notes.join(' ')).toMatch(/Not at their true length, drawn in dashes: R-20\./)
  })
  it('of one zone is smaller; of a zone without runs it says so', () => {
    expect(layoutBoard(demo, 'A4', 'on-engine').sheets.length).toBeLessThan(layoutBoard(demo, 'A4').sheets.length / 3)
    expect(layoutBoard(demo, 'A4', 'bulkhead').empty).toBeUndefined()
    expect(layoutBoard(demo, 'A4', 'left-footwell').empty).toBeUndefined()
    expect(layoutBoard(demo, 'A4', 'right-footwell').sheets.length).toBeGreaterThan(0)
    expect(layoutBoard(demo, 'A4', 'none').empty).toBe('No run of the loom lies in that zone.')
  })
  it('runs nothing that stands in a name', () => {
    expect(shapeAsText(shape('text', { 'aria-label': '"><script>' }, '<script>'))).toBe(
      '<text aria-label="&quot;&gt;&lt;script&gt;">&lt;script&gt;</text>',
    )
  })
})

describe('what leaves the build', () => {
  it('a formula in a name stays text', () => {
    const build = soundBuild()
    build.collections.devices['work-lamp']!.name = '=1+1'
    expect(listAsCsv(loomList(build, 'pins'))).toContain("'=1+1")
  })
  it('a build keeps its loom sheet through export and import', () => {
    const build = demoBuild()
    build.sheets.loom = { wall: 'thick', handLaid: { value: 1.15 as never } }
    expect(JSON.parse(writeBuild(build)).sheets.loom).toEqual({ handLaid: { value: 1.15 }, wall: 'thick' })
  })
})
