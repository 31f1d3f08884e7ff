import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import writeXlsx, { type SheetData } from 'write-excel-file/node'
import { soundBuild } from '../../../demo/index.ts'
import { run } from '../../engineering/calculation.ts'
import { CONDUCTORS } from '../../engineering/electrical/conductorTable.ts'
import { voltageDrop } from '../../engineering/electrical/voltageDrop.ts'
import { type Build, emptyBuild } from '../../model/build.ts'
import { applyChanges, writeBuild } from '../../model/read.ts'
import { Refusal } from '../../units/problem.ts'
import { guessColumns } from './columns.ts'
import { wiresAsCsv } from './export.ts'
import { proposeWires, type WireListProposal } from './import.ts'
import { readTable } from './table.ts'

let folder: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'swapwright-wires-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

const file = (content: string | Buffer, name = 'list.csv'): string => {
  const path = join(folder, name)
  writeFileSync(path, content)
  return path
}
const propose = async (content: string | Buffer, build: Build = emptyBuild('Van')): Promise<WireListProposal> =>
  proposeWires(build, await readTable(file(content)))
const wiresOf = async (content: string): Promise<Build['collections']['wires']> => {
  const build = emptyBuild('Van')
  return applyChanges(build, (await propose(content, build)).edit.changes).collections.wires
}

describe('a published circuit', () => {
  // FAA AC 43.13-1B, table 11-8 (page 11-22): 0.00126 Ω/ft × 39 ft × 20 A, printed 0.98 V. 0.00126 Ω/ft is the
  // AWG 10 row of its own table 11-9 (stranded tin-plated copper, 1.26 Ω/1000 ft), so the list says AWG 10. The row
  // of 19.5 ft is not used: its printed 0.366 V is a misprint, the product being 0.49 V. Two digits: ± 0.005 V.
  it.each([
    [39, 0.98],
    [156, 3.93],
    [273, 6.88],
  ])('of %f ft drops %f V at 20 A', async (feet, printed) => {
    const wires = await wiresOf(
      `Wire,From,To,Gauge (AWG),Length (ft),Material\nP1,bus.1,load.1,10,${feet},tinned copper\n`,
    )
    const wire = wires.P1!
    expect(wire.material).toBe('tinned copper')
    const listed = CONDUCTORS.find(
      ({ family, area }) => family === 'AWG stranded, aircraft' && Math.abs(area / wire.area!.value - 1) < 1e-9,
    )!
    const { outputs } = run(voltageDrop, {
      resistance: listed.maximumResistance,
      length: wire.length!.value,
      current: 20,
    })
    expect(Math.abs(outputs.drop - printed)).toBeLessThanOrEqual(0.005)
  })
})

describe('what a row says', () => {
  it('reads sizes, lengths and colours as they are written', async () => {
    const wires = await wiresOf(
      'Wire No.;From;To;Size;Colour;Length\nW1;a.1;b.1;2,5 mm²;red/white;2 m 30\nW2;a.2;b.2;AWG 18;GNYE;5 ft 6 in\nW3;a.3;b.3;0.75 mm2;BK-BU;80 cm\n',
    )
    expect(wires.W1).toMatchObject({ from: 'a.1', to: 'b.1', colour: 'RD', tracer: 'WH' })
    expect(wires.W1?.area?.value).toBeCloseTo(2.5e-6, 12)
    expect(wires.W1?.length?.value).toBeCloseTo(2.3, 12)
    // ASTM B258: AWG 18 is 0.8230 mm², to the four digits of the wire table.
    expect((wires.W2?.area?.value ?? 0) * 1e6).toBeCloseTo(0.823, 3)
    expect(wires.W2).toMatchObject({ colour: 'GNYE' })
    expect(wires.W2?.length?.value).toBeCloseTo(5.5 * 0.3048, 12)
    expect(wires.W3).toMatchObject({ colour: 'BK', tracer: 'BU' })
  })
  it('takes the unit from the heading', async () => {
    const wires = await wiresOf(
      'id\tfrom\tfrom pin\tto\tto pin\tSize (mm²)\tLength (mm)\nW1\trelay\t87\tpump\t1\t2,5\t1200\n',
    )
    expect(wires.W1).toMatchObject({ from: 'relay.87', to: 'pump.1' })
    expect(wires.W1?.area?.value).toBeCloseTo(2.5e-6, 12)
    expect(wires.W1?.length?.value).toBeCloseTo(1.2, 12)
  })
  it('reads a workbook like a text file', async () => {
    const sheet: SheetData = [
      ['Wire', 'From', 'To', 'Size (mm²)'].map((value) => ({ value })),
      [{ value: 'W1' }, { value: 'a.1' }, { value: 'b.1' }, { value: 2.5 }],
    ]
    const path = join(folder, 'list.xlsx')
    await writeXlsx(sheet).toFile(path)
    const { edit, aside } = proposeWires(emptyBuild('Van'), await readTable(path))
    expect(aside).toEqual([])
    expect(applyChanges(emptyBuild('Van'), edit.changes).collections.wires.W1?.area?.value).toBeCloseTo(2.5e-6, 12)
  })
})

