import { describe, expect, it } from 'vitest'
import { run } from '../../calculation.ts'
import { preferredValues } from '../preferredValues.ts'
import { bestRows } from '../table/bestRows.ts'
import { dampingLag, sloshFrequency } from './damping.ts'
import { dampingTime } from './dampingTime.ts'
import { fillTest } from './fillTest.ts'
import { gaugeNetwork, type LevelResistance } from './gaugeNetwork.ts'
import { levelSender, senderCurve, swingArmPoints } from './sender.ts'
import { tankOf } from './tank.ts'

describe('a tank', () => {
  // hackmath.net problem 3613: r 0.725 m, 10 m long, level 0.2 m below the top: 15.138 m³.
  it('as a lying cylinder holds the published volume, and finds its height back', () => {
    const tank = tankOf({ shape: 'lying cylinder', diameter: 1.45, length: 10 })
    expect(tank.volumeAt(1.25)).toBeCloseTo(15.138, 3)
    expect(tank.heightAt(tank.volumeAt(1.25)!)).toBeCloseTo(1.25, 9)
    expect(tank.capacity).toBeCloseTo(Math.PI * 0.725 ** 2 * 10, 9)
    expect(tank.volumeAt(1.46)).toBeUndefined()
  })
  it('as a loft is exact for a box, a wedge and a frustum of straight area', () => {
    const loft = (sections: readonly (readonly [number, number])[]) =>
      tankOf({ shape: 'loft', height: 0.4, sections: sections.map(([height, area]) => ({ height, area })) })
    expect(
      loft([
        [0.4, 0.3],
        [0, 0.3],
      ]).volumeAt(0.1),
    ).toBeCloseTo(0.03, 12)
    expect(
      loft([
        [0, 0],
        [0.4, 0.3],
      ]).volumeAt(0.2),
    ).toBeCloseTo((0.15 * 0.2) / 2, 12)
    expect(
      loft([
        [0, 0.1],
        [0.1, 0.3],
        [0.4, 0.2],
      ]).capacity,
    ).toBeCloseTo(0.02 + 0.075, 12)
    expect(tankOf({ shape: 'box', length: 0.7, width: 0.5, height: 0.2 }).capacity).toBeCloseTo(0.07, 12)
  })
  it('as a loft of a cylinder’s sections comes to the cylinder', () => {
    const sections = Array.from({ length: 201 }, (_, i) => {
      const height = (0.4 * i) / 200
      return { height, area: 2 * Math.sqrt(Math.max(0, 0.04 - (height - 0.2) ** 2)) }
    })
    const tank = tankOf({ shape: 'loft', height: 0.4, sections })
    expect(tank.capacity / (Math.PI * 0.04)).toBeCloseTo(1, 3)
  })
  it('refuses a section outside it, and says what to measure', () => {
    expect(() =>
      tankOf({
        shape: 'loft',
        height: 0.3,
        sections: [
          { height: 0, area: 0.2 },
          { height: 0.35, area: 0.2 },
        ],
      }),
    ).toThrow(/Section 2 at 0.35 m lies outside the tank, which is 0.3 m high\. Measure/)
    expect(() =>
      tankOf({
        shape: 'loft',
        height: 0.3,
        sections: [
          { height: 0.1, area: 0.2 },
          { height: 0.3, area: 0.2 },
        ],
      }),
    ).toThrow(/do not reach from the bottom/)
    expect(() => tankOf({ shape: 'box', length: 0, width: 1, height: 1 })).toThrow(/length is 0 m/)
  })
})

