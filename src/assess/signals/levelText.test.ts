import { describe, expect, it } from 'vitest'
import { emptyBuild } from '../../model/build.ts'
import { knownOf } from './known.ts'
import { type LevelRecord, levelSheet } from './levels.ts'
import { fillFrom, fillText, senderFrom, senderText, tankFrom, tankText } from './levelText.ts'

const known = knownOf(emptyBuild('tank'), { cases: {} })
const sheetOf = (tank: string, sender: string) =>
  levelSheet(known, {
    id: 'tank',
    name: 'Tank',
    device: 'sender',
    tank: tankFrom(tank),
    curve: senderFrom(sender),
  } satisfies LevelRecord)

describe('a tank in one line', () => {
  // By hand: 60 × 40 × 25 cm are 60 l; half a lying cylinder is half of π/4·0.4²·0.9 m³; a wedge 0.1 to 0.2 m² over 0.2 m is 30 l.
  it.each([
    ['box 60 cm × 40 cm × 25 cm', '0 cm=180 Ω; 25 cm=10 Ω', 60, 95, 30],
    [
      'cylinder 40 cm × 90 cm',
      '0 cm=180 Ω; 40 cm=10 Ω',
      1000 * 0.25 * Math.PI * 0.16 * 0.9,
      95,
      500 * 0.25 * Math.PI * 0.16 * 0.9,
    ],
    ['loft 20 cm: 0 cm=0.1 m², 20 cm=0.2 m²', '0 cm=180 Ω; 20 cm=10 Ω', 30, 95, 1000 * (0.1 * 0.1 + (0.05 * 0.1) / 2)],
  ])('%s', (tank, sender, full, ohms, half) => {
    const sheet = sheetOf(tank, sender)
    expect(sheet.capacity! * 1000).toBeCloseTo(full, 6)
    expect(sheet.volumeAt!(ohms)! * 1000).toBeCloseTo(half, 1)
    expect(tankText(tankFrom(tankText(tankFrom(tank))))).toBe(tankText(tankFrom(tank)))
    expect(senderFrom(senderText(senderFrom(sender)))).toEqual(senderFrom(sender))
  })
  it('refuses a section outside the tank, and says what to measure instead', () => {
    const { problems } = sheetOf('loft 20 cm: 0 cm=0.1 m², 30 cm=0.2 m²', '0 cm=180 Ω; 20 cm=10 Ω')
    expect(problems[0]).toMatchObject({
      says: expect.stringMatching(/Section 2 at 0.3 m lies outside the tank, which is 0.2 m high/),
      todo: expect.stringMatching(/Measure the section’s height from the inside bottom/),
    })
  })
  it('refuses what is no tank, no figure and half a pair', () => {
    expect(() => tankFrom('barrel 3')).toThrow(/is no tank/)
    expect(() => tankFrom('box 60 cm × wide × 25 cm')).toThrow(/wide/)
    expect(() => fillFrom('0 l=172 Ω; 10 l')).toThrow(/figure of the fill test is missing/)
  })
  it('writes a fill test as it reads it', () => {
    const test = fillFrom('4 l=172 Ω; 10 l=131 Ω')
    expect(test).toEqual([
      [0.004, 172],
      [0.01, 131],
    ])
    expect(fillFrom(fillText(test))).toEqual(test)
  })
})
