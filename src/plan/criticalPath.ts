/**
 * Critical path by earliest and latest times, and the chance to be done by a date with the variances along it added and
 * the sum taken as normal. Source: Malcolm, Roseboom, Clark and Fazar, Operations Research 7 (1959) 646–669 [from memory].
 * Says what would hold the end if there were hands for everything at once; one builder alone is asked in forecast.ts.
 */
import { expectedTime, type ThreePoint, variance } from './threePoint.ts'

export interface Activity extends ThreePoint {
  readonly id: string
  readonly before: readonly string[]
}
export interface CriticalPath {
  /** In the activities' own unit of time. */
  readonly time: number
  readonly variance: number
  /** The chain without slack, first to last; of several the one with the largest variance. */
  readonly path: readonly string[]
  readonly slack: Readonly<Record<string, number>>
}

/** `activities` without circles; what stands in `before` and is not among them counts as done. */
export const criticalPath = (activities: readonly Activity[]): CriticalPath => {
  const byId = new Map(activities.map((activity) => [activity.id, activity]))
  const earliest = new Map<string, { end: number; variance: number; last: string | undefined }>()
  const order: Activity[] = []
  const waiting = new Map(
    activities.map((activity) => [activity.id, activity.before.filter((id) => byId.has(id)).length]),
  )
  const after = new Map<string, string[]>(activities.map(({ id }) => [id, []]))
  for (const { id, before } of activities) for (const other of before) after.get(other)?.push(id)
  const free = activities.filter(({ id }) => waiting.get(id) === 0)
  for (let activity = free.shift(); activity !== undefined; activity = free.shift()) {
    let best = { end: 0, variance: 0, last: undefined as string | undefined }
    for (const id of activity.before) {
      const other = earliest.get(id)
      if (other && (other.end > best.end || (other.end === best.end && other.variance > best.variance)))
        best = { end: other.end, variance: other.variance, last: id }
    }
    earliest.set(activity.id, {
      end: best.end + expectedTime(activity),
      variance: best.variance + variance(activity),
      last: best.last,
    })
    order.push(activity)
    for (const id of after.get(activity.id)!) {
      waiting.set(id, waiting.get(id)! - 1)
      if (waiting.get(id) === 0) free.push(byId.get(id)!)
    }
  }
  let end: string | undefined
  for (const { id } of order) {
    const [now, other] = [earliest.get(id)!, end === undefined ? undefined : earliest.get(end)!]
    if (!other || now.end > other.end || (now.end === other.end && now.variance > other.variance)) end = id
  }
  const time = end === undefined ? 0 : earliest.get(end)!.end
  const latest = new Map<string, number>()
  const slack: Record<string, number> = {}
  for (const activity of order.reverse()) {
    const until = Math.min(time, ...after.get(activity.id)!.map((id) => latest.get(id)! - expectedTime(byId.get(id)!)))
    latest.set(activity.id, until)
    slack[activity.id] = until - earliest.get(activity.id)!.end
  }
  const path: string[] = []
  for (let id = end; id !== undefined; id = earliest.get(id)!.last) path.unshift(id)
  return { time, variance: end === undefined ? 0 : earliest.get(end)!.variance, path, slack }
}

/** Share of a standard normal below z. Erfc by its continued expansion: Abramowitz and Stegun 26.2.17, |error| < 7.5e-8. */
const normalShare = (z: number): number => {
  const t = 1 / (1 + 0.2316419 * Math.abs(z))
  const poly = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))))
  const tail = (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * poly
  return z >= 0 ? 1 - tail : tail
}

/** Chance that the path is done within `time`. */
export const chanceWithin = ({ time: mean, variance: spread }: CriticalPath, time: number): number =>
  spread === 0 ? (time >= mean ? 1 : 0) : normalShare((time - mean) / Math.sqrt(spread))
