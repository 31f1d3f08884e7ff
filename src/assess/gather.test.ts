import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild } from '../../demo/index.ts'
import { assess } from './assess.ts'
import type { Finding } from './finding.ts'
import { gather, howMany } from './gather.ts'

const half = halfBuild()
const { findings } = assess(half)
const gathered = gather(half, findings)
const line = (datum: string) => gathered.find((one) => one.datum === datum)

const unknown = (key: string, missing: string, subject = 'devices/fuel-pump'): Finding => ({
  key,
  rule: key,
  verdict: 'unknown',
  system: 'electrical',
  subject,
  about: 'Fuel pump',
  says: '',
  todo: '',
  working: [],
  missing,
  cautions: [],
})

describe('what is missing, gathered', () => {
  it('leaves no unknown finding out, and counts each once among what is settled', () => {
    const open = findings.filter(({ verdict }) => verdict === 'unknown')
    const named = new Set(gathered.flatMap(({ items }) => items.flatMap((item) => item.findings)))
    expect(open.length).toBeGreaterThan(300)
    expect(named).toEqual(new Set(open.map(({ key }) => key)))
    expect(gathered.reduce((sum, { settles }) => sum + settles, 0)).toBe(open.length)
  })
  it('is a short list for the half-entered build, what settles most first', () => {
    const open = findings.filter(({ verdict }) => verdict === 'unknown').length
    expect(gathered.length).toBeLessThan(open / 8)
    expect(gathered.slice(0, 10).reduce((sum, { settles }) => sum + settles, 0)).toBeGreaterThan(0.85 * open)
    expect(gathered[0]).toMatchObject({ datum: 'cross-section' })
    expect(gathered[0]!.settles).toBeGreaterThan(100)
    const bare = Object.values(half.collections.wires).filter(({ area }) => area === undefined)
    // Every wire that lacks it and that some finding asks for, and no other.
    const ids = new Set(bare.map(({ id }) => `wires/${id}`))
    expect(gathered[0]!.items.every(({ subject }) => ids.has(subject))).toBe(true)
  })
  it('leads each item to the thing that lacks it, under a name that a person knows', () => {
    expect(line('rating')!.items[0]).toMatchObject({ subject: 'devices/fuse-body', name: 'Body feed fuse, 60 A' })
    const bare = Object.values(half.collections.zones).flatMap(({ id, ambient }) => (ambient ? [] : [`zones/${id}`]))
    expect(bare).toContain('zones/dash')
    expect(new Set(line('ambient temperature')!.items.map(({ subject }) => subject))).toEqual(new Set(bare))
    // A name with a comma and an “and” in it is one name.
    const volts = line('least voltage at which it does its job')!
    expect(volts.items.map(({ name }) => name)).toContain('Throttle body, motor and two tracks')
    expect(howMany(volts)).toMatch(/^\d+ devices$/)
    expect(howMany(line('resistance of the coil')!)).toBe('Fuel pump relay')
  })
  it('orders by what is nearly settled: alone first, shared after', () => {
    const build = demoBuild()
    const made = gather(build, [
      unknown('a', 'material of W-302'),
      unknown('b', 'material of W-305 and rating of Fuel pump'),
      unknown('c', 'rating of Fuel pump, curve of Fuel pump and material of W-302'),
    ])
    expect(made.map(({ datum, asked, settles }) => [datum, asked, settles])).toEqual([
      ['material', 3, 1],
      ['rating', 2, 1],
      ['curve', 1, 1],
    ])
    expect(howMany(made[0]!)).toBe('2 wires')
  })
  it('gives one datum to several items named after it, and several data to one named later', () => {
    const build = demoBuild()
    const made = gather(build, [
      unknown('a', 'cross-section, material and insulation class of W-302', 'wires/W-305'),
      unknown('b', 'what motor draws', 'devices/fuel-pump'),
      unknown('c', 'W-302'),
      unknown('d', 'injector flow', 'sheet/fuel'),
    ])
    const of = (datum: string) => made.find((one) => one.datum === datum)?.items.map(({ subject }) => subject)
    expect(of('cross-section')).toEqual(['wires/W-302'])
    expect(of('insulation class')).toEqual(['wires/W-302'])
    expect(of('what it draws')).toEqual(['devices/fuel-pump'])
    expect(of('injector flow')).toEqual(['sheet/fuel'])
    // Named without a datum: it hangs on all that other findings miss of it.
    expect(made.find(({ datum }) => datum === 'material')!.items[0]!.findings).toEqual(['a', 'c'])
  })
  it('has nothing to say of a build that has everything, or nothing', () => {
    expect(
      gather(
        demoBuild(),
        findings.filter(({ verdict }) => verdict !== 'unknown'),
      ),
    ).toEqual([])
  })
})
