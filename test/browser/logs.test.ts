/** Logs in the workbench as people get it: taken in, asked, compared, characterised; strips, moments, notes, files. */
import { readFileSync } from 'node:fs'
import type { Browser, Download } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { demoBuild, demoLogCsv } from '../../demo/index.ts'
import { injectorLogCsv, KNOWN_SET, UNKNOWN_SET } from '../../demo/injectorLogs.ts'
import { readInjectorCard, writeInjectorCard } from '../../src/model/readInjectorCard.ts'
import { type OpenPage, openPage, serveBuild, startBrowser, WIDTHS, type Workbench } from './browser.ts'
import { looksRight } from './looks.ts'

let browser: Browser
beforeAll(async () => {
  browser = await startBrowser()
})
afterAll(() => browser.close())

const CARD = writeInjectorCard({
  format: 'injector-card/1',
  name: 'Set A, invented',
  fluid: { name: 'petrol', density: { value: 745 } },
  pressure: { value: 3e5 },
  slope: { value: KNOWN_SET.slope, plusMinus: 0.02 * KNOWN_SET.slope },
  deadTime: [8, 10, 12, 14, 16].map((volts) => [{ value: volts }, { value: KNOWN_SET.deadTime(volts) }]),
  coverage: 0.95,
  method: 'bench test',
  provenance: { from: 'test' },
})
/** A cooler that takes out less: the charge after it stands nearer to that before it. */
const worse = (csv: string): string =>
  csv
    .split('\n')
    .map((line, i) => {
      const cells = line.split(',')
      if (i < 5 || cells.length < 6) return line
      cells[4] = (Number(cells[4]) + 0.08 * (Number(cells[3]) - Number(cells[5]))).toFixed(2)
      return cells.join(',')
    })
    .join('\n')

