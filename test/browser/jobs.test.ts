/** Jobs as people get them: the order, the lists, and a sitting on the phone with the signal cut and back. */
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { demoBuild, halfBuild } from '../../demo/index.ts'
import { emptyBuild } from '../../src/model/build.ts'
import { openPage, serveBuild, startBrowser, WIDTHS, type Workbench } from './browser.ts'
import { looksRight } from './looks.ts'

let browser: Browser
beforeAll(async () => {
  browser = await startBrowser()
})
afterAll(() => browser.close())

const VIEWS = ['', '/sitting', '/list', '/accesses', '/forecast', '/parts', '/of/J-6']
const goTo = async (page: Page, place: string): Promise<void> => {
  await page.evaluate((hash) => {
    location.hash = hash
  }, `#/jobs${place}`)
  await page.locator('main h1').first().waitFor()
}

describe.each(Object.entries(WIDTHS))('at the width of a %s', (_name, viewport) => {
  it.each(['light', 'dark'] as const)('is whole in the %s', async (theme) => {
    const bench = await serveBuild(demoBuild())
    const { page, complaints, close } = await openPage(browser, bench.address, viewport, theme)
    for (const view of theme === 'dark' ? ['', '/sitting'] : VIEWS) {
      await goTo(page, view)
      if (view === '') await page.getByText(/no order has less/).waitFor()
      await looksRight(page)
    }
    expect(complaints).toEqual([])
    await close()
    await bench.close()
  })

  it.each([
    ['an empty build', () => emptyBuild('Mine')],
    ['a half-entered build', halfBuild],
  ] as const)('every view of %s says what it lacks', async (_what, build) => {
    const bench = await serveBuild(build())
    const { page, complaints, close } = await openPage(browser, bench.address, viewport)
    for (const view of VIEWS.slice(0, -1)) {
      await goTo(page, view)
      await looksRight(page)
    }
    expect(complaints).toEqual([])
    await close()
    await bench.close()
  })
})

it('a job is written, its times in words; what cannot be read is named and nothing of it is kept', async () => {
  const bench = await serveBuild(demoBuild())
  const { page, close } = await openPage(browser, `${bench.address}#/jobs/of/J-6`, WIDTHS.laptop)
  const likely = page.getByLabel('Likely', { exact: true })
  await likely.waitFor()
  const before = bench.store.read().collections.jobs['J-6']!.time!.likely.value
  await likely.fill('a fortnight or so')
  await likely.press('Enter')
  await page
    .getByText(/a fortnight or so/)
    .first()
    .waitFor()
  expect(bench.store.read().collections.jobs['J-6']!.time!.likely.value).toBe(before)
  await likely.fill('90 min')
  await likely.press('Enter')
  await expect.poll(() => bench.store.read().collections.jobs['J-6']!.time!.likely.value).toBe(5400)
  await close()
  await bench.close()
})

it('what the loom proposes is taken in by one press, and the job says which milestone waits for it', async () => {
  const bench = await serveBuild(demoBuild())
  const { page, close } = await openPage(browser, `${bench.address}#/jobs/list`, WIDTHS.phone)
  await page.getByText(/^The loom proposes jobs for/).click()
  await looksRight(page)
  await page.getByRole('button', { name: 'Take in the jobs of Horn' }).click()
  await expect
    .poll(() => Object.keys(bench.store.read().collections.jobs).filter((id) => id.startsWith('J-loom-horn-')).length)
    .toBe(4)
  await page.locator('[data-circuit="horn"]').waitFor({ state: 'detached' })
  await goTo(page, '/of/J-6')
  await page.getByText(/First power waits for it/).waitFor()
  await close()
  await bench.close()
})

