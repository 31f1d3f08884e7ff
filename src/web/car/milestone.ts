/** What stands before the next milestone: its own open jobs and whatever those need, however far back. */
import type { Build, Entity, Job } from '../../model/build.ts'

const isOpen = (job: Job): boolean => job.status === 'to do' || job.status === 'doing'
const HERE = new Set(['arrived', 'on the shelf', 'fitted', 'borrowed'])

export interface BeforeMilestone {
  readonly milestone: Entity<'milestones'>
  readonly jobs: readonly Job[]
  /** Those of `jobs` for which a part is not here yet. */
  readonly waiting: readonly Job[]
}

export const beforeMilestone = (build: Build): BeforeMilestone | undefined => {
  const { jobs, milestones, parts } = build.collections
  const open = Object.values(jobs).filter(isOpen)
  const milestone = Object.values(milestones)
    .sort((a, b) => a.order - b.order)
    .find(({ id }) => open.some((job) => job.milestone === id))
  if (milestone === undefined) return undefined
  const before = new Set<Job>()
  const take = (job: Job | undefined): void => {
    if (job === undefined || !isOpen(job) || before.has(job)) return
    before.add(job)
    for (const need of job.needs?.jobs ?? []) take(jobs[need])
  }
  for (const job of open) if (job.milestone === milestone.id) take(job)
  const waiting = [...before].filter((job) =>
    (job.needs?.parts ?? []).some((part) => !HERE.has(parts[part]?.status ?? 'wanted')),
  )
  return { milestone, jobs: [...before], waiting }
}
