/** Volts and amps on the drawing: the small build's lamp of 3 Ω on a battery of 12.6 V. */
import { describe, expect, it } from 'vitest'
import { demoBuild } from '../demo/index.ts'
import { assess } from '../src/assess/assess.ts'
import { small } from '../src/assess/small.testing.ts'
import type { Build, OperatingCase } from '../src/model/build.ts'
import { applyChanges } from '../src/model/read.ts'
import {
  ampsText,
  caseFromTried,
  contactState,
  isPulledIn,
  laidOver,
  liveOf,
  NOTHING_TRIED,
  nextPosition,
  standInsTo,
  voltsAtText,
  voltsText,
  wireFigures,
} from '../src/web/circuits/drawing/live.ts'

const caseOf = (build: Build, id: string): OperatingCase => build.collections.cases[id]!
const anyCase = (build: Build): OperatingCase => Object.values(build.collections.cases)[0]!
const lampWire = (build: Build) => Object.values(build.collections.wires).find(({ to }) => to === 'lamp.+')!
const fed = (build: Build, position: string) =>
  liveOf(build, laidOver(anyCase(build), { switches: { switch: position }, outputs: {} }))

describe('what is tried', () => {
  it('moves the lamp from dark to nearly the battery’s voltage, by Ohm’s law', () => {
    const build = small()
    expect(fed(build, 'off').solved.voltages['lamp.+']).toBeCloseTo(0, 6)
    const live = fed(build, 'on')
    const volts = live.solved.voltages['lamp.+']! - live.solved.voltages['lamp.-']!
    expect(volts).toBeGreaterThan(12)
    expect(volts).toBeLessThan(12.6)
    // I = U/R over the lamp's 3 Ω.
    expect(wireFigures(live, lampWire(build)).current).toBeCloseTo(volts / 3, 6)
  })
  it('leaves the build as it was', () => {
    const build = demoBuild()
    const before = JSON.stringify(build)
    liveOf(build, laidOver(caseOf(build, 'parked'), { switches: { 'roof-switch': 'on' }, outputs: { 'out-fan': 1 } }))
    expect(JSON.stringify(build)).toBe(before)
  })
  it('agrees with the assessment where nothing is tried', () => {
    const build = demoBuild()
    const { cases } = assess(build)
    for (const kase of Object.values(build.collections.cases))
      expect(liveOf(build, laidOver(kase, NOTHING_TRIED)).solved.voltages).toEqual(cases[kase.id]!.voltages)
  })
  it('becomes a case in which loads bound to named cases run as before', () => {
    const build = demoBuild()
    const bound = Object.values(build.collections.devices).find(({ loads }) =>
      loads?.some(({ onlyIn }) => onlyIn?.length),
    )
    const base = caseOf(build, bound?.loads?.find(({ onlyIn }) => onlyIn?.length)?.onlyIn?.[0] ?? 'cruising')
    const tried = { switches: { 'roof-switch': 'on' }, outputs: {} }
    const next = applyChanges(build, caseFromTried(build, base, tried, 'Roof lamp on'))
    const kept = Object.values(next.collections.cases).find(({ name }) => name === 'Roof lamp on')!
    expect(kept.switches['roof-switch']).toBe('on')
    expect(liveOf(next, kept).solved.voltages).toEqual(liveOf(build, laidOver(base, tried)).solved.voltages)
    expect(build.collections.cases[kept.id]).toBeUndefined()
  })
})

describe('contacts', () => {
  it('follow the switch', () => {
    const build = small()
    const device = build.collections.devices.switch!
    expect(contactState(device, '1', '2', fed(build, 'off'))).toBe('open')
    expect(contactState(device, '1', '2', fed(build, 'on'))).toBe('closed')
    expect(nextPosition(device, fed(build, 'off'))).toBe('on')
    expect(nextPosition(device, fed(build, 'on'))).toBe('off')
  })
  it('follow the solved coil of a relay', () => {
    const build = demoBuild()
    const relay = build.collections.devices['horn-relay']!
    const horn = (position: string) =>
      liveOf(build, laidOver(caseOf(build, 'parked'), { switches: { 'horn-push': position }, outputs: {} }))
    expect(isPulledIn(relay, horn('released'))).toBe(false)
    expect(contactState(relay, '30', '87', horn('released'))).toBe('open')
    expect(isPulledIn(relay, horn('pressed'))).toBe(true)
    expect(contactState(relay, '30', '87', horn('pressed'))).toBe('closed')
    expect(horn('pressed').solved.voltages['horn.+']).toBeGreaterThan(11)
  })
  it('are unknown where the relay’s pull-in is not entered', () => {
    const build = demoBuild()
    const relay = build.collections.devices['horn-relay']!
    if (relay.spec.kind === 'relay') delete relay.spec.pullIn
    expect(contactState(relay, '30', '87', liveOf(build, caseOf(build, 'parked')))).toBe('unknown')
  })
})

describe('figures in words', () => {
  it('prints millivolts below a volt, and says what floats and what is unknown', () => {
    expect(voltsText(0.0031, true)).toBe('3\u202fmV')
    expect(voltsText(-0.25, true)).toBe('−250\u202fmV')
    expect(voltsText(12.345, true)).toBe('12.35\u202fV')
    expect(voltsText(0, true)).toBe('0\u202fV')
    expect(voltsText(null, true)).toBe('floating')
    expect(voltsText(null, false)).toBe('unknown')
    expect(ampsText(null)).toBe('unknown')
    expect(ampsText(0.149)).toBe('149\u202fmA')
  })
  it('shows no current for a wire whose cross-section is missing, and names what is', () => {
    const build = small((b) => {
      delete lampWire(b).area
    })
    const figures = wireFigures(fed(build, 'on'), lampWire(build))
    expect(figures.current).toBeNull()
    expect(figures.amps).toBe('A unknown')
    expect(figures.missing).toBe('cross-section')
  })
  it('shows no volts behind a wire whose resistance is not known, and names the wire', () => {
    const build = small((b) => {
      delete lampWire(b).area
    })
    const live = fed(build, 'on')
    expect(voltsAtText(live, 'lamp.+')).toBe('unknown')
    expect(standInsTo(live, 'lamp.+')).toEqual([`wire:${lampWire(build).id}`])
    expect(voltsAtText(live, 'fuse.1')).toMatch(/^12\.\d\d\sV$/)
  })
  it('says unknown, not floating, where only the inside of a controller could feed', () => {
    const build = demoBuild()
    const live = liveOf(build, caseOf(build, 'ignition-on'))
    expect(voltsAtText(live, 'ecu.B23')).toBe('unknown')
    expect(live.solved.voltages['ecu.B23'] ?? null).toBeNull()
  })
})
