/** Laws that must hold for every unit and any number. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  awgArea,
  formatQuantity,
  fromUnit,
  gaugeToAbsolute,
  KINDS,
  type Kind,
  parseQuantity,
  toUnit,
  unitsOf,
} from './index.ts'
import { UNITS } from './table.ts'

const kinds = Object.keys(KINDS) as Kind[]
const linearUnits = kinds.flatMap((kind) => UNITS[kind].map((unit) => [kind, unit.symbol] as const))
const anyUnit = fc.constantFrom(...linearUnits)
const size = fc.double({ min: 1e-6, max: 1e6, noNaN: true })
const mayBeNegative = (kind: Kind) => kind !== 'pressureAbsolute' && kind !== 'temperature'

describe('printed, then read', () => {
  it.each(linearUnits)('%s in "%s" comes back with its unit', (kind, unit) => {
    fc.assert(
      fc.property(size, fc.boolean(), (x, negative) => {
        const si = fromUnit(kind, unit, negative && mayBeNegative(kind) ? -x : x)
        const found = parseQuantity(kind, formatQuantity(kind, si, { unit, digits: 15 }))
        expect(found.unit).toBe(unit)
        // Fifteen digits are printed; an offset of 273 K takes some of those of a small number.
        expect(Math.abs(found.value - si)).toBeLessThanOrEqual(
          1e-13 * (Math.abs(si) + 273.15 * Number(kind === 'temperature')),
        )
      }),
      { numRuns: 25 },
    )
  })

  it('in the unit that suits its size, to four digits', () => {
    fc.assert(
      fc.property(fc.constantFrom(...kinds), size, (kind, si) => {
        const found = parseQuantity(kind, formatQuantity(kind, si))
        const slack = 5.1e-4 * (kind === 'temperature' ? 273.15 + si : si)
        expect(Math.abs(found.value - si)).toBeLessThanOrEqual(slack)
      }),
    )
  })

  it('with its ±, to the two digits printed', () => {
    fc.assert(
      fc.property(
        anyUnit,
        fc.double({ min: 1, max: 1e4, noNaN: true }),
        fc.double({ min: 1e-3, max: 1, noNaN: true }),
        ([kind, unit], x, share) => {
          const si = fromUnit(kind, unit, x)
          const plusMinus = fromUnit(kind, unit, x * (1 + share)) - si
          const found = parseQuantity(kind, formatQuantity(kind, si, { unit, plusMinus }))
          expect(Math.abs((found.plusMinus as number) / plusMinus - 1)).toBeLessThan(0.051)
          expect(Math.abs(found.value - si)).toBeLessThanOrEqual(0.051 * plusMinus)
        },
      ),
    )
  })

  it('every wire gauge', () => {
    for (let gauge = -3; gauge <= 56; gauge++) {
      const area = awgArea(gauge)
      expect(parseQuantity('area', formatQuantity('area', area, { unit: 'AWG' }))).toEqual({ value: area, unit: 'AWG' })
    }
  })
})

describe('absolute and gauge never mix', () => {
  const pressureUnit = fc.constantFrom(...unitsOf('pressureGauge'))
  it('what prints as one is refused as the other, and converts only by ambient', () => {
    fc.assert(
      fc.property(
        pressureUnit,
        fc.double({ min: 1, max: 1e7, noNaN: true }),
        fc.double({ min: 5e4, max: 1.1e5, noNaN: true }),
        (unit, si, ambient) => {
          const asGauge = formatQuantity('pressureGauge', si, { unit, digits: 15 })
          const asAbsolute = formatQuantity('pressureAbsolute', si, { unit, digits: 15 })
          expect(() => parseQuantity('pressureAbsolute', asGauge)).toThrow(/is a gauge pressure/)
          expect(() => parseQuantity('pressureGauge', asAbsolute)).toThrow(/is an absolute pressure/)
          const converted = parseQuantity('pressureAbsolute', asGauge, { ambient }).value
          expect(converted / gaugeToAbsolute(si, ambient)).toBeCloseTo(1, 12)
        },
      ),
    )
  })
})

describe('differences', () => {
  it('never get the offset: twice the number is twice the difference, nothing is nothing', () => {
    fc.assert(
      fc.property(anyUnit, size, ([kind, unit], x) => {
        if (kind === 'temperature') return
        expect(fromUnit(kind, unit, 0)).toBe(0)
        expect(fromUnit(kind, unit, 2 * x)).toBe(2 * fromUnit(kind, unit, x))
      }),
    )
  })

  it('between two temperatures are what their difference reads', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('°C', '°F', 'K'),
        fc.double({ min: 0, max: 500, noNaN: true }),
        fc.double({ min: 0, max: 500, noNaN: true }),
        (unit, a, b) => {
          const between = fromUnit('temperature', unit, a) - fromUnit('temperature', unit, b)
          expect(fromUnit('temperatureDifference', unit, a - b)).toBeCloseTo(between, 9)
        },
      ),
    )
  })
})

it('conversion keeps the order of numbers', () => {
  fc.assert(
    fc.property(anyUnit, size, size, ([kind, unit], a, b) => {
      if (Math.abs(a - b) < 1e-6) return
      expect(fromUnit(kind, unit, a) < fromUnit(kind, unit, b)).toBe(a < b)
      expect(toUnit(kind, unit, a) < toUnit(kind, unit, b)).toBe(a < b)
    }),
  )
})

it('whatever is typed, the answer is a finite number or a refusal in words', () => {
  const typed = fc.oneof(
    fc.string(),
    fc.string({ unit: fc.constantFrom(...'0123456789.,/ -+±%()eEx^°µΩ²³\'"mkgbarpsiAWG') }),
  )
  fc.assert(
    fc.property(fc.constantFrom(...kinds), typed, (kind, text) => {
      try {
        const { value, plusMinus } = parseQuantity(kind, text)
        expect(Number.isFinite(value) && Number.isFinite(plusMinus ?? 0)).toBe(true)
      } catch (error) {
        expect((error as Error).name).toBe('Refusal')
      }
    }),
    { numRuns: 2000 },
  )
})
