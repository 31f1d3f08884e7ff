/** The Book as people get it: what can be printed and what each lacks, the whole as one page, the evidence on paper. */
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { demoBuild, soundBuild } from '../../demo/index.ts'
import { emptyBuild } from '../../src/model/build.ts'
import { openPage, serveBuild, startBrowser, WIDTHS } from './browser.ts'
import { looksRight } from './looks.ts'

let browser: Browser
beforeAll(async () => {
  browser = await startBrowser()
})
afterAll(() => browser.close())

describe.each(Object.entries(WIDTHS))('at the width of a %s', (_name, viewport) => {
  it.each([
    ['the demo', demoBuild],
    ['an empty build', () => emptyBuild('Mine')],
  ] as const)('shows what will be printed of %s, and prints nothing else', async (what, build) => {
    const bench = await serveBuild(build())
    const { page, complaints, close } = await openPage(browser, `${bench.address}#/book/evidence`, viewport)
    await page.getByRole('heading', { name: 'Measured from logs' }).waitFor()
    await looksRight(page)
    if (what === 'the demo') {
      expect(await page.locator('[data-subject="readings/M-1"]').textContent()).toMatch(
        /0\.520.±.0\.040.*four steady climbs/,
      )
    } else await page.getByText('No log has answered a question yet.').waitFor()
    await page.emulateMedia({ media: 'print' })
    expect(await page.getByRole('button', { name: 'Print' }).isVisible()).toBe(false)
    expect(await page.getByRole('navigation', { name: 'Benches' }).isVisible()).toBe(false)
    expect(complaints).toEqual([])
    await close()
    await bench.close()
  })
})

it('on a phone: every document with what it lacks, a torque kept by name, and the whole Book opened', async () => {
  const bench = await serveBuild(soundBuild())
  const { page, complaints, close } = await openPage(browser, `${bench.address}#/records/fixings`, WIDTHS.phone)
  try {
    await page.getByText('No torque or clearance is entered yet.').waitFor()
    await page.getByLabel('Joint or clearance').fill('Hub nut, left')
    await page.getByLabel('At least').fill('90 Nm')
    await page.getByLabel('At most').fill('110')
    await page.getByLabel('Thread, mm').fill('12')
    await page.getByLabel('Pitch, mm').fill('1.75')
    await page.getByLabel('Property class').selectOption('8.8')
    await page.getByLabel('Nut factor with its ±').fill('0.2 ± 0.04')
    await page.getByRole('button', { name: 'Add', exact: true }).click()
    await page.getByRole('heading', { name: 'Hub nut, left' }).waitFor()
    await page.getByLabel('Who looks and measures').fill('Builder')
    await page.getByLabel('Torque now, N·m').fill('80 ± 3')
    await page.getByLabel('Marked').fill('yellow paint')
    await page.getByRole('button', { name: /^Keep/ }).click()
    await page.getByText(/below what is asked, 90 to 110/).waitFor()
    await page.getByText(/The bolt clamps with/).waitFor()
    expect(Object.values(bench.store.read().collections.fixings)).toMatchObject([
      { name: 'Hub nut, left', entries: [{ value: 80, plusMinus: 3, marked: 'yellow paint', by: 'Builder' }] },
    ])
    await looksRight(page)
    await page.goto(`${bench.address}#/book`)
    await page.getByRole('heading', { name: 'Torques and clearances' }).waitFor()
    await looksRight(page)
    await page.getByRole('button', { name: 'Make the whole Book' }).click()
    await page.getByRole('button', { name: 'Stop' }).click()
    await page.getByRole('button', { name: 'Make the whole Book' }).click()
    const opened = page.context().waitForEvent('page')
    await page.getByRole('button', { name: 'Open the whole Book to print' }).click()
    const book = await opened
    await book.getByRole('heading', { name: 'Contents' }).waitFor()
    await book.getByRole('cell', { name: /Hub nut, left/ }).waitFor()
    expect(complaints).toEqual([])
  } finally {
    await close()
    await bench.close()
  }
})
