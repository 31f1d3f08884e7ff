/** The Services bench as people get it: what is short, rows added and tried, and an empty build. */
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

it('tells what is short, takes a thing near the exhaust, tries a drain', async () => {
  const bench = await serveBuild(demoBuild())
  for (const viewport of [WIDTHS.laptop, WIDTHS.phone]) {
    const { page, complaints, close } = await openPage(browser, bench.address, viewport)
    const services = chainPage(page)
    await services.open(bench.address, 'services')
    expect(await page.locator('main').textContent()).not.toMatch(/NaN|undefined|\[object/)
    await page
      .getByText(/The drain ends 25 mm below the oil’s level/)
      .first()
      .waitFor()
    await looksRight(page)
    if (viewport === WIDTHS.phone) {
      await page.getByText('Rows to add or take away').click()
      const near = page.getByRole('region', { name: 'What runs near the exhaust' })
      await near.getByLabel('Another thing').fill('Clutch hose')
      await near.getByLabel('Gap to the hot metal').fill('40 mm')
      await near.getByRole('button', { name: 'Add' }).click()
      await page.getByRole('heading', { name: 'Clutch hose' }).waitFor()
      await services.tryOut('Its end above the oil’s level, negative below', '30 mm')
      await services.notStored.waitFor()
      expect(await services.figureText('drain-above')).toMatch(/→ .*30/)
      await page.getByText(/Half full the drain takes 6 times the oil that comes/).waitFor()
      expect([await overflow(page), await smallText(page)]).toEqual([0, []])
    }
    expect(complaints).toEqual([])
    await close()
  }
  await bench.close()
})

it('asks for what it lacks in an empty build', async () => {
  const bench = await serveBuild(undefined)
  const { page, complaints, close } = await openPage(browser, bench.address, WIDTHS.phone)
  await chainPage(page).open(bench.address, 'services')
  await page.getByText('Enter hot oil pressure at two speeds or more', { exact: false }).waitFor()
  expect(await page.locator('main').textContent()).not.toMatch(/NaN|undefined|\[object/)
  expect([await overflow(page), await smallText(page)]).toEqual([0, []])
  expect(complaints).toEqual([])
  await close()
  await bench.close()
})
