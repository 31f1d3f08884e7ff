/** Blocks as spreadsheets copy them, laid over the wires of a small build. */
import { describe, expect, it } from 'vitest'
import { small } from '../../../assess/small.testing.ts'
import type { Build, Wire } from '../../../model/build.ts'
import { applyChanges } from '../../../model/read.ts'
import { deviceColumns, WIRE_COLUMNS, wireFromRow } from '../edits.ts'
import { type Pasted, planPaste, readBlock } from './paste.ts'

const AREA = 2
const onWires = (build: Build, text: string, row = 0, column = AREA): Pasted =>
  planPaste<Wire>(build, readBlock(text)!, {
    collection: 'wires',
    items: Object.values(build.collections.wires),
    columns: WIRE_COLUMNS,
    row,
    column,
    make: wireFromRow(build, undefined),
  })

it('reads tabs and line ends, drops the last line end, and leaves a single cell to the cell', () => {
  expect(readBlock('1\t2\r\n3\t4\r\n')).toEqual([
    ['1', '2'],
    ['3', '4'],
  ])
  expect(readBlock('"a ""b"""\tc')).toEqual([['a "b"', 'c']])
  expect(readBlock('2.5 mm²')).toBeUndefined()
  expect(readBlock('2.5 mm²\n')).toBeUndefined()
})

describe('a block on the wires', () => {
  it('fills cells with their units as one list of changes', () => {
    const build = small()
    const [first, second] = Object.values(build.collections.wires)
    const pasted = onWires(build, '4 mm²\t2 m\trd\n1.5 mm²\t80 cm\tbk')
    expect(pasted).toMatchObject({ taken: 6, bad: [] })
    const next = applyChanges(build, pasted.changes).collections.wires
    expect(next[first!.id]).toMatchObject({ area: { value: 4e-6 }, length: { value: 2 }, colour: 'RD' })
    expect(next[second!.id]!.length!.value).toBeCloseTo(0.8, 12)
    expect(build.collections.wires[first!.id]).toEqual(first)
  })
  it('lists each bad cell with what is wrong and keeps the good ones ready', () => {
    const build = small()
    const [first, second] = Object.values(build.collections.wires)
    const pasted = onWires(build, '4 mm²\tlong\n-1 mm²\t2 m')
    expect(pasted.taken).toBe(2)
    expect(pasted.bad.map(({ where, text }) => [where, text])).toEqual([
      [`Length of ${first!.id}`, 'long'],
      [`Size of ${second!.id}`, '-1 mm²'],
    ])
    for (const { problems } of pasted.bad) expect(problems[0]!.says.length).toBeGreaterThan(5)
    const next = applyChanges(build, pasted.changes).collections.wires
    expect(next[first!.id]!.area!.value).toBe(4e-6)
    expect(next[first!.id]!.length).toEqual(first!.length)
    expect(next[second!.id]!.area).toEqual(second!.area)
  })
  it('makes wires of rows below the last that bring both ends, and refuses those that do not', () => {
    const build = small()
    const rows = Object.keys(build.collections.wires).length
    const made = onWires(build, 'fuse.2\tlamp.+\t1 mm²\nlamp.-\tstud.S\t1 mm²', rows, 0)
    expect(made.bad).toEqual([])
    expect(Object.keys(applyChanges(build, made.changes).collections.wires).length).toBe(rows + 2)
    const refused = onWires(build, '1 mm²\n2 mm²', rows)
    expect(refused.changes).toEqual([])
    expect(refused.bad[0]!.problems[0]!.says).toMatch(/below the last row/)
  })
  it('never alters what belongs to the airbag', () => {
    const build = small()
    Object.values(build.collections.wires)[0]!.restricted = 'airbag'
    const pasted = onWires(build, '4 mm²\n4 mm²')
    expect(pasted.taken).toBe(1)
    expect(pasted.bad[0]!.problems[0]!.says).toMatch(/airbag/)
  })
  it('says when there is no column', () => {
    expect(onWires(small(), 'RD\tBK\tRD', 0, 5).bad.map(({ where }) => where)).toEqual([
      expect.stringMatching(/^Column 7/),
      expect.stringMatching(/^Column 8/),
    ])
  })
})

it('takes zones by name and figures by kind on devices', () => {
  const build = small()
  const items = Object.values(build.collections.devices).filter(({ id }) => id === 'fuse' || id === 'lamp')
  const pasted = planPaste(build, readBlock('Lamp fuse\tbay\t15 A\nLamp\tnowhere\t3')!, {
    collection: 'devices',
    items,
    columns: deviceColumns(build),
    row: 0,
    column: 0,
  })
  expect(pasted.bad.map(({ where }) => where)).toEqual(['Zone of lamp', 'Figure of lamp'])
  expect(applyChanges(build, pasted.changes).collections.devices.fuse!.spec).toMatchObject({ rating: { value: 15 } })
})
