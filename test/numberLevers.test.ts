/** Bare numbers that are tried on a bench: the ratios of gears and of the final drive, as a person types them. */
import { expect, it } from 'vitest'
import { demoBuild } from '../demo/index.ts'
import { numbersAt, trialOf } from '../src/web/chain/levers.ts'
import { drivelineLevers } from '../src/web/driveline/levers.ts'

const tried = (typed: Record<string, string>) => {
  const build = demoBuild()
  return trialOf(build, drivelineLevers(build), typed, [])
}
const FINAL = { id: 'final', station: '', label: '', numbers: 'one', sheet: 'vehicle', path: ['finalDrive'] } as const
const GEARS = { ...FINAL, id: 'gears', numbers: 'row', path: ['gears'] } as const

it('reads a decimal comma or point, and a row parted by blanks, commas or semicolons', () => {
  expect(tried({ final: '3,4' }).build.sheets.vehicle?.finalDrive).toBe(3.4)
  for (const row of ['3.6 2.1 1.4 1', '3,6; 2,1; 1,4; 1', '3.6, 2.1, 1.4, 1'])
    expect(tried({ gears: row }).build.sheets.vehicle?.gears, row).toEqual([3.6, 2.1, 1.4, 1])
})
it('takes an emptied field as not known, and nothing typed as no change', () => {
  expect(tried({ gears: ' ' }).build.sheets.vehicle?.gears).toBeUndefined()
  const build = demoBuild()
  const same = trialOf(
    build,
    drivelineLevers(build),
    { final: numbersAt(build, FINAL), gears: numbersAt(build, GEARS) },
    [],
  )
  expect(same.changes).toEqual([])
})
it('says what it cannot read, and leaves the build as it is', () => {
  for (const [id, text] of [
    ['final', 'three'],
    ['final', '3.9 4.1'],
    ['gears', '3.6 -2 1'],
    ['gears', '3.6 0'],
  ] as const) {
    const { problems, changes } = tried({ [id]: text })
    expect(problems[id]?.[0]?.says, text).toMatch(/is no (number|row of numbers) above 0/)
    expect(problems[id]?.[0]?.todo).toMatch(/^Write /)
    expect(changes).toEqual([])
  }
})
