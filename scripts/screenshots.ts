/** Makes the pictures of the manual from the demo build: docs/pictures/*.png. Run `npm run build` first. */
import { mkdirSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { demoBuild, demoLogCsv } from '../demo/index.ts'
import { openPage, serveBuild, startBrowser, WIDTHS } from '../test/browser/browser.ts'

const folder = join(dirname(fileURLToPath(import.meta.url)), '../docs/pictures')
mkdirSync(folder, { recursive: true })

const FUSE_FINDING = encodeURIComponent('fuse-against-conductor:wires/W-91')
const SCREENS = [
  ['car', '', []],
  ['findings', '#/findings', []],
  ['finding', `#/findings/${FUSE_FINDING}`, []],
  ['circuits', '#/circuits/sockets', []],
  ['fuel', '#/fuel', []],
  ['calculation', '#/calculations/voltage-drop', ['Put in the figures of its check']],
] as const

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
    for (const [name, place, presses] of SCREENS) {
      const { page, close } = await openPage(browser, `${bench.address}${place}`, WIDTHS[size], theme)
      await page.locator('main h1').first().waitFor()
      for (const press of presses) await page.getByRole('button', { name: press }).click()
      await page.waitForTimeout(300)
      await page.screenshot({ path: join(folder, `${name}${suffix}.png`) })
      await close()
    }
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
