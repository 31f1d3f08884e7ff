import { describe, expect, it } from 'vitest'
import type { Build } from '../src/model/build.ts'
import { checkIntegrity } from '../src/model/integrity.ts'
import { readBuild, writeBuild } from '../src/model/read.ts'
import { demoBuild, demoLogCsv, FAULTS, halfBuild, LOG_EFFECTIVENESS, soundBuild } from './index.ts'

const count = (build: Build) =>
  Object.fromEntries(Object.entries(build.collections).map(([name, records]) => [name, Object.keys(records).length]))
const PLANTED_IN_THE_MODEL = [
  ['dangling-pin', 'wires/W-276/to'],
  ['doubled-pin', 'devices/ecu/pins/B14'],
]
const problems = (build: Build) => checkIntegrity(build).map(({ code, path }) => [code, path])

describe.each([
  ['full', demoBuild],
  ['sound', soundBuild],
  ['half', halfBuild],
])('the %s build', (_, make) => {
  it('fits the schema and comes back identical', () => {
    const text = writeBuild(make())
    expect(writeBuild(readBuild(JSON.parse(text)))).toBe(text)
  })
  it('is the same every time, and nobody else’s copy', () => {
    expect(make()).toEqual(make())
    expect(make()).not.toBe(make())
  })
})

describe('the full demo', () => {
  const build = demoBuild()
  const { devices, wires, cases, zones, jobs, readings } = build.collections

  it('is as large as a van', () => {
    const size = count(build)
    expect(size.devices).toBeGreaterThanOrEqual(70)
    expect(size.wires).toBeGreaterThanOrEqual(150)
    expect(size.zones).toBeGreaterThanOrEqual(10)
    expect(size.jobs).toBeGreaterThanOrEqual(80)
    expect(size.cases).toBe(10)
  })

  it('has only the planted problems of integrity', () => {
    expect(problems(build)).toEqual(PLANTED_IN_THE_MODEL)
  })

  it('gives every zone an outline within the van, every job its three times in order', () => {
    const { length, width } = build.sheets.vehicle!
    for (const zone of Object.values(zones))
      for (const [x, y] of zone.outline ?? [[Number.NaN, Number.NaN]]) {
        expect(x).toBeGreaterThanOrEqual(0)
        expect(x).toBeLessThanOrEqual(length!.value)
        expect(Math.abs(y)).toBeLessThanOrEqual(width!.value / 2)
      }
    for (const { time } of Object.values(jobs)) {
      expect(time!.least.value).toBeLessThanOrEqual(time!.likely.value)
      expect(time!.likely.value).toBeLessThanOrEqual(time!.most.value)
    }
  })

  it('ties both sides of every load to battery and earth, but for the horn', () => {
    // Any switch position, any relay: what is reachable at all, through loads too only where they are in series.
    const joined = new Map<string, Set<string>>()
    const join = (a: string, b: string) => {
      for (const [x, y] of [
        [a, b],
        [b, a],
      ] as const)
        joined.set(x, (joined.get(x) ?? new Set()).add(y))
    }
    for (const wire of Object.values(wires)) join(wire.from, wire.to)
    for (const { id, spec, pins } of Object.values(devices)) {
      const names = Object.keys(pins)
      if (spec.kind === 'splice' || spec.kind === 'fuse')
        for (const pin of names) join(`${id}.${names[0]}`, `${id}.${pin}`)
      if (spec.kind === 'relay') join(`${id}.30`, `${id}.87`)
      if (spec.kind === 'switch')
        for (const [a, b] of Object.values(spec.positions).flat()) join(`${id}.${a}`, `${id}.${b}`)
      if (spec.kind === 'earth-stud' && spec.on === 'body') join(`${id}.S`, 'body')
    }
    for (const output of Object.values(build.collections.outputs)) {
      join(`${output.device}.${output.pin}`, `${output.device}.A24`)
      if (output.driver !== 'low side') join(`${output.device}.${output.pin}`, `${output.device}.A1`)
    }
    join('coolant-gauge.15', 'coolant-gauge.G')
    join('coolant-sender.G', 'coolant-sender.31')
    join('fuel-gauge.15', 'fuel-gauge.G')
    join('level-sender.G', 'level-sender.31')
    join('alternator.D+', 'alternator.31')
    const from = (start: string) => {
      const seen = new Set([start])
      for (const at of seen) for (const next of joined.get(at) ?? []) seen.add(next)
      return seen
    }
    const [fed, earthed] = [from('battery.+'), from('battery.-')]
    const loose = Object.values(devices).flatMap((device) =>
      (device.loads ?? [])
        .flatMap((load) => [`${device.id}.${load.from}`, `${device.id}.${load.to}`])
        .filter((pin) => !fed.has(pin) && !earthed.has(pin)),
    )
    expect(loose).toEqual(['horn.-'])
  })

  it('plants about fifteen different faults on things that exist, and names a rule for each', () => {
    expect(FAULTS.length).toBeGreaterThanOrEqual(15)
    expect(new Set(FAULTS.map(({ rule, subject }) => `${rule}:${subject}`)).size).toBe(FAULTS.length)
    for (const { subject } of FAULTS) {
      const [place, id] = subject.split('/') as [string, string]
      const found = place === 'sheet' ? build.sheets : build.collections[place as keyof Build['collections']]
      expect(Object.hasOwn(found, id), subject).toBe(true)
    }
  })

  it('has jobs that answer planted faults by their key', () => {
    const keys = new Set(FAULTS.map(({ rule, subject }) => `${rule}:${subject}`))
    const answered = Object.values(jobs).flatMap(({ finding }) => (finding === undefined ? [] : [finding]))
    expect(answered.length).toBeGreaterThanOrEqual(5)
    for (const key of answered) expect(keys.has(key), key).toBe(true)
  })

  it('sets no case on an absent thing and describes every case', () => {
    for (const operating of Object.values(cases)) expect(operating.ambient).toBeDefined()
    expect(
      Object.values(cases)
        .filter(({ battery }) => battery === 'reversed')
        .map(({ id }) => id),
    ).toEqual(['battery-reversed'])
    expect(readings['M-1']?.value).toBe(LOG_EFFECTIVENESS)
  })
})

