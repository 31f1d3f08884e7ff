import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import published from '../../schema/build-1.schema.json' with { type: 'json' }
import { Refusal } from '../units/problem.ts'
import { type Build, emptyBuild } from './build.ts'
import fixture from './fixtures/build-1.json' with { type: 'json' }
import { buildJsonSchema } from './jsonSchema.ts'
import { migrate } from './migrations.ts'
import { naturalOrder } from './naturalOrder.ts'
import { applyChanges, readBuild, writeBuild } from './read.ts'

const refusal = (act: () => unknown): Refusal => {
  try {
    act()
  } catch (error) {
    if (error instanceof Refusal) return error
    throw error
  }
  throw new Error('nothing was refused')
}
const wire = { id: 'W-104', from: 'fan-relay.87', to: 'fan.+', length: { value: 1.5, unit: 'm' } }

const ids = fc.stringMatching(/^[A-Za-z0-9][A-Za-z0-9_+-]{0,11}$/)
const number = fc.double({ noNaN: true, noDefaultInfinity: true })
const positive = fc.double({ min: 1e-12, max: 1e12, noNaN: true })
const records = <T>(value: fc.Arbitrary<T>) =>
  fc
    .array(fc.tuple(ids, value), { maxLength: 12 })
    .map((list) => Object.fromEntries(list.map(([id, rest]) => [id, { id, ...rest }])))
const builds: fc.Arbitrary<Build> = fc
  .record({
    devices: records(
      fc.record({
        name: fc.string({ minLength: 1, maxLength: 20 }),
        pins: fc.dictionary(fc.stringMatching(/^[A-Za-z0-9+-]{1,5}$/), fc.constant({})),
        spec: fc.oneof(
          fc.constant({ kind: 'splice' as const }),
          fc.record({ kind: fc.constant('fuse' as const), rating: fc.record({ value: positive }) }),
          fc.constant({ kind: 'switch' as const, rest: 'off', positions: { off: [], on: [['1', '2']] } }),
        ),
      }),
    ),
    readings: records(fc.record({ subject: fc.constant('volts'), quantity: fc.constant('voltage'), value: number })),
    milestones: records(fc.record({ order: fc.integer({ min: -1000, max: 1000 }), name: fc.constant('x') })),
  })
  .map((parts) => ({ ...emptyBuild('made'), collections: { ...emptyBuild('made').collections, ...parts } }) as Build)

describe('reading and writing', () => {
  it('writes what it read, byte for byte, whatever order it came in', () => {
    fc.assert(
      fc.property(builds, (build) => {
        const text = writeBuild(build)
        const back = readBuild(JSON.parse(text))
        expect(writeBuild(back)).toBe(text)
        // −0 is written as 0, as JSON has it; apart from that nothing is lost.
        expect(back).toEqual(JSON.parse(JSON.stringify(build)))
        const shuffled = {
          collections: reversed(build.collections),
          sheets: {},
          name: build.name,
          format: build.format,
        }
        expect(writeBuild(readBuild(shuffled))).toBe(text)
      }),
    )
  })

  it('ends with a newline, indents by two and lists wires by natural order, quantities on one line', () => {
    const build = applyChanges(emptyBuild('van'), [
      { collection: 'wires', id: 'W-104', value: wire },
      { collection: 'wires', id: 'W-9', value: { ...wire, id: 'W-9' } },
    ])
    const text = writeBuild(build)
    expect(text.endsWith('}\n')).toBe(true)
    expect(text.indexOf('"W-9"')).toBeLessThan(text.indexOf('"W-104"'))
    expect(text).toContain('\n        "length": { "value": 1.5, "unit": "m" }\n')
  })

  it('refuses a newer format by name', () => {
    expect(refusal(() => readBuild({ format: 'swapwright-build/2' })).message).toContain(
      'written by a newer Swapwright (format swapwright-build/2)',
    )
  })

  it.each([null, 3, 'x', [], {}, { format: 'other/1' }])('refuses %j as no build', (json) => {
    expect(refusal(() => readBuild(json)).problems[0]?.code).toBe('not-a-build')
  })

  it('gathers every problem, each naming its item', () => {
    const build = {
      ...emptyBuild('van'),
      collections: {
        ...emptyBuild('van').collections,
        wires: {
          'W-104': { ...wire, length: { value: -1 } },
          'W-5': { ...wire, id: 'W-5', to: undefined, colours: 1 },
        },
      },
    }
    const { problems } = refusal(() => readBuild(build))
    expect(problems.map(({ path, says, todo }) => [path, `${says} ${todo}`])).toEqual([
      ['wires/W-104/length/value', 'Wire W-104: length value is -1, which is refused. It must be above 0.'],
      ['wires/W-5/to', 'Wire W-5: to is missing. Enter it: text.'],
      ['wires/W-5/colours', 'Wire W-5: colours is not a field of this format. Remove it, or check its spelling.'],
    ])
  })

  it('throws nothing but Refusal on any JSON', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.jsonValue(), (collections, sheets) => {
        expect(
          refusal(() => readBuild({ format: 'swapwright-build/1', name: 1, collections, sheets })).problems.length,
        ).toBeGreaterThan(0)
      }),
    )
  })
})

