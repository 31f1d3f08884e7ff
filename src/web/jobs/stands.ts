/** Work under a lifted car: which accesses and jobs mean it, and the caution that goes with it. */
import type { Build, Entity, Job } from '../../model/build.ts'

/** Common practice, no published source. */
export const STANDS_CAUTION =
  'Stands, never a jack alone: firm level ground, wheels chocked, the car on stands at its jacking points, shaken before anyone goes under.'

export const isStands = (access: Entity<'accesses'>): boolean =>
  access.cautions?.includes('lifting') === true || /\b(stands?|jack(ed)?|lifted|ramps?)\b/i.test(access.name)

/** Whether the job, or anything that its accesses require, has the car off the ground. */
export const wantsStands = (build: Build, job: Job): boolean => {
  const { accesses } = build.collections
  const seen = new Set<string>()
  const waiting = [...(job.accesses ?? [])]
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    const access = Object.hasOwn(accesses, id) ? accesses[id] : undefined
    if (access === undefined || seen.has(id)) continue
    if (isStands(access)) return true
    seen.add(id)
    waiting.push(...(access.requires ?? []))
  }
  return job.cautions?.includes('lifting') === true
}
