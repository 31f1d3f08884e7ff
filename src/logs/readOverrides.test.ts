import { afterAll, expect, it } from 'vitest'
import { Refusal } from '../units/problem.ts'
import { bench, lines } from './fixtures.test-helper.ts'
import { inspectLog } from './inspect.ts'
import { checkOverrides, overridesFromText } from './readOverrides.ts'

const work = bench()
afterAll(() => work.clear())

it('reads what a person says of a file', () => {
  expect(
    overridesFromText([
      'decimal=,',
      'delimiter=tab',
      'rate=50',
      'timeColumn=3',
      'sentinels=no',
      'timeForm=minutes',
      'nameLine=0',
    ]),
  ).toEqual({
    decimal: ',',
    delimiter: '\t',
    rate: 50,
    timeColumn: 3,
    sentinels: false,
    timeForm: 'minutes',
    nameLine: 0,
  })
  expect(overridesFromText(['timeColumn=none', 'delimiter=;'])).toEqual({ timeColumn: null, delimiter: ';' })
})

it('names what cannot be, and what it may be', () => {
  const refused = (work: () => unknown): string => {
    try {
      work()
    } catch (error) {
      if (error instanceof Refusal) return error.problems.map(({ says, todo }) => `${says} ${todo}`).join(' ')
    }
    return 'not refused'
  }
  expect(refused(() => overridesFromText(['rate=fast']))).toMatch(/“rate” cannot be that.*samples a second/)
  expect(refused(() => overridesFromText(['colour=red']))).toMatch(/“colour” is nothing.*timeForm/)
  expect(refused(() => checkOverrides({ timeForm: 'weeks', rate: -1 }))).toMatch(/timeForm.*rate/)
})

it('reverses every kind of guess', async () => {
  const file = work.file(
    'guess.csv',
    `Logger 7\nTime,Flags,Level,Day\n${lines(40, (i) => `${i * 20},${(i + 10).toString(16).padStart(2, '0')},${i % 9 === 8 ? -9999 : i},03/04/2024`)}`,
  )
  const plain = await inspectLog(file)
  expect(plain.guesses.map(({ override }) => override)).toEqual(
    expect.arrayContaining(['timeForm', 'hexadecimal', 'sentinels']),
  )
  const told = await inspectLog(file, overridesFromText(['timeForm=seconds', 'hexadecimal=no', 'sentinels=no']))
  expect([plain.step, told.step]).toEqual([0.02, 20])
  expect(told.channels.find(({ name }) => name === 'Level')?.min).toBe(-9999)
  expect(told.channels.find(({ name }) => name === 'Flags')?.max).not.toBe(49)
  const later = await inspectLog(file, overridesFromText(['dataLine=13']))
  expect([plain.samples, later.samples]).toEqual([40, 30])
  const unnamed = await inspectLog(file, overridesFromText(['nameLine=0', 'rate=10', 'timeColumn=none']))
  expect([unnamed.channels[0]?.name, unnamed.step]).toEqual(['Column 1', 0.1])
})
