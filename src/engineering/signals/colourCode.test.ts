import { expect, it } from 'vitest'
import { colourBands } from './colourCode.ts'

// Examples that any table of IEC 60062 prints.
it.each([
  [4700, 0.05, ['yellow', 'violet', 'red', 'gold']],
  [1000, 0.05, ['brown', 'black', 'red', 'gold']],
  [1000, 0.01, ['brown', 'black', 'black', 'brown', 'brown']],
  [249, 0.01, ['red', 'yellow', 'white', 'black', 'brown']],
  [4.7, 0.05, ['yellow', 'violet', 'gold', 'gold']],
  [0.22, 0.1, ['red', 'red', 'silver', 'silver']],
  [10e6, 0.2, ['brown', 'black', 'blue']],
  [2490, 0.005, ['red', 'yellow', 'white', 'brown', 'green']],
] as const)('%d Ω ± %d', (resistance, tolerance, bands) => {
  expect(colourBands(resistance, tolerance)).toEqual(bands)
})

it('says nothing of a value or a tolerance that the code cannot write', () => {
  expect(colourBands(1234, 0.01)).toBeUndefined()
  expect(colourBands(1000, 0.03)).toBeUndefined()
  expect(colourBands(0, 0.01)).toBeUndefined()
})
