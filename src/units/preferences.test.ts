import { expect, it } from 'vitest'
import { formatPreferred, mergePreferences, Refusal, readPreferences } from './index.ts'

it('reads, merges and prints by preference, and survives JSON', () => {
  const base = readPreferences(JSON.parse('{"pressureGauge":"psi","area":"AWG"}'))
  const merged = mergePreferences(base, { pressureGauge: 'bar', power: 'hp' })
  expect(readPreferences(JSON.parse(JSON.stringify(merged)))).toEqual({
    pressureGauge: 'bar',
    area: 'AWG',
    power: 'hp',
  })
  expect(formatPreferred(base, 'pressureGauge', 3e5)).toBe('43.51\u202Fpsi\u202Fgauge')
  expect(formatPreferred(base, 'pressureGauge', 3e5, { unit: 'kPa' })).toBe('300\u202FkPa\u202Fgauge')
  expect(formatPreferred(base, 'mass', 1250)).toBe('1250\u202Fkg')
})

it('refuses the whole and names every unknown kind and unit', () => {
  let refusal: unknown
  try {
    readPreferences({ mass: 'V', length: 'mm', toString: 'x', power: 3 })
  } catch (error) {
    refusal = error
  }
  expect(refusal).toBeInstanceOf(Refusal)
  expect((refusal as Refusal).problems.map(({ code, path }) => [code, path])).toEqual([
    ['unknown-unit', 'mass'],
    ['unknown-kind', 'toString'],
    ['unknown-unit', 'power'],
  ])
  expect((refusal as Refusal).message).toMatch(/"V" is not a unit of mass. Choose one of kg, g/)
  for (const wrong of [null, [], 'psi']) expect(() => readPreferences(wrong)).toThrow(/not a list of kinds/)
})
