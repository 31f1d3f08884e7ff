// The command as a person types it: what it prints and how it ends.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { demoLogCsv, LOG_EFFECTIVENESS } from '../demo/index.ts'
import { runCommand } from '../src/cli/run.ts'

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
  return { status, out, error }
}
const file = (name: string, content: string | Uint8Array) => {
  writeFileSync(at(name), content)
  return at(name)
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'cli-'))
  expect((await swapwright('demo', at('demo'))).status).toBe(0)
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

test('check lists the findings worst first and says by its status that there is a no-go', async () => {
  const plain = await swapwright('check', '--build', at('demo'))
  expect(plain.status).toBe(1)
  expect(plain.out).toMatch(/no-go/)
  const { out } = await swapwright('check', '--build', at('demo'), '--json')
  const verdicts: string[] = JSON.parse(out).findings.map((finding: { verdict: string }) => finding.verdict)
  const order = ['no-go', 'marginal', 'unknown', 'sound']
  expect(verdicts.map((verdict) => order.indexOf(verdict))).toEqual(
    verdicts.map((verdict) => order.indexOf(verdict)).sort((a, b) => a - b),
  )
})

test('calc --list --json names id, title, inputs, outputs, sources and checks of each', async () => {
  const { out, status } = await swapwright('calc', '--list', '--json')
  expect(status).toBe(0)
  const list = JSON.parse(out)
  expect(list.length).toBeGreaterThanOrEqual(15)
  for (const calc of list) {
    for (const part of ['id', 'title', 'inputs', 'outputs', 'sources', 'checks'])
      expect(calc, calc.id).toHaveProperty(part)
    expect(calc.checks.length, calc.id).toBeGreaterThan(0)
  }
})

// FAA AC 43.13-1B table 11-7: 0.00126 Ω/ft · 39 ft · 20 A, printed 0.98 V. AWG 10 tinned is 1.26 Ω/1000 ft (table 11-9).
test('calc reads what a builder types, and shows its working with ±', async () => {
  const resistance = `${0.00126 * 39} Ω`
  const { out, status } = await swapwright(
    'calc',
    'voltage-drop',
    '--input',
    `resistance=${0.00126 / 0.3048} Ω/m`,
    'length=39 ft',
    'current=20 A ± 1 A',
    '--json',
  )
  expect(status, out).toBe(0)
  const { outputs, working } = JSON.parse(out)
  expect(outputs.drop.value).toBeCloseTo(0.98, 2)
  expect(outputs.drop.plusMinus).toBeCloseTo(0.049, 3)
  expect(working.sources.join()).not.toBe('')
  expect(resistance).toContain('0.049')
})

test('calc refuses what is out of range or unreadable in words, status 4, and never a stack trace', async () => {
  const { status, error } = await swapwright(
    'calc',
    'voltage-drop',
    '--input',
    'resistance=4 mΩ/m',
    'length=-3 m',
    'current=20 A',
  )
  expect(status).toBe(4)
  expect(error).toMatch(/length/)
  expect(error).not.toMatch(/\bat .*\.ts:/)
  expect((await swapwright('calc', 'no-such-thing')).status).toBe(4)
  expect((await swapwright('nonsense')).status).toBe(2)
})

test('export, import, export is the same to the byte', async () => {
  const first = (await swapwright('export', at('demo'))).out
  expect((await swapwright('import', file('build.json', first), at('copy'))).status).toBe(0)
  expect((await swapwright('export', at('copy'))).out).toBe(first)
})

test('a document of a newer format, one cut short and one with a negative length are refused by name; the folder stays', async () => {
  const text = (await swapwright('export', at('demo'))).out
  const newer = await swapwright(
    'import',
    file('newer.json', text.replace('swapwright-build/1', 'swapwright-build/2')),
    at('newer'),
  )
  expect(newer.status).toBe(4)
  expect(newer.error).toMatch(/newer/)
  expect((await swapwright('import', file('short.json', text.slice(0, 5000)), at('short'))).error).toMatch(
    /not a whole JSON document/,
  )
  const build = JSON.parse(text)
  build.collections.wires['W-10'].length = { value: -1 }
  const negative = await swapwright('import', file('negative.json', JSON.stringify(build)), at('negative'))
  expect(negative.status).toBe(4)
  expect(negative.error).toMatch(/W-10/)
  expect((await swapwright('import', file('again.json', text), at('demo'))).error).toMatch(/already holds a build/)
  expect((await swapwright('export', at('demo'))).out).toBe(text)
})

