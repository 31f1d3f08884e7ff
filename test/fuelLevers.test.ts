import { describe, expect, it } from 'vitest'
import { demoBuild, soundBuild } from '../demo/index.ts'
import { fuelChainOf } from '../src/assess/fuel/chain.ts'
import { emptyBuild } from '../src/model/build.ts'
import { applyChanges } from '../src/model/read.ts'
import { openingOf } from '../src/web/fuel/channel.ts'
import { leversOf, trialOf } from '../src/web/fuel/levers.ts'

const build = demoBuild()
const levers = leversOf(build, fuelChainOf(build))

describe('what is tried', () => {
  it('leaves the stored build as it is, and changes only what was typed', () => {
    const before = JSON.stringify(build)
    const trial = trialOf(build, levers, { wires: '2.5 mm²', injectors: '300 g/min' })!
    expect(JSON.stringify(build)).toBe(before)
    expect(trial.changes.map((change) => ('id' in change ? change.id : 'sheet' in change ? change.sheet : ''))).toEqual(
      ['fuel', 'W-302', 'W-305'],
    )
    expect(applyChanges(build, trial.changes)).toEqual(trial.build)
  })
  it('is nothing where nothing was typed, or a choice stands as stored', () => {
    expect(trialOf(build, levers, {})).toBeUndefined()
    expect(trialOf(build, levers, { wires: ' ', filter: 'as measured', fuel: 'E10' })).toBeUndefined()
  })
  it('tells text that cannot be read, and goes on with the rest', () => {
    const trial = trialOf(build, levers, { rail: 'much', power: '120 kW' })!
    expect(Object.keys(trial.problems)).toEqual(['rail'])
    expect(trial.build.sheets.engine?.targetPower?.value).toBe(120e3)
  })
  it('takes the reading of the old filter away with it', () => {
    const trial = trialOf(build, levers, { filter: 'new, as its sheet says' })!
    expect(trial.changes).toEqual([{ collection: 'readings', id: 'M-4', value: null }])
  })
  it('remembers which fuel the consumption was known for', () => {
    const trial = trialOf(build, levers, { fuel: 'E85' })!
    expect(trial.build.sheets.fuel).toMatchObject({ fuel: 'E85', consumptionFuel: 'E10', density: { value: 786.6 } })
  })
  it('offers levers on a build without a fuel sheet, and of another shape', () => {
    for (const other of [emptyBuild('x'), soundBuild()])
      expect(leversOf(other, fuelChainOf(other)).length).toBeGreaterThan(1)
  })
})

describe('the channel', () => {
  it('is as wide as the power, and says when it is wider than the drawing', () => {
    expect(openingOf(80, 100)).toEqual({ half: 0.5, kind: 'known' })
    expect(openingOf(500, 100).kind).toBe('beyond')
    expect(openingOf('unknown', 100).kind).toBe('unknown')
    expect(openingOf(80, undefined).kind).toBe('unknown')
  })
})