describe.each(Object.entries(WIDTHS))('logs at the width of a %s', (_name, viewport) => {
  let bench: Workbench
  let open: OpenPage
  beforeEach(async () => {
    bench = await serveBuild(demoBuild())
    open = await openPage(browser, bench.address, viewport, viewport === WIDTHS.phone ? 'dark' : 'light')
    await open.page.evaluate(() => {
      location.hash = '/logs'
    })
    await open.page.getByRole('heading', { name: 'Logs', level: 1 }).waitFor()
  })
  afterEach(async () => {
    const { complaints } = open
    await open.close()
    await bench.close()
    expect(complaints).toEqual([])
  })
  const takeIn = async (name: string, csv: string): Promise<void> => {
    await open.page
      .getByLabel('A file from the logger, text or Parquet')
      .setInputFiles({ name, mimeType: 'text/csv', buffer: Buffer.from(csv) })
    await open.page.getByRole('heading', { name: `How ${name} was read` }).waitFor()
  }
  const saved = async (press: () => Promise<void>): Promise<string> => {
    const [download] = await Promise.all([open.page.waitForEvent('download') as Promise<Download>, press()])
    return readFileSync((await download.path())!, 'latin1')
  }

  it('says whether the cooler improved, from two logs at equal air flow', async () => {
    const { page } = open
    await page.getByLabel('Did the charge cooler improve?').check()
    await takeIn('before.csv', worse(demoLogCsv()))
    await takeIn('after.csv', demoLogCsv())
    await page.getByLabel('The log before the change').selectOption({ label: 'before.csv' })
    await page.getByRole('button', { name: 'Answer from both logs' }).click()
    await expect
      .poll(() => page.locator('.answer .sentence').textContent())
      .toMatch(/^Effectiveness rose by 0\.0[78]\d ± 0\.0\d\d at 0\.\d+ kg\/s/)
    await page.getByRole('img', { name: /before and after/ }).waitFor()
    await looksRight(page)
    expect(Object.values(bench.store.read().collections.readings).map(({ subject }) => subject)).toContain(
      'charge-cooler-effectiveness-change',
    )
  })

  it('characterises injectors from two logs and a card, keeps the card and saves it', async () => {
    const { page } = open
    await page.getByLabel('What is this injector?').check()
    await takeIn('known.csv', injectorLogCsv({ seed: 2, set: KNOWN_SET, hold: 12 }))
    await takeIn('unknown.csv', injectorLogCsv({ seed: 3, set: UNKNOWN_SET, hold: 12 }))
    await page.getByLabel('The log with the known injectors').selectOption({ label: 'known.csv' })
    await page
      .getByLabel(/^Card of the known injectors/)
      .setInputFiles({ name: 'set-a.json', mimeType: 'application/json', buffer: Buffer.from(CARD) })
    await page.getByRole('button', { name: 'Answer from both logs' }).click()
    await page.locator('.answer .sentence').waitFor()
    const ratio = /, (1\.\d+) ± (0\.\d+) times the known set/.exec(
      (await page.locator('.answer .sentence').textContent()) ?? '',
    )
    expect(Math.abs(Number(ratio?.[1]) - UNKNOWN_SET.slope / KNOWN_SET.slope)).toBeLessThan(2 * Number(ratio?.[2]))
    await page.getByRole('img', { name: /^Dead time against volts/ }).waitFor()
    await looksRight(page)
    const card = await saved(() => page.getByRole('button', { name: 'Save the card as a file' }).click())
    expect(readInjectorCard(card).method).toBe('two logs')
    await page.getByRole('button', { name: 'Put it into the fuel sheet' }).click()
    await page.getByRole('button', { name: 'In the fuel sheet' }).waitFor()
    await expect
      .poll(() => bench.store.read().sheets.fuel?.injectors?.card?.provenance.from)
      .toMatch(/^logs known and unknown/)
  })

  it('takes a wrong guess back, and a meaning and unit that the file does not name, once for this logger', async () => {
    const { page } = open
    const csv = (from: number): string =>
      `Time,RPM,Pulse\n${Array.from({ length: 80 }, (_, i) => `${from + 20 * i},${900 + i},${2 + i / 100}\n`).join('')}`
    await page.getByLabel('I only want to look').check()
    await takeIn('plain.csv', csv(0))
    await page.getByText(/it is taken as milliseconds/).waitFor()
    await page.getByText('Something was read wrongly').click()
    await page.getByLabel('Time is given in').selectOption('seconds')
    await looksRight(page)
    await page.getByRole('button', { name: 'Read the file again' }).click()
    await expect.poll(() => bench.store.read().collections.logs.plain?.last).toBe(1580)
    await page.getByText('a sample every 20 s').waitFor()
    await page.getByText(/^Channels and what they mean/).click()
    await page.getByLabel('Unit of Pulse').fill('ms')
    await page.getByLabel('Unit of Pulse').blur()
    await page.getByLabel('Meaning of Pulse').selectOption('injectorPulseWidth')
    await expect
      .poll(() => bench.store.read().collections.logs.plain?.channels.find(({ name }) => name === 'Pulse'))
      .toMatchObject({ unit: 'ms', role: 'injectorPulseWidth', confirmed: true })
    await looksRight(page)
    await takeIn('next.csv', csv(5))
    expect(bench.store.read().collections.logs.next?.channels.find(({ name }) => name === 'Pulse')).toMatchObject({
      role: 'injectorPulseWidth',
      confirmed: true,
    })
    await page.getByLabel('A file from the logger, text or Parquet').setInputFiles({
      name: 'words.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from('It ran well today, and then it did not.\nTomorrow we look at it again.\n'.repeat(9)),
    })
    await page.getByText('words.csv is prose, not a log.').waitFor()
    await page.getByRole('button', { name: 'Read words.csv so' }).waitFor()
    // The refusal is an answer, not a fault of the page.
    open.complaints.splice(0)
  })

  it('characterises injectors from weighings alone', async () => {
    const { page } = open
    const rows = [10, 12, 14].flatMap((volts) =>
      [2, 3, 4, 6, 8, 12].map((pulse, i) => {
        const grams =
          UNKNOWN_SET.slope * 1e3 * (pulse / 1e3 - UNKNOWN_SET.deadTime(volts)) * (1 + 0.002 * ((i % 3) - 1))
        return `${pulse},${volts},1000,${(grams * 1000).toFixed(2)}`
      }),
    )
    await page.getByLabel('What is this injector?').check()
    await takeIn('weighed.csv', `Pulse width [ms],Injector voltage [V],Pulses,Mass [g]\n${rows.join('\n')}\n`)
    await page.getByLabel('this is a table of weighings from a bench test').check()
    await page.getByLabel('Name of the injectors').fill('Green, from the donor')
    await page.getByLabel('Fluid that was weighed').fill('n-heptane')
    await page.getByLabel('Its density').fill('684 kg/m³')
    await page.getByLabel('Pressure across the injectors').fill('300 kPa')
    await page.getByRole('button', { name: 'Answer from the weighings' }).click()
    const flow = /flow (\d+\.\d) ± (\d+\.\d) g\/min of n-heptane/.exec(
      (await page.locator('.answer .sentence').textContent()) ?? '',
    )
    expect(Math.abs(Number(flow?.[1]) - UNKNOWN_SET.slope * 6e4)).toBeLessThan(2 * Number(flow?.[2]))
    await page.getByRole('img', { name: /^What the fit leaves/ }).waitFor()
    await looksRight(page)
    expect(bench.store.read().collections.readings['injectors-weighed']?.provenance?.method).toBe('injectors-bench/1')
  })

  it('tells what is left in the injectors, with the curve and its limit', async () => {
    const { page } = open
    await page.getByLabel('Is there injector left?').check()
    await takeIn('pulls.csv', injectorLogCsv({ seed: 3, set: UNKNOWN_SET, hold: 8 }))
    await page.getByLabel('Target speed').fill('5200 rpm')
    await page.getByLabel('Target manifold pressure').fill('165 kPa absolute')
    await page.getByRole('button', { name: 'Answer from this log' }).click()
    await expect
      .poll(() => page.locator('.answer .sentence').textContent())
      .toMatch(/injector.*Duty is \d+\.\d ± \d+\.\d % at 5200 rpm and 165 kPa/)
    await page.getByRole('img', { name: /^Duty against speed/ }).waitFor()
    await looksRight(page)
  })

  it('reads a moment, pins a note to it, moves along the strips and saves them', async () => {
    const { page } = open
    await page.getByLabel('Which sensor lies?').check()
    await takeIn('evening.csv', demoLogCsv())
    await page.getByRole('button', { name: 'Answer from this log' }).click()
    await page.locator('.answer .sentence').waitFor()
    const strip = page.locator('.strip .u-over').first()
    await strip.click({ position: { x: 90, y: 60 } })
    await page.getByRole('heading', { name: /^At \d+\.\d\d s$/ }).waitFor()
    // What was logged stands at its station, on the drawing of the air and on the line of the cooling.
    const drawn = page.getByRole('region', { name: 'The moment on the drawings' })
    await drawn
      .locator('.line-drawing:visible')
      .getByText(/^logged .*kPa$/)
      .first()
      .waitFor()
    await drawn
      .locator('li.logged', { hasText: /^Engine/ })
      .getByText(/^coolant \d/)
      .waitFor()
    await page.getByLabel('Note at this moment').fill('Second gear, the hill')
    await page.getByRole('button', { name: 'Pin the note' }).click()
    await expect
      .poll(() => Object.values(bench.store.read().collections.notes).map(({ about }) => about))
      .toContainEqual(expect.stringMatching(/^logs\/evening@\d/))
    await page.getByRole('button', { name: 'Closer' }).click()
    await page.getByRole('button', { name: 'Later' }).click()
    await looksRight(page)
    expect(await saved(() => page.getByRole('button', { name: 'SVG' }).click())).toMatch(/^<svg .*<polyline/s)
    expect(await saved(() => page.getByRole('button', { name: 'CSV' }).click())).toMatch(/^time \[s\],.*least/)
    expect((await saved(() => page.getByRole('button', { name: 'PNG' }).click())).slice(1, 4)).toBe('PNG')
  })
})