describe('a sitting on the phone', () => {
  // Not the loopback door, and yet secure for a browser, so that its service worker runs without a certificate.
  const ADDRESS = '127.0.0.2'
  let bench: Workbench
  let laptop: Page
  let phone: Page
  let pocket: BrowserContext
  beforeEach(async () => {
    bench = await serveBuild(demoBuild(), () => [ADDRESS])
    const at = async (address: string, viewport: { width: number; height: number }): Promise<Page> => {
      const page = await (await browser.newContext({ locale: 'en-US', viewport })).newPage()
      await page.goto(address)
      return page
    }
    laptop = await at(`${bench.address}#/phone`, WIDTHS.laptop)
    await laptop.getByRole('button', { name: /without one/ }).click()
    const code = await laptop.getByText(/#\/phone\/pair\//).textContent()
    phone = await at(code!, WIDTHS.phone)
    pocket = phone.context()
    await phone.getByLabel('Name of this phone').fill('Garage phone')
    await phone.getByRole('button', { name: 'Pair' }).click()
    await phone.getByText('Tarnwick').first().waitFor()
  })
  afterEach(async () => {
    await pocket?.close()
    await laptop?.context().close()
    await bench.close()
  })

  it('is answered, worked through and kept with the network cut, and is in the build when it is back', async () => {
    await goTo(phone, '/sitting')
    await phone.getByLabel('How long have you').fill('2.5 h')
    await phone.getByRole('button', { name: 'What fits?' }).click()
    await phone.getByText(/Nothing better fits/).waitFor()
    await looksRight(phone)
    await phone.evaluate(() => navigator.serviceWorker?.ready)
    await pocket.setOffline(true)
    // Other hours, asked without signal: the planner is on the phone.
    await phone.getByLabel('How long have you').fill('3 h')
    await phone.getByRole('button', { name: 'What fits?' }).click()
    await phone.getByText(/Nothing better fits/).waitFor()
    await phone.getByRole('button', { name: 'Begin' }).click()

    const job = phone.locator('li.job').first()
    const id = (await job.getAttribute('data-job'))!
    await phone.locator('li.open input').first().check()
    await job.getByRole('button', { name: /^Start the timer/ }).click()
    await expect.poll(() => job.locator('.clock').textContent(), { timeout: 5000 }).toMatch(/0:0[1-9]/)
    await job.getByRole('button', { name: /^More about/ }).click()
    await job.getByLabel('What was measured').fill('left wing to battery negative')
    await job.getByLabel('Instrument').selectOption('resistance')
    await job.getByLabel('Reading with its unit').fill('0.2 Ω')
    await job.getByRole('button', { name: 'Keep the reading' }).click()
    await job.getByText('One reading kept for this job.').waitFor()
    await job.getByLabel(/^Photograph /).setInputFiles({ name: 'wing.png', mimeType: 'image/png', buffer: PICTURE })
    await job.getByText('waits', { exact: true }).waitFor()
    await job.getByLabel(/^Time that/).fill('35 min')
    await job.getByRole('checkbox').first().check()
    await job.getByText('took 35 min').waitFor()
    await looksRight(phone)
    const before = bench.store.read().collections
    expect(before.jobs[id]!.status).not.toBe('done')
    expect(Object.values(before.readings).some(({ subject }) => subject.startsWith('left wing'))).toBe(false)

    // The phone goes into the pocket and comes out again, still without signal: the sitting goes on where it was.
    await phone.reload()
    await goTo(phone, '/sitting')
    await phone.locator(`li.job[data-job="${id}"]`).getByText('took 35 min').waitFor()
    await pocket.setOffline(false)
    await expect.poll(() => bench.store.read().collections.jobs[id]!.status, { timeout: 10_000 }).toBe('done')
    await expect
      .poll(() => Object.values(bench.store.read().collections.readings), { timeout: 10_000 })
      .toContainEqual(expect.objectContaining({ subject: 'left wing to battery negative', value: 0.2 }))
    await expect
      .poll(() => Object.values(bench.store.read().collections.photos), { timeout: 10_000 })
      .toMatchObject([{ about: `jobs/${id}`, file: expect.stringMatching(/\.png$/) }])
    expect(bench.store.read().collections.jobs[id]!.spent?.value).toBeGreaterThanOrEqual(2100)
    await phone.getByRole('button', { name: 'End the sitting and record it' }).click()
    await expect
      .poll(() => Object.values(bench.store.read().collections.records), { timeout: 10_000 })
      .toContainEqual(expect.objectContaining({ kind: 'sitting', jobs: [id] }))
    // And the laptop has it.
    await laptop.evaluate((hash) => {
      location.hash = hash
    }, `#/jobs/of/${id}`)
    await laptop
      .getByText(/35\smin spent/)
      .first()
      .waitFor()
  })
})

/** One grey dot. */
const PICTURE = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==',
  'base64',
)