describe('the other builds', () => {
  it('has a sound one of another shape and about twenty devices', () => {
    const build = soundBuild()
    expect(problems(build)).toEqual([])
    expect(build.sheets.vehicle?.category).not.toBe(demoBuild().sheets.vehicle?.category)
    expect(Object.keys(build.collections.devices).length).toBe(20)
  })

  it('has one with about half of the optional data gone and no new problem of integrity', () => {
    const measures = (build: Build) => JSON.stringify(build).match(/"area":/g)?.length ?? 0
    const share = measures(halfBuild()) / measures(demoBuild())
    expect(share).toBeGreaterThan(0.35)
    expect(share).toBeLessThan(0.65)
    expect(count(halfBuild())).toEqual(count(demoBuild()))
    expect(problems(halfBuild())).toEqual(PLANTED_IN_THE_MODEL)
  })
})

describe('the log', () => {
  const lines = demoLogCsv().trimEnd().split('\n')
  const rows = lines.slice(5).map((line) => line.split(',').map(Number))

  it('has a preamble, names, units and 460 s at 10 Hz, the same every time', () => {
    expect(lines[3]!.split(',').length).toBe(lines[4]!.split(',').length)
    expect(rows.length).toBe(4600)
    expect(rows.every((row) => row.length === 9 && row.every(Number.isFinite))).toBe(true)
    expect(demoLogCsv()).toBe(demoLogCsv())
  })

  it('shows boost, and a cooler between the temperatures before and after it', () => {
    expect(Math.max(...rows.map((row) => row[2]!))).toBeGreaterThan(160)
    const late = rows.filter((row) => row[7]! > 60 && row[1]! > 4100)
    expect(late.length).toBeGreaterThan(40)
    for (const [, , , before, after] of late) expect(before! - after!).toBeGreaterThan(25)
  })
})
