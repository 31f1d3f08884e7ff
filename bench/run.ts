/** `npm run bench -- <which>`: measurements against general-purpose peers, as ratios within one run. */
import { benchFault } from './fault.ts'
import { benchInjectors } from './injectors.ts'
import { benchLog } from './log.ts'
import { benchNetwork } from './network.ts'
import { benchPlan } from './plan.ts'
import { benchSwitch } from './resistanceSwitch.ts'
import { printRows, type Row } from './rows.ts'

const BENCHES: Record<string, { title: string; run: () => Row[] | Promise<Row[]> }> = {
  network: { title: 'Network solution', run: benchNetwork },
  log: { title: 'Reading logs in', run: benchLog },
  injectors: { title: 'Injector characterisation', run: benchInjectors },
  plan: { title: 'Order of jobs', run: benchPlan },
  fault: { title: 'Fault search', run: benchFault },
  switch: { title: 'Resistance switch design', run: benchSwitch },
}

const asked = process.argv.slice(2)
const unknown = asked.filter((name) => !Object.hasOwn(BENCHES, name))
if (unknown.length > 0) {
  console.error(`There is no bench ${unknown.join(', ')}. Choose from: ${Object.keys(BENCHES).join(', ')}.`)
  process.exit(2)
}
for (const name of asked.length > 0 ? asked : Object.keys(BENCHES)) {
  const { title, run } = BENCHES[name]!
  printRows(title, await run())
}
