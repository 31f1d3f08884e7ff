/** The Circuits screen as people get it: drawing, levers, what-if and tables, at a phone's and a laptop's width. */
import type { Browser } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { demoBuild } from '../../demo/index.ts'
import { circuitsPage } from '../../src/web/circuits/circuits.page.ts'
import { type OpenPage, openPage, serveBuild, startBrowser, WIDTHS, type Workbench } from './browser.ts'
import { looksRight, stored } from './looks.ts'

let browser: Browser
beforeAll(async () => {
  browser = await startBrowser()
})
afterAll(() => browser.close())

describe.each(Object.entries(WIDTHS))('at the width of a %s', (_name, viewport) => {
  let bench: Workbench
  let open: OpenPage
  beforeEach(async () => {
    bench = await serveBuild(demoBuild())
    open = await openPage(browser, bench.address, viewport)
    await open.page.locator('main h1').first().waitFor()
  })
  afterEach(async () => {
    const { complaints } = open
    await open.close()
    await bench.close()
    expect(complaints).toEqual([])
  })

  it('draws a circuit with its supply above its lamp and its earth below', async () => {
    const { page } = open
    const circuits = circuitsPage(page)
    await circuits.open(bench.address, 'sockets')
    const top = async (id: string): Promise<number> => (await circuits.part(id).boundingBox())!.y
    const [rail, lamp, earth] = [await top('bus-30'), await top('roof-lamp'), await top('stud-rear')]
    expect(rail).toBeLessThan(lamp)
    expect(lamp).toBeLessThan(earth)
    expect(await circuits.part('bus-30').textContent()).toContain('30')
    expect(await circuits.wire('W-91').textContent()).toMatch(/W-91.*1\smm².*RD/)
    await looksRight(page)
  })

  it('moves a switch on the drawing: the lamp goes from 0 V to about 12 V, and nothing is stored', async () => {
    const { page } = open
    const circuits = circuitsPage(page)
    await circuits.open(bench.address, 'sockets')
    const before = await stored(page)
    await circuits.chooseCase('Parked, locked')
    expect(Math.abs((await circuits.volts('roof-lamp'))[0]!)).toBeLessThan(0.1)
    await circuits.flip('roof-switch')
    await expect.poll(async () => (await circuits.volts('roof-lamp'))[0]).toBeGreaterThan(11.5)
    expect((await circuits.volts('roof-lamp'))[0]).toBeLessThan(13)
    await circuits.notStored.waitFor()
    expect(await stored(page)).toBe(before)
    await looksRight(page)
    await circuits.back.click()
    await expect.poll(async () => Math.abs((await circuits.volts('roof-lamp'))[0]!)).toBeLessThan(0.1)
    expect(await circuits.notStored.count()).toBe(0)
  })

  it('pulls a relay in by a controller output from the list, and shows its contact closed', async () => {
    const { page } = open
    const circuits = circuitsPage(page)
    await circuits.open(bench.address, 'fuel-pump')
    await circuits.chooseCase('Ignition on, engine stopped')
    expect(await circuits.part('pump-relay').textContent()).toContain('at rest')
    expect(Math.abs((await circuits.volts('fuel-pump'))[0]!)).toBeLessThan(0.1)
    await circuits.output('Fuel pump').click()
    await expect.poll(() => circuits.part('pump-relay').textContent()).toContain('pulled in')
    expect((await circuits.volts('fuel-pump'))[0]).toBeGreaterThan(9)
  })

  it('keeps what was tried as a case of its own; undo takes it away', async () => {
    const { page } = open
    const circuits = circuitsPage(page)
    await circuits.open(bench.address, 'sockets')
    await circuits.chooseCase('Parked, locked')
    await circuits.flip('roof-switch')
    await circuits.keep.click()
    await page.getByLabel('Name of the new case').fill('Loading by night')
    await page.getByRole('button', { name: 'Keep it' }).click()
    await expect
      .poll(() =>
        page
          .getByLabel('Operating case')
          .evaluate((element) => (element as HTMLSelectElement).selectedOptions[0]?.text),
      )
      .toBe('Loading by night')
    expect((await circuits.volts('roof-lamp'))[0]).toBeGreaterThan(11.5)
    expect(await circuits.notStored.count()).toBe(0)
    await circuits.undo.click()
    await expect.poll(() => page.getByLabel('Operating case').textContent()).not.toContain('Loading by night')
  })

  it('shows a tapped wire with its figures and findings, and leads to its row', async () => {
    const { page } = open
    const circuits = circuitsPage(page)
    await circuits.open(bench.address, 'sockets')
    await circuits.wire('W-91').press('Enter')
    await page.getByRole('heading', { name: 'Wire W-91' }).waitFor()
    const found = page.locator('[data-finding="fuse-against-conductor:wires/W-91"]')
    expect(await found.textContent()).toMatch(/No-go.*Next:/)
    await looksRight(page)
    await page.getByRole('button', { name: 'Edit it in the table' }).click()
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toBe('From of wire W-91')
  })

  it('takes a pasted block of 2 × 3 cells as one edit; one undo takes all back', async () => {
    const { page } = open
    const circuits = circuitsPage(page)
    await circuits.open(bench.address, 'sockets')
    const size = circuits.cell('Size', 'W-91')
    const colour = circuits.cell('Colour', 'W-92')
    const before = [await size.inputValue(), await colour.inputValue()]
    await circuits.paste(size, '4 mm²\t2.5 m\tGN\r\n6 mm²\t1.5 m\tBK\r\n')
    await expect.poll(() => size.inputValue()).toMatch(/^4\smm²$/)
    expect(await circuits.cell('Length', 'W-91').inputValue()).toMatch(/^2\.5\sm$/)
    expect(await circuits.cell('Size', 'W-92').inputValue()).toMatch(/^6\smm²$/)
    expect(await colour.inputValue()).toBe('BK')
    await circuits.undo.click()
    await expect.poll(() => size.inputValue()).toBe(before[0])
    expect(await colour.inputValue()).toBe(before[1])
  })

  it('lists the bad cells of a block and keeps the good ones until told', async () => {
    const { page } = open
    const circuits = circuitsPage(page)
    await circuits.open(bench.address, 'sockets')
    const size = circuits.cell('Size', 'W-91')
    const before = await size.inputValue()
    await circuits.paste(size, '4 mm²\n thick')
    await page.getByText('1 pasted cell does not fit').waitFor()
    expect(await page.locator('.paste-note').textContent()).toMatch(/Size of W-92.*thick/)
    expect(await size.inputValue()).toBe(before)
    await looksRight(page)
    await page.getByRole('button', { name: 'Take the 1 that fits' }).click()
    await expect.poll(() => size.inputValue()).toMatch(/^4\smm²$/)
  })

  it('goes from cell to cell by keys', async () => {
    const { page } = open
    const circuits = circuitsPage(page)
    await circuits.open(bench.address, 'sockets')
    const at = () => page.evaluate(() => document.activeElement?.getAttribute('aria-label'))
    await circuits.cell('Size', 'W-90').click()
    await page.keyboard.press('ArrowDown')
    expect(await at()).toBe('Size of wire W-91')
    await page.keyboard.press('Enter')
    expect(await at()).toBe('Size of wire W-92')
    await page.keyboard.press('ArrowRight')
    expect(await at()).toBe('Length of wire W-92')
    await page.keyboard.press('ArrowUp')
    expect(await at()).toBe('Length of wire W-91')
    await page.keyboard.press('Tab')
    expect(await at()).toBe('Colour of wire W-91')
  })

  it('removes a device with its wires; undo brings all back', async () => {
    const { page } = open
    const circuits = circuitsPage(page)
    await circuits.open(bench.address, 'sockets')
    await page.getByRole('button', { name: /^Remove Load space lamp with its wires/ }).click()
    await expect.poll(() => circuits.part('roof-lamp').count()).toBe(0)
    expect(await circuits.wire('W-95').count()).toBe(0)
    await circuits.undo.click()
    await circuits.part('roof-lamp').waitFor()
    expect(await circuits.wire('W-95').count()).toBe(1)
  })

  it('draws the widest circuit within the window, in the dark as well', async () => {
    const { page } = open
    await page.evaluate(() => {
      document.documentElement.dataset.theme = 'dark'
    })
    await circuitsPage(page).open(bench.address, 'sensors')
    await looksRight(page)
  })
})