describe('a sender', () => {
  const tank = tankOf({ shape: 'box', length: 0.8, width: 0.4, height: 0.25 })
  it('of a straight travel in a box gives litres in proportion, and what it cannot see', () => {
    const sender = levelSender(
      tank,
      senderCurve([
        { height: 0.02, resistance: 240 },
        { height: 0.23, resistance: 33 },
      ]),
    )
    expect(sender.unseenBelow).toBeCloseTo(0.32 * 0.02, 12)
    expect(sender.unseenAbove).toBeCloseTo(0.32 * 0.02, 12)
    expect(sender.resistanceAt(0.04)).toBeCloseTo(240 - (207 * 0.105) / 0.21, 6)
    expect(sender.resistanceAt(0.005)).toBeUndefined()
    const best = bestRows({ curve: sender.curve, rows: 2 })
    expect(best.largestError).toBeLessThan(1e-12)
    expect(best.rows[0]!.x).toBeCloseTo(33, 9)
  })
  it('on an arm moves by the sine of its angle', () => {
    const points = swingArmPoints(
      {
        pivot: 0.2,
        arm: 0.2,
        draught: 0,
        lowAngle: -Math.PI / 3,
        highAngle: Math.PI / 6,
        lowResistance: 240,
        highResistance: 33,
      },
      4,
    )
    expect(points.map(({ height }) => height)).toEqual(
      [-60, -30, 0, 30].map((deg) => expect.closeTo(0.2 + 0.2 * Math.sin((deg * Math.PI) / 180), 12)),
    )
    expect(points[1]!.resistance).toBeCloseTo(171, 9)
    expect(() =>
      swingArmPoints({ pivot: 0, arm: 1, draught: 0, lowAngle: 0, highAngle: 2, lowResistance: 1, highResistance: 2 }),
    ).toThrow(/does not rise steadily/)
  })
  it('refuses a track that turns back, and one outside the tank', () => {
    expect(() =>
      senderCurve([
        { height: 0, resistance: 10 },
        { height: 0.1, resistance: 60 },
        { height: 0.2, resistance: 50 },
      ]),
    ).toThrow(/does not move the one way/)
    expect(() =>
      levelSender(
        tank,
        senderCurve([
          { height: 0.3, resistance: 10 },
          { height: 0.4, resistance: 60 },
        ]),
      ),
    ).toThrow(/outside the tank/)
  })
})

describe('a fill test', () => {
  const readings = [240, 190, 146, 108, 74, 45].map((resistance, i) => ({ added: i === 0 ? 0 : 0.01, resistance }))
  const test = fillTest(readings, { scale: 0.01, each: 1e-4 })
  it('gives the cans poured at its readings, ± growing as the cans add up', () => {
    expect(test.volumeAt(108)).toBeCloseTo(0.03, 12)
    // 1 % of 30 l and √3 × 0.1 l.
    expect(test.points[3]!.plusMinus).toBeCloseTo(Math.hypot(3e-4, Math.sqrt(3) * 1e-4), 12)
    expect(test.boundsAt(108)).toEqual({
      low: 0.03 - test.points[3]!.plusMinus,
      high: 0.03 + test.points[3]!.plusMinus,
    })
  })
  it('never turns between readings, keeps within its bounds, and ends where they end', () => {
    let last = Number.POSITIVE_INFINITY
    for (let r = 45; r <= 240; r += 1) {
      const volume = test.volumeAt(r)!
      const bounds = test.boundsAt(r)!
      expect(volume).toBeLessThanOrEqual(last)
      expect(volume).toBeGreaterThanOrEqual(bounds.low)
      expect(volume).toBeLessThanOrEqual(bounds.high)
      last = volume
    }
    expect(test.volumeAt(44)).toBeUndefined()
    expect(test.boundsAt(241)).toBeUndefined()
  })
  it('refuses too few readings with the caution, and a float that stands still', () => {
    expect(() => fillTest(readings.slice(0, 2), { scale: 0, each: 0 })).toThrow(
      /three are needed.*earthed to each other/,
    )
    expect(() => fillTest([...readings, { added: 0.01, resistance: 45 }], { scale: 0, each: 0 })).toThrow(
      /leave out readings where the float stands still/,
    )
  })
})