test('a wire list is shown first, stored on --yes, and its bad rows are named by line', async () => {
  await swapwright('new', at('van'), '--name', 'Van')
  const list = file(
    'list.csv',
    'No;From;To;Size;Colour;Length (mm)\nW-1;battery.+;fan-fuse.1;2.5 mm²;red/white;400\nW-2;fan-fuse.2;fan.+;AWG 14;BK;2100\nW-3;fan.-;;1.5 mm²;BN;900\nW-4;a.1;b.1;2,5;stripy;10\nW-5;fan.-;stud.S;"1,234";BN;-5\n',
  )
  const shown = await swapwright('wires', 'import', list, '--build', at('van'))
  expect(shown.status).toBe(4)
  expect(shown.out).toMatch(/Nothing is stored yet/)
  expect(shown.out).toMatch(/Line 4: the end “” names no device/)
  expect(shown.out).toMatch(/Line 5: colour “stripy”/)
  expect(shown.out).toMatch(/Line 6: size/)
  const stored = await swapwright('wires', 'import', list, '--build', at('van'), '--yes')
  expect(stored.status).toBe(4)
  expect(stored.out).toMatch(/2 wires read/)
  const build = JSON.parse((await swapwright('export', at('van'))).out)
  expect(Object.keys(build.collections.wires)).toEqual(['W-1', 'W-2'])
  expect(build.collections.wires['W-1']).toMatchObject({ colour: 'RD', tracer: 'WH', from: 'battery.+' })
  expect(build.collections.wires['W-1'].length.value).toBeCloseTo(0.4, 9)
  expect(build.collections.wires['W-2'].area.value).toBeCloseTo(2.0809e-6, 9)
  expect((await swapwright('undo', '--build', at('van'))).out).toMatch(/Taken back: Wire list/)
})

test('help after the id of a calculation names its inputs', async () => {
  const help = await swapwright('calc', 'voltage-drop', '--help')
  expect(help.status).toBe(0)
  expect(help.out).toMatch(/voltage-drop: Voltage drop along a conductor\n {2}resistance/)
})

test('a cell that a spreadsheet would run comes out inert', async () => {
  await swapwright('new', at('inert'))
  const list = file('evil.csv', 'wire,from,to,remark\nW-1,a.1,b.1,"=HYPERLINK(""http://x"")"\n')
  await swapwright('wires', 'import', list, '--build', at('inert'), '--yes')
  expect((await swapwright('wires', 'export', '--build', at('inert'))).out).toContain(`"'=HYPERLINK(""http://x"")"`)
})

test('the demo log goes in, its roles are bound, and the effectiveness it was made with is inside the interval', async () => {
  const added = await swapwright('log', 'add', file('run.csv', demoLogCsv()), '--build', at('demo'))
  expect(added.status, added.error).toBe(0)
  const cooling = await swapwright('log', 'cooling', '--build', at('demo'), '--json')
  expect(cooling.status, cooling.error).toBe(0)
  const result = JSON.parse(cooling.out)
  expect(result.answer, result.sentence).toBe('told')
  expect(result.effectiveness.low).toBeLessThanOrEqual(LOG_EFFECTIVENESS)
  expect(result.effectiveness.high).toBeGreaterThanOrEqual(LOG_EFFECTIVENESS)
  const build = JSON.parse((await swapwright('export', at('demo'))).out)
  expect(build.collections.readings[result.reading].subject).toBe('charge-cooler-effectiveness')
})

test('a log that is really a picture is refused for what it is, and nothing is stored', async () => {
  const before = (await swapwright('export', at('demo'))).out
  const picture = file(
    'run.png.csv',
    new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, ...new Array(4000).fill(7)]),
  )
  const { status, error } = await swapwright('log', 'add', picture, '--build', at('demo'))
  expect(status).toBe(4)
  expect(error).toMatch(/picture|PNG/)
  expect((await swapwright('export', at('demo'))).out).toBe(before)
})

test('a build file cut short is refused and left as it is', async () => {
  await swapwright('demo', at('broken'))
  const path = join(at('broken'), 'build.sqlite')
  const cut = readFileSync(path).subarray(0, 10_000)
  writeFileSync(path, cut)
  const { status, error } = await swapwright('check', '--build', at('broken'))
  expect(status).toBe(4)
  expect(error).toMatch(/not a whole Swapwright build/)
  expect(readFileSync(path).equals(cut)).toBe(true)
})
