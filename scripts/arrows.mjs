// The rule of the arrows. Fails on a forbidden import, and also when nothing was read: a silent pass is no pass.

import { createRequire } from 'node:module'
import { cruise } from 'dependency-cruiser'
import extractTSConfig from 'dependency-cruiser/config-utl/extract-ts-config'

const { options, forbidden } = createRequire(import.meta.url)('../.dependency-cruiser.cjs')
const { output } = await cruise(
  ['src', 'demo'],
  { ...options, ruleSet: { forbidden }, validate: true },
  {},
  {
    tsConfig: extractTSConfig('tsconfig.json'),
  },
)
const { totalCruised, violations } = output.summary
const arrows = violations.filter((violation) => violation.rule.severity === 'error')
for (const { rule, from, to } of arrows) console.error(`${rule.name}: ${from} → ${to}`)
console.log(`${totalCruised} modules read, ${arrows.length} forbidden imports`)
if (totalCruised < 50)
  console.error('Too few modules were read for this to mean anything: is the TypeScript library installed?')
process.exit(arrows.length > 0 || totalCruised < 50 ? 1 : 0)
