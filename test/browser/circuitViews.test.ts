/** Sizing, patterns, earths, energy and what is not entered, as people get them: at a phone's and a laptop's width. */
import type { Browser, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { demoBuild, halfBuild } from '../../demo/index.ts'
import type { Build } from '../../src/model/build.ts'
import { emptyBuild } from '../../src/model/build.ts'
import { type OpenPage, openPage, serveBuild, startBrowser, WIDTHS, type Workbench } from './browser.ts'
import { looksRight } from './looks.ts'

let browser: Browser
beforeAll(async () => {
  browser = await startBrowser()
})
afterAll(() => browser.close())

describe.each(Object.entries(WIDTHS))('at the width of a %s', (name, viewport) => {
  let bench: Workbench
  let open: OpenPage
  const start = async (build: Build): Promise<Page> => {
    bench = await serveBuild(build)
    open = await openPage(browser, bench.address, viewport)
    await open.page.locator('main h1').first().waitFor()
    return open.page
  }
  const visit = (place: string) => open.page.goto(`${bench.address}#${place}`)
  const heading = (text: string) => open.page.getByRole('heading', { level: 1, name: text }).waitFor()
  const choose = (label: string, value: string) => open.page.getByLabel(label, { exact: true }).selectOption(value)
  /** Its label holds the field, and so its options' words as well. */
  const chooseCase = (value: string) => open.page.getByLabel('Operating case').selectOption(value)
  const wire = (id: string) => bench.store.read().collections.wires[id]
  const undo = () => open.page.getByRole('button', { name: 'Undo' }).click()

  describe('the demo', () => {
    beforeEach(() => start(demoBuild()))
    afterEach(async () => {
      const { complaints } = open
      await open.close()
      await bench.close()
      expect(complaints).toEqual([])
    })

    it('sizes the thin feed of the pump, stores it as one edit and takes it back', async () => {
      const { page } = open
      await visit('/circuits/of/wires/W-302')
      await page.locator('summary', { hasText: 'Size a wire or a device' }).click()
      const sheet = page.getByRole('region', { name: 'Size of W-302' })
      await sheet.waitFor()
      expect(await sheet.textContent()).toMatch(/now 0\.75\smm².*copper: loses .*warms to .*may carry/)
      expect(await sheet.locator('.why-not').textContent()).toMatch(/0\.75 mm².*(loses|protected|reaches|rated)/)
      await looksRight(page)
      const before = wire('W-302')!.area!.value
      await page.getByRole('button', { name: 'Use it' }).click()
      await expect.poll(() => wire('W-302')!.area!.value).toBeGreaterThan(before)
      await undo()
      await expect.poll(() => wire('W-302')!.area!.value).toBe(before)
    })
    it('sizes for a load that is typed, and says what cannot be read', async () => {
      const { page } = open
      await visit('/circuits/of/wires/W-302')
      await page.locator('summary', { hasText: 'Size a wire or a device' }).click()
      const answer = page.locator('.size-answer')
      await answer.waitFor()
      const asModelled = await answer.textContent()
      const load = page.getByLabel('Load, if not as the model has it')
      await load.fill('25 A')
      await expect.poll(() => answer.textContent()).not.toBe(asModelled)
      await load.fill('25 bananas')
      expect(await page.locator('.size-view [role="alert"]').textContent()).toMatch(/bananas/)
    })

    it('draws a horn from its pattern, says why, adds it as one edit; undo takes all of it away', async () => {
      const { page } = open
      await page.getByLabel('Find a thing or an action').fill('add a circuit horn')
      await page.getByRole('option', { name: /Add a circuit: Horn/ }).click()
      await heading('Horn')
      expect(await page.getByText('Still to be answered').count()).toBe(1)
      await looksRight(page)
      const count = () => Object.keys(bench.store.read().collections.wires).length
      const before = count()
      await choose('Where each horn sits, 1', 'nose-mid')
      await choose('Where the push sits', 'dash-right')
      await choose('Earth stud', 'stud-nose')
      await page.locator('.drawing-room svg').waitFor()
      expect(await page.locator('.why').textContent()).toMatch(/blade.*carries.*mm².*class/)
      expect(count()).toBe(before)
      await looksRight(page)
      await page.getByRole('button', { name: 'Add it' }).click()
      await expect.poll(count).toBeGreaterThan(before + 5)
      await page.locator('.drawing-room svg').waitFor()
      await undo()
      await expect.poll(count).toBe(before)
    })

    it('shows what returns where, what the sensors make of it, and a strap thought open', async () => {
      const { page } = open
      await visit('/circuits/car/earths')
      await heading('Earths')
      await chooseCase('cranking')
      expect(await page.locator('.earths-plate svg').isVisible()).toBe(name === 'laptop')
      const points = page.locator('.earth-points')
      // By hand: about 200 A over the 6 mm² strap of 1.1 m and its rings.
      expect(await points.textContent()).toMatch(/cylinder block.*7\d\d\smV/)
      expect(await page.locator('main').textContent()).toMatch(/Fuel pressure sensor.*kPa at 300\skPa/)
      await page.getByRole('button', { name: /^W-3: / }).click()
      expect(await page.locator('.strap-answer').textContent()).toMatch(/Throttle cable.*not meant to carry/)
      if (name === 'laptop') expect(await page.locator('.earths-plate .open').textContent()).toContain('W-3')
      await looksRight(page)
    })

    it('sets what is given against what is taken, circuit by circuit, and says how long the battery lasts', async () => {
      const { page } = open
      await visit('/circuits/car/energy')
      await heading('Energy')
      expect(await page.locator('.load-strip svg').isVisible()).toBe(name === 'laptop')
      expect(await page.locator('.energy-answers').textContent()).toMatch(/keeps up.*min.*days/)
      expect(await page.locator('.by-circuit').textContent()).toMatch(/Radiator fan\d+\.\d\sA/)
      await chooseCase('parked')
      await expect.poll(() => page.locator('.by-circuit').textContent()).not.toMatch(/Radiator fan\d/)
      await looksRight(page)
    })

    it('lists every pattern by what it is for', async () => {
      const { page } = open
      await visit('/circuits/from/patterns')
      await heading('Add a circuit from a pattern')
      expect(await page.locator('.pattern-groups li').count()).toBe(26)
      await looksRight(page)
    })
  })

  it('gathers what a half-entered build lacks; a line opens its items, each led to where it is entered', async () => {
    const page = await start(halfBuild())
    await visit('/findings')
    await heading('Findings')
    const line = page.locator('[data-datum="cross-section"]')
    expect(await line.textContent()).toMatch(/1\d\d wires.*settles 1\d\d/)
    expect(await page.locator('.gathered > ol > li').count()).toBeLessThanOrEqual(12)
    expect(await page.locator('.findings > li').count()).toBeLessThan(60)
    await line.getByRole('button').click()
    await looksRight(page)
    await line.getByRole('link', { name: 'W-3', exact: true }).click()
    await page.getByRole('heading', { name: 'Wire W-3', exact: true }).waitFor()
    await visit('/circuits/car/earths')
    await heading('Earths')
    expect(await page.locator('.earth-points').textContent()).toContain('unknown')
    await visit('/circuits/car/energy')
    await heading('Energy')
    expect(await page.locator('main').textContent()).toMatch(/not entered/)
    await open.close()
    await bench.close()
  })

  it('leads from an empty build to the patterns', async () => {
    const page = await start(emptyBuild('Empty'))
    await visit('/circuits')
    await page.getByText('No circuit yet.').waitFor()
    await page.getByRole('link', { name: 'Add one from a pattern' }).click()
    await heading('Add a circuit from a pattern')
    await page.getByRole('link', { name: 'Horn', exact: true }).click()
    await heading('Horn')
    expect(await page.locator('.pattern-question').first().textContent()).toMatch(/no branch point yet/)
    await visit('/circuits/car/earths')
    await page.getByText('There is no operating case yet').waitFor()
    await visit('/circuits/car/energy')
    await page.getByText('No operating case has a solution yet').waitFor()
    await looksRight(page)
    await open.close()
    await bench.close()
  })
})
