/** Makes the pictures of the manual from the demo build: docs/pictures/*.png. Run `npm run build` first. */
import { mkdirSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { demoBuild, demoLogCsv } from '../demo/index.ts'
import { openPage, serveBuild, startBrowser, WIDTHS } from '../test/browser/browser.ts'

const folder = join(dirname(fileURLToPath(import.meta.url)), '../docs/pictures')
mkdirSync(folder, { recursive: true })

const FUSE_FINDING = encodeURIComponent('fuse-against-conductor:wires/W-91')
/** Name, place, what must be there before the picture is taken. */
const SCREENS = [
  ['car', '', 'main svg'],
  ['findings', '#/findings', 'main h1'],
  ['finding', `#/findings/${FUSE_FINDING}`, 'main h1'],
  ['circuits', '#/circuits/of/wires/W-302', '.drawing-room svg'],
  ['earths', '#/circuits/car/earths', 'main h1'],
  ['patterns', '#/circuits/from/patterns', 'main h1'],
  ['loom', '#/loom/runs/R-8', '[data-run="R-8"]'],
  ['jobs', '#/jobs', 'main h1'],
  ['sitting', '#/jobs/sitting', 'main h1'],
  ['signals', '#/signals/resistanceSwitches/wheel', 'main h1'],
  ['fuel', '#/fuel', 'main svg'],
  ['air', '#/air', 'main svg'],
  ['cooling', '#/cooling', 'main svg'],
  ['sheet', '#/faults/sheets/fuel-pump', 'main table'],
  ['book', '#/book', 'main h1'],
  ['calculation', '#/calculations/voltage-drop', 'main h1'],
] as const

/** Pictured on the phone and in the dark as well. */
const EVERY_WAY = new Set<string>(['car', 'circuits', 'sitting'])

const browser = await startBrowser()
const bench = await serveBuild(demoBuild())
const empty = await serveBuild(undefined)
try {
  for (const [size, theme] of [
    ['laptop', 'light'],
    ['phone', 'light'],
    ['laptop', 'dark'],
  ] as const) {
    const suffix = `${size === 'phone' ? '-phone' : ''}${theme === 'dark' ? '-dark' : ''}`
    for (const [name, place, waited] of SCREENS) {
      if (suffix !== '' && !EVERY_WAY.has(name)) continue
      const { page, close } = await openPage(browser, `${bench.address}${place}`, WIDTHS[size], theme)
      await page.locator(waited).first().waitFor()
      if (name === 'calculation') await page.getByRole('button', { name: 'Put in the figures of its check' }).click()
      await page.waitForTimeout(500)
      await page.screenshot({ path: join(folder, `${name}${suffix}.png`) })
      await close()
    }
    if (suffix !== '') continue
    const { page, close } = await openPage(browser, empty.address, WIDTHS[size], theme)
    await page.getByRole('button', { name: 'Nothing yet' }).click()
    await page.screenshot({ path: join(folder, `first-evening${suffix}.png`) })
    await close()
  }
  const { page, close } = await openPage(browser, `${bench.address}#/logs`, WIDTHS.laptop)
  await page.getByLabel('Does the charge cooler do its work?').check()
  await page
    .locator('input[type=file]')
    .setInputFiles({ name: 'evening-run.csv', mimeType: 'text/csv', buffer: Buffer.from(demoLogCsv()) })
  await page.getByRole('button', { name: 'Answer from this log' }).click()
  await page.locator('.answer').waitFor()
  await page.locator('.strip canvas').first().waitFor()
  await page.screenshot({ path: join(folder, 'logs.png'), fullPage: true })
  await page.setViewportSize(WIDTHS.phone)
  await page.waitForTimeout(300)
  await page.screenshot({ path: join(folder, 'logs-phone.png'), fullPage: true })
  await close()
} finally {
  await browser.close()
  await bench.close()
  await empty.close()
}