describe('changes', () => {
  it('leaves the build as it was and undoes to the same bytes', () => {
    const before = emptyBuild('van')
    const text = writeBuild(before)
    const after = applyChanges(before, [
      { collection: 'wires', id: 'W-104', value: wire },
      { sheet: 'fuel', value: { dutyLimit: 0.85 } },
      { name: 'tug' },
    ])
    expect(writeBuild(before)).toBe(text)
    expect(after.collections.wires['W-104']).toEqual(wire)
    const undone = applyChanges(after, [
      { collection: 'wires', id: 'W-104', value: null },
      { sheet: 'fuel', value: null },
      { name: 'van' },
    ])
    expect(writeBuild(undone)).toBe(text)
  })

  it('refuses all when one is wrong, and says which', () => {
    const { problems } = refusal(() =>
      applyChanges(emptyBuild('van'), [
        { collection: 'wires', id: 'W-9', value: wire },
        { collection: 'wires', id: '../x', value: wire },
        { sheet: 'fuel', value: { dutyLimit: 3 } },
      ]),
    )
    expect(problems.map((problem) => problem.code)).toEqual(['id-mismatch', 'unfit-id', 'unfit-value'])
    expect(problems[2]?.says).toBe('The fuel sheet: dutyLimit is 3, which is refused.')
  })
})

describe('formats', () => {
  it('still reads the kept file of format 1', () => {
    const build = readBuild(fixture)
    expect(Object.keys(build.collections.devices).length).toBe(20)
    expect(readBuild(JSON.parse(writeBuild(build)))).toEqual(build)
  })

  it('brings an older file up step by step', () => {
    const steps = [{ from: 1, up: (build: Record<string, unknown>) => ({ ...build, name: 'raised' }) }]
    expect(migrate({ format: 'swapwright-build/1', name: 'x' }, steps, 'swapwright-build/2')).toEqual({
      format: 'swapwright-build/2',
      name: 'raised',
    })
    expect(refusal(() => migrate({ format: 'swapwright-build/1' }, [], 'swapwright-build/2')).problems[0]?.code).toBe(
      'no-migration',
    )
  })

  it('publishes a schema that names the quantity of a measure', () => {
    expect(published, 'run npm run schema').toEqual(JSON.parse(JSON.stringify(buildJsonSchema())))
    const text = JSON.stringify(buildJsonSchema())
    expect(text).toContain('"const":"swapwright-build/1"')
    expect(text).toContain('"quantity":"length"')
  })
})

describe('natural order', () => {
  it('is a total order', () => {
    fc.assert(
      fc.property(ids, ids, ids, (a, b, c) => {
        expect(Math.sign(naturalOrder(a, b))).toBe(-Math.sign(naturalOrder(b, a)) + 0)
        if (naturalOrder(a, b) <= 0 && naturalOrder(b, c) <= 0) expect(naturalOrder(a, c)).toBeLessThanOrEqual(0)
        if (naturalOrder(a, b) === 0) expect(a).toBe(b)
      }),
    )
  })
})

const reversed = (value: unknown): unknown =>
  Array.isArray(value)
    ? value.map(reversed)
    : typeof value === 'object' && value !== null
      ? Object.fromEntries(
          Object.entries(value)
            .reverse()
            .map(([key, field]) => [key, reversed(field)]),
        )
      : value
