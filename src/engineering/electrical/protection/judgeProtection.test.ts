import { describe, expect, it } from 'vitest'
import { conductorOf } from '../conductorTable.ts'
import { BREAKING, fastestJoule, fastestTime, RATINGS, slowestJoule, slowestTime } from '../fuseGates.ts'
import { ambientShare } from './fuseDerating.ts'
import { type Clause, type ClauseId, type JudgedWire, judgeProtection, type Protection } from './judgeProtection.ts'
import { whenOpened } from './overTime.ts'

const wire = (size: string, more: Partial<JudgedWire> = {}): JudgedWire => {
  const row = conductorOf(size)!
  return {
    metal: 'copper',
    area: row.area,
    resistance: row.maximumResistance,
    conductorDiameter: row.conductorDiameter!,
    outerDiameter: row.outerDiameter!,
    ambient: 313.15,
    start: 323.15,
    limit: 373.15,
    shortTermLimit: 423.15,
    ...more,
  }
}
const clause = (id: ClauseId, given: Protection): Clause => judgeProtection(given).find((each) => each.id === id)!
const blade = (rating: number) => ({ type: 'blade', rating }) as const

describe('hold', () => {
  it('is 110 % for blades, 100 % for bolt-down fuses', () => {
    expect(clause('hold', { fuse: blade(20), wire: wire('2.5 mm²') })).toMatchObject({ current: 22, verdict: 'passed' })
    expect(clause('hold', { fuse: { type: 'bolt-down', rating: 50 }, wire: wire('10 mm²') }).current).toBe(50)
  })
  it('fails where a table allows less than 110 %, as the same current for good would', () => {
    expect(clause('hold', { fuse: blade(20), wire: wire('2.5 mm²', { published: 21 }) })).toMatchObject({
      verdict: 'failed',
      current: 22,
      allowed: 21,
    })
  })
  it('is doubtful where only the wires beside it leave less than the wire carries alone', () => {
    const fuse = blade(20)
    expect(clause('hold', { fuse, wire: wire('2.5 mm²', { share: 0.4 }) }).verdict).toBe('doubtful')
    expect(clause('hold', { fuse, wire: wire('2.5 mm²', { published: 23, share: 0.9 }) }).verdict).toBe('passed')
  })
  it('fails 30 A before 1 mm², and any fuse where the air is as hot as the class', () => {
    expect(clause('hold', { fuse: blade(30), wire: wire('1 mm²') }).verdict).toBe('failed')
    expect(clause('hold', { fuse: blade(3), wire: wire('1 mm²', { ambient: 373.15 }) })).toMatchObject({
      verdict: 'failed',
      says: expect.stringContaining('nothing'),
    })
  })
})

describe('gate', () => {
  it('holds 135 % for 600 s on a wire that suits, and fails on one that does not', () => {
    expect(clause('gate', { fuse: blade(15), wire: wire('2.5 mm²') })).toMatchObject({ time: 600, verdict: 'passed' })
    expect(clause('gate', { fuse: blade(30), wire: wire('1 mm²') }).verdict).toBe('failed')
  })
  it('is milder on a thick wire than its steady state: ten minutes do not heat 25 mm² through', () => {
    const thick = wire('25 mm²')
    const tenMinutes = whenOpened(thick, 'blade', 100, 135).temperature
    expect(tenMinutes).toBeLessThan(whenOpened(thick, 'blade', 100, 134.9).temperature)
  })
})

describe('curve', () => {
  it('finds the multiple at which a slow fuse is worst for a wire that passes both gates', () => {
    // A MAXI may take 60 s at 200 %: a wire that carries 110 % and 135 % need not stand that.
    const judged = {
      fuse: { type: 'maxi', rating: 30 } as const,
      wire: wire('2.5 mm²', { limit: 398.15, shortTermLimit: 448.15 }),
    }
    const curve = clause('curve', judged)
    expect(curve.multiple).toBeGreaterThan(1.35)
    expect(curve.temperature).toBeGreaterThan(clause('gate', judged).temperature!)
  })
  it('is milder by transient than with no heat lost at 350 %', () => {
    const judged = wire('1.5 mm²')
    const at = whenOpened(judged, 'maxi', 20, 70)
    const above = whenOpened(judged, 'maxi', 20, 70.01)
    expect(at.time).toBe(7)
    expect(at.temperature).toBeLessThan(above.temperature)
  })
  it('starts at the temperature of service', () => {
    const cold = clause('curve', { fuse: blade(20), wire: wire('1.5 mm²', { start: 313.15 }) })
    const warm = clause('curve', { fuse: blade(20), wire: wire('1.5 mm²', { start: 363.15 }) })
    expect(warm.temperature).toBeGreaterThan(cold.temperature!)
  })
  it('says no more beyond the last gate than at it: one Joule integral', () => {
    expect(slowestTime('blade', 12)! * 144).toBeCloseTo(slowestJoule('blade'), 9)
    const judged = wire('1 mm²')
    expect(whenOpened(judged, 'blade', 10, 600).temperature).toBeCloseTo(
      whenOpened(judged, 'blade', 10, 60).temperature,
      6,
    )
  })
  // Melting I²t of the sheets (40 A blade 3 300, 25 A 1 000, MAXI 30 A 4 100, 35 A 6 000, 40 A 8 500 A²s) lies between both sides.
  it.each([
    ['blade', 40, 3300],
    ['blade', 25, 1000],
    ['maxi', 30, 4100],
    ['maxi', 35, 6000],
    ['maxi', 40, 8500],
  ] as const)('%s %d A: the sheet’s melting integral lies between quickest and slowest', (type, rating, printed) => {
    expect(fastestJoule(type) * rating ** 2).toBeLessThan(printed)
    expect(slowestJoule(type) * rating ** 2).toBeGreaterThan(printed)
  })
})

