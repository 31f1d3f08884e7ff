import { demoBuild } from '../../demo/index.ts'
import { openPage, serveBuild, startBrowser, WIDTHS } from './browser.ts'

const places = process.argv.slice(2)
const browser = await startBrowser()
const bench = await serveBuild(demoBuild())
for (const [name, size] of Object.entries(WIDTHS)) {
  const { page, close, complaints } = await openPage(browser, bench.address, size)
  for (const place of places) {
    if (place === 'made') {
      await page.goto(`${bench.address}#/signals/new-switch`)
      await page.getByLabel('Names of the buttons').fill('Page, Map, Launch')
      await page.getByLabel('Where the buttons sit').selectOption('dash-right')
      await page.getByLabel('Pull-up inside the controller').fill('1 kΩ')
      await page.getByLabel('Input of the controller').selectOption('B21')
      await page.getByLabel('Resistor by which no button differs from a broken wire').selectOption('yes')
      await page.getByRole('button', { name: 'Choose', exact: true }).click()
      await page.locator('[data-band="Map"]').waitFor()
    } else if (place === 'chain') {
      await page.goto(`${bench.address}#/signals/new-switch`)
      await page.getByLabel('Where the buttons sit').selectOption('dash-right')
      await page.getByLabel('Else a pull-up outside, chosen from').fill('E12 470 Ω … 4.7 kΩ')
      await page.getByLabel('Input of the controller').selectOption('B21')
      await page.getByLabel('A resistor a button, or one string with taps').selectOption('chain')
      await page.getByLabel('Resistor by which no button differs from a broken wire').selectOption('yes')
      await page.getByRole('button', { name: 'Choose', exact: true }).click()
      await page.locator('[data-band="Up"]').waitFor()
    } else if (place === 'chosen') {
      await page.goto(`${bench.address}#/signals/resistanceSwitches/wheel`)
      await page.getByRole('button', { name: 'Choose', exact: true }).click()
      await page.locator('.proof').waitFor()
    } else {
      await page.goto(`${bench.address}#/signals${place}`)
      await page.locator('main h1').first().waitFor()
    }
    await page.waitForTimeout(400)
    await page.screenshot({ path: `/tmp/sw5/${name}-${place.replace(/\W+/g, '_')}.png`, fullPage: true })
  }
  console.log(name, complaints)
  await close()
}
await bench.close()
await browser.close()
