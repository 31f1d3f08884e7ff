import { describe, expect, it } from 'vitest'
import { sideBySide } from '../../engineering/signals/interval.ts'
import { Refusal } from '../../units/problem.ts'
import { insideOf } from './measuredSwitch.ts'

describe('a switch measured at its plug', () => {
  it('gives back the branches that made the readings', () => {
    const made = [270, 820, 2400]
    const { buttons, idle } = insideOf(
      'branches',
      made.map((value, i) => ({ name: `${i}`, shows: sideBySide(value, 4300) })),
      4300,
    )
    buttons.forEach((value, i) => {
      expect(value).toBeCloseTo(made[i]!, 9)
    })
    expect(idle).toBe(4300)
    expect(insideOf('branches', [{ name: 'Up', shows: 100 }], undefined).buttons).toEqual([100])
  })
  it('gives back the steps of a chain', () => {
    const taps = [100, 270, 600].map((shows, i) => ({ name: `${i}`, shows }))
    expect(insideOf('chain', taps, 1600)).toEqual({ buttons: [100, 170, 330], idle: 1000 })
  })
  it.each([
    ['branches', [{ name: 'Up', shows: 5000 }], 4300, /With Up held the meter shows no less than with no button/],
    [
      'chain',
      [
        { name: 'Up', shows: 300 },
        { name: 'Down', shows: 200 },
      ],
      undefined,
      /With Down held the meter shows no more than with Up/,
    ],
    ['chain', [{ name: 'Up', shows: 300 }], 300, /With no button the meter shows no more than with Up/],
  ] as const)('refuses what cannot be: %s', (topology, measured, idle, says) => {
    expect(() => insideOf(topology, measured, idle)).toThrow(Refusal)
    expect(() => insideOf(topology, measured, idle)).toThrow(says)
  })
})
