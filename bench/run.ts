/** `npm run bench -- <which>`: measurements against general-purpose peers, as ratios within one run. */
import { printRows, type Row } from './rows.ts'

/** Each is fetched when it is asked for: what another one loads must not change what this one measures. */
const BENCHES: Record<string, { title: string; run: () => Promise<Row[]> }> = {
  network: { title: 'Network solution', run: async () => (await import('./network.ts')).benchNetwork() },
  log: { title: 'Reading logs in', run: async () => (await import('./log.ts')).benchLog() },
  injectors: { title: 'Injector characterisation', run: async () => (await import('./injectors.ts')).benchInjectors() },
  plan: { title: 'Order of jobs', run: async () => (await import('./plan.ts')).benchPlan() },
  fault: { title: 'Fault search', run: async () => (await import('./fault.ts')).benchFault() },
  switch: { title: 'Resistance switch design', run: async () => (await import('./resistanceSwitch.ts')).benchSwitch() },
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
