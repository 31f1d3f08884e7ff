/** Jobs that the builder put before a milestone of this name. */
import type { Build } from '../../model/build.ts'
import type { Judged } from './types.ts'

/** The builder’s own order, not a law: open jobs make it marginal and lock nothing. */
export const openJobs = (build: Build, milestone: RegExp, called: string): Judged => {
  const { jobs, milestones } = build.collections
  const meant = Object.values(milestones).filter(({ id, name }) => milestone.test(id) || milestone.test(name))
  if (meant.length === 0) return { verdict: 'sound', says: `No milestone is called ${called}; no job waits for it.` }
  const ids = new Set(meant.map(({ id }) => id))
  const open = Object.values(jobs).filter(
    ({ milestone: of, status }) => of !== undefined && ids.has(of) && (status === 'to do' || status === 'doing'),
  )
  if (open.length === 0) return { verdict: 'sound', says: 'All of them are done.' }
  const named = open.slice(0, 4).map(({ title }) => title)
  return {
    verdict: 'marginal',
    says: `${open.length === 1 ? 'One is' : `${open.length} are`} still to do: ${named.join('; ')}${open.length > 4 ? '; and more' : ''}.`,
    next: { says: 'Do them, or put those that can wait behind a later milestone.', at: { bench: 'jobs' } },
  }
}
