/** The Driveline bench as people get it: what gives out first in a gear, two set-ups compared, and builds without data. */
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { demoBuild } from '../../demo/index.ts'
import { chainPage } from '../../src/web/chain/chain.page.ts'
import { openPage, overflow, serveBuild, smallText, startBrowser, WIDTHS } from './browser.ts'
import { looksRight } from './looks.ts'

let browser: Browser
beforeAll(async () => {
  browser = await startBrowser()
})
afterAll(() => browser.close())

it('names what gives out first in each gear, tries a shaft in two pieces and a longer final drive, and stores them', async () => {
  const bench = await serveBuild(demoBuild())
  for (const viewport of [WIDTHS.laptop, WIDTHS.phone]) {
    const { page, complaints, close } = await openPage(browser, bench.address, viewport)
    const driveline = chainPage(page)
    await driveline.open(bench.address, 'driveline')
    expect(await driveline.stations.count()).toBe(12)
    await page.getByText('Figures are no inspection.', { exact: true }).waitFor()
    expect(await page.locator('main').textContent()).not.toMatch(/\bSound\b|NaN|undefined|\[object/)
    await page.getByText(/the first to give out is the axle, at 182\.6/).waitFor()
    await looksRight(page)
    if (viewport === WIDTHS.laptop) {
      expect(complaints).toEqual([])
      await close()
      continue
    }
    await page.getByLabel('Gear', { exact: true }).selectOption('2')
    await page.getByText(/In 3rd gear, laden, the first to give out is the gearbox/).waitFor()
    await page.getByLabel('Gear', { exact: true }).selectOption('0')
    await driveline.tryOut('Longest piece, joint to joint or centre bearing', '0.78 m')
    await driveline.tryOut('Ratio of the final drive', '3,4')
    await driveline.notStored.waitFor()
    expect(await driveline.figureText('critical')).toMatch(/→ .*\+/)
    expect(await driveline.figureText('cruise-revs')).toMatch(/→ .*rpm.*−/)
    await driveline.tryOut('Ratio of the final drive', 'three')
    await page.getByText(/“three” is no number above 0/).waitFor()
    await driveline.tryOut('Ratio of the final drive', '3,4')
    await driveline.store.click()
    await driveline.notStored.waitFor({ state: 'detached' })
    await expect.poll(() => bench.store.read().sheets.vehicle?.finalDrive).toBe(3.4)
    expect(bench.store.read().sheets.driveline?.propshaftLength?.value).toBe(0.78)
    expect(complaints).toEqual([])
    await close()
  }
  await bench.close()
})

it('names what is missing in an empty build', async () => {
  const bench = await serveBuild(undefined)
  const { page, complaints, close } = await openPage(browser, bench.address, WIDTHS.phone)
  await chainPage(page).open(bench.address, 'driveline')
  await page
    .getByText(/Where the shaft whirls needs: .*length of the propeller shaft/)
    .locator('visible=true')
    .waitFor()
  expect(await page.locator('main').textContent()).not.toMatch(/NaN|undefined|\[object/)
  expect([await overflow(page), await smallText(page)]).toEqual([0, []])
  expect(complaints).toEqual([])
  await close()
  await bench.close()
})
