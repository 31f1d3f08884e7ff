/** Records beside the car: a gate proved on the phone, without signal too; the controller’s file kept and gone back to. */
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { demoBuild, soundBuild } from '../../demo/index.ts'
import { openPage, serveBuild, startBrowser, WIDTHS } from './browser.ts'
import { looksRight } from './looks.ts'

let browser: Browser
beforeAll(async () => {
  browser = await startBrowser()
})
afterAll(() => browser.close())

it('on a phone: one gate open, its evidence typed by name, kept without signal, sent when it is back', async () => {
  const bench = await serveBuild(soundBuild())
  const { page, complaints, close } = await openPage(browser, `${bench.address}#/records/gates`, WIDTHS.phone)
  const entries = () => Object.values(bench.store.read().collections.evidence)
  try {
    await page.getByRole('heading', { name: 'Everything off and unplugged' }).waitFor()
    await page.getByRole('heading', { name: 'Next' }).waitFor()
    await looksRight(page)
    const seen = page.getByRole('button', { name: /Seen: as it should be ?: A fire extinguisher/ })
    // A word without a name is no evidence.
    await seen.click()
    await page.getByText('Nobody’s name is on it.').waitFor()
    await page.getByLabel('Who looks and measures').fill('Builder')
    await page.context().setOffline(true)
    await seen.click()
    await page.getByText('Seen by Builder.').waitFor()
    await page.getByText(/waits here/).waitFor()
    expect(entries()).toEqual([])
    await page.context().setOffline(false)
    await page.getByText(/waits here/).waitFor({ state: 'detached' })
    expect(entries()).toMatchObject([{ of: 'gate/extinguisher', shows: 'as it should', by: 'Builder' }])
    // The next gate is there to be read, and says what comes first.
    await page.goto(`${bench.address}#/records/gates/lamp`)
    await page.getByText('First comes').waitFor()
    expect(await page.getByRole('button', { name: 'Close this gate' }).count()).toBe(0)
    // Without signal the browser says so itself.
    expect(complaints.filter((each) => !/ERR_INTERNET_DISCONNECTED|Failed to load resource/.test(each))).toEqual([])
  } finally {
    await close()
    await bench.close()
  }
})

it('on a laptop: a locked gate, the ledger with what differs and the way back, a list and what is watched', async () => {
  const demo = demoBuild()
  // Their files lie in the demo’s own folder, not in this one.
  for (const id of ['C-2', 'C-1']) delete demo.collections.records[id]
  const bench = await serveBuild(demo)
  const { page, complaints, close } = await openPage(browser, `${bench.address}#/records/gates/lamp`, WIDTHS.laptop)
  try {
    await page.getByText('Locked by').waitFor()
    await looksRight(page)
    for (const [place, heading] of [
      ['/records', 'Records'],
      ['/records/use', 'In use'],
      ['/records/lists/inspection', 'Inspection after the conversion'],
    ] as const) {
      await page.goto(`${bench.address}#${place}`)
      await page.getByRole('heading', { name: heading, level: 1 }).waitFor()
      await looksRight(page)
    }
    await page.goto(`${bench.address}#/records/files`)
    await page.getByLabel('Who looks and measures').fill('Builder')
    const keep = async (text: string, says: string): Promise<void> => {
      const file = page.getByLabel('File', { exact: true })
      if (!(await file.isVisible())) await page.getByText('Keep a file of the controller').click()
      await file.setInputFiles({ name: 'idle.txt', mimeType: 'text/plain', buffer: Buffer.from(text) })
      await page.getByLabel('What was changed, and why').fill(says)
      await page.getByRole('button', { name: 'Keep it' }).click()
      await page.getByRole('heading', { name: says }).waitFor()
    }
    await page.getByText('No file is kept yet.').waitFor()
    await keep('idle 900\nlimit 3000', 'As it came')
    await keep('idle 950\nlimit 3000', 'Idle up')
    await page.getByText('What differs').first().click()
    await page.getByText('+ 1 idle 950').waitFor()
    await looksRight(page)
    await page.getByRole('button', { name: /It is in the controller again ?: As it came/ }).click()
    await page.getByRole('heading', { name: 'Back to: As it came' }).waitFor()
    expect(Object.values(bench.store.read().collections.records).filter(({ file }) => file).length).toBe(3)
    expect(complaints.filter((each) => !/422/.test(each))).toEqual([])
  } finally {
    await close()
    await bench.close()
  }
})