describe('order', () => {
  it.each(['blade', 'maxi', 'bolt-down'] as const)(
    '%s: a bigger fuse heats a wire more, a bigger wire less',
    (type) => {
      const worst = (rating: number, size: string) =>
        Math.max(
          ...judgeProtection({ fuse: { type, rating }, wire: wire(size) }).map(({ temperature = 0 }) => temperature),
        )
      for (const size of ['1 mm²', '2.5 mm²', '6 mm²', '16 mm²']) {
        const rising = RATINGS[type].map((rating) => worst(rating, size))
        expect([...rising].sort((a, b) => a - b)).toEqual(rising)
      }
      const falling = ['1 mm²', '1.5 mm²', '2.5 mm²', '4 mm²', '6 mm²', '10 mm²'].map((size) => worst(40, size))
      expect([...falling].sort((a, b) => b - a)).toEqual(falling)
    },
  )
})

describe('stall', () => {
  const held = (rating: number, amps: number, size = '2.5 mm²') =>
    clause('stall', {
      fuse: blade(rating),
      wire: wire(size),
      stalls: [{ name: 'Fan', throughFuse: amps, inWire: amps }],
    })
  it('is opened above 135 %, with its time', () => {
    expect(held(20, 40)).toMatchObject({ multiple: 2, time: 5, verdict: 'passed' })
  })
  it('is said to be unprotected below 135 %, and passes where the wire stands it', () => {
    expect(held(20, 25)).toMatchObject({ verdict: 'passed', says: expect.stringContaining('not protected') })
    expect(held(20, 25).time).toBeUndefined()
  })
  it('fails where the wire does not stand what never opens the fuse', () => {
    expect(held(40, 50, '1 mm²').verdict).toBe('failed')
  })
})

describe('clearing', () => {
  const short = (amps: number) =>
    clause('clearing', { fuse: blade(20), wire: wire('2.5 mm²'), farShort: { throughFuse: amps, inWire: amps } })
  it('is proved with current, multiple, slowest time and temperature', () => {
    expect(short(120)).toMatchObject({ verdict: 'passed', multiple: 6, time: 0.15 })
    expect(short(120).temperature).toBeGreaterThan(323.15)
  })
  it('is not cleared below 135 %', () => {
    expect(short(26.9)).toMatchObject({ verdict: 'failed', says: expect.stringContaining('not cleared') })
    expect(short(27).says).not.toContain('not cleared')
  })
})

describe('breaking', () => {
  it('holds the highest short against the standard, or the sheet where it is entered', () => {
    expect(clause('breaking', { fuse: blade(20), highestShort: 900 }).verdict).toBe('passed')
    expect(clause('breaking', { fuse: blade(20), highestShort: 1100 })).toMatchObject({
      verdict: 'failed',
      allowed: BREAKING.blade.current,
      says: expect.stringContaining('ISO 8820-3'),
    })
    expect(clause('breaking', { fuse: { ...blade(20), breakingCapacity: 2000 }, highestShort: 1100 }).verdict).toBe(
      'passed',
    )
  })
})

describe('service', () => {
  const load = (amps: number, celsius?: number) =>
    clause('service', {
      fuse: { ...blade(20), ambient: celsius === undefined ? undefined : celsius + 273.15 },
      load: amps,
    })
  it('allows 75 %, less in the warm, by the sheet', () => {
    expect(load(14.9, 20).verdict).toBe('passed')
    expect(load(14.9, 85).verdict).toBe('doubtful')
    expect(load(15.1, 85).verdict).toBe('failed')
    expect(ambientShare(65 + 273.15)).toBeCloseTo(0.85, 6)
    expect(ambientShare(400)).toBeUndefined()
    expect(load(1, 130).verdict).toBe('failed')
  })
  it('names the datum it lacks', () => {
    expect(load(5)).toMatchObject({ verdict: 'unknown', missing: 'ambient temperature of the fuse’s zone' })
  })
})

describe('inrush', () => {
  const on = (rating: number, peak: number, decay: number) =>
    clause('inrush', { fuse: blade(rating), pulses: [{ name: 'Lamp', peak, decay }] }).verdict
  it('passes two 55 W lamps on 15 A, and doubts them on 3 A', () => {
    expect(on(15, 92, 3.1e-3)).toBe('passed')
    expect(on(3, 92, 3.1e-3)).toBe('doubtful')
  })
  it('looks at how long a motor takes to start', () => {
    expect(on(20, 50, 0.1)).toBe('passed')
    expect(on(20, 50, 2)).toBe('doubtful')
    expect(on(20, 26, 2)).toBe('passed')
  })
  it('follows the quickest side of the gates', () => {
    expect([1.35, 1.6, 2, 3.5].map((multiple) => fastestTime('blade', multiple))).toEqual([0.75, 0.25, 0.15, 0.04])
    expect(fastestTime('blade', 1.3)).toBeUndefined()
  })
})
