/** The assessment against the builds of the demo: every planted fault is found, and the sound build stays sound. */
import { describe, expect, it } from 'vitest'
import { demoBuild, FAULTS, halfBuild, soundBuild } from '../demo/index.ts'
import { assess } from '../src/assess/assess.ts'
import { emptyBuild } from '../src/model/build.ts'

const demo = assess(demoBuild())

describe('the planted faults', () => {
  it.each(FAULTS)('$rule at $subject: $what', ({ rule, subject }) => {
    const found = demo.findings.filter((finding) => finding.rule === rule && finding.subject === subject)
    expect(found.map(({ verdict }) => verdict)).toContainEqual(expect.stringMatching(/^(no-go|marginal)$/))
  })
  it('are solved in every case', () => {
    expect(Object.values(demo.cases).filter(({ solved }) => !solved)).toEqual([])
  })
})

describe('every finding', () => {
  it('has its own key, something to do, and its datum where it is unknown', () => {
    for (const build of [demoBuild(), soundBuild(), halfBuild()]) {
      const { findings } = assess(build)
      expect(new Set(findings.map(({ key }) => key)).size).toBe(findings.length)
      for (const finding of findings) {
        expect(finding.says).not.toMatch(/NaN|undefined|\[object/)
        expect(finding.todo).not.toMatch(/^$|NaN|undefined/)
        if (finding.verdict === 'unknown') expect(finding.missing, finding.key).toMatch(/\S/)
      }
    }
  })
})

it('the sound build has no no-go', () => {
  expect(assess(soundBuild()).findings.filter(({ verdict }) => verdict === 'no-go')).toEqual([])
})

it('the half-entered build says unknown', () => {
  const unknown = assess(halfBuild()).findings.filter(({ verdict }) => verdict === 'unknown')
  expect(new Set(unknown.map(({ rule }) => rule))).toContain('load-voltage')
})

it('no datum that the sound build loses makes it faulty', () => {
  const build = soundBuild()
  const { battery, alternator, starter, 'pump-relay': relay, 'fuse-main': fuse } = build.collections.devices
  const records = [battery, alternator, starter, relay, fuse].map((device) => device!.spec as Record<string, unknown>)
  records.push(...Object.values(build.collections.wires), ...Object.values(build.collections.zones))
  records.push(...Object.values(build.collections.devices).flatMap(({ loads }) => loads ?? []))
  const structure = new Set(['kind', 'id', 'name', 'from', 'to', 'unfusedBecause'])
  for (const record of records)
    for (const key of Object.keys(record).filter((name) => !structure.has(name))) {
      const kept = record[key]
      delete record[key]
      const worse = assess(build).findings.filter(({ verdict }) => verdict === 'no-go')
      expect(worse, key).toEqual([])
      record[key] = kept
    }
})

it('the empty build is well', () => {
  expect(assess(emptyBuild('empty')).findings).toEqual([])
})