describe('damping', () => {
  it('knows slosh in deep and in shallow liquid', () => {
    // Deep: f = √(g/(4πL)); 1 m: 0.8834 Hz. Shallow: √(g·h)/(2L).
    expect(sloshFrequency(1, 10)).toBeCloseTo(Math.sqrt(9.80665 / (4 * Math.PI)), 6)
    expect(sloshFrequency(1, 0.01)).toBeCloseTo(Math.sqrt(9.80665 * 0.01) / 2, 4)
  })
  it('leaves the share asked for, and lags by flow times its time', () => {
    const { time } = run(dampingTime, { frequency: sloshFrequency(0.8, 0.1), share: 0.05 }).outputs
    // A first-order filter leaves 1/√(1 + (2πfτ)²).
    expect(1 / Math.hypot(1, 2 * Math.PI * sloshFrequency(0.8, 0.1) * time)).toBeCloseTo(0.05, 9)
    expect(dampingLag(1e-5, 4)).toBeCloseTo(4e-5, 15)
    expect(() => run(dampingTime, { frequency: 1, share: 0 })).toThrow(/outside/)
    expect(() => sloshFrequency(0, 1)).toThrow(/no frequency/)
  })
})

describe('an old gauge on another sender', () => {
  const points = (...pairs: readonly (readonly [number, number])[]): LevelResistance[] =>
    pairs.map(([level, resistance]) => ({ level, resistance }))
  const values = preferredValues('E24', 1, 1e4)
  it('with its own sender needs nothing', () => {
    const own = points([0, 240], [0.5, 103], [1, 33])
    expect(gaugeNetwork(own, own, values)).toMatchObject({
      series: 0,
      across: Number.POSITIVE_INFINITY,
      worst: expect.closeTo(0, 12),
    })
  })
  it('finds the resistors that were put in', () => {
    const sender = points([0, 10], [0.25, 80], [0.5, 150], [0.75, 220], [1, 290])
    // The gauge read off at every fortieth, so that straight lines between its readings are the network's own curve.
    const wanted = Array.from({ length: 41 }, (_, i) => ({
      level: i / 40,
      resistance: 1 / (1 / (10 + (280 * i) / 40 + 22) + 1 / 220),
    }))
    const found = gaugeNetwork(sender, wanted, values)
    expect(found).toMatchObject({ order: 'series, then across', series: 22, across: 220 })
    expect(found.worst).toBeLessThan(1e-9)
    expect(found.bare).toBeGreaterThan(0.3)
  })
  it('equals every choice tried, and tells what is left', () => {
    // Senders of 0–90 Ω and 240–33 Ω gauges are the trade's figures (forum.allaboutcircuits.com 11342 [read]); here 0–180 on 0–90.
    const few = preferredValues('E6', 10, 1000)
    const [sender, gauge] = [points([0, 0], [0.5, 80], [1, 180]), points([0, 0], [0.5, 40], [1, 90])]
    const found = gaugeNetwork(sender, gauge, few)
    expect(found.worst).toBeLessThan(found.bare)
    expect(Math.max(...found.points.map(({ error }) => Math.abs(error)))).toBeCloseTo(found.worst, 12)
    for (const series of few)
      for (const across of few) {
        const worst = Math.max(
          ...gaugeNetwork(sender, gauge, [series, across]).points.map(({ error }) => Math.abs(error)),
        )
        expect(worst).toBeGreaterThanOrEqual(found.worst - 1e-12)
      }
  })
  it('says that resistors cannot turn a sender round', () => {
    expect(() => gaugeNetwork(points([0, 10], [1, 180]), points([0, 240], [1, 33]), values)).toThrow(
      /no resistors can turn it round\. Let the controller read the sender/,
    )
    expect(() => gaugeNetwork(points([0, 10], [0.9, 180]), points([0, 0], [1, 90]), values)).toThrow(
      /sender has no reading at empty/,
    )
  })
})
