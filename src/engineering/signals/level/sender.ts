/**
 * A level sender: float height → resistance, and with the tank: resistance → volume, with what it cannot see at both ends.
 */
import { type Problem, Refusal } from '../../../units/problem.ts'
import { type MonotoneCurve, monotoneCurve } from '../../numerics/monotoneCurve.ts'
import type { Point } from '../table/bestRows.ts'
import type { Tank } from './tank.ts'

export interface SenderPoint {
  /** m of the liquid above the inside bottom where the sender shows this. */
  readonly height: number
  /** Ω */
  readonly resistance: number
}

/** Readings on the bench, moved by hand or in a bucket. Throws `Refusal`: `missing-input`, `out-of-range`, `not-monotone`. */
export function senderCurve(points: readonly SenderPoint[]): MonotoneCurve {
  const problems: Problem[] = []
  if (points.length < 2)
    problems.push({
      code: 'missing-input',
      path: 'points',
      says: `${points.length} readings of the sender were given, two are needed.`,
      todo: 'Measure it empty, full and in between.',
    })
  for (const { height, resistance } of points)
    if (!Number.isFinite(height) || !(resistance >= 0) || !Number.isFinite(resistance))
      problems.push({
        code: 'out-of-range',
        path: 'points',
        says: `The sender at ${height} m shows ${resistance} Ω.`,
        todo: 'Measure again; a reading without end is a worn track.',
      })
  const sorted = [...points].sort((a, b) => a.height - b.height)
  const down = sorted.length > 1 && sorted.at(-1)!.resistance < sorted[0]!.resistance
  for (let i = 1; i < sorted.length; i += 1) {
    const [a, b] = [sorted[i - 1]!, sorted[i]!]
    if (a.height === b.height || (down ? b.resistance >= a.resistance : b.resistance <= a.resistance))
      problems.push({
        code: 'not-monotone',
        path: 'points',
        says: `Between ${a.height} m (${a.resistance} Ω) and ${b.height} m (${b.resistance} Ω) the sender does not move the one way it moves elsewhere.`,
        todo: 'Measure both again with the float held still; a track that jumps is worn.',
      })
  }
  if (problems.length > 0) throw new Refusal(problems)
  return monotoneCurve(
    sorted.map(({ height }) => height),
    sorted.map(({ resistance }) => resistance),
  )
}

export interface SwingArm {
  /** m of the pivot above the inside bottom. */
  readonly pivot: number
  /** m from pivot to the middle of the float. */
  readonly arm: number
  /** m by which the liquid stands above the middle of the float (below: negative). */
  readonly draught: number
  /** rad above the horizontal, at the two ends of travel. */
  readonly lowAngle: number
  readonly highAngle: number
  /** Ω there; even in between, as a wound track is. */
  readonly lowResistance: number
  readonly highResistance: number
}

/** Points of a swinging arm, evenly spaced in angle. Throws `Refusal` `out-of-range` for an arm that folds over. */
export function swingArmPoints(arm: SwingArm, count = 25): SenderPoint[] {
  if (!(arm.arm > 0) || !(arm.lowAngle < arm.highAngle) || arm.lowAngle < -Math.PI / 2 || arm.highAngle > Math.PI / 2)
    throw new Refusal([
      {
        code: 'out-of-range',
        path: 'arm',
        says: 'This arm does not rise steadily from its low end to its high end.',
        todo: 'Measure the angles from the horizontal, between −90° and 90°, the low end first.',
      },
    ])
  return Array.from({ length: count }, (_, i) => {
    const share = i / (count - 1)
    const angle = arm.lowAngle + share * (arm.highAngle - arm.lowAngle)
    return {
      height: arm.pivot + arm.arm * Math.sin(angle) + arm.draught,
      resistance: arm.lowResistance + share * (arm.highResistance - arm.lowResistance),
    }
  })
}

export interface LevelSender {
  /** x Ω, y m³; rising in x: a curve for the controller's table. */
  readonly curve: readonly Point[]
  /** m³ under the lowest and over the highest height the sender can show: it stands still there. */
  readonly unseenBelow: number
  readonly unseenAbove: number
  /** Ω at a volume; `undefined` where the sender stands still. */
  resistanceAt(volume: number): number | undefined
}

/** Throws `Refusal` `outside-tank` when the sender moves only outside the tank. */
export function levelSender(tank: Tank, sender: MonotoneCurve, count = 101): LevelSender {
  const [low, high] = [Math.max(0, sender.low), Math.min(tank.height, sender.high)]
  if (!(low < high))
    throw new Refusal([
      {
        code: 'outside-tank',
        path: 'points',
        says: `The sender moves between ${sender.low} m and ${sender.high} m, outside the tank of ${tank.height} m.`,
        todo: 'Measure heights from the inside bottom of the tank.',
      },
    ])
  const curve = Array.from({ length: count }, (_, i) => {
    const height = i === count - 1 ? high : low + ((high - low) * i) / (count - 1)
    return { x: sender.at(height)!, y: tank.volumeAt(height)! }
  })
  if (curve.at(-1)!.x < curve[0]!.x) curve.reverse()
  return {
    curve,
    unseenBelow: tank.volumeAt(low)!,
    unseenAbove: tank.capacity - tank.volumeAt(high)!,
    resistanceAt(volume) {
      const height = tank.heightAt(volume)
      return height === undefined || height < low || height > high ? undefined : sender.at(height)
    },
  }
}
