import { describe, expect, it } from 'vitest'
import { demoBuild, soundBuild } from '../../../demo/index.ts'
import { emptyBuild } from '../../model/build.ts'
import { sensorSteps } from './loadStep.ts'

describe('steps of sensors when a load is switched', () => {
  // The demo's fuel pressure sensor returns to the wing with the fan's amperes: a planted fault.
  it('expects the fuel pressure sensor on the wing to move with the fan, and those at the sensor earth not to', () => {
    const steps = sensorSteps(demoBuild(), /fan/i)
    const fuel = steps.find(({ name }) => name === 'Fuel pressure')!
    expect(Math.abs(fuel.step)).toBeGreaterThan(100)
    expect(fuel.earth).toBe('Earth stud, left wing')
    const manifold = steps.find(({ name }) => name === 'Manifold pressure')!
    expect(Math.abs(manifold.step)).toBeLessThan(Math.abs(fuel.step) / 100)
  })
  it('expects nothing where nothing is known', () => {
    expect(sensorSteps(emptyBuild('Empty'), /fan/i)).toEqual([])
    expect(sensorSteps(soundBuild(), /no such load/)).toEqual([])
  })
})
