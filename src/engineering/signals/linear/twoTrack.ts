/**
 * Two tracks that show one position (pedal, throttle): how far they may disagree, and whether a short between them shows.
 *
 * Each track is a map from its share of the supply to position, straight between points and rising or falling throughout,
 * with a tolerance of the share. Every quantity here is piecewise linear in position or share, so its extremes stand at
 * the points of the maps and of the sweep, where they are taken: no grid, nothing between can be worse.
 */
import { type Problem, Refusal } from '../../../units/problem.ts'

export interface TrackPoint {
  /** Share of the supply, 0 … 1. */
  readonly share: number
  /** 0 closed … 1 open. */
  readonly position: number
}
export interface Track {
  readonly name: string
  /** By rising position, from 0 to 1. */
  readonly points: readonly TrackPoint[]
  /** ± share of the supply. */
  readonly tolerance: number
}

function trackProblems(track: Track): Problem[] {
  const found: Problem[] = []
  const { name, points, tolerance } = track
  if (points.length < 2)
    found.push({
      code: 'missing-input',
      path: name,
      says: `${name} has fewer than two points.`,
      todo: 'Measure it closed and fully open.',
    })
  const down = points.length > 1 && points.at(-1)!.share < points[0]!.share
  for (let i = 1; i < points.length; i += 1) {
    const [a, b] = [points[i - 1]!, points[i]!]
    if (!(b.position > a.position) || !(down ? b.share < a.share : b.share > a.share))
      found.push({
        code: 'not-monotone',
        path: `${name}/${i + 1}`,
        says: `${name} does not move steadily from position ${a.position} to ${b.position} (${a.share} to ${b.share} of the supply).`,
        todo: 'Measure it again while opening slowly; a track that turns back is worn out.',
      })
  }
  for (const { share, position } of points)
    if (!(share >= 0 && share <= 1) || !(position >= 0 && position <= 1))
      found.push({
        code: 'out-of-range',
        path: name,
        says: `${name}: share ${share} at position ${position} is outside 0 … 1.`,
        todo: 'Divide the track’s volts by its supply, and the position by full travel.',
      })
  if (!(tolerance >= 0))
    found.push({
      code: 'out-of-range',
      path: name,
      says: `The tolerance of ${name} is negative.`,
      todo: 'Enter 0 or more.',
    })
  return found
}

/** Position by a track, its end lines carried on beyond its points: a share out there is still a share. */
function decode({ points }: Track, share: number): { readonly position: number; readonly slope: number } {
  const rising = points.at(-1)!.share > points[0]!.share
  let i = 1
  while (i < points.length - 1 && (rising ? share > points[i]!.share : share < points[i]!.share)) i += 1
  const [a, b] = [points[i - 1]!, points[i]!]
  const slope = (b.position - a.position) / (b.share - a.share)
  return { position: a.position + slope * (share - a.share), slope: Math.abs(slope) }
}

/** Steepest decoding at a share, both pieces looked at where two meet. */
const steepest = (track: Track, share: number): number =>
  Math.max(decode(track, share - 1e-12).slope, decode(track, share + 1e-12).slope)

export interface TrackAgreement {
  /** Position by which the tracks may disagree at most, tolerances against each other; and where (position of track 1). */
  readonly largest: number
  readonly at: number
  /** Without tolerances: the maps against what was measured. 0 when nothing was measured. */
  readonly measured: number
  /** Least disagreement, tolerances helping each other, were both signal wires shorted together. */
  readonly shorted: number
}

/**
 * `sweep`: pairs of shares measured while opening slowly; left out, each track is taken at its own map.
 * Throws `Refusal`: `missing-input`, `not-monotone`, `out-of-range`.
 */
export function trackAgreement(
  one: Track,
  two: Track,
  sweep: readonly { readonly one: number; readonly two: number }[] = [],
): TrackAgreement {
  const problems = [...trackProblems(one), ...trackProblems(two)]
  if (problems.length > 0) throw new Refusal(problems)
  const shareAt = ({ points }: Track, position: number): number => {
    let i = 1
    while (i < points.length - 1 && position > points[i]!.position) i += 1
    const [a, b] = [points[i - 1]!, points[i]!]
    return a.share + ((b.share - a.share) * (position - a.position)) / (b.position - a.position)
  }
  const from = Math.max(one.points[0]!.position, two.points[0]!.position)
  const to = Math.min(one.points.at(-1)!.position, two.points.at(-1)!.position)
  const positions = [...one.points, ...two.points]
    .map(({ position }) => position)
    .filter((position) => position >= from && position <= to)
  const pairs = sweep.length > 0 ? sweep : positions.map((at) => ({ one: shareAt(one, at), two: shareAt(two, at) }))
  let [largest, at, measured] = [-1, 0, 0]
  for (const pair of pairs) {
    const [a, b] = [decode(one, pair.one).position, decode(two, pair.two).position]
    const apart = Math.abs(a - b)
    measured = Math.max(measured, apart)
    const may = apart + one.tolerance * steepest(one, pair.one) + two.tolerance * steepest(two, pair.two)
    if (may > largest) [largest, at] = [may, a]
  }
  // Shorted together both read one share; it lies where the healthy tracks read.
  const shares = [...one.points, ...two.points].map(({ share }) => share)
  const [low, high] = [Math.min(...shares), Math.max(...shares)]
  const difference = (share: number): number => decode(one, share).position - decode(two, share).position
  const cuts = [...new Set(shares)].sort((a, b) => a - b)
  let shorted = Number.POSITIVE_INFINITY
  cuts.forEach((share, i) => {
    const slack = one.tolerance * steepest(one, share) + two.tolerance * steepest(two, share)
    shorted = Math.min(shorted, Math.max(0, Math.abs(difference(share)) - slack))
    // A change of sign between two points means they agree somewhere between.
    if (i > 0 && difference(cuts[i - 1]!) * difference(share) <= 0) shorted = 0
  })
  return { largest, at, measured, shorted: low === high ? 0 : shorted }
}
