/** Printed records: whole, escaped, on three builds; the card names what is not entered. */
import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild, soundBuild } from '../../../demo/index.ts'
import { assess } from '../../assess/assess.ts'
import { FIRST_POWER, testSheet } from '../../assess/testSheets/testSheet.ts'
import { emptyBuild } from '../../model/build.ts'
import { breakdownCard, cardPage } from './card.ts'
import { gatesPage } from './gatesPage.ts'
import { listPage } from './listPage.ts'

describe('the breakdown card', () => {
  it('says where things are and what each fuse feeds', () => {
    const card = breakdownCard(demoBuild())
    expect(card.sections[1]!.lines.join(' ')).toMatch(/Battery, 12 V 63 A·h: Battery tray/)
    expect(card.fuses.length).toBeGreaterThan(20)
    expect(card.fuses.find(({ name }) => /^Horn fuse/.test(name))?.feeds).toMatch(/Horn/)
    expect(card.sections[2]!.lines.join(' ')).toMatch(/halvard-2\.txt/)
  })
  it('names what is not entered', () => {
    expect(breakdownCard(emptyBuild('Empty')).lacks).toEqual(
      expect.arrayContaining(['the battery', 'the fuel pump', 'how much oil it takes', 'fuses']),
    )
    for (const build of [halfBuild(), soundBuild(), emptyBuild('Empty')])
      expect(cardPage(build, '2026-03-01')).toMatch(/breakdown card<\/h1>/)
  })
})

it('the gates stand with who closed them, and a name is never taken for markup', () => {
  const build = soundBuild()
  build.name = '<b>Tug</b>'
  build.collections.evidence['E-1'] = {
    id: 'E-1',
    of: 'gate/extinguisher',
    shows: 'as it should',
    says: 'By the <door>.',
    when: '2026-01-01T08:00:00Z',
    by: 'A & B',
  }
  const page = gatesPage(build, assess(build).findings, testSheet(build, FIRST_POWER), '2026-03-01')
  expect(page).toMatch(/By the &lt;door&gt;\. \(A &amp; B, 2026-01-01\)/)
  expect(page).not.toMatch(/<b>Tug/)
  expect(page).toMatch(/Waits for “Everything off and unplugged”/)
})

it('a list is printed as a walk, claiming no law', () => {
  const demo = demoBuild()
  const page = listPage(demo, demo.collections.records.inspection!, '2026-03-01')
  expect(page).toMatch(/authority’s to say/)
  expect(page.indexOf('<h2>Nose')).toBeLessThan(page.indexOf('<h2>Rear'))
  expect(page).toMatch(/<strong>wrong<\/strong> Two clips are missing/)
})
