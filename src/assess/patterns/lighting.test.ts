import { expect, test } from 'vitest'
import { demoBuild } from '../../../demo/index.ts'
import { emptyBuild } from '../../model/build.ts'
import { applyPattern } from './index.ts'
import { against, ON, patternBuild, see } from './patternBuild.testing.ts'

const running = { engine: 'cruise', alternator: 'cruise' } as const
const headlampAnswers = {
  lamps: 'nose-left, nose-right',
  switch: 'dash-right',
  telltale: 'dash-right',
  feed: 'bus-30',
  earth: 'stud-nose',
  earth2: 'stud-front',
}

test('dipped or main beam, never both, and each filament behind its own fuse', () => {
  const applied = applyPattern(patternBuild(), 'headlamps', headlampAnswers)
  expect(applied.problems).toEqual([])
  const dipped = { 'light-switch': 'head' }
  const main = { 'light-switch': 'head', 'dip-switch': 'main' }
  expect(against(applied, { ...running, switches: dipped }, { ...running, switches: main })).toEqual([])
  const filaments = (switches: Record<string, string>) => {
    const { solved } = see(applied.build, { ...running, switches })
    return ['left', 'right'].flatMap((side) =>
      ['dipped', 'main'].map((id) => (solved.elements.get(`headlamp-${side}#${id}`) ?? 0) > 1),
    )
  }
  expect(filaments(dipped)).toEqual([true, false, true, false])
  expect(filaments(main)).toEqual([false, true, false, true])
  expect(filaments({ 'dip-switch': 'main' })).toEqual([false, false, false, false])
  expect(see(applied.build, { ...running, switches: main }).draws('main-beam-telltale')).toBeGreaterThan(0.1)
  // The earth wire of a lit lamp stands some tenths of a volt up: milliamperes come back through the other filament.
  expect(see(applied.build, { ...running, switches: dipped }).draws('main-beam-telltale')).toBeLessThan(0.02)
  const without = structuredClone(applied.build)
  for (const wire of Object.values(without.collections.wires))
    if (wire.from === 'fuse-dipped-left.2') delete without.collections.wires[wire.id]
  expect(see(without, { ...running, switches: dipped }).solved.elements.get('headlamp-left#dipped') ?? 0).toBeLessThan(
    1e-6,
  )
  expect(see(without, { ...running, switches: dipped }).draws('headlamp-right')).toBeGreaterThan(4)
})

const indicatorAnswers = {
  left: 'nose-left, rear-left',
  right: 'nose-right, rear-right',
  switch: 'dash-right',
  telltale: 'dash-right',
  feed: 'bus-15',
  permanent: 'bus-30',
  earth: 'stud-nose',
  earth2: 'stud-rear',
}

test('indicators and hazard never feed one another', () => {
  const applied = applyPattern(patternBuild(), 'indicators', indicatorAnswers)
  expect(applied.problems).toEqual([])
  const left = { 'indicator-switch': 'left' }
  const hazard = { 'hazard-switch': 'on' }
  expect(
    against(applied, { ...running, switches: { ...ON, ...left } }, { ...running, switches: { ...ON, ...hazard } }),
  ).toEqual([])
  const sides = (switches: Record<string, string>) => {
    const { draws } = see(applied.build, { switches })
    return {
      left: draws('indicator-left-1') + draws('indicator-left-2') + draws('telltale-left'),
      right: draws('indicator-right-1') + draws('indicator-right-2') + draws('telltale-right'),
    }
  }
  const lit = sides({ ...ON, ...left })
  expect(lit.left).toBeGreaterThan(3)
  // A shared stud stands millivolts up: less than a milliampere finds its way back through the dark lamps.
  expect(lit.right).toBeLessThan(1e-3)
  expect(sides({ ...ON, 'indicator-switch': 'right' }).left).toBeLessThan(1e-3)
  expect(sides(left)).toEqual({ left: 0, right: 0 })
  for (const switches of [hazard, { ...ON, ...hazard }, { ...ON, ...hazard, ...left }]) {
    const both = sides(switches)
    expect(both.left).toBeGreaterThan(3)
    expect(both.right).toBeGreaterThan(3)
  }
  // With the ignition off the hazard lamps must not wake what hangs on terminal 15.
  const off = see(applied.build, { switches: { ...hazard, ...left } })
  expect(Math.abs(off.volts('bus-15.1') ?? 0)).toBeLessThan(0.01)
  expect(off.volts('ecu.A1') ?? 0).toBeLessThan(0.01)
  const dark = see(applied.build, { switches: { ...ON, ...left, flasher: 'dark' } })
  expect(dark.draws('indicator-left-1')).toBeLessThan(1e-3)
})

test('a heated screen needs switch and ignition; a horn its push', () => {
  const screen = applyPattern(patternBuild(), 'heated-screen', {
    at: 'rear-left',
    feed: 'bus-30',
    ignition: 'bus-15',
    switch: 'dash-right',
    earth: 'stud-rear',
  })
  expect(screen.problems).toEqual([])
  const on = { 'heated-screen-switch': 'on' }
  expect(against(screen, { ...running, switches: { ...ON, ...on } })).toEqual([])
  expect(see(screen.build, { ...running, switches: { ...ON, ...on } }).draws('heated-screen')).toBeGreaterThan(14)
  expect(see(screen.build, { switches: on }).draws('heated-screen')).toBe(0)
  expect(see(screen.build, { switches: ON }).draws('heated-screen')).toBe(0)

  const horn = applyPattern(patternBuild(), 'horn', {
    horns: 'nose-left, nose-right',
    switch: 'dash-right',
    feed: 'bus-30',
    earth: 'stud-nose',
    earth2: 'stud-dash',
  })
  expect(horn.problems).toEqual([])
  const pressed = { 'horn-push': 'pressed' }
  expect(against(horn, { ...running, switches: pressed })).toEqual([])
  const heard = see(horn.build, { ...running, switches: pressed })
  expect(heard.draws('horn-1') + heard.draws('horn-2')).toBeGreaterThan(10)
  expect(see(horn.build, running).draws('horn-1')).toBe(0)
})

test('on the demo, and refused on an empty build with what is missing', () => {
  const demo = applyPattern(demoBuild(), 'indicators', {
    ...indicatorAnswers,
    earth: 'stud-nose',
    earth2: 'stud-rear',
    telltale: 'dash-right',
  })
  expect(against(demo, { ...running, switches: { ...ON, 'indicator-switch-2': 'left' } })).toEqual([])
  const lamps = applyPattern(demoBuild(), 'headlamps', headlampAnswers)
  expect(against(lamps, { ...running, switches: { ...ON, 'light-switch-2': 'head' } })).toEqual([])
  const horn = applyPattern(demoBuild(), 'horn', {
    horns: 'nose-mid',
    switch: 'dash-right',
    feed: 'bus-30',
    earth: 'stud-nose',
  })
  expect(against(horn, { ...running, switches: { 'horn-push-2': 'pressed' } })).toEqual([])
  for (const id of ['headlamps', 'indicators', 'heated-screen', 'horn'])
    expect(() => applyPattern(emptyBuild('Empty'), id, {})).toThrow(/is not answered/)
  expect(() => applyPattern(emptyBuild('Empty'), 'headlamps', headlampAnswers)).toThrow(/There is no device “bus-30”/)
})
