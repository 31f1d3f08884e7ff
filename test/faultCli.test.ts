// Test sheets and fault searches as a person types them, and as a script does.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Readable } from 'node:stream'
import { Command } from 'commander'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { demoBuild } from '../demo/index.ts'
import { answerOf, type Evidence, startSearch, withEvidence } from '../src/assess/faults/faults.ts'
import { simulatedCar } from '../src/assess/faults/simulatedCar.testing.ts'
import { addFault } from '../src/cli/fault.ts'
import { runCommand } from '../src/cli/run.ts'
import { openBuild } from '../src/store/store.ts'

let folder = ''
let demo = ''
const swapwright = async (...args: string[]) => {
  let out = ''
  let error = ''
  const status = await runCommand([...args, '--build', demo], {
    write: (text) => {
      out += text
    },
    error: (text) => {
      error += text
    },
  })
  return { status, out, error }
}
/** What a person types, line after line, each answered before the next. */
const ask = async (args: readonly string[], lines: readonly string[]): Promise<string> => {
  let text = ''
  const say = (more: string): void => {
    text += more
  }
  const program = new Command('swapwright')
  addFault(program, { write: say, error: say }, Readable.from(lines.map((line) => `${line}\n`)))
  await program.parseAsync(['fault', ...args, '--ask', '--build', demo], { from: 'user' })
  return text
}
const stored = () => {
  const store = openBuild(demo, { readOnly: true })
  try {
    return store.read()
  } finally {
    store.close()
  }
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'fault-cli-'))
  demo = join(folder, 'demo')
  const status = await runCommand(['demo', demo], { write: () => undefined, error: () => undefined })
  expect(status).toBe(0)
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

test('sheet says what to expect, with its cautions, and refuses what is not there', async () => {
  const plain = await swapwright('sheet', 'side-lamps', '--case', 'cruising')
  expect(plain.status).toBe(0)
  expect(plain.out).toMatch(/Tail lamp, left, pin \+, to battery negative\n\s+expected 1\d\.\d\d ± 0\.\d\d V/)
  // No ohms that prove nothing; where they prove something, with their caution.
  expect(plain.out.replace(/\s+/g, ' ')).toMatch(/Not proved in ohms: Earth stud, /)
  expect((await swapwright('sheet', 'fuel-pump')).out).toMatch(/Resistance only on a dead circuit/)
  const { out } = await swapwright('sheet', 'first-power', '--json')
  const sections: { id: string }[] = JSON.parse(out).sections
  expect(sections.map(({ id }) => id)).toEqual(['unplug', 'earths', 'lamp', 'plugs', 'outputs'])
  const none = await swapwright('sheet', 'no-such')
  expect(none.status).toBe(4)
  expect(none.error).toMatch(/There is no circuit no-such\. Name first-power or one of:/)
  expect((await swapwright('sheet')).status).toBe(2)
  expect((await swapwright('sheet', 'side-lamps', '--take', '4')).status).toBe(4)
})

test('a reading that is out opens a search, and the status says so', async () => {
  const good = await swapwright('sheet', 'blower', '--json')
  const line = JSON.parse(good.out)
    .sections.flatMap(({ lines }: { lines: unknown[] }) => lines)
    .findIndex(({ id }: { id: string }) => id.startsWith('volts:blower.+~'))
  const out = await swapwright('sheet', 'blower', '--take', `${line + 1}=8.5`, '--by', 'The builder')
  expect(out.status).toBe(1)
  expect(out.error).toMatch(/Out of tolerance: fault search F-\d+/)
  const [reading] = Object.values(stored().collections.readings).filter(({ test: of }) => of?.startsWith('blower/'))
  expect(reading).toMatchObject({ value: 8.5, by: 'The builder' })
  expect(stored().collections.faultSearches[reading!.search!]!.evidence).toHaveLength(1)
})

