import { expect, it } from 'vitest'
import { emptyBuild } from '../model/build.ts'
import { partsAndMoney } from './parts.ts'
import { smallBuild } from './small.testing.ts'

it('lists what to buy by supplier, what comes, what goes back, what grows old, and the sums by currency', () => {
  const build = smallBuild([], [['J1', [], undefined, { needs: { parts: ['hose', 'belt'] } }]])
  const put = (part: (typeof build.collections.parts)[string]) => {
    build.collections.parts[part.id] = part
  }
  put({ id: 'hose', name: 'Hose', status: 'wanted', supplier: 'Hose shop', price: 12.1, currency: 'EUR' })
  put({ id: 'clip', name: 'Clips', status: 'wanted', supplier: 'Hose shop', quantity: 10 })
  put({ id: 'belt', name: 'Belt', status: 'wanted', price: 20, currency: 'EUR' })
  put({ id: 'core', name: 'Core', status: 'ordered', due: '2025-07-01', price: 200, currency: 'GBP' })
  put({ id: 'plug', name: 'Plug', status: 'ordered', price: 0.1, currency: 'EUR' })
  put({
    id: 'fluid',
    name: 'Brake fluid',
    status: 'on the shelf',
    bestBefore: '2025-05-01',
    price: 0.2,
    currency: 'EUR',
  })
  put({ id: 'oil', name: 'Oil', status: 'on the shelf', bestBefore: '2025-08-01', price: 30 })
  put({ id: 'far', name: 'Hose, new', status: 'fitted', bestBefore: '2031-01-01', price: 1, currency: 'GBP' })
  put({ id: 'tool', name: 'Crimping tool', status: 'borrowed', from: 'neighbour', backBy: '2025-05-30' })
  put({ id: 'crane', name: 'Crane', status: 'returned', price: 99, currency: 'EUR' })
  const found = partsAndMoney(build, '2025-06-01')
  expect(found.shopping.map(({ supplier, parts }) => [supplier, parts.map(({ id }) => id)])).toEqual([
    ['Hose shop', ['hose', 'clip']],
    ['', ['belt']],
  ])
  expect(found.shopping[0]!.parts[0]!.jobs).toEqual(['J1'])
  expect(found.coming.map(({ id }) => id)).toEqual(['core', 'plug'])
  expect(found.toReturn).toEqual([
    { id: 'tool', name: 'Crimping tool', from: 'neighbour', backBy: '2025-05-30', overdue: true },
  ])
  expect(found.ageing.map(({ id, past }) => [id, past])).toEqual([
    ['fluid', true],
    ['oil', false],
  ])
  expect(found.sums).toEqual([
    { currency: 'EUR', spent: 0.3, toSpend: 32.1 },
    { currency: 'GBP', spent: 201, toSpend: 0 },
  ])
  expect(found.unknown.map(({ path }) => path)).toEqual(['parts/clip/price', 'parts/oil/currency'])
})

it('has nothing to say of an empty build', () => {
  expect(partsAndMoney(emptyBuild('Empty'), '2025-06-01')).toEqual({
    shopping: [],
    coming: [],
    toReturn: [],
    ageing: [],
    sums: [],
    unknown: [],
  })
})
