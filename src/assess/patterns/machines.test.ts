import { expect, test } from 'vitest'
import { demoBuild } from '../../../demo/index.ts'
import { emptyBuild } from '../../model/build.ts'
import { applyPattern } from './index.ts'
import { against, ON, patternBuild, see } from './patternBuild.testing.ts'

const running = { engine: 'cruise', alternator: 'cruise', switches: { ...ON } } as const
const pumpAnswers = {
  at: 'tank',
  running: '9 A',
  stall: '30 A',
  feed: 'bus-87',
  cutout: 'dash-left',
  controller: 'ecu',
  output: 'A11',
  earth: 'stud-rear',
}

test('the fuel pump stops when its relay drops and when the crash cut-out opens', () => {
  const applied = applyPattern(patternBuild(), 'fuel-pump', pumpAnswers)
  expect(applied.problems).toEqual([])
  const on = { outputs: { 'out-fuel-pump': 1 } }
  expect(against(applied, { ...running, ...on })).toEqual([])
  const fed = see(applied.build, { ...running, ...on })
  expect(fed.draws('fuel-pump')).toBeCloseTo(9, 0)
  expect(fed.volts('fuel-pump.+')! - fed.volts('fuel-pump.-')!).toBeGreaterThan(12.9)
  expect(see(applied.build, running).draws('fuel-pump')).toBe(0)
  expect(
    see(applied.build, { ...running, ...on, switches: { ...ON, 'crash-cut-out': 'tripped' } }).draws('fuel-pump'),
  ).toBe(0)
  expect(see(applied.build, { ...running, ...on, switches: {} }).draws('fuel-pump')).toBe(0)
  expect(applied.cautions.join(' ')).toMatch(/[Pp]etrol.*qualified person must inspect/)
})

test('each fan runs only with its own output, and with the engine feed', () => {
  const applied = applyPattern(patternBuild(), 'electric-fans', {
    fans: 'nose-left, nose-right',
    running: '15 A',
    stall: '50 A',
    feed: 'bus-30',
    coils: 'bus-87',
    controller: 'ecu',
    outputs: 'A12, A13',
    earth: 'stud-nose',
  })
  expect(applied.problems).toEqual([])
  const both = { 'out-fan-1': 1, 'out-fan-2': 1 }
  expect(against(applied, { ...running, outputs: both })).toEqual([])
  const fans = (outputs: Record<string, number>, switches: Record<string, string> = ON) => {
    const { draws } = see(applied.build, { ...running, switches, outputs })
    return [draws('fan-1') > 5, draws('fan-2') > 5]
  }
  expect(fans(both)).toEqual([true, true])
  expect(fans({ 'out-fan-1': 1 })).toEqual([true, false])
  expect(fans({})).toEqual([false, false])
  expect(fans(both, {})).toEqual([false, false])
})

test('the cooler pump follows its output', () => {
  const applied = applyPattern(patternBuild(), 'cooler-pump', {
    at: 'nose-right',
    running: '4 A',
    stall: '12 A',
    feed: 'bus-87',
    controller: 'ecu',
    output: 'A14',
    earth: 'stud-nose',
  })
  expect(applied.problems).toEqual([])
  const outputs = { 'out-cooler-pump': 1 }
  expect(against(applied, { ...running, outputs })).toEqual([])
  expect(see(applied.build, { ...running, outputs }).draws('cooler-pump')).toBeCloseTo(4, 0)
  expect(see(applied.build, running).draws('cooler-pump')).toBe(0)
})

test('a relay-fed load by controller takes over an output that is there', () => {
  const build = patternBuild((car) => {
    car.collections.outputs['out-spare'] = {
      id: 'out-spare',
      name: 'Spare',
      device: 'ecu',
      pin: 'A20',
      driver: 'low side',
      configured: false,
    }
  })
  const applied = applyPattern(build, 'relay-fed-load', {
    name: 'Oil cooler pump',
    kind: 'motor',
    running: '6 A',
    stall: '20 A',
    at: 'gearbox',
    feed: 'bus-87',
    earth: 'stud-dash',
    controller: 'ecu',
    pin: 'A20',
  })
  expect(applied.problems).toEqual([])
  expect(applied.build.collections.outputs['out-spare']).toMatchObject({
    drives: 'oil-cooler-pump-relay',
    configured: true,
  })
  expect(see(applied.build, { ...running, outputs: { 'out-spare': 1 } }).draws('oil-cooler-pump')).toBeCloseTo(6, 0)
})

test('on the demo, and refused where pins or figures are wrong', () => {
  const demo = applyPattern(demoBuild(), 'fuel-pump', {
    ...pumpAnswers,
    at: 'tank-point',
    feed: 'bus-engine',
    cutout: 'cabin-left',
    output: 'A21',
  })
  expect(against(demo, { ...running, outputs: { 'out-main': 1, 'out-fuel-pump': 1 } })).toEqual([])
  expect(() =>
    applyPattern(demoBuild(), 'fuel-pump', {
      ...pumpAnswers,
      at: 'tank-point',
      feed: 'bus-engine',
      cutout: 'cabin-left',
      output: 'A11',
      running: '9 bar',
    }),
  ).toThrow(/already holds W-307/)
  expect(() => applyPattern(patternBuild(), 'fuel-pump', { ...pumpAnswers, output: 'Z9' })).toThrow(/has no pin Z9/)
  expect(() => applyPattern(patternBuild(), 'fuel-pump', { ...pumpAnswers, stall: '' })).toThrow(
    /Stalled current is not answered/,
  )
  expect(() => applyPattern(patternBuild(), 'fuel-pump', { ...pumpAnswers, colour: 'red' })).toThrow(
    /does not ask for “colour”/,
  )
  for (const id of ['fuel-pump', 'electric-fans', 'cooler-pump'])
    expect(() => applyPattern(emptyBuild('Empty'), id, pumpAnswers)).toThrow(/There is no/)
})