test('fault in a script: evidence in, suspects out', async () => {
  const { status, out } = await swapwright(
    'fault',
    'tail-left',
    '--kind',
    'weak',
    '--case',
    'cruising',
    '--remark',
    'works:tail-right',
    '--read',
    'tail-left.+/W-126=12.96',
    '--json',
  )
  expect(status).toBe(0)
  const view = JSON.parse(out)
  expect(view.suspects[0].name).toMatch(/Tail lamp, left/)
  expect(view.evidence).toHaveLength(2)
  expect(view.cautions.join(' ')).toMatch(/fuse/)
  // A builder who knows that the crimps of this car are bad is heard.
  const weak = ['fault', 'tail-left', '--kind', 'weak', '--case', 'cruising', '--json']
  const crimps = JSON.parse((await swapwright(...weak, '--prior', 'bulb_holder=0.01', '--sure', '0.99')).out)
  const shareOf = (from: { suspects: { name: string; probability: number }[] }) =>
    from.suspects.find(({ name }) => /^holder/.test(name))?.probability ?? 0
  expect(shareOf(crimps)).toBeLessThan(0.2 * shareOf(JSON.parse((await swapwright(...weak)).out)))
  // Nor what stood under water: in that zone everything fails more often, elsewhere nothing does.
  const wet = JSON.parse((await swapwright(...weak, '--prior', 'zone:rear=20')).out)
  const usual = JSON.parse((await swapwright(...weak)).out)
  const shareIn = (from: { suspects: { name: string; probability: number }[] }, what: RegExp) =>
    from.suspects.find(({ name }) => what.test(name))?.probability ?? 0
  expect(shareIn(wet, /^holder/)).toBeGreaterThan(shareIn(usual, /^holder/))
  // Nothing was asked to be kept.
  expect(
    Object.values(stored().collections.faultSearches).some(({ complaint }) => complaint.device === 'tail-left'),
  ).toBe(false)
  for (const [args, says] of [
    [['no-such'], /There is no device no-such/],
    [['tail-left', '--kind', 'sulky'], /no complaint/],
    [['tail-left', '--read', '12.9'], /no reading/],
    [['tail-left', '--remark', 'nonsense'], /no remark/],
    [['tail-left', '--sure', '2'], /outside 0.5/],
    [['tail-left', '--prior', 'crimp=-1'], /no prior/],
    [['tail-left', '--prior', 'crmp=3'], /no kind of part/],
    [['tail-left', '--prior', 'zone:moon=3'], /no zone moon/],
    [['tail-left', '--case', 'no-such'], /no operating case/],
    [[], /is not said/],
  ] as const) {
    const refused = await swapwright('fault', ...args, '--json')
    expect(refused.status, args.join(' ')).toBe(4)
    expect(refused.error).toMatch(says)
  }
})

test('fault in a terminal: answers what is asked until the part is found, and makes the repair a job', async () => {
  const car = simulatedCar(demoBuild(), { wire: 'W-126', end: 'to', ohm: 15, caseId: 'cruising', seed: 1 })
  const args = ['tail-left', '--kind', 'weak', '--case', 'cruising']
  // What the terminal will ask for: the same search answers the same car.
  const ready = startSearch(demoBuild(), { complaint: { device: 'tail-left', kind: 'weak' }, case: 'cruising' })
  const read: Evidence[] = []
  const evidence: string[] = []
  for (let view = withEvidence(ready, read); view.standing.kind === 'searching'; view = withEvidence(ready, read)) {
    const { at, against } = view.next!
    read.push(answerOf(view.next!, { value: car.read(view.next!) }))
    evidence.push(`${at}${against ? `~${against}` : ''}=${(read.at(-1) as { value: number }).value}`)
  }
  const text = await ask(args, ['rubbish', ...evidence, 'back', evidence.at(-1)!, 'job'])
  expect(text).toMatch(/Measure next: /)
  expect(text).toMatch(/It is the holder and plug of Tail lamp, left/)
  const search = Object.values(stored().collections.faultSearches).find(
    ({ complaint }) => complaint.device === 'tail-left',
  )!
  expect(stored().collections.jobs[search.job!]!.status).toBe('to do')
  expect(search.evidence).toHaveLength(evidence.length)
  // Each reading is a reading of the build, tied to its search.
  const kept = Object.values(stored().collections.readings).filter((reading) => reading.search === search.id)
  expect(kept.length).toBeGreaterThanOrEqual(evidence.length)
  const closed = await swapwright('fault', '--close', search.id)
  expect(closed.status).toBe(0)
  expect(stored().collections.faultSearches[search.id]!.status).toBe('closed')
  expect((await swapwright('fault', '--close', search.id)).status).toBe(4)
})
