// The order, the sitting, the dates and the parts as a person asks for them.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { demoBuild, halfBuild } from '../demo/index.ts'
import { runCommand } from '../src/cli/run.ts'
import type { Build } from '../src/model/build.ts'
import { emptyBuild } from '../src/model/build.ts'
import { writeBuild } from '../src/model/read.ts'

let folder = ''
const at = (name: string) => join(folder, name)
const swapwright = async (...args: string[]) => {
  let out = ''
  let error = ''
  const status = await runCommand(args, {
    write: (text) => {
      out += text
    },
    error: (text) => {
      error += text
    },
  })
  return { status, out: out.replace(/\u202f/g, ' '), error }
}
const store = async (name: string, build: Build) => {
  writeFileSync(at(`${name}.json`), writeBuild(build))
  expect((await swapwright('import', at(`${name}.json`), at(name))).status).toBe(0)
}
const TODAY = ['--today', '2025-06-01'] as const

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'plan-cli-'))
  await store('demo', demoBuild())
  await store('half', halfBuild())
  await store('empty', emptyBuild('Empty'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

test('plan gives the order to a milestone, its hours, and what is proven of them', async () => {
  const plain = await swapwright('plan', '--to', 'first-start', '--build', at('demo'), ...TODAY)
  expect(plain.status).toBe(0)
  expect(plain.out).toMatch(/First start, \d+ jobs, \d+ h .*of work\./)
  expect(plain.out).toMatch(/Opening and closing: .*No order has less\./s)
  expect(plain.out).toMatch(/^ {4}open {3}Bonnet up, 1 min$/m)
  expect(plain.out).toMatch(/^ {4}wait {3}for Rollover valve \(due 2025-06-20\)$/m)
  const { out } = await swapwright('plan', '--to', 'first-start', '--build', at('demo'), ...TODAY, '--json')
  const plan = JSON.parse(out)
  expect(plan.openings).toBe(plan.bound)
  expect(plan.steps.filter(({ kind }: { kind: string }) => kind === 'job')).toHaveLength(
    Number(/(\d+) jobs/.exec(plain.out)![1]),
  )
  expect(plan.brackets.length).toBeGreaterThan(5)
})

test('plan refuses a milestone there is not, a day that is none, and hours that are none', async () => {
  const moon = await swapwright('plan', '--to', 'moon', '--build', at('demo'))
  expect([moon.status, moon.error]).toEqual([
    4,
    'There is no milestone “moon”. It has: first-power, first-start, first-drive, inspection.\n',
  ])
  const day = await swapwright('plan', '--today', '2025-02-30', '--build', at('demo'))
  expect([day.status, day.error]).toEqual([4, '“2025-02-30” is not a day. Write it as 2025-06-30.\n'])
  const hours = await swapwright('plan', '--hours', 'a weekend', '--build', at('demo'))
  expect(hours.status).toBe(4)
  expect(hours.error).toMatch(/“a weekend” is not a time of work in hours or minutes/)
})

test('sitting answers with jobs, what to have ready and what stays open', async () => {
  const ask = ['sitting', '--hours', '2.5', '--apart', 'front-panel', '--build', at('demo'), ...TODAY]
  const plain = await swapwright(...ask)
  expect(plain.status).toBe(0)
  expect(plain.out).toMatch(/^\d+ jobs, 2 h .* with times that are kept in 8 of 10 cases/)
  expect(plain.out).toMatch(/^Stays open: .*Grille and front panel off/m)
  expect(plain.out).toMatch(/While you are there/)
  const sitting = JSON.parse((await swapwright(...ask, '--json')).out)
  expect(sitting.time).toBeLessThanOrEqual(9000)
  expect(sitting.jobs.length).toBeGreaterThan(0)
  expect((await swapwright('sitting', '--build', at('demo'))).status).toBe(2)
  for (const [wrong, says] of [
    [['--apart', 'roof'], /There is no access “roof”/],
    [['--here', 'moon'], /There is no part “moon”/],
    [['--end', 'upside-down'], /is no state the car can be left in\. Choose from: apart, drivable, closed/],
  ] as const) {
    const refused = await swapwright('sitting', '--hours', '2', '--build', at('demo'), ...wrong)
    expect(refused.status).toBe(4)
    expect(refused.error).toMatch(says)
  }
})

test('forecast speaks one sentence with two dates, or names what it lacks', async () => {
  const none = await swapwright('forecast', '--build', at('demo'), ...TODAY)
  expect(none.status).toBe(0)
  expect(none.out).toMatch(/No date can be given: how many hours a week go into the car is unknown/)
  const ask = ['forecast', '--build', at('demo'), '--hours', '6', '--to', 'first-start', ...TODAY]
  const said = await swapwright(...ask, '--late', 'rollover-valve=200')
  expect(said.out).toMatch(
    /^First start: as likely as not by 2025-\d\d-\d\d, and in eight of ten cases by 2025-\d\d-\d\d/,
  )
  expect(said.out).toMatch(/What holds the date most:/)
  expect(said.out).toMatch(/What if: First start: .* That is \d+ days later\./s)
  const { dates, whatIf } = JSON.parse((await swapwright(...ask, '--drop', 'J-39', '--json')).out)
  expect(whatIf.dates.in80 < dates.in80).toBe(true)
  expect((await swapwright(...ask, '--late', 'soon')).error).toMatch(/does not say which part is how late/)
})

test('parts lists what to buy and what to give back, and names sums that lack a price', async () => {
  const plain = await swapwright('parts', '--build', at('demo'), '--today', '2025-07-02')
  expect(plain.status).toBe(0)
  expect(plain.out).toMatch(/To buy, supplier not chosen:/)
  expect(plain.out).toMatch(/Crimping tool for open barrels, to neighbour, by 2025-07-01, overdue/)
  expect(plain.out).toMatch(/18\.00 EUR spent, 216\.90 EUR to spend/)
  expect(plain.out).toMatch(/In no sum, for want of a price or its currency: \d+ parts\./)
  expect(JSON.parse((await swapwright('parts', '--build', at('demo'), '--json')).out).sums).toEqual([
    { currency: 'EUR', spent: 18, toSpend: 216.9 },
  ])
})

test('each of them works on an empty build and on one with half its data missing', async () => {
  for (const name of ['empty', 'half'])
    for (const ask of [['plan'], ['sitting', '--hours', '2'], ['forecast', '--hours', '5'], ['parts']]) {
      const { status, out, error } = await swapwright(...ask, '--build', at(name), ...TODAY)
      expect([name, ...ask, status, error].join(' ')).toBe([name, ...ask, 0, ''].join(' '))
      expect(out.length).toBeGreaterThan(10)
    }
  const { out } = await swapwright('plan', '--all', '--build', at('half'), ...TODAY)
  expect(out).toMatch(/Unknown:/)
  expect(out).toMatch(/\(unknown, stands in\)/)
  expect((await swapwright('plan', '--build', at('empty'))).out).toMatch(/no open jobs/)
})
