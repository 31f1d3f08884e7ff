/** The Signals screen as people get it: ledger, bands, a switch designed and added to the circuits, curves and tables. */
import type { Browser } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { demoBuild, halfBuild } from '../../demo/index.ts'
import { emptyBuild } from '../../src/model/build.ts'
import { signalsPage } from '../../src/web/signals/signals.page.ts'
import { type OpenPage, openPage, serveBuild, startBrowser, WIDTHS, type Workbench } from './browser.ts'
import { looksRight } from './looks.ts'

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

  it('lists every controller pin, and says what to do about the one that is not wired', async () => {
    const { page } = open
    const signals = signalsPage(page)
    await signals.open(bench.address)
    await signals.rows.first().waitFor()
    expect(await signals.rows.count()).toBe(48)
    await looksRight(page)
    await signals.words.fill('after the cooler')
    await expect.poll(() => signals.rows.count()).toBe(1)
    const row = signals.row('ecu.B5')
    expect(await row.textContent()).toMatch(/no wire.*No-go/)
    await row.getByRole('button').click()
    await row.getByText('Open the finding').waitFor()
    expect(await row.textContent()).toContain('Wire Charge temperature after the cooler to Engine controller, pin B5')
    await looksRight(page)
    await signals.words.fill('')
    await signals.show('free')
    await expect.poll(() => signals.rows.count()).toBe(5)
  })

  it('takes what a speedometer was made for, refuses what is no number, and adds a dial that is missing', async () => {
    const { page } = open
    const signals = signalsPage(page)
    await signals.open(bench.address)
    await page.getByRole('link', { name: 'Speedometer of the old dash' }).click()
    await signals.answer.waitFor()
    await looksRight(page)
    const made = page.getByLabel('A kilometre, as the dial says')
    const store = page.getByRole('button', { name: 'Store where they come from' })
    await made.fill('many')
    await store.click()
    await page.getByText('A kilometre: “many” is no number above 0.').waitFor()
    await made.fill('1,5')
    await page.getByLabel('In so many turns of that shaft').fill('')
    await store.click()
    await page.getByText('Counts and turns belong together; one of them is empty.').waitFor()
    expect(bench.store.read().collections.gauges.speedometer).toMatchObject({ constant: 800 })
    await page.getByLabel('In so many turns of that shaft').fill('17')
    await made.fill('650')
    await store.click()
    await expect
      .poll(() => bench.store.read().collections.gauges.speedometer)
      .toMatchObject({ constant: 650, counted: { shaft: 'gearbox output', counts: 7, turns: 17 } })
    await expect.poll(() => signals.answer.textContent()).toMatch(/of the true speed/)
    await signals.open(bench.address, '/inputs/in-speed')
    await page.getByLabel('Pulses a kilometre the controller is set to').fill('16100')
    await store.click()
    await expect.poll(() => bench.store.read().collections.inputs['in-speed']).toMatchObject({ pulses: 16100 })
    await signals.open(bench.address, '/new-speed')
    await page.getByLabel('A speedometer, called').fill('Dial of the trailer')
    await page.getByRole('button', { name: 'Add it' }).click()
    await page.getByRole('heading', { name: 'Dial of the trailer' }).waitFor()
    await expect.poll(() => signals.answer.textContent()).toMatch(/cannot be told without/)
    await looksRight(page)
  })

  it('shows two buttons that read alike, chooses other resistors with proof, stores them, and undo takes them back', async () => {
    const { page } = open
    const signals = signalsPage(page)
    await signals.open(bench.address, '/resistanceSwitches/wheel')
    await signals.band('Cruise set').waitFor()
    expect(await signals.answer.first().textContent()).toMatch(/Cruise set and Cruise cancel read alike/)
    await looksRight(page)
    await signals.choose.click()
    await expect.poll(() => signals.proof.textContent()).toMatch(/Narrowest gap 528 mV. Proven/)
    await signals.store.click()
    await expect.poll(() => signals.answer.first().textContent()).not.toMatch(/read alike/)
    await looksRight(page)
    await signals.undo.click()
    await expect.poll(() => signals.answer.first().textContent()).toMatch(/read alike/)
  })

  it('designs a new switch and adds it to the circuits, where its earth offset is solved', async () => {
    const { page } = open
    const signals = signalsPage(page)
    await signals.open(bench.address, '/new-switch')
    await page.getByLabel('Names of the buttons').fill('Page, Map, Launch')
    await page.getByLabel('Where the buttons sit').selectOption('dash-right')
    await page.getByLabel('Pull-up inside the controller').fill('1 kΩ')
    await page.getByLabel('Input of the controller').selectOption('B21')
    await page.getByLabel('Resistor by which no button differs from a broken wire').selectOption('yes')
    await looksRight(page)
    await signals.choose.click()
    await signals.band('Map').waitFor({ timeout: 30_000 })
    await page
      .getByText(/no other choice of these parts has a wider one/)
      .first()
      .waitFor()
    // What to solder: by colour code, and drawn.
    expect(await signals.parts.textContent()).toMatch(/Page270\sΩ ± 1\s%red, violet, black, black, brown/)
    await page
      .getByRole('img', { name: /How it is soldered\. From the wire to the return.*270\sΩ with Page/ })
      .waitFor()
    await looksRight(page)
    await signals.addToCircuits.click()
    await page.getByRole('heading', { name: 'Buttons', exact: true }).waitFor()
    expect(await signals.answer.first().textContent()).toMatch(
      /Sound.*all 3 buttons, a short and an open wire are told apart/,
    )
    const { build } = await (await fetch(`${bench.address}api/build`)).json()
    expect(build.collections.resistanceSwitches.buttons.buttons.map(({ name }: { name: string }) => name)).toEqual([
      'Page',
      'Map',
      'Launch',
    ])
    expect(build.collections.devices['button-resistor-3'].spec.kind).toBe('resistor')
    await signals.undo.click()
    await page.getByText('There is no such switch in this build.').waitFor()
  })

  it('takes resistances measured at the plug of a switch that exists, and finds its pull-up', async () => {
    const { page } = open
    const signals = signalsPage(page)
    await signals.open(bench.address, '/resistanceSwitches/wheel')
    const form = page.getByRole('region', { name: 'Resistances of this switch' })
    await form.getByLabel('The figures are').selectOption('plug')
    // Behind 10 kΩ: 1 kΩ and 1.5 kΩ themselves.
    await form.getByLabel('Cruise set').fill('909.1 Ω')
    await form.getByLabel('Cruise cancel').fill('20 kΩ')
    await form.getByRole('button', { name: 'Store these figures' }).click()
    await page.getByText(/With Cruise cancel held the meter shows no less than with no button/).waitFor()
    await form.getByLabel('Cruise cancel').fill('1304.3 Ω')
    await looksRight(page)
    await form.getByRole('button', { name: 'Store these figures' }).click()
    await expect.poll(() => signals.answer.first().textContent()).not.toMatch(/read alike/)
    const { build } = await (await fetch(`${bench.address}api/build`)).json()
    const [, , , set, cancel] = build.collections.resistanceSwitches.wheel.buttons
    expect(set.resistance.value).toBeCloseTo(1000, 0)
    expect(cancel.resistance.value).toBeCloseTo(1500, 0)
    await form.getByRole('button', { name: 'Find the pull-up' }).click()
    await page.getByText(/Best is .*all 37 were tried/).waitFor()
    await looksRight(page)
  })

  it('shows the thermistor’s readings, takes one more, and writes the table into the controller', async () => {
    const { page } = open
    const signals = signalsPage(page)
    await signals.open(bench.address, '/sensors/coolant-temperature')
    await page.getByRole('heading', { name: 'Error' }).waitFor()
    await looksRight(page)
    await page.getByLabel('Rows it takes').fill('12')
    await page.getByLabel('Values in whole multiples of').fill('1')
    await page.getByText(/no other choice of as many rows is less/).waitFor()
    await page.getByRole('button', { name: 'I have typed it into the controller' }).click()
    await expect
      .poll(async () => (await signals.answer.allTextContents()).join(' '))
      .toMatch(/12 rows.*shows.*0\.\d+\sK/)
    await page.getByLabel('Altitude where the water boils').fill('3048 m')
    await page.getByRole('button', { name: 'It boils: fill in' }).click()
    await expect.poll(() => page.getByLabel('Known value').inputValue()).toMatch(/^89\.8\d*\s±\s0\.78\s°C$/)
    await page.getByLabel('The sensor shows').fill('248 Ω')
    await page.getByRole('button', { name: 'Add the reading' }).click()
    await page.getByRole('rowheader', { name: /^89\.82/ }).waitFor()
    await signals.undo.click()
    await page.getByLabel('Known value').fill('60 °C')
    await page.getByLabel('The sensor shows').fill('100 Ω')
    await page.getByRole('button', { name: 'Add the reading' }).click()
    await page
      .getByText(/does not fall/)
      .first()
      .waitFor()
    await looksRight(page)
    await signals.undo.click()
    await expect.poll(() => page.getByText(/does not fall/).count()).toBe(0)
    await page.getByLabel('Volts at pin B6').fill('1.72 V')
    await page.getByRole('button', { name: 'Store it as measured now' }).click()
    await page.getByText(/^Measured \d{4}-\d{2}-\d{2}\.$/).waitFor()
  })

  it('shows litres by the fill test, and the resistors that help the old gauge', async () => {
    const { page } = open
    const signals = signalsPage(page)
    await signals.open(bench.address, '/levelSenders/fuel-level')
    await page.getByRole('heading', { name: 'Fuel gauge of the old dash' }).waitFor()
    expect(await page.locator('main').textContent()).toMatch(/Petrol: outdoors/)
    await looksRight(page)
    await signals.store.click()
    await expect
      .poll(
        async () =>
          (await (await fetch(`${bench.address}api/build`)).json()).build.collections.gauges['fuel-gauge'].network,
      )
      .toBeTruthy()
  })

  it('takes a fill test can by can, and refuses a tank that cannot be', async () => {
    const { page } = open
    const signals = signalsPage(page)
    await signals.open(bench.address, '/levelSenders/fuel-level')
    await page.getByLabel('Shape of the tank inside').fill('barrel')
    await page.getByRole('button', { name: 'Store what is measured' }).click()
    await page.getByText(/“barrel” is no tank/).waitFor()
    await page.getByLabel('Shape of the tank inside').fill('box 60 cm × 40 cm × 25 cm')
    await page.getByLabel('Poured since the reading before').fill('2 l')
    await page.getByLabel('The sender then shows').fill('20 Ω')
    await page.getByRole('button', { name: 'Add this can' }).click()
    await expect.poll(() => page.getByLabel('Fill test, can by can').inputValue()).toMatch(/; 2 l=20 Ω$/)
    await looksRight(page)
    await page.getByRole('button', { name: 'Store what is measured' }).click()
    await expect.poll(() => signals.answer.first().textContent()).toMatch(/52\.0\sl by its fill test/i)
    const { build } = await (await fetch(`${bench.address}api/build`)).json()
    expect(build.collections.levelSenders['fuel-level'].tank).toMatchObject({ shape: 'box', width: { value: 0.4 } })
    await signals.open(bench.address, '/new-level')
    await looksRight(page)
  })

  it('is readable in the dark', async () => {
    const { page } = open
    await page.evaluate(() => {
      document.documentElement.dataset.theme = 'dark'
    })
    const signals = signalsPage(page)
    for (const place of ['', '/resistanceSwitches/wheel', '/sensors/map', '/levelSenders/fuel-level']) {
      await signals.open(bench.address, place)
      await looksRight(page)
    }
  })
})

it.each([
  ['an empty build', emptyBuild('Empty'), /No pin of a controller is entered yet/],
  ['a half-entered build', halfBuild(), /inputs, .* outputs/],
] as const)('works on %s', async (_what, build, says) => {
  const bench = await serveBuild(build)
  const open = await openPage(browser, bench.address, WIDTHS.phone)
  try {
    const signals = signalsPage(open.page)
    await signals.open(bench.address)
    await open.page.getByText(says).first().waitFor()
    await looksRight(open.page)
    for (const place of Object.keys(build.collections.sensors).map((id) => `/sensors/${id}`)) {
      await signals.open(bench.address, place)
      expect(await open.page.locator('main').textContent()).not.toMatch(/NaN|undefined/)
    }
    expect(open.complaints).toEqual([])
  } finally {
    await open.close()
    await bench.close()
  }
})