it('moves along the strips while the store is asked nothing', async () => {
  const bench = await serveBuild(demoBuild())
  const { page, close } = await openPage(browser, bench.address, WIDTHS.laptop)
  await page.evaluate(() => {
    location.hash = '/logs'
  })
  await page.getByLabel('I only want to look').check()
  await page
    .getByLabel('A file from the logger, text or Parquet')
    .setInputFiles({ name: 'evening.csv', mimeType: 'text/csv', buffer: Buffer.from(demoLogCsv()) })
  const strip = page.locator('.strip canvas').first()
  await strip.waitFor()
  await page.getByRole('button', { name: 'Closer' }).click()
  await page.getByRole('button', { name: 'Closer' }).click()
  await page.getByRole('button', { name: 'Later' }).focus()
  await page.waitForLoadState('networkidle')
  const asked: string[] = []
  page.on('request', (request) => asked.push(request.url()))
  const seen = await strip.evaluate(async (canvas: HTMLCanvasElement) => {
    const pictures: string[] = [canvas.toDataURL()]
    for (const key of ['ArrowRight', 'ArrowRight', 'ArrowLeft', 'ArrowLeft']) {
      document.activeElement!.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }))
      // The next refresh shows it: nothing was waited for but the page's own work.
      await new Promise(requestAnimationFrame)
      await new Promise(requestAnimationFrame)
      pictures.push(canvas.toDataURL())
    }
    return pictures
  })
  expect(seen[1]).not.toBe(seen[0])
  expect(seen[2]).not.toBe(seen[1])
  expect([seen[3], seen[4]]).toEqual([seen[1], seen[0]])
  expect(asked.filter((address) => address.includes('/strip'))).toEqual([])
  await close()
  await bench.close()
})
