import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { Refusal } from '../units/problem.ts'
import { type InjectorCard, injectorCardJsonSchema } from './injectorCard.ts'
import { readInjectorCard, writeInjectorCard } from './readInjectorCard.ts'

const card: InjectorCard = {
  format: 'injector-card/1',
  name: 'Invented, 205 g/min',
  fluid: { name: 'n-heptane', density: { value: 684 } },
  pressure: { value: 3e5 },
  slope: { value: 3.28e-3, plusMinus: 5e-5, unit: 'g/min' },
  deadTime: [
    [{ value: 12 }, { value: 1.1e-3, plusMinus: 5e-5 }],
    [{ value: 14 }, { value: 0.85e-3, plusMinus: 5e-5 }],
  ],
  coverage: 0.95,
  method: 'bench test',
  provenance: { from: 'own bench', when: '2025-05-01' },
}
const changed = (change: (copy: Record<string, never>) => void): string => {
  const copy = structuredClone(card) as unknown as Record<string, never>
  change(copy)
  return JSON.stringify(copy)
}
const problems = (text: string) => {
  try {
    readInjectorCard(text)
  } catch (error) {
    if (error instanceof Refusal) return error.problems
    throw error
  }
  throw new Error('nothing was refused')
}

describe('injector card', () => {
  it('comes back as it was written, with or without a byte order mark', () => {
    expect(readInjectorCard(writeInjectorCard(card))).toEqual(card)
    expect(readInjectorCard(`\uFEFF${writeInjectorCard(card)}`)).toEqual(card)
  })
  it('refuses in words what is no card', () => {
    expect(problems('volts;ms')[0]?.says).toBe('The file is not JSON.')
    expect(problems('{"format":"injector-card/2"}')[0]?.says).toMatch(
      /of format “injector-card\/2”, not an injector card/,
    )
    expect(problems('[]')[0]?.says).toMatch(/no stated format/)
  })
  it('names every field that is missing or unknown', () => {
    const found = problems(changed((copy) => Object.assign(copy, { slope: undefined, colour: 'red' })))
    expect(found.map(({ says }) => says)).toEqual([
      'The injector card: slope is missing.',
      'The injector card: colour is not a field of this format.',
    ])
  })
  it('refuses a dead time that rises with voltage, and slips of unit, with the likely cause', () => {
    const rising = changed((copy) =>
      Object.assign(copy, { deadTime: [...card.deadTime].map(([v], i) => [v, { value: (i + 1) * 1e-3 }]) }),
    )
    expect(problems(rising)[0]).toMatchObject({ code: 'rising-dead-time', todo: expect.stringMatching(/wrong order/) })
    const units = changed((copy) =>
      Object.assign(copy, {
        fluid: { name: 'petrol', density: { value: 0.744 } },
        slope: { value: 205 },
        pressure: { value: 3 },
      }),
    )
    expect(problems(units).map(({ path }) => path)).toEqual(['fluid/density', 'slope', 'pressure'])
  })
  it('is published as the schema that the code reads with', () => {
    const published = JSON.parse(
      readFileSync(`${import.meta.dirname}/../../schema/injector-card-1.schema.json`, 'utf8'),
    )
    expect(published).toEqual(injectorCardJsonSchema())
  })
  it('has its example in the documentation', () => {
    const page = readFileSync(`${import.meta.dirname}/../../docs/formats/injector-card.md`, 'utf8')
    const example = /```json\n([\s\S]*?)```/.exec(page)?.[1]
    expect(readInjectorCard(example ?? '').name).toBe('Invented, 205 g/min')
  })
})
