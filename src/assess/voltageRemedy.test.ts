// What is proposed is done to the build and the build assessed anew: the volts promised must come, by another way of solving.
import { describe, expect, it } from 'vitest'
import { demoBuild, soundBuild } from '../../demo/index.ts'
import type { Build } from '../model/build.ts'
import { assess } from './assess.ts'

const found = (build: Build) =>
  assess(build).findings.filter(
    ({ rule, verdict }) => rule === 'load-voltage' && verdict !== 'sound' && verdict !== 'unknown',
  )

/** `2.5 mm² in place of 0.5 mm² on W-113`, as often as it stands in a sentence. */
const changesIn = (todo: string): readonly { id: string; area: number; was: number }[] =>
  [...todo.matchAll(/([\d.]+) mm² in place of ([\d.]+) mm² on (W-\d+)/g)].map(([, area, was, id]) => ({
    id: id!,
    area: Number(area) * 1e-6,
    was: Number(was) * 1e-6,
  }))
const done = (build: Build, changes: readonly { id: string; area: number }[]): Build => {
  for (const { id, area } of changes)
    Object.assign(build.collections.wires[id]!, { area: { value: area, unit: 'mm²' }, material: 'copper' })
  return build
}
const before = demoBuild()
const proposals = found(before)
const strap = changesIn(assess(before).findings.find(({ key }) => key === 'conductor-temperature:wires/W-3')!.todo)

describe('what is proposed for a load with too few volts', () => {
  it('begins with the strap that has a no-go of its own, and gathers the loads that it alone spoils', () => {
    expect(strap).toHaveLength(1)
    const merged = proposals.find(({ subject }) => subject === 'wires/W-3')!
    expect(merged.todo).toMatch(/^Mend W-3 first \(its own finding\); with 12 mm² there/)
    const mended = found(done(demoBuild(), strap))
    for (const [, name, promised] of merged.todo.matchAll(
      /(?:there |, |and )([^,]+(?:, [a-z ]+)?) reads ([\d.]+) V/g,
    )) {
      // None of them is complained of any more.
      expect(
        mended.map(({ about }) => about),
        `${name} at ${promised}`,
      ).not.toContain(name)
    }
    expect(merged.todo.match(/reads/g)!.length).toBeGreaterThan(1)
  })
  it('cures the load when it says so, and the promised volts come', () => {
    const promising = proposals.filter(({ todo }) => /: [\d.]+ V\.$/.test(todo))
    expect(promising.length).toBeGreaterThan(1)
    for (const { key, subject, about, says, todo } of promising) {
      const first = todo.startsWith('Mend W-3') ? strap : []
      const build = done(demoBuild(), [...first, ...changesIn(todo)])
      const after = assess(build)
      // In another case it may be the source that gives too little; no wire cures that.
      const now = after.findings.find((one) => one.key === key)!
      expect(now.verdict === 'sound' || /no thicker wire helps/.test(now.says), `${about}: ${now.says}`).toBe(true)
      const kase = Object.values(build.collections.cases).find(({ name }) => says.includes(`“${name}”`))!
      const device = build.collections.devices[subject.replace('devices/', '')]!
      const load = device.loads!.find(({ id }) => key.endsWith(`.${id}`))!
      const [a, b] = [load.from, load.to].map((pin) => after.cases[kase.id]!.voltages[`${device.id}.${pin}`]!)
      // The other wires' temperatures were held while it was tried: a few hundredths of a volt.
      expect(Math.abs(a! - b! - Number(/: ([\d.]+) V\.$/.exec(todo)![1])), about).toBeLessThan(0.05)
    }
  })
  it('never asks for a wire beyond what fits the job', () => {
    for (const { todo } of proposals)
      for (const { area, was, id } of changesIn(todo))
        expect(area, `${id}: ${todo}`).toBeLessThanOrEqual(Math.max(4 * was, 4e-6) * 1.001)
  })
  it('says that the last volts go in many small parts where no wire cures it', () => {
    const right = proposals.find(({ subject }) => subject === 'devices/headlamp-right')!
    expect(right.todo).toMatch(
      /[\d.]+ mm² in place of 0\.5 mm² on W-113: 12\.\d\d V\. The last 0\.\d\d V go in many small/,
    )
  })
  it('has nothing to propose for the sound build', () => {
    expect(found(soundBuild()).filter(({ verdict }) => verdict === 'no-go')).toEqual([])
  })
})
