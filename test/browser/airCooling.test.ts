/** The Air and Cooling benches as people get them, at a phone's and a laptop's width, light and dark. */
import type { Browser } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { demoBuild, halfBuild } from '../../demo/index.ts'
import { assess } from '../../src/assess/assess.ts'
import { closeAnswered } from '../../src/assess/jobs.ts'
import type { Build } from '../../src/model/build.ts'
import { applyChanges } from '../../src/model/read.ts'
import { chainPage } from '../../src/web/chain/chain.page.ts'
import { type OpenPage, openPage, overflow, serveBuild, startBrowser, WIDTHS, type Workbench } from './browser.ts'
import { looksRight } from './looks.ts'

let browser: Browser
beforeAll(async () => {
  browser = await startBrowser()
})
afterAll(() => browser.close())

const settledDemo = (): Build => {
  const demo = demoBuild()
  const closing = closeAnswered(demo, assess(demo).findings)
  return closing ? applyChanges(demo, closing.changes) : demo
}

const LOOKS = [
  ['phone', WIDTHS.phone, 'light'],
  ['laptop', WIDTHS.laptop, 'light'],
  ['laptop, dark', WIDTHS.laptop, 'dark'],
] as const

describe.each(LOOKS)('at the width of a %s', (_name, viewport, scheme) => {
  let bench: Workbench
  let open: OpenPage
  beforeEach(async () => {
    bench = await serveBuild(settledDemo())
    open = await openPage(browser, bench.address, viewport, scheme)
  })
  afterEach(async () => {
    const { complaints } = open
    await open.close()
    await bench.close()
    expect(complaints).toEqual([])
  })

  it('draws the way of the air, and the loop of the coolant, and stays within the window', async () => {
    const air = chainPage(open.page)
    await air.open(bench.address, 'air')
    await air.drawing.waitFor()
    expect(await air.stations.count()).toBe(10)
    expect(await air.figureText('effectiveness')).toMatch(/0\.520.*measured, M-1; reckoned 0\.7/)
    await looksRight(open.page)
    const cooling = chainPage(open.page)
    await cooling.open(bench.address, 'cooling')
    await cooling.drawing.waitFor()
    await open.page.getByText('Never open the system hot.', { exact: true }).waitFor()
    expect(await cooling.figureText('radiator-air')).toMatch(/measured, M-31; reckoned 0\.53/)
    await looksRight(open.page)
  })

  it('opens a figure to its formula, numbers and source', async () => {
    const air = chainPage(open.page)
    await air.open(bench.address, 'air')
    await air.openWorking('compressor-temperature')
    await air.figure('compressor-temperature').locator('.working').waitFor()
    expect(await air.figureText('compressor-temperature')).toMatch(
      /T2 = T1 × .*with numbers: .*Source: Çengel & Boles/s,
    )
    await looksRight(open.page)
  })

  it('tries a larger cooler without touching the build, shows the difference at each station, then stores it', async () => {
    const air = chainPage(open.page)
    await air.open(bench.address, 'air')
    const before = JSON.stringify(bench.store.read())
    await air.tryOut('Conductance of the charge cooler', '400 W/K')
    await air.without('M-1')
    await air.notStored.waitFor()
    expect(await air.figureText('charge-out')).toMatch(/8\d.* → .*°C.*−\d+.*K/)
    expect(await air.figureText('power')).toMatch(/\d+.* → .*kW.*\+\d/)
    expect(JSON.stringify(bench.store.read())).toBe(before)
    await looksRight(open.page)
    await air.store.click()
    await air.notStored.waitFor({ state: 'detached' })
    await expect.poll(() => bench.store.read().sheets.air?.chargeCooler?.conductance?.value).toBe(400)
    // Set aside for a look, the reading is still there.
    expect(bench.store.read().collections.readings['M-1']).toBeDefined()
  })

  it('tries thicker wire to the fan and to the water pump: volts, air and water follow', async () => {
    const cooling = chainPage(open.page)
    await cooling.open(bench.address, 'cooling')
    const before = JSON.stringify(bench.store.read())
    await open.page.getByLabel('Cross-section of W-310, W-311 and W-312').fill('10 mm²')
    await cooling.without('M-31')
    await cooling.notStored.waitFor()
    expect(await cooling.figureText('fan-volts')).toMatch(/12\.\d+.* → .*V.*\+\d/)
    const air = chainPage(open.page)
    await air.open(bench.address, 'air')
    await open.page.getByLabel(/^Cross-section of W-/).fill('6 mm²')
    await air.without('M-30')
    expect(await air.figureText('pump-volts')).toMatch(/→ .*V.*\+\d/)
    expect(await air.figureText('loop-flow')).toMatch(/8\.5.* → 1[34]\./)
    expect(JSON.stringify(bench.store.read())).toBe(before)
    await looksRight(open.page)
  })

  it('takes a measurement that corrects a figure, kept as a reading', async () => {
    const cooling = chainPage(open.page)
    await cooling.open(bench.address, 'cooling')
    await cooling.openWorking('cap-pressure')
    await open.page.getByLabel('Measured, with its ±: cap holds').fill('0.6 bar ± 0.02 bar')
    await open.page.getByRole('button', { name: 'Keep as a reading' }).click()
    await expect.poll(() => cooling.figureText('cap-pressure')).toMatch(/0\.600.*bar.*measured, M-\d+; entered 1.*bar/)
    expect(Object.values(bench.store.read().collections.readings)).toContainEqual(
      expect.objectContaining({ subject: 'cap-opening-pressure', quantity: 'pressureGauge', value: 6e4 }),
    )
    await looksRight(open.page)
  })

  it('says what was refused and likely why, and takes it back', async () => {
    const cooling = chainPage(open.page)
    await cooling.open(bench.address, 'cooling')
    await cooling.tryOut('Trapped gas volume', '')
    await open.page
      .getByText(/Trapped gas volume|For a rate: trapped gas volume/)
      .first()
      .waitFor()
    expect(await cooling.figureText('hold-rate')).toContain('unknown')
    await cooling.tryOut('Pressure of the cap', '0.5 bar')
    await open.page.getByText(/never test above what the cap holds/).waitFor()
    await cooling.back.click()
    await cooling.notStored.waitFor({ state: 'detached' })
    expect(await cooling.figureText('hold-rate')).not.toContain('unknown')
  })
})

it('works on a build with half its data, and on an empty one', async () => {
  for (const build of [halfBuild(), undefined]) {
    const bench = await serveBuild(build)
    const open = await openPage(browser, bench.address, WIDTHS.phone)
    for (const place of ['air', 'cooling'] as const) {
      const chain = chainPage(open.page)
      await chain.open(bench.address, place)
      expect(await chain.stations.count()).toBeGreaterThanOrEqual(4)
      expect(await open.page.locator('main').textContent()).not.toMatch(/NaN|undefined|\[object/)
      expect(await overflow(open.page)).toBeLessThanOrEqual(0)
    }
    expect(open.complaints).toEqual([])
    await open.close()
    await bench.close()
  }
})
