import { demoBuild } from '../../demo/index.ts'
import { openPage, serveBuild, startBrowser, WIDTHS } from './browser.ts'

const browser = await startBrowser()
const bench = await serveBuild(demoBuild())
const only = process.argv.slice(2)
for (const [name, size] of Object.entries(WIDTHS)) {
  const { page, close, complaints } = await openPage(browser, bench.address, size)
  for (const place of ['', '/sitting', '/list', '/accesses', '/forecast', '/parts', '/of/J-6']) {
    if (only.length > 0 && !only.includes(place)) continue
    await page.goto(`${bench.address}#/jobs${place}`)
    await page.locator('main h1').first().waitFor()
    if (place === '')
      await page
        .getByText(/no order has less/)
        .first()
        .waitFor({ timeout: 30000 })
    if (place === '/forecast') await page.waitForTimeout(4000)
    if (place === '/sitting') {
      await page.screenshot({ path: `/tmp/sw8/${name}-sitting-ask.png`, fullPage: true })
      await page.getByLabel('How long have you').fill('2 h')
      await page.getByRole('button', { name: 'What fits?' }).click()
      await page.getByRole('button', { name: 'Begin' }).waitFor()
      await page.waitForTimeout(300)
      await page.screenshot({ path: `/tmp/sw8/${name}-sitting-answer.png`, fullPage: true })
      await page.getByRole('button', { name: 'Begin' }).click()
      await page
        .locator('li.job')
        .first()
        .getByRole('button', { name: /^More about/ })
        .click()
    }
    await page.waitForTimeout(300)
    await page.screenshot({
      path: `/tmp/sw8/${name}-${place.replace(/\W+/g, '_') || 'order'}.png`,
      fullPage: name === 'phone' ? place !== '' : true,
    })
  }
  console.log(name, complaints)
  await close()
}
await bench.close()
await browser.close()
