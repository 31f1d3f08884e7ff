/** The Fuel screen as people get it: the chain, what is tried on it, the tank, the injector card. */
import type { Browser } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { demoBuild, halfBuild } from '../../demo/index.ts'
import { emptyBuild } from '../../src/model/build.ts'
import { fuelPage } from '../../src/web/fuel/fuel.page.ts'
import { type OpenPage, openPage, serveBuild, startBrowser, WIDTHS, type Workbench } from './browser.ts'
import { looksRight, stored } from './looks.ts'

let browser: Browser
beforeAll(async () => {
  browser = await startBrowser()
})
afterAll(() => browser.close())

const CARD = JSON.stringify({
  format: 'injector-card/1',
  name: 'Four from the bench',
  fluid: { name: 'n-heptane', density: { value: 684 } },
  pressure: { value: 3e5 },
  slope: { value: 0.0048, plusMinus: 0.0001 },
  deadTime: [
    [{ value: 12 }, { value: 0.0011 }],
    [{ value: 14 }, { value: 0.0008 }],
  ],
  coverage: 0.95,
  method: 'bench test',
  provenance: { from: 'own bench' },
})

describe.each(Object.entries(WIDTHS))('at the width of a %s', (_name, viewport) => {
  let bench: Workbench
  let open: OpenPage
  beforeEach(async () => {
    bench = await serveBuild(demoBuild())
    open = await openPage(browser, bench.address, viewport)
  })
  afterEach(async () => {
    const { complaints } = open
    await open.close()
    await bench.close()
    expect(complaints).toEqual([])
  })

  it('shows the chain with every capacity in engine power and the first to give out', async () => {
    const { page } = open
    const fuel = fuelPage(page)
    await fuel.open(bench.address)
    await page.getByText(/First to give out: Fuel pump/).waitFor()
    const pump = await fuel.kilowatts('pump')
    for (const id of ['filter', 'injectors']) expect(await fuel.kilowatts(id)).toBeGreaterThan(pump)
    expect(await fuel.capacity('pump')).toMatch(/gives out first/)
    await looksRight(page)
  })

  it('tries thicker wire: the pump feeds more, each station shows the difference, and nothing is stored', async () => {
    const { page } = open
    const fuel = fuelPage(page)
    await fuel.open(bench.address)
    const before = await stored(page)
    const pump = await fuel.kilowatts('pump')
    await fuel.lever(/^Cross-section of W-302 and W-305/).fill('2.5 mm²')
    await expect.poll(() => fuel.kilowatts('pump')).toBeGreaterThan(pump + 15)
    expect(await fuel.capacity('pump')).toMatch(/→.*\(\+\d/)
    expect(await fuel.figure('pump', 'volts').textContent()).toMatch(/→/)
    await fuel.notStored.waitFor()
    expect(await stored(page)).toBe(before)
    await looksRight(page)
    await fuel.back.click()
    await expect.poll(() => fuel.kilowatts('pump')).toBe(pump)
    expect(await fuel.notStored.count()).toBe(0)
  })

  it('stores what was tried when told to; one undo takes it back', async () => {
    const { page } = open
    const fuel = fuelPage(page)
    await fuel.open(bench.address)
    const before = await fuel.kilowatts('injectors')
    await fuel.lever('Flow of each injector, as tested').fill('300 g/min')
    await fuel.store.click()
    await expect.poll(() => fuel.notStored.count()).toBe(0)
    await expect.poll(() => fuel.kilowatts('injectors')).toBeGreaterThan(before + 40)
    await expect.poll(async () => (await stored(page)).includes('"unit":"g/min"}')).toBe(true)
    await fuel.undo.click()
    await expect.poll(() => fuel.kilowatts('injectors')).toBe(before)
  })

  it('says what cannot be read, beside the field', async () => {
    const { page } = open
    const fuel = fuelPage(page)
    await fuel.open(bench.address)
    await fuel.lever('Rail pressure as set').fill('much')
    await fuel.station('rail').getByRole('alert').waitFor()
    expect(await fuel.lever('Rail pressure as set').getAttribute('aria-invalid')).toBe('true')
    expect(await fuel.store.isDisabled()).toBe(true)
    await looksRight(page)
  })

  it('opens the working of a figure, and shows a reading with what it took the place of', async () => {
    const { page } = open
    const fuel = fuelPage(page)
    await fuel.open(bench.address)
    await fuel.figure('pump', 'flow').locator('summary').click()
    expect(await fuel.figure('pump', 'flow').locator('pre').textContent()).toMatch(/with numbers:.*\n[\s\S]*Source: /)
    expect(await fuel.figure('filter', 'loss').textContent()).toMatch(/measured, M-4; computed/)
    await looksRight(page)
  })

  it('takes a reading of the volts at the pump: the pump feeds what they allow', async () => {
    const { page } = open
    const fuel = fuelPage(page)
    await fuel.open(bench.address)
    const before = await fuel.kilowatts('pump')
    await fuel.measure('pump', 'volts', '12.4 V ± 0.1 V')
    await expect.poll(() => fuel.kilowatts('pump')).toBeGreaterThan(before + 25)
    expect(await fuel.figure('pump', 'volts').textContent()).toMatch(/measured, M-\d+; computed 10\.2/)
    await looksRight(page)
    await fuel.undo.click()
    await expect.poll(() => fuel.kilowatts('pump')).toBe(before)
  })

  it('lists the tank’s five cases with a verdict each', async () => {
    const { page } = open
    const fuel = fuelPage(page)
    await fuel.open(bench.address)
    expect(await page.locator('[data-tank]').count()).toBe(5)
    await fuel.tankCase('shut').locator('summary').click()
    expect(await fuel.tankCase('shut').textContent()).toMatch(/relieves at/)
    await looksRight(page)
  })

  it('refuses a bad injector card in words, takes a good one, and reckons with it', async () => {
    const { page } = open
    const fuel = fuelPage(page)
    await fuel.open(bench.address)
    const before = await fuel.kilowatts('injectors')
    await fuel.card.setInputFiles({
      name: 'card.json',
      mimeType: 'application/json',
      buffer: Buffer.from('{"format":"other"}'),
    })
    await page.getByText(/is of format “other”, not an injector card/).waitFor()
    await fuel.card.setInputFiles({ name: 'card.json', mimeType: 'application/json', buffer: Buffer.from(CARD) })
    await page.getByText('Four from the bench', { exact: true }).waitFor()
    await expect.poll(() => fuel.kilowatts('injectors')).toBeGreaterThan(before + 30)
    await looksRight(page)
    await fuel.undo.click()
    await expect.poll(() => fuel.kilowatts('injectors')).toBe(before)
  })

  it('carries other injectors through to driver, wires and plug, and says what each was before', async () => {
    const { page } = open
    const fuel = fuelPage(page)
    await fuel.open(bench.address)
    const before = await stored(page)
    await fuel.lever('Flow of each injector, as tested').fill('520 g/min')
    await fuel.lever('Resistance of each coil').fill('2.4 Ω')
    await fuel.lever('Shortest pulse that repeats').fill('2.4 ms')
    await fuel.lever('Plug that the injector takes').fill('two ways, square')
    await expect
      .poll(() => fuel.fit('driver').textContent())
      .toMatch(/No-go.*output stands 3 A.*As stored: arithmetic holds/)
    expect(await fuel.fit('circuit').textContent()).toMatch(
      /No-go.*Injectors fuse, 10 A, then carries 1\d\.\d A of its 10 A/,
    )
    expect(await fuel.fit('idle').textContent()).toMatch(/No-go.*do not repeat/)
    expect(await fuel.fit('plug').textContent()).toMatch(/no adapter is entered/)
    expect(await fuel.fit('pump').textContent()).toMatch(/the pump gives out first/)
    expect(await stored(page)).toBe(before)
    await looksRight(page)
    await fuel.lever('Resistor in series with each').fill('6.8 Ω')
    await expect.poll(() => fuel.fit('driver').textContent()).toMatch(/^\s*Arithmetic holds/)
    await fuel.back.click()
    await expect.poll(() => fuel.fit('driver').textContent()).toMatch(/12\.2 Ω/)
  })

  it('keeps a bench test as an injector card', async () => {
    const { page } = open
    const fuel = fuelPage(page)
    await fuel.open(bench.address)
    await page.getByText('Slope and dead time from a bench test').click()
    await page.getByLabel(/^One row a pulse width/).fill('3 ms; 6.3 mg\n4 ms; 9.31 mg\n6 ms; 15.28 mg\n9 ms; 24.32 mg')
    await page.getByLabel('Name of these injectors').fill('Four from my bench')
    await page.getByLabel('Test fluid, never petrol').fill('n-heptane')
    await page.getByLabel('Its density at the test').fill('0.684 kg/l')
    await page.getByLabel('Pressure across the injector').fill('3 bar')
    const keep = page.getByRole('button', { name: 'Keep as the injector card' })
    await keep.click()
    await page.getByText(/Voltage at the injector is empty/).waitFor()
    await page.getByLabel('Voltage at the injector').fill('13.5 V')
    await looksRight(page)
    await keep.click()
    await page.getByText('Four from my bench', { exact: true }).waitFor()
    const card = bench.store.read().sheets.fuel?.injectors?.card
    // Least squares through the four rows, by hand: 3.00214 mg/ms, 0.90245 ms.
    expect(card?.slope.value).toBeCloseTo(3.00214e-3, 7)
    expect(card?.deadTime[0]?.[1].value).toBeCloseTo(0.90245e-3, 7)
    expect(card).toMatchObject({ format: 'injector-card/1', method: 'bench test', fluid: { name: 'n-heptane' } })
    await looksRight(page)
  })

  it('gives slope and dead time of a bench test with their ±', async () => {
    const { page } = open
    await fuelPage(page).open(bench.address)
    await page.getByText('Slope and dead time from a bench test').click()
    await page.getByLabel(/^One row a pulse width/).fill('3 ms; 6.3 mg\n4 ms; 9.31 mg\n6 ms; 15.28 mg\n9 ms; 24.32 mg')
    const found = page.locator('.bench-test')
    await expect.poll(() => found.textContent()).toMatch(/Slope.*±.*dead time.*±/)
    await looksRight(page)
  })

  it('says what is missing on a half-entered and on an empty build, in the dark as well', async () => {
    for (const build of [halfBuild(), emptyBuild('New')]) {
      const other = await serveBuild(build)
      const dark = await openPage(browser, other.address, viewport, 'dark')
      await fuelPage(dark.page).open(other.address)
      await dark.page
        .locator('.station-says p', { hasText: /^Missing: / })
        .first()
        .waitFor()
      await looksRight(dark.page)
      expect(dark.complaints).toEqual([])
      await dark.close()
      await other.close()
    }
  })
})
