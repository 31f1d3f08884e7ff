/** The phone beside the car, from an address that is not this machine's loopback door, with the signal cut and back. */
import { AxeBuilder } from '@axe-core/playwright'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest'
import { demoBuild } from '../../demo/index.ts'
import { nextId } from '../../src/model/newId.ts'
import { homeAddresses } from '../../src/server/home/addresses.ts'
import { overflow, serveBuild, smallText, startBrowser, WIDTHS, type Workbench } from './browser.ts'

/** A real address of this machine where it has one; else the second of the loopback net, which is none of its doors. */
const ADDRESS = homeAddresses()[0] ?? '127.0.0.2'
/** Counts as secure for a browser without any certificate, so that its service worker can be tried. */
const SECURE_ADDRESS = '127.0.0.2'
const FUSE = 'fuse-against-conductor:wires/W-91'

let browser: Browser
beforeAll(async () => {
  browser = await startBrowser()
})
afterAll(() => browser.close())

let bench: Workbench
let laptop: Page
let phone: Page
let pocket: BrowserContext
const open = async (address: string, viewport: { width: number; height: number }, more: object = {}) =>
  (await browser.newContext({ locale: 'en-US', viewport, ...more })).newPage().then(async (page) => {
    await page.goto(address)
    return page
  })

const pairPhone = async (secure: boolean): Promise<void> => {
  laptop = await open(`${bench.address}#/phone`, WIDTHS.laptop)
  await laptop.getByRole('button', { name: secure ? /with a certificate/ : /without one/ }).click()
  const code = await laptop.getByText(/#\/phone\/pair\//).textContent()
  phone = await open(code!, WIDTHS.phone, { ignoreHTTPSErrors: secure })
  pocket = phone.context()
  await phone.getByLabel('Name of this phone').fill('Garage phone')
  await phone.getByRole('button', { name: 'Pair' }).click()
  await phone.getByText('Tarnwick').first().waitFor()
  // What a person has before the walk to the garage: without a certificate nothing else keeps the pages.
  await phone.locator('main[data-pages="all"]').waitFor()
}

beforeEach(async () => {
  bench = await serveBuild(demoBuild(), () => [ADDRESS])
})
afterEach(async () => {
  await pocket?.close()
  await laptop?.context().close()
  await bench.close()
})

const makeJob = async (page: Page): Promise<void> => {
  await page.evaluate((key) => {
    location.hash = `#/findings/${encodeURIComponent(key)}`
  }, FUSE)
  await page.locator(`[data-finding="${FUSE}"]`).getByRole('button', { name: 'Make it a job' }).click()
}
const jobs = () => Object.values(bench.store.read().collections.jobs).filter((job) => job.finding === FUSE)

it('pairs by the code, shows the build, and what the laptop does is on the phone within a second', async () => {
  await pairPhone(false)
  expect(await overflow(phone)).toBeLessThanOrEqual(0)
  await makeJob(laptop)
  await phone.evaluate((key) => {
    location.hash = `#/findings/${encodeURIComponent(key)}`
  }, FUSE)
  await phone
    .locator(`[data-finding="${FUSE}"]`)
    .getByText(/^Job .* to do;/)
    .waitFor({ timeout: 1500 })
  await laptop.goto(`${bench.address}#/phone`)
  await laptop.getByRole('button', { name: 'Look again' }).click()
  await laptop.getByRole('button', { name: 'Send away Garage phone' }).click()
  await phone.reload()
  await phone.getByText('This phone is not paired with the laptop.').waitFor()
})

it('keeps what is done without signal, says that it waits, and sends it when the signal is back', async () => {
  await bench.close()
  bench = await serveBuild(demoBuild(), () => [SECURE_ADDRESS])
  await pairPhone(false)
  await phone.evaluate(() => navigator.serviceWorker?.ready)
  await pocket.setOffline(true)
  await makeJob(phone)
  await phone.getByText(/One change waits here/).waitFor()
  await phone
    .locator(`[data-finding="${FUSE}"]`)
    .getByLabel(/^Photograph /)
    .setInputFiles({ name: 'strap.png', mimeType: 'image/png', buffer: PICTURE })
  await phone.getByText('waits', { exact: true }).waitFor()
  expect(jobs()).toEqual([])
  // The page is closed and opened again in the garage, still without signal.
  await phone.reload()
  await phone.getByText(/One change waits here/).waitFor({ timeout: 10_000 })
  await pocket.setOffline(false)
  await expect.poll(() => jobs().length, { timeout: 8000 }).toBe(1)
  await phone.evaluate((key) => {
    location.hash = `#/findings/${encodeURIComponent(key)}`
  }, FUSE)
  await expect
    .poll(() => Object.values(bench.store.read().collections.photos), { timeout: 8000 })
    .toMatchObject([{ about: 'wires/W-91', file: expect.stringMatching(/\.png$/) }])
})

it('what both changed is shown for the person to settle, and neither is lost', async () => {
  await pairPhone(false)
  await phone.evaluate(() => {
    location.hash = '#/circuits/of/wires/W-91'
  })
  const field = phone.getByLabel('Size of wire W-91', { exact: true })
  await field.waitFor()
  await pocket.setOffline(true)
  await field.fill('2.5 mm²')
  await field.press('Enter')
  await phone.getByText(/One change waits here/).waitFor()
  const wire = bench.store.read().collections.wires['W-91']!
  bench.store.edit({
    label: 'On the laptop',
    changes: [{ collection: 'wires', id: 'W-91', value: { ...wire, area: { value: 4e-6, unit: 'mm²' } } }],
  })
  await pocket.setOffline(false)
  await phone.getByText(/Changed in two places/).waitFor()
  const { violations } = await new AxeBuilder({ page: phone }).analyze()
  expect(violations.map(({ id }) => id)).toEqual([])
  expect(await overflow(phone)).toBeLessThanOrEqual(0)
  expect(await smallText(phone)).toEqual([])
  await phone.getByRole('button', { name: 'Keep what is here' }).click()
  await expect.poll(() => bench.store.read().collections.wires['W-91']?.area?.value).toBeCloseTo(2.5e-6, 12)
})

it('loses no reading: two of one number, a server that will not listen just now, an edit that cannot be stored', async () => {
  await pairPhone(false)
  const ticked = async (page: Page, circuit: string): Promise<void> => {
    await page.evaluate((to) => {
      location.hash = `#/faults/sheets/${to}`
    }, circuit)
    const one = page.getByRole('button', { name: 'One at a time' })
    await one.click()
    await page.getByRole('button', { name: 'As expected' }).click()
  }
  const kept = new Set(Object.keys(bench.store.read().collections.readings))
  const readings = () =>
    Object.values(bench.store.read().collections.readings).flatMap(({ id, test }) =>
      test === undefined || kept.has(id) ? [] : [`${id} ${test.split('/')[0]}`],
    )
  const next = Number(nextId(bench.store.read().collections.readings, 'M').slice(2))
  const [fan, horn, wipers] = [`M-${next} fan`, `M-${next + 1} horn`, `M-${next + 2} wipers`]
  await pocket.setOffline(true)
  await ticked(phone, 'horn')
  await phone.getByText(/One change waits here/).waitFor()
  await ticked(laptop, 'fan')
  await expect.poll(readings).toEqual([fan])
  // The signal is back, and the server has had too many wrong tries from this address: it waits on.
  await phone.route('**/api/edits', (route) =>
    route.fulfill({ status: 429, json: { problems: [{ code: 'too-many-tries', says: 'Too many.', todo: 'Wait.' }] } }),
  )
  const refused = phone.waitForResponse('**/api/edits')
  await pocket.setOffline(false)
  await refused
  await phone.getByText(/One change waits here/).waitFor()
  await phone.unroute('**/api/edits')
  // It tries again by itself as well, and may have been listened to before the press.
  await phone
    .getByRole('button', { name: 'Try now' })
    .click({ timeout: 2000 })
    .catch(() => undefined)
  await expect.poll(readings, { timeout: 8000 }).toEqual([fan, horn])
  // What cannot be stored as it is stays on the phone until the person lets it go.
  await pocket.setOffline(true)
  await ticked(phone, 'wipers')
  await phone.getByText(/One change waits here/).waitFor()
  await phone.route('**/api/edits', (route) =>
    route.fulfill({ status: 422, json: { problems: [{ code: 'gone', says: 'The case is gone.', todo: 'Choose.' }] } }),
  )
  await pocket.setOffline(false)
  await phone.getByText(/^Not stored: Ticked/).waitFor({ timeout: 8000 })
  await phone.getByText('The case is gone.').waitFor()
  expect(await overflow(phone)).toBeLessThanOrEqual(0)
  await phone.unroute('**/api/edits')
  await phone.getByRole('button', { name: 'Try again' }).click()
  await expect.poll(readings, { timeout: 8000 }).toEqual([fan, horn, wipers])
})

it('the laptop page is whole at both widths, with the certificate too', async () => {
  await pairPhone(true)
  expect(phone.url()).toMatch(/^https:/)
  for (const size of Object.values(WIDTHS)) {
    await laptop.setViewportSize(size)
    expect(await overflow(laptop)).toBeLessThanOrEqual(0)
    expect(await smallText(laptop)).toEqual([])
    const { violations } = await new AxeBuilder({ page: laptop }).analyze()
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([])
  }
})

/** One grey dot. */
const PICTURE = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==',
  'base64',
)
