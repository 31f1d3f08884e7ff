import { it } from 'vitest'
import { demoBuild, halfBuild } from '../../demo/index.ts'
import { openPage, overflow, serveBuild, smallText, startBrowser, WIDTHS } from './browser.ts'
it('shots', async () => {
  const browser = await startBrowser()
  for (const [name, build] of [['full', demoBuild()], ['half', halfBuild()], ['empty', undefined]] as const) {
    const bench = await serveBuild(build)
    for (const [w, size] of Object.entries(WIDTHS)) {
      const { page, complaints, close } = await openPage(browser, bench.address, size)
      await page.goto(`${bench.address}#/brakes`)
      await page.locator('.stops').waitFor()
      console.log(name, w, await overflow(page), await smallText(page), complaints)
      await page.screenshot({ path: `/tmp/sw/bk-${name}-${w}.png`, fullPage: true })
      await close()
    }
    await bench.close()
  }
  await browser.close()
}, 120000)
