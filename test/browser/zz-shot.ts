import { demoBuild, halfBuild } from '/work/main/demo/index.ts'
import { startBrowser, serveBuild, openPage, WIDTHS } from '/work/main/test/browser/browser.ts'
const browser = await startBrowser()
const bench = await serveBuild(demoBuild())
for (const [name, size, scheme] of [['laptop', WIDTHS.laptop,'light'],['phone', WIDTHS.phone,'light'],['dark', WIDTHS.laptop,'dark']] as const)
 for (const place of ['air','cooling']) {
  const o = await openPage(browser, bench.address + '#/' + place, size, scheme)
  await o.page.locator('main h1').waitFor()
  if (name==='laptop') { const f = o.page.getByLabel(place==='air'?'Conductance of the charge cooler':'Power held for long'); await f.fill(place==='air'?'400 W/K':'35 kW'); if(place==='air') await o.page.getByLabel(/without reading M-1/).check() }
  await o.page.screenshot({ path: `/tmp/shot-${name}-${place}.png`, fullPage: false, clip: {x:0,y:0,width:size.width,height:860} })
  if (name==='phone') await o.page.screenshot({ path: `/tmp/shot-${name}-${place}.png`, fullPage: true, clip: {x:0,y:0,width:390,height:1100} })
  console.log(name, place, o.complaints)
  await o.close()
 }
await bench.close(); await browser.close()
