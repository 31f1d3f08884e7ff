/** The Brakes bench as people get it: a chosen case, two set-ups compared, and builds with half of their data or none. */
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { demoBuild, halfBuild } from '../../demo/index.ts'
import { chainPage } from '../../src/web/chain/chain.page.ts'
import { openPage, overflow, serveBuild, smallText, startBrowser, WIDTHS } from './browser.ts'
import { looksRight } from './looks.ts'

let browser: Browser
beforeAll(async () => {
  browser = await startBrowser()
})
afterAll(() => browser.close())

it('compares two cylinders at every station, on the laptop and on the phone, and stores the one that is kept', async () => {
  const bench = await serveBuild(demoBuild())
  for (const viewport of [WIDTHS.laptop, WIDTHS.phone]) {
    const { page, complaints, close } = await openPage(browser, bench.address, viewport)
    const brakes = chainPage(page)
    await brakes.open(bench.address, 'brakes')
    expect(await brakes.stations.count()).toBe(12)
    await page.getByText('Figures are no inspection.', { exact: true }).waitFor()
    expect(await page.locator('main').textContent()).not.toMatch(/\bSound\b|NaN|undefined|\[object/)
    await looksRight(page)
    await page.getByRole('button', { name: 'front circuit failed, laden: show its stations' }).click()
    expect(await brakes.figureText('front-pressure')).toMatch(/line pressure here.*0/)
    await page.getByLabel('State', { exact: true }).selectOption('all working')
    await brakes.tryOut('Bore of the master cylinder', '25.4 mm')
    await brakes.notStored.waitFor()
    expect(await brakes.figureText('force')).toMatch(/170.* → .*N.*\+\d/)
    expect(await brakes.figureText('vacuum-needed')).toMatch(/→ .*kPa.*\+\d/)
    expect(await brakes.figureText('pedal-travel')).toMatch(/→ .*mm/)
    expect(await brakes.figureText('parking-needed')).toMatch(/N/)
    expect(await brakes.figureText('fluid-margin')).toMatch(/37/)
    expect(await page.locator('.pedal-sheet').textContent()).toMatch(/Servo dead.*\+\d+.*N/)
    if (viewport === WIDTHS.phone) await looksRight(page)
    if (viewport === WIDTHS.laptop) await brakes.back.click()
    else {
      await brakes.store.click()
      await brakes.notStored.waitFor({ state: 'detached' })
      await expect.poll(() => bench.store.read().sheets.brakes?.masterCylinder?.value).toBe(0.0254)
      await page.locator('.vacuum-users summary').click()
      await page.getByLabel('Check valve of Brake servo').selectOption('no')
      await page
        .locator('[data-station="vacuum"]')
        .getByText(/its port sees boost/)
        .waitFor()
    }
    expect(complaints).toEqual([])
    await close()
  }
  await bench.close()
})

it('names what is missing in a build with half its data, and in an empty one', async () => {
  for (const build of [halfBuild(), undefined]) {
    const bench = await serveBuild(build)
    const { page, complaints, close } = await openPage(browser, bench.address, WIDTHS.phone)
    const brakes = chainPage(page)
    await brakes.open(bench.address, 'brakes')
    await page.getByText(/The drawing of which axle locks first needs: .*mass on the front axle/).waitFor()
    expect(await page.locator('main').textContent()).not.toMatch(/NaN|undefined|\[object/)
    expect([await overflow(page), await smallText(page)]).toEqual([0, []])
    expect(complaints).toEqual([])
    await close()
    await bench.close()
  }
})
