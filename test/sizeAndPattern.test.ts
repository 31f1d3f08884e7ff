// The commands "size" and "pattern" as a person types them.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
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
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'size-'))
  expect((await swapwright('demo', at('demo'))).status).toBe(0)
  expect((await swapwright('new', at('empty'))).status).toBe(0)
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const plain = ['size', '--load', '12 A', '--length', '4.5 m', '--drop', '3%', '--ambient', '60 °C', '--class', 'B']

test('size names the smallest fuse and conductor, and why nothing smaller will do', async () => {
  const { status, out } = await swapwright(...plain)
  expect(status).toBe(0)
  expect(out).toMatch(/20\sA blade fuse: carries 1\d\.?\d*\sA for good where it sits/)
  expect(out).toMatch(/15 A blade carries .* less than the load of 12 A/)
  expect(out).toMatch(/Why nothing smaller:\s+0\.5 mm²/)
  const { out: json } = await swapwright(...plain, '--json')
  const { conductor, task } = JSON.parse(json)
  expect(task.dropLimit).toBeCloseTo(0.36, 9)
  expect(conductor.chosen.drop).toBeLessThanOrEqual(0.36)
  expect(conductor.rejected.every((each: { because: string }) => each.because.length > 20)).toBe(true)
  const hot = await swapwright(...plain.slice(0, 7), '--ambient', '105 °C', '--class', 'B')
  expect(hot.status).toBe(1)
  expect(hot.out).toMatch(/No conductor will do/)
})

test('size refuses what it cannot read, all at once', async () => {
  const { status, error } = await swapwright('size', '--load', '12 bananas', '--class', 'Z', '--bundle', '0')
  expect(status).toBe(4)
  expect(error).toMatch(/--load:/)
  expect(error).toMatch(/“Z” is no insulation class/)
  expect(error).toMatch(/--length is not given/)
  expect(error).toMatch(/--ambient is not given/)
  expect(error).toMatch(/--bundle 0 is not a number of wires/)
})

test('size judges wires of the build by what they carry there', async () => {
  const wire = await swapwright('size', '--wire', 'W-302', '--drop', '0.3 V', '--build', at('demo'))
  expect(wire.status).toBe(0)
  // The planted fault: the pump's feed of 0.75 mm² over the length of the van.
  expect(wire.out).toMatch(/W-302, pump-relay\.87 to tank-connector\.1, now 0\.75\smm²/)
  expect(wire.out).toMatch(/0\.75 mm² (is not protected|loses|reaches|is rated)/)
  const device = await swapwright('size', '--device', 'fan', '--build', at('demo'), '--json')
  expect(JSON.parse(device.out).map(({ wire: { id } }: { wire: { id: string } }) => id)).toEqual(['W-311', 'W-312'])
  expect((await swapwright('size', '--wire', 'W-9999', '--build', at('demo'))).error).toMatch(/There is no wire W-9999/)
  expect((await swapwright('size', '--device', 'fan', '--build', at('empty'))).error).toMatch(/There is no device fan/)
})

test('pattern lists, shows, draws without storing, and stores when told', async () => {
  const listed = await swapwright('pattern', 'list')
  expect(listed.out.trim().split('\n')).toHaveLength(26)
  const shown = await swapwright('pattern', 'show', 'fuel-pump')
  expect(shown.out).toMatch(/cutout +Where the crash cut-out sits \(branch point\)/)
  expect(shown.out).toMatch(/Caution: Petrol/)
  const answers = ['--set', 'horns=nose-mid', 'switch=dash-right', 'feed=bus-30', 'earth=stud-nose']
  const add = ['pattern', 'add', 'horn', '--build', at('demo'), ...answers]
  const drawn = await swapwright(...add)
  expect(drawn.out).toMatch(/adds devices\/fuse-horn-2/)
  expect(drawn.out).toMatch(/adds wires\/W-328 {2}bus-30\.9 to fuse-horn-2\.1/)
  expect(drawn.out).toMatch(/Nothing is stored yet/)
  const before = await swapwright('export', at('demo'))
  expect(before.out).not.toMatch(/fuse-horn-2/)
  const stored = await swapwright(...add, '--yes')
  expect(stored.out).toMatch(/Stored/)
  expect((await swapwright('export', at('demo'))).out).toMatch(/fuse-horn-2/)
  expect((await swapwright('undo', '--build', at('demo'))).out).toMatch(/Taken back: Circuit: Horn/)
  expect((await swapwright('export', at('demo'))).out).toBe(before.out)
})

test('pattern refuses an unknown circuit and missing answers, naming them', async () => {
  expect((await swapwright('pattern', 'add', 'teapot', '--build', at('demo'))).error).toMatch(
    /no circuit pattern “teapot”/,
  )
  const { status, error } = await swapwright('pattern', 'add', 'horn', '--build', at('empty'), '--set', 'feed=bus-30')
  expect(status).toBe(4)
  expect(error).toMatch(/There is no device “bus-30”/)
  expect(error).toMatch(/Where each horn sits is not answered/)
})