describe('what it sets aside', () => {
  it.each([
    ['a size that may be mm² or AWG', 'W1;a.1;b.1;2,5;', /Line 2: size “2,5”.*no unit.*\(wire W1\)/],
    ['a negative length', 'W1;a.1;b.1;;-2 m', /Line 2: length “-2 m” is not above zero \(wire W1\)/],
    ['an end that is missing', 'W1;;b.1;;', /Line 2: the start “” names no device.*\(wire W1\)/],
    ['a name that is no name', '__proto__;a.1;b.1;;', /wire “__proto__” cannot be filed/],
  ])('%s, by line and wire', async (_what, row, says) => {
    const { aside, wires } = await propose(`wire;from;to;size;length\n${row}\nW2;a.2;b.2;1 mm²;1 m\n`)
    expect(wires).toBe(1)
    expect(aside).toHaveLength(1)
    expect(aside[0]?.line).toBe(2)
    expect(aside[0]?.says).toMatch(says)
  })
  it('a wire that the build has already, leaving the stored one as it is', async () => {
    const build = soundBuild()
    const [id] = Object.keys(build.collections.wires)
    const proposal = await propose(`wire,from,to,size\n${id},a.1,b.1,0.5 mm2\n`, build)
    expect(proposal.aside[0]?.says).toContain(`wire ${id} is in the build already`)
    expect(writeBuild(applyChanges(build, proposal.edit.changes))).toBe(writeBuild(build))
  })
  it('a wire to an airbag circuit', async () => {
    const build = applyChanges(emptyBuild('Van'), [
      {
        collection: 'devices',
        id: 'bag',
        value: { id: 'bag', name: 'Bag', pins: { 1: {} }, spec: { kind: 'module' }, restricted: 'airbag' },
      },
    ])
    const { aside, edit } = await propose('wire,from,to\nW1,bag.1,b.1\n', build)
    expect(aside[0]?.says).toContain('part of the airbag circuit')
    expect(edit.changes).toEqual([])
  })
  it('a file that is a picture', async () => {
    await expect(propose(Buffer.from('\x89PNG\r\n\x1a\n\0\0\0\rIHDR', 'latin1'))).rejects.toThrow(
      /list\.csv is neither a CSV nor an XLSX file/,
    )
  })
  it('a table without ends, naming the columns it has', async () => {
    await expect(propose('wire,colour\nW1,RD\n')).rejects.toThrow(Refusal)
    await expect(propose('wire,colour\nW1,RD\n')).rejects.toThrow(/found: wire, colour/)
  })
})

describe('devices', () => {
  it('finds a stored device by its name, capitals and blanks apart, and makes only what is missing', async () => {
    const build = applyChanges(emptyBuild('Van'), [
      {
        collection: 'devices',
        id: 'fan-relay',
        value: { id: 'fan-relay', name: 'Fan relay', pins: { 30: {}, 87: {} }, spec: { kind: 'relay' } },
      },
      {
        collection: 'devices',
        id: 'stud',
        value: { id: 'stud', name: 'Earth stud', pins: { 1: {} }, spec: { kind: 'earth-stud', on: 'body' } },
      },
    ])
    const { edit, newDevices, aside } = await propose(
      'wire,from,to\nW1,FAN RELAY.87,Fan motor.1\nW2,fan-relay:30,Earth stud\nW3,Fan relay,Fan motor.2\n',
      build,
    )
    expect(newDevices).toEqual(['Fan-motor'])
    const { wires } = applyChanges(build, edit.changes).collections
    expect(wires.W1).toMatchObject({ from: 'fan-relay.87', to: 'Fan-motor.1' })
    expect(wires.W2).toMatchObject({ from: 'fan-relay.30', to: 'stud.1' })
    // Which of the relay's pins is meant cannot be known.
    expect(aside.map(({ says }) => says)).toEqual(['Line 4: the start “Fan relay” names no device and pin (wire W3).'])
  })
})

describe('out again', () => {
  it('comes back the same through its own CSV', async () => {
    const build = soundBuild()
    const bare: Build = { ...build, collections: { ...build.collections, wires: {} } }
    const { edit, aside } = await propose(wiresAsCsv(build), bare)
    expect(aside).toEqual([])
    const { wires } = applyChanges(bare, edit.changes).collections
    for (const [id, wire] of Object.entries(build.collections.wires)) {
      expect(wires[id]).toMatchObject({ from: wire.from, to: wire.to })
      if (wire.area) expect((wires[id]?.area?.value ?? 0) / wire.area.value).toBeCloseTo(1, 3)
    }
  })
  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1'])('a remark %j never runs in a spreadsheet', (remark) => {
    const build = applyChanges(emptyBuild('Van'), [
      { collection: 'wires', id: 'W1', value: { id: 'W1', from: 'a.1', to: 'b.1', remark } },
    ])
    const cell = wiresAsCsv(build).split(/\r\n/)[1]?.split(',').slice(7).join(',').replace(/^"/, '')
    expect(cell?.startsWith("'")).toBe(true)
  })
})

describe('headings', () => {
  it.each([
    ['Wire No.', 'id'],
    ['FROM', 'from'],
    ['To device', 'to'],
    ['mm²', 'area'],
    ['AWG', 'area'],
    ['Cross-section [mm²]', 'area'],
    ['Color', 'colour'],
    ['Length (ft)', 'length'],
  ] as const)('%s means %s', (heading, field) => {
    expect(guessColumns(['other', heading])[field]).toBe(1)
  })
})
