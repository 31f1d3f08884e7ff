// The ledger, a switch, a controller's table and a fill test as a person asks for them.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { demoBuild, halfBuild } from '../demo/index.ts'
import { runCommand } from '../src/cli/run.ts'
import { readControllerTableCsv, readControllerTableJson } from '../src/engineering/signals/table/format.ts'
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
  return { status, out: out.replace(/\u202f/g, ' '), error: error.replace(/\u202f/g, ' ') }
}
const store = async (name: string, build: Build) => {
  writeFileSync(at(`${name}.json`), writeBuild(build))
  expect((await swapwright('import', at(`${name}.json`), at(name))).status).toBe(0)
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'signals-cli-'))
  await store('demo', demoBuild())
  await store('half', halfBuild())
  await store('empty', emptyBuild('Empty'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

test('signals lists every pin, what is wrong with it and what to do', async () => {
  const { status, out } = await swapwright('signals', '--build', at('demo'))
  expect(status).toBe(1)
  expect(out).toMatch(/B5 +input +Charge temperature after the cooler\n +no wire; resistance, pull-up 2\.49 kΩ/)
  expect(out).toMatch(/→ Wire\s+Charge\s+temperature\s+after\s+the\s+cooler\s+to\s+Engine\s+controller,\s+pin\s+B5/)
  expect(out).toMatch(/17 inputs, 18 outputs, 5 free pins, 2 wired without a function\./)
  const json = JSON.parse((await swapwright('signals', '--only', 'free', '--build', at('demo'), '--json')).out)
  expect(json.map(({ pin }: { pin: string }) => pin)).toEqual(['ecu.A21', 'ecu.A22', 'ecu.B15', 'ecu.B21', 'ecu.B22'])
})

test('signals works on the half and the empty build, and refuses a use there is not', async () => {
  expect((await swapwright('signals', '--build', at('half'))).out).toMatch(/unknown: Whether Injector 1 can switch/)
  const empty = await swapwright('signals', '--build', at('empty'))
  expect([empty.status, empty.out]).toEqual([0, expect.stringMatching(/No pin of a controller is entered/)])
  const bad = await swapwright('signals', '--only', 'buttons', '--build', at('demo'))
  expect([bad.status, bad.error]).toEqual([4, expect.stringMatching(/“buttons” is no use of a pin.*Choose input/)])
})

test('switch reads the one in the build, chooses its resistors with proof, stores them and undoes', async () => {
  const read = await swapwright('switch', 'wheel', '--build', at('demo'))
  expect(read.status).toBe(1)
  expect(read.out).toMatch(
    /Narrowest gap -62 mV, between Cruise set and Cruise cancel: in the worst case they read alike/,
  )
  expect(read.out).toMatch(/Earth offset not known/)
  expect(read.out).toMatch(/Cruise set and Cruise cancel read alike even with new contacts/)
  const shown = await swapwright(
    'switch',
    'wheel',
    '--from',
    'E24 47 Ω … 10 kΩ',
    '--tolerance',
    '1%',
    '--build',
    at('demo'),
  )
  expect(shown.status).toBe(0)
  expect(shown.out).toMatch(/Proven: no choice of these parts/)
  expect(shown.out).toMatch(/Nothing is stored yet/)
  const stored = await swapwright(
    'switch',
    'wheel',
    '--from',
    'E24 47 Ω … 10 kΩ',
    '--tolerance',
    '1%',
    '--yes',
    '--build',
    at('demo'),
  )
  expect(stored.out).toMatch(/Stored/)
  expect((await swapwright('switch', 'wheel', '--build', at('demo'))).out).toMatch(/Narrowest gap 528 mV/)
  await swapwright('undo', '--build', at('demo'))
  expect((await swapwright('switch', 'wheel', '--build', at('demo'))).out).toMatch(/Narrowest gap -62 mV/)
})

const circuit = ['--leakage', '1 µA', '--contact', '20 Ω', '--offset', '20 mV', '--tolerance', '1%'] as const
test('switch designs from options alone, as branches and as a chain, from a drawer as well', async () => {
  for (const as of ['branches', 'chain']) {
    const args = [
      '--buttons',
      'Up, Down, Set',
      '--from',
      'E24',
      '--pull-up',
      '1 kΩ',
      '--end-of-line',
      '--as',
      as,
      '--json',
    ]
    const { status, out } = await swapwright('switch', ...args, ...circuit)
    expect(status).toBe(0)
    const { design, reading } = JSON.parse(out)
    expect(design.resistors).toHaveLength(3)
    expect(reading.smallest.gap).toBeCloseTo(design.smallestGap, 9)
    expect(design.smallestGap).toBeLessThanOrEqual(design.proof.unreachable)
  }
  const drawer = await swapwright(
    'switch',
    '--buttons',
    'Up, Down',
    '--from',
    '220 Ω, 1 kΩ, 4.7 kΩ',
    '--pull-up-from',
    'E6',
    ...circuit,
  )
  expect(drawer.out).toMatch(/Up (220 Ω|1\.00 kΩ)/)
  // What age takes: told apart until a worn contact shows more than was reckoned with.
  expect(drawer.out).toMatch(/With new contacts the narrowest gap is \d+ mV; .* read alike once a worn contact shows/)
})

test('switch says every thing that is amiss at once', async () => {
  const equal = await swapwright('switch', '--resistors', 'Up=100 Ω, Down=100 Ω', '--pull-up', '1 kΩ', ...circuit)
  expect([equal.status, equal.error]).toEqual([
    4,
    expect.stringMatching(/Up and Down have the same resistance.*Measure both again/),
  ])
  const zero = await swapwright('switch', '--resistors', 'Up=thick', '--pull-up', '0 Ω', ...circuit)
  expect(zero.status).toBe(4)
  expect(zero.error).toMatch(/pull-up of zero/)
  expect(zero.error).toMatch(/thick/)
  const bare = await swapwright('switch', '--resistors', 'Up=100 Ω', '--pull-up', '1 kΩ')
  expect(bare.error).toMatch(/--leakage is not given.*--contact is not given.*--offset is not given/s)
  expect((await swapwright('switch', 'moon', '--build', at('demo'))).error).toMatch(
    /no switch “moon”.*There are: wheel/,
  )
})

test('table gives the rows of a sensor, as CSV, as JSON and into a file, whole degrees when asked', async () => {
  const csv = await swapwright('table', 'coolant-temperature', '--rows', '12', '--round', '1', '--build', at('demo'))
  expect(csv.status).toBe(0)
  const table = readControllerTableCsv(csv.out)
  expect(table.rows.length).toBeLessThanOrEqual(12)
  for (const { x, y } of table.rows) {
    expect(y).toBe(Math.round(y))
    expect(x * 100).toBeCloseTo(Math.round(x * 100), 9)
  }
  expect(table.largestError).toBeLessThan(1)
  expect(csv.error).toMatch(/no other choice of rows is less/)
  const json = await swapwright('table', 'fuel-pressure', '--rows', '4', '--json', '--build', at('demo'))
  expect(readControllerTableJson(json.out).rows).toEqual([
    { x: 0.5, y: 0 },
    { x: 4.5, y: 1000 },
  ])
  await swapwright('table', 'map', '--out', at('map.json'), '--build', at('demo'))
  expect(readControllerTableJson(readFileSync(at('map.json'), 'utf8')).y.unit).toBe('kPa')
})

test('table takes a file of points, also of ohms behind a pull-up, and says which line it cannot read', async () => {
  writeFileSync(at('boost.csv'), 'V,kPa\n0.4,20\n4.65,250\n')
  const boost = await swapwright('table', '--points', at('boost.csv'), '--kind', 'pressureAbsolute', '--unit', 'kPa')
  expect(readControllerTableCsv(boost.out).rows).toEqual([
    { x: 0.4, y: 20 },
    { x: 4.65, y: 250 },
  ])
  writeFileSync(at('ntc.csv'), '5896;0\n1175;40\n186;100\n')
  const ntc = await swapwright(
    ...['table', '--points', at('ntc.csv'), '--of', 'ohms', '--kind', 'temperature', '--unit', '°C', '--rows', '8'],
    ...['--pull-up', '2.49 kΩ', '--tolerance', '1%', '--leakage', '1 µA', '--offset', '5 mV', '--contact', '1 Ω'],
  )
  expect(ntc.status).toBe(0)
  expect(readControllerTableCsv(ntc.out).openAbove).toBeGreaterThan(3.6)
  writeFileSync(at('bad.csv'), 'V,kPa\n0.4,20\nhalf,thirty\n')
  const bad = await swapwright('table', '--points', at('bad.csv'), '--kind', 'pressureAbsolute', '--unit', 'kPa')
  expect([bad.status, bad.error]).toEqual([4, expect.stringMatching(/Line 3 of .*“half,thirty”, is not two numbers/)])
  writeFileSync(at('turns.csv'), '5896;0\n1175;40\n2000;100\n')
  const turns = await swapwright(
    ...[
      'table',
      '--points',
      at('turns.csv'),
      '--of',
      'ohms',
      '--kind',
      'temperature',
      '--unit',
      '°C',
      '--pull-up',
      '1 kΩ',
    ],
    ...['--tolerance', '1%', '--leakage', '1 µA', '--offset', '5 mV', '--contact', '1 Ω'],
  )
  expect([turns.status, turns.error]).toEqual([4, expect.stringMatching(/does not fall/)])
  const unnamed = await swapwright('table', '--build', at('demo'))
  expect([unnamed.status, unnamed.error]).toEqual([4, expect.stringMatching(/No sensor is named/)])
})

test('level turns a fill test into litres, with the caution, and refuses one that turns back', async () => {
  const { status, out } = await swapwright('level', 'fuel-level', '--at', '131 Ω', '--build', at('demo'))
  expect(status).toBe(0)
  expect(out).toMatch(/131 Ω: 14\.0 l\./)
  expect(out).toMatch(/Reserve of 7\.00 l begins at 160 Ω/)
  expect(out).toMatch(/Caution: Petrol: outdoors/)
  const given = await swapwright('level', '--readings', '0 l=172 Ω; 10 l=131 Ω; 10 l=99 Ω', '--json')
  expect(JSON.parse(given.out).capacity).toBeCloseTo(0.02, 9)
  const bad = await swapwright('level', '--readings', '0 l=172 Ω; 10 l=180 Ω; 10 l=90 Ω')
  expect([bad.status, bad.error]).toEqual([4, expect.stringMatching(/does not move the way it moves elsewhere/)])
})

test('level reckons by tank and sender, and refuses a section outside the tank', async () => {
  const box = await swapwright(
    ...['level', '--tank', 'box 60 cm × 40 cm × 25 cm', '--sender', '0 cm=180 Ω; 25 cm=10 Ω', '--at', '95 Ω'],
  )
  expect(box.out).toMatch(/95\.0 Ω: 30\.0 l\./)
  const outside = await swapwright(
    ...['level', '--tank', 'loft 20 cm: 0 cm=0.1 m², 30 cm=0.2 m²', '--sender', '0 cm=180 Ω; 20 cm=10 Ω'],
  )
  expect([outside.status, outside.error]).toEqual([4, expect.stringMatching(/Section 2 .* lies outside the tank/)])
  expect((await swapwright('level', '--tank', 'box 1 m × 1 m × 1 m')).error).toMatch(/Tank and sender go together/)
})
