/** The Book’s contents on every build: what is missing is named, what is empty says why, the whole is one plain page. */
import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild, soundBuild } from '../../demo/index.ts'
import { assess } from '../assess/assess.ts'
import { figureOf } from '../assess/testSheets/figures.ts'
import { takeReading, testSheet, tickLine } from '../assess/testSheets/testSheet.ts'
import { type Build, emptyBuild } from '../model/build.ts'
import { applyChanges } from '../model/read.ts'
import { documentsOf } from './documents.ts'
import { testSheetPage } from './testSheetPage.ts'
import { boundIn, wholeBook } from './whole.ts'

const DAY = '2026-03-01'
const of = (build: Build) => documentsOf(build, assess(build).findings, DAY)

describe('the contents', () => {
  it.each([
    ['the demo', demoBuild],
    ['the half build', halfBuild],
    ['the sound build', soundBuild],
    ['an empty build', () => emptyBuild('Empty')],
  ] as const)('of %s: each once, and nothing missing that cannot be named', (_, make) => {
    const documents = of(make())
    expect(new Set(documents.map(({ id }) => id)).size).toBe(documents.length)
    for (const { title, says, missing } of documents)
      expect([title, says, ...missing].join(' ')).not.toMatch(/undefined|NaN|\[object/)
  })
  it('says of an empty build why there is nothing', () => {
    const register = of(emptyBuild('Empty')).find(({ id }) => id === 'register')
    expect(register?.empty).toMatch(/No torque or clearance is entered yet/)
  })
  it('names what the register of the demo lacks, and the gates that are open', () => {
    const documents = of(demoBuild())
    expect(documents.find(({ id }) => id === 'register')?.missing.join(' ')).toMatch(/Fan blades.*its figure/)
    expect(documents.find(({ id }) => id === 'gates')?.missing.length).toBeGreaterThan(0)
  })
})

describe('the whole', () => {
  const build = soundBuild()
  build.name = 'Tug "<b>" {x}'
  build.collections.fixings.nut = {
    id: 'nut',
    name: 'Nut <i>left</i>',
    of: 'torque',
    asked: { least: 40, most: 50, unit: 'N·m' },
    entries: [{ value: 45, unit: 'N·m', by: 'A & B', when: '2026-02-01T08:00:00Z' }],
  }
  const documents = of(build)
  const bound = boundIn(documents)
  // Test sheets and gates solve the car again and again; the pages here are those that do not.
  const pages = new Map(
    bound.filter(({ id }) => !/^sheet|^gates/.test(id)).map(({ id, page }) => [id, page()] as const),
  )
  const whole = wholeBook(build, documents, pages, DAY)
  it('has each document once, in its contents too, and leaves out the board that has its own paper', () => {
    for (const id of pages.keys()) {
      expect(whole.split(`id="${id}"`)).toHaveLength(2)
      expect(whole).toContain(`href="#${id}"`)
    }
    expect(pages.has('board')).toBe(false)
    expect(whole).toMatch(/Layout board, A4: printed by itself/)
    expect(whole.match(/<style>/g)).toHaveLength(1)
    expect(whole.match(/<html/g)).toHaveLength(1)
  })
  it('numbers its pages, names build and day above them, and takes no name for markup', () => {
    expect(whole).toMatch(/counter\(page\)/)
    expect(whole).toMatch(/@top-left \{ content: "Tug {2,}b> {2}\{x\}, printed 2026-03-01"/)
    expect(whole).not.toMatch(/<b>|<i>left/)
    expect(whole).toMatch(/Nut &lt;i&gt;left/)
    expect(whole).not.toMatch(/undefined|NaN/)
  })
})

describe('a test sheet', () => {
  it('prints what was read and what was only ticked, and never a tick as a figure', () => {
    const build = demoBuild()
    const sheet = testSheet(build, 'fuel-pump')
    const [read, ticked] = sheet.sections
      .flatMap(({ lines }) => lines)
      .flatMap((line) => (line.kind === 'test' && line.quantity === 'volts' && line.expect?.value ? [line] : []))
    const when = { when: '2026-02-01T08:00:00Z' }
    const once = applyChanges(build, takeReading(build, sheet, read!, read!.expect!.value!, when).edit.changes)
    const html = testSheetPage(applyChanges(once, tickLine(once, sheet, ticked!, when).changes), sheet, DAY)
    expect(html).toContain(`<td>${figureOf(read!.expect!.value!, 'volts')}, in tolerance</td>`)
    expect(html).toContain('<td>done</td>')
    expect(html).not.toContain('1.00 V')
  })
})
