/** The Book as people get it: what will be printed, what it lacks, and on paper nothing but the book. */
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { demoBuild } from '../../demo/index.ts'
import { emptyBuild } from '../../src/model/build.ts'
import { openPage, serveBuild, startBrowser, WIDTHS } from './browser.ts'
import { looksRight } from './looks.ts'

let browser: Browser
beforeAll(async () => {
  browser = await startBrowser()
})
afterAll(() => browser.close())

describe.each(Object.entries(WIDTHS))('at the width of a %s', (_name, viewport) => {
  it.each([
    ['the demo', demoBuild],
    ['an empty build', () => emptyBuild('Mine')],
  ] as const)('shows what will be printed of %s, and prints nothing else', async (what, build) => {
    const bench = await serveBuild(build())
    const { page, complaints, close } = await openPage(browser, `${bench.address}#/book`, viewport)
    await page.getByRole('heading', { name: 'Measured from logs' }).waitFor()
    await looksRight(page)
    if (what === 'the demo') {
      expect(await page.locator('[data-subject="readings/M-1"]').textContent()).toMatch(
        /0\.520.±.0\.040.*four steady climbs/,
      )
    } else await page.getByText('No log has answered a question yet.').waitFor()
    await page.emulateMedia({ media: 'print' })
    expect(await page.getByRole('button', { name: 'Print' }).isVisible()).toBe(false)
    expect(await page.getByRole('navigation', { name: 'Benches' }).isVisible()).toBe(false)
    expect(complaints).toEqual([])
    await close()
    await bench.close()
  })
})
