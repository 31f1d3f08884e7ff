/** The propeller shaft: how fast it turns, where it whirls, the angles of its joints and what they leave over. */
import { cruisingRevs } from '../../engineering/driveline/cruisingRevs.ts'
import { jointAngle } from '../../engineering/driveline/jointAngle.ts'
import { jointFluctuation } from '../../engineering/driveline/jointFluctuation.ts'
import { jointLimit } from '../../engineering/driveline/jointLimit.ts'
import { jointPair } from '../../engineering/driveline/jointPair.ts'
import { TUBES } from '../../engineering/driveline/sources.ts'
import { whirlingSpeed } from '../../engineering/driveline/whirlingSpeed.ts'
import { combine, type Datum, entered, isKnown, known, lacking, step } from '../chain/chain.ts'
import type { DrivelineFacts } from './facts.ts'

export interface Joint {
  readonly angle: Datum
  /** At the cruising speed and at the greatest. */
  readonly limit: Datum
  readonly limitAtTop: Datum
  readonly share: Datum
}
export interface Shaft {
  readonly atCruise: Datum
  readonly atTop: Datum
  readonly critical: Datum
  readonly half: Datum
  /** Shaft speed over critical speed. */
  readonly shareAtCruise: Datum
  readonly shareAtTop: Datum
  readonly first: Joint
  readonly second: Joint
  readonly phase: Datum
  readonly left: Datum
  readonly allowed: Datum
  readonly leftShare: Datum
}

const shaftSpeed = (facts: DrivelineFacts, speed: Datum): Datum =>
  step(cruisingRevs, {
    speed,
    gear: known(1),
    finalDrive: facts.now.finalDrive,
    radius: facts.now.tyre,
  }).shaft

type Heading = 'gearbox' | 'shaft' | 'axle'
const NAMES: Readonly<Record<Heading, string>> = {
  gearbox: 'the gearbox’s output',
  shaft: 'the propeller shaft',
  axle: 'the axle’s pinion',
}
export const slopeOf = ({ sheet }: DrivelineFacts, part: Heading): Datum =>
  entered(sheet.slopes?.[part], `slope of ${NAMES[part]} from the side`)
/** Without any direction from above the parts lie in one line, as far as is known: that is asked for, not assumed. */
export const planOf = ({ sheet }: DrivelineFacts, part: Heading): Datum =>
  entered(sheet.plan?.[part], `direction of ${NAMES[part]} from above`)

const angleBetween = (facts: DrivelineFacts, before: Heading, behind: Heading): Datum =>
  step(jointAngle, {
    slopeBefore: slopeOf(facts, before),
    slopeBehind: slopeOf(facts, behind),
    planBefore: planOf(facts, before),
    planBehind: planOf(facts, behind),
  }).angle

const hasHeadings = ({ sheet }: DrivelineFacts): boolean => sheet.slopes !== undefined || sheet.plan !== undefined

/** Turn between the planes of both joints, 0 to a quarter: where parts lie in one plane it is 0. */
const planesApart = (facts: DrivelineFacts): Datum => {
  const parts = ['gearbox', 'shaft', 'axle'] as const
  const data = parts.flatMap((part) => [slopeOf(facts, part), planOf(facts, part)])
  return combine(
    data,
    (...angles) => {
      const [a, b, c] = [0, 2, 4].map((at) => [1, Math.tan(angles[at + 1]!), Math.tan(angles[at]!)] as const)
      const cross = (u: readonly number[], v: readonly number[]) => [
        u[1]! * v[2]! - u[2]! * v[1]!,
        u[2]! * v[0]! - u[0]! * v[2]!,
        u[0]! * v[1]! - u[1]! * v[0]!,
      ]
      const [p, q] = [cross(a!, b!), cross(b!, c!)]
      const size = Math.hypot(...p) * Math.hypot(...q)
      // A joint without angle has no plane, and nothing to be out of phase with.
      if (size === 0) return 0
      const dot = p.reduce((sum, each, at) => sum + each * q[at]!, 0)
      return Math.acos(Math.min(1, Math.abs(dot) / size))
    },
    'Turn between the planes of both joints, from slopes and directions; a half turn counts as none',
  )
}

export const shaftOf = (facts: DrivelineFacts): Shaft => {
  const { sheet } = facts
  const [atCruise, atTop] = [shaftSpeed(facts, facts.cruise), shaftSpeed(facts, facts.topSpeed)]
  const tube = sheet.propshaftTube && TUBES[sheet.propshaftTube]
  const { critical, half } = step(whirlingSpeed, {
    length: entered(sheet.propshaftLength, 'length of the propeller shaft’s longest piece'),
    diameter: entered(sheet.propshaftDiameter, 'outside of the propeller shaft’s tube'),
    wall: entered(sheet.propshaftWall, 'wall of the propeller shaft’s tube'),
    modulus: tube ? known(tube.modulus) : lacking('what the propeller shaft’s tube is made of'),
    density: tube ? known(tube.density) : lacking('what the propeller shaft’s tube is made of'),
  })
  const share = (speed: Datum, at: string): Datum =>
    combine([speed, critical], (n = 0, c = 1) => n / c, `Share = shaft speed at ${at} / critical speed`)
  const joint = (angle: Datum): Joint => ({
    angle,
    limit: step(jointLimit, { speed: atCruise }).angle,
    limitAtTop: step(jointLimit, { speed: atTop }).angle,
    share: step(jointFluctuation, { angle, speed: atTop }).share,
  })
  const [first, second] = hasHeadings(facts)
    ? [angleBetween(facts, 'gearbox', 'shaft'), angleBetween(facts, 'shaft', 'axle')]
    : [
        entered(sheet.jointAngles?.[0], 'angle of the first joint (or the slopes that make it)'),
        entered(sheet.jointAngles?.[1], 'angle of the second joint (or the slopes that make it)'),
      ]
  const yokes = entered(sheet.phase, 'by how much the shaft’s yokes are out of line')
  const phase = hasHeadings(facts)
    ? combine(
        [yokes, planesApart(facts)],
        (a = 0, b = 0) => Math.min(Math.PI / 2, a + b),
        'Out of phase = yokes out of line + turn between the planes of both joints, at most a quarter turn',
      )
    : yokes
  const pairAt = (turn: Datum) => step(jointPair, { first, second, phase: turn, speed: atTop })
  // Out of phase by none is an end: the ± reaches one way, and it is the angle left there that counts.
  const bare = isKnown(phase) ? known(phase.value, 0, ...phase.working) : phase
  const pair = pairAt(bare)
  const far = isKnown(phase) ? pairAt(known(Math.min(Math.PI / 2, phase.value + phase.plusMinus))).left : phase
  const left =
    isKnown(pair.left) && isKnown(far)
      ? known(
          pair.left.value,
          Math.hypot(pair.left.plusMinus, far.value - pair.left.value),
          ...pair.left.working,
          'Its ± also holds what the ± of the phase would leave over.',
        )
      : pair.left
  return {
    atCruise,
    atTop,
    critical,
    half,
    shareAtCruise: share(atCruise, 'cruising speed'),
    shareAtTop: share(atTop, 'greatest speed'),
    first: joint(first),
    second: joint(second),
    phase,
    left,
    allowed: pair.allowed,
    leftShare: pair.share,
  }
}
