/** A corroded joint put into the car is found in the browser by answering what the page asks, at a phone's width. */
import { AxeBuilder } from '@axe-core/playwright'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { demoBuild } from '../../demo/index.ts'
import { startSearch, withEvidence } from '../../src/assess/faults/faults.ts'
import { simulatedCar } from '../../src/assess/faults/simulatedCar.testing.ts'
import { openPage, overflow, serveBuild, smallText, startBrowser, WIDTHS } from './browser.ts'

let browser: Browser
beforeAll(async () => {
  browser = await startBrowser()
})
afterAll(() => browser.close())

/** The plug of the left tail lamp has 15 Ω in it; everything else lies a little off the model. */
const LAMP = 'tail-left'
const CASE = 'cruising'

it.each(Object.entries(WIDTHS))('finds the corroded joint by answering, at the width of a %s', async (_, size) => {
  const bench = await serveBuild(demoBuild())
  const { page, complaints, close } = await openPage(browser, `${bench.address}#/faults`, size)
  try {
    const car = simulatedCar(demoBuild(), { wire: 'W-126', end: 'to', ohm: 15, caseId: CASE, seed: 1 })
    const ready = startSearch(demoBuild(), { complaint: { device: LAMP, kind: 'weak' }, case: CASE })
    await page.getByLabel('What is wrong with').selectOption(LAMP)
    await page.getByLabel(/^It is/).selectOption('weak')
    await page.getByLabel('The car stands as in').selectOption(CASE)
    await page.getByRole('button', { name: 'Look for it' }).click()
    await page.getByText(/^Working out what each fault would do/).waitFor()
    // The page stays alive while the search is made ready: what is asked of it meanwhile is answered before it is.
    const alive = await page.evaluate(async () => {
      let turns = 0
      while (!document.querySelector('.weighing, .standing')) {
        await new Promise((resolve) => setTimeout(resolve, 10))
        turns += 1
      }
      return turns
    })
    expect(alive).toBeGreaterThan(5)
    // The other lamps are bright: seen from beside the car, before any probe.
    await page.getByRole('heading', { name: 'Look first, it costs nothing' }).waitFor({ timeout: 15_000 })
    await page.getByRole('button', { name: 'Yes, Headlamp, left' }).click()
    await expect
      .poll(() => Object.values(bench.store.read().collections.faultSearches)[0]!.evidence)
      .toMatchObject([{ kind: 'remark', remark: 'works', about: 'headlamp-left' }])
    for (let answers = 0; answers < 12; answers++) {
      await page.locator('.standing').waitFor({ timeout: 15_000 })
      if (await page.getByRole('button', { name: /Make the repair a job/ }).count()) break
      // What the page asks for is what the engine asks for on the stored search: the same car answers.
      const search = Object.values(bench.store.read().collections.faultSearches)[0]!
      const { next, standing } = withEvidence(ready, search.evidence)
      if (!next) throw new Error(`nothing to measure: ${JSON.stringify(standing)}`)
      await page.getByText(next.says, { exact: true }).first().waitFor()
      // Its cautions stand beside every reading, not only the first.
      await page
        .locator('.next-test .cautions')
        .getByText(/^Nobody reads a meter while driving/)
        .waitFor()
      await page.getByLabel('The meter shows').fill(car.read(next).toFixed(2))
      await page.getByRole('button', { name: 'Take it', exact: true }).click()
      await expect
        .poll(() => Object.values(bench.store.read().collections.faultSearches)[0]!.evidence.length)
        .toBe(search.evidence.length + 1)
    }
    // Millivolts typed as volts: asked about, not used, and taken back.
    await page.getByText('A reading of your own').click()
    await page.getByLabel('Red lead on').selectOption('light-switch.30')
    await page.getByLabel('It shows').fill('13100')
    await page.getByRole('button', { name: 'Take it', exact: true }).click()
    await page
      .getByText(/was it millivolts/)
      .first()
      .waitFor()
    await page.getByText(/answer what is asked about below/).waitFor()
    expect(await page.getByRole('button', { name: /Make the repair a job/ }).count()).toBe(0)
    await page.getByRole('button', { name: 'Take back' }).last().click()
    await page
      .getByRole('button', { name: /Make the repair a job/ })
      .first()
      .waitFor()
    if (size.width === WIDTHS.phone.width) {
      expect(await overflow(page)).toBeLessThanOrEqual(0)
      expect(await smallText(page)).toEqual([])
      const { violations } = await new AxeBuilder({ page }).analyze()
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' | ')}`)).toEqual([])
    }
    await page
      .getByRole('button', { name: /Make the repair a job/ })
      .first()
      .click()
    await page.getByText(/^Found:/).waitFor()
    const build = bench.store.read()
    const search = Object.values(build.collections.faultSearches)[0]!
    expect(search.found!.name).toMatch(/Tail lamp, left/)
    expect(search.found!.part).toBe(withEvidence(ready, search.evidence).suspects[0]!.part)
    expect(build.collections.jobs[search.job!]).toMatchObject({ status: 'to do' })
    // What was taken back is no evidence any more, but stays a reading as it was read.
    expect(Object.values(build.collections.readings).filter((reading) => reading.search === search.id).length).toBe(
      search.evidence.filter(({ kind }) => kind === 'reading').length + 1,
    )
    await page.getByRole('button', { name: /Repaired and confirmed/ }).click()
    await page.getByText('The search is closed.').waitFor()
    expect(complaints).toEqual([])
  } finally {
    await close()
    await bench.close()
  }
})
