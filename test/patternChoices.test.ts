import { expect, it } from 'vitest'
import { demoBuild } from '../demo/index.ts'
import { patterns } from '../src/assess/patterns/index.ts'
import { emptyBuild } from '../src/model/build.ts'
import { choicesFor, reasonable } from '../src/web/circuits/patterns/choices.ts'
import { groups } from '../src/web/circuits/patterns/groups.ts'

it('every pattern stands in one group, and none is left to “Others”', () => {
  const listed = groups.flatMap((group) => group.patterns.map(({ id }) => id))
  expect([...listed].sort()).toEqual(patterns.map(({ id }) => id).sort())
  expect(groups.map(({ name }) => name)).not.toContain('Others')
})

const question = (pattern: string, name: string) =>
  patterns.find(({ id }) => id === pattern)!.questions.find((one) => one.name === name)!
const values = (...given: Parameters<typeof choicesFor>) =>
  choicesFor(...given).flatMap(({ choices }) => choices.map(({ value }) => value))

it('offers what the build has: rails before pins, free pins of the chosen controller, studs, branch points', () => {
  const build = demoBuild()
  const feeds = choicesFor(build, question('horn', 'feed'), {})
  expect(feeds[0]).toMatchObject({ group: 'Rails and splices' })
  expect(feeds[0]!.choices.map(({ value }) => value)).toContain('bus-30')
  const pins = question('electric-fans', 'outputs')
  expect(values(build, pins, {})).toEqual([])
  const free = values(build, pins, { controller: 'ecu' })
  const wired = Object.values(build.collections.wires).flatMap(({ from, to }) => [from, to])
  expect(free.length).toBeGreaterThan(0)
  for (const pin of free) expect(wired).not.toContain(`ecu.${pin}`)
  expect(values(build, question('horn', 'earth'), {})).toContain('stud-nose')
  expect(values(build, question('horn', 'horns'), {})).toContain('nose-mid')
})

it('never offers an airbag or anti-lock device', () => {
  const build = demoBuild()
  Object.assign(build.collections.devices['stud-nose']!, { restricted: 'airbag' })
  expect(values(build, question('horn', 'earth'), {})).not.toContain('stud-nose')
  expect(values(build, question('horn', 'feed'), {}).filter((one) => one.startsWith('stud-nose'))).toEqual([])
})

it('takes an answer for granted only where the build leaves no other, or the question names the rail', () => {
  const build = demoBuild()
  expect(reasonable(build, question('electric-fans', 'controller'))).toBe('ecu')
  expect(reasonable(build, question('horn', 'feed'))).toBe('bus-30')
  expect(reasonable(build, question('horn', 'earth'))).toBe('')
  expect(reasonable(emptyBuild('empty'), question('horn', 'feed'))).toBe('')
})
