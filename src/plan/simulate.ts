/**
 * Dates by simulation. One builder works through the jobs in the plan's order; a job whose part is not here yet is passed
 * over while there is other work. Weeks are drawn from the builder's own weeks, whose shares are drawn first (the
 * Bayesian bootstrap, Rubin, Annals of Statistics 9 (1981) 130–134 [from memory]), so that few weeks make wide dates.
 */
import type { Bias } from './history.ts'
import { normal, type Random, seeded } from './random.ts'
import { drawTime, type ThreePoint } from './threePoint.ts'

export interface SimulatedTask {
  /** What is left of it: an estimate to draw from, or one time, s. */
  readonly time: ThreePoint | number
  /** Time already in it, taken off what is drawn. */
  readonly spent: number
  /** Opening before it and closing after it, s. */
  readonly openings: number
  /** Places of the tasks that come before it. */
  readonly before: readonly number[]
  /** Parts it waits for, by place in `arrivals`. */
  readonly parts: readonly number[]
}
export interface Course {
  readonly times: readonly number[]
  /** s of work in a week, counted from 0. */
  readonly week: (number: number) => number
}

/** Weeks that are looked ahead; what takes longer has no date. 20 years. */
const HORIZON = 1040

export const drawCourses = (
  tasks: readonly SimulatedTask[],
  weeks: readonly number[],
  bias: Bias,
  count: number,
  seed: number,
): Course[] => {
  const random = seeded(seed)
  return Array.from({ length: count }, () => {
    const slow = Math.exp(bias.mean + bias.deviation * normal(random))
    const times = tasks.map(({ time, spent, openings }) => {
      const own = Math.exp(bias.scatter * normal(random))
      const whole = typeof time === 'number' ? time : drawLonger(time, spent, slow * own, random) - spent
      return (typeof time === 'number' ? whole * slow * own : whole) + openings * slow
    })
    return { times, week: drawWeeks(weeks, random) }
  })
}

/** A time of the job given that it is longer than what it has taken; of those that never are, just what it has taken. */
const drawLonger = (estimate: ThreePoint, spent: number, factor: number, random: Random): number => {
  for (let i = 0; i < 200; i++) {
    const drawn = drawTime(estimate, random) * factor
    if (drawn > spent) return drawn
  }
  return spent
}

/** Each week is drawn when it is first asked for; a course has its own run of chance, so it is always the same week. */
const drawWeeks = (weeks: readonly number[], random: Random): ((number: number) => number) => {
  const shares = weeks.map(() => -Math.log(1 - random()))
  const whole = shares.reduce((sum, share) => sum + share, 0)
  const own = seeded(Math.floor(random() * 2 ** 32))
  const drawn: number[] = []
  return (number) => {
    while (drawn.length <= number) {
      let at = own() * whole
      let pick = 0
      while (pick < weeks.length - 1 && at > shares[pick]!) at -= shares[pick++]!
      drawn.push(weeks[pick]!)
    }
    return drawn[number]!
  }
}

/**
 * Days from today to the end of the last task; Infinity beyond the horizon. `arrivals` are days; `idle` collects the days
 * on which nothing could be done for want of a part.
 */
export const finishOf = (
  tasks: readonly SimulatedTask[],
  course: Course,
  arrivals: readonly number[],
  without?: number,
): number => {
  const left = course.times.map((time, at) => (at === without ? 0 : time))
  const here = (at: number): number => Math.max(0, ...tasks[at]!.parts.map((part) => arrivals[part]!))
  if (arrivals.every((day) => day <= 0)) {
    const clock = makeClock(course.week)
    return clock.work(left.reduce((sum, time) => sum + time, 0))
  }
  const clock = makeClock(course.week)
  const open = new Set(left.keys())
  let day = 0
  while (open.size > 0) {
    let next: number | undefined
    let soonest = Number.POSITIVE_INFINITY
    for (const at of open) {
      if (tasks[at]!.before.some((other) => open.has(other))) continue
      const from = here(at)
      if (from <= day) {
        next = at
        break
      }
      soonest = Math.min(soonest, from)
    }
    if (next === undefined) {
      if (!Number.isFinite(soonest)) return Number.POSITIVE_INFINITY
      day = clock.waitTo(soonest)
      continue
    }
    day = clock.work(left[next]!)
    if (!Number.isFinite(day)) return day
    open.delete(next)
  }
  return day
}

/** Walks through the weeks: a week's hours lie evenly over its days. */
const makeClock = (hours: (week: number) => number) => {
  let week = 0
  let day = 0
  return {
    work: (time: number): number => {
      let rest = time
      while (rest > 0) {
        if (week >= HORIZON) return Number.POSITIVE_INFINITY
        const rate = hours(week) / 7
        const room = ((week + 1) * 7 - day) * rate
        if (rest <= room) {
          day += rest / rate
          return day
        }
        rest -= room
        week++
        day = week * 7
      }
      return day
    },
    waitTo: (until: number): number => {
      day = Math.max(day, until)
      week = Math.max(week, Math.floor(day / 7))
      return day
    },
  }
}
