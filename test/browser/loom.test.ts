/** The loom as people get it: drawn to scale, a run opened, lists to print and take away, the board at full size. */
import { inflateSync } from 'node:zlib'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { demoBuild } from '../../demo/index.ts'
import { emptyBuild } from '../../src/model/build.ts'
import { openPage, overflow, serveBuild, smallText, startBrowser, WIDTHS } from './browser.ts'
import { looksRight } from './looks.ts'

let browser: Browser
beforeAll(async () => {
  browser = await startBrowser()
})
afterAll(() => browser.close())

/** Length on the page of a run drawn, px. */
const drawnLength = (page: Page, run: string): Promise<number> =>
  page.locator(`[data-run="${run}"] line.run`).evaluate((line) => {
    const [x1, y1, x2, y2] = ['x1', 'y1', 'x2', 'y2'].map((name) => Number(line.getAttribute(name))) as [
      number,
      number,
      number,
      number,
    ]
    return Math.hypot(x2 - x1, y2 - y1)
  })

it.each(Object.entries(WIDTHS))(
  'draws the runs to one scale, opens one, and prints its lists, at the width of a %s',
  async (name, viewport) => {
    const bench = await serveBuild(demoBuild())
    const { page, complaints, close } = await openPage(browser, `${bench.address}#/loom`, viewport)
    await page.locator('[data-run="R-8"]').waitFor()
    // 1.60 m against 0.80 m.
    expect((await drawnLength(page, 'R-20')) / (await drawnLength(page, 'R-19'))).toBeCloseTo(2, 2)
    await page.getByLabel('Run', { exact: true }).selectOption('R-8')
    await page.getByRole('heading', { name: 'Run R-8: Bulkhead, left to Dash, left' }).waitFor()
    expect(await page.locator('.run-facts').textContent()).toContain('27 mm; at the very tightest 25 mm')
    expect(await page.locator('.wires-in-run tbody tr').count()).toBe(57)
    await looksRight(page)
    if (name === 'laptop') {
      // A sleeve too small is found at once, and found no more when it is taken back.
      const sleeve = page.getByLabel('sleeve, inside, run R-8')
      await sleeve.fill('20 mm')
      await sleeve.press('Enter')
      await page.getByText('its split conduit, 20 mm inside, cannot take them').waitFor()
      await page.getByRole('button', { name: 'Undo' }).click()
      await page.getByText('its split conduit, 20 mm inside, cannot take them').waitFor({ state: 'detached' })
    }
    await page.getByRole('link', { name: 'Shopping list' }).click()
    await page.getByRole('heading', { name: 'Shopping list' }).waitFor()
    expect(await overflow(page)).toBeLessThanOrEqual(0)
    expect(await smallText(page)).toEqual([])
    if (name === 'laptop') {
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: 'XLSX' }).click(),
      ])
      expect(download.suggestedFilename()).toBe('shopping.xlsx')
    }
    await page.emulateMedia({ media: 'print' })
    expect(await page.getByRole('button', { name: 'Print' }).isVisible()).toBe(false)
    expect(complaints).toEqual([])
    await close()
    await bench.close()
  },
)

/** Units of a page of the PDF are 1/72 in: what a millimetre of a drawing is scaled by, on each page that holds one. */
const scalesOf = (pdf: Buffer): number[] => {
  const found: number[] = []
  const text = pdf.toString('latin1')
  for (const { index, 0: start } of text.matchAll(/stream\r?\n/g)) {
    const from = index + start.length
    let page = ''
    try {
      page = inflateSync(pdf.subarray(from, text.indexOf('endstream', from))).toString('latin1')
    } catch {
      // Pictures and fonts are kept in other ways.
      continue
    }
    const outer = /^(\S+) 0 0 -\S+ 0 \S+ cm/.exec(page)
    const sheet = /(\S+) 0 0 \1 \S+ \S+ cm\n(?:[^\n]*\n){0,4}0 0 (?:297 210|210 297) re/.exec(page)
    if (outer && sheet) found.push(Number(outer[1]) * Number(sheet[1]))
  }
  return found
}

it('prints the layout board so that 100 mm are 100 mm; an empty build says what is missing', async () => {
  const bench = await serveBuild(demoBuild())
  const { page, complaints, close } = await openPage(
    browser,
    `${bench.address}#/loom/board/A4/on-engine`,
    WIDTHS.laptop,
  )
  await page.locator('[data-sheet]').first().waitFor()
  const sheets = await page.locator('[data-sheet]').count()
  expect(await overflow(page)).toBeLessThanOrEqual(0)
  await page.emulateMedia({ media: 'print' })
  const bars = await page
    .locator('[data-bar="100 mm"]')
    .evaluateAll((found) => found.map((bar) => (bar.getBoundingClientRect().width / 96) * 25.4))
  expect(bars.length).toBe(sheets)
  // The stroke round the bar counts for 0.25 mm in some engines; here the box is the bar.
  for (const bar of bars) expect(bar).toBeCloseTo(100, 1)
  const pdf = await page.pdf({ preferCSSPageSize: true })
  const boxes = [...pdf.toString('latin1').matchAll(/\/MediaBox\s*\[0 0 (\S+) (\S+)\]/g)]
  expect(boxes.length).toBe(sheets + 1)
  for (const box of boxes) {
    const paper = [Number(box[1]), Number(box[2])].map((points) => (points / 72) * 25.4).sort((a, b) => a - b)
    expect(paper[0]).toBeCloseTo(210, 0)
    expect(paper[1]).toBeCloseTo(297, 0)
  }
  const scales = scalesOf(pdf)
  expect(scales.length).toBe(sheets)
  for (const scale of scales) expect((100 * scale * 25.4) / 72).toBeCloseTo(100, 1)
  expect(complaints).toEqual([])
  await close()
  await bench.close()

  const bare = await serveBuild(emptyBuild('Mine'))
  const empty = await openPage(browser, `${bare.address}#/loom`, WIDTHS.phone)
  await empty.page.getByText('The loom has no run yet: a stretch of bundle').waitFor()
  await looksRight(empty.page)
  await empty.close()
  await bare.close()
})
