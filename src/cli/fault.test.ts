import { Readable } from 'node:stream'
import { Command } from 'commander'
import { expect, test } from 'vitest'
import { addFault } from './fault.ts'

const network = {
  format: 'car-dc-network/1',
  id: 'two-joints',
  reference: 'gnd',
  nodes: ['gnd', 'post', 'q', 'p'],
  elements: [
    { id: 'bat', type: 'battery', a: 'post', b: 'gnd', emf_V: 12.6, internal_ohm: 0.01 },
    { id: 'j1', type: 'joint', a: 'post', b: 'q', ohm: 0.01 },
    { id: 'j2', type: 'joint', a: 'q', b: 'p', ohm: 0.01 },
    { id: 'load', type: 'load_resistance', a: 'p', b: 'gnd', ohm: 6 },
  ],
}
const hypotheses = ['j1', 'j2'].map((element) => ({ id: element, element, mode: 'open', weight: 1 }))

const speak = async (...lines: readonly string[]): Promise<Record<string, unknown>[]> => {
  let text = ''
  const program = new Command('swapwright')
  const out = {
    write: (more: string): void => {
      text += more
    },
    error: (more: string): void => {
      text += more
    },
  }
  addFault(program, out, Readable.from(lines.map((line) => `${line}\n`)))
  await program.parseAsync(['fault', '--lines'], { from: 'user' })
  return text
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as Record<string, unknown>)
}

test('one line in, one line out; stop has none, end ends, and a bad line is answered without ending the search', async () => {
  const start = JSON.stringify({
    type: 'start',
    scenario: 's',
    complaint: null,
    network,
    test_points: ['q', 'p'],
    hypotheses,
  })
  const answers = await speak(
    start,
    'not json',
    JSON.stringify({ type: 'reading', test_point: 'q', volts: 12.6 }),
    JSON.stringify({ type: 'stop' }),
    JSON.stringify({ type: 'end' }),
    start,
  )
  expect(answers.length).toBe(3)
  expect(answers[0]).toMatchObject({ next: 'q', posterior: { j1: expect.closeTo(0.5, 1), j2: expect.closeTo(0.5, 1) } })
  expect(answers[1]).toEqual({ error: ['This line is not JSON. Send one JSON object a line.'] })
  expect((answers[2]!.posterior as Record<string, number>).j2).toBeGreaterThan(0.9)
  expect(answers[2]!.next).toBeNull()
})
