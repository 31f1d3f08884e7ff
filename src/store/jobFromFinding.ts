/** One step from a finding to the job that answers it. The job closes by itself when the finding goes. */
import type { Finding } from '../assess/finding.ts'
import type { Build, Edit } from '../model/build.ts'
import { refuse } from '../units/problem.ts'
import { freeId } from './freeId.ts'

export const jobFromFinding = (build: Build, findings: readonly Finding[], key: string): Edit & { readonly job: string } => {
  const finding = findings.find((candidate) => candidate.key === key)
  if (finding === undefined)
    throw refuse('no-finding', `There is no finding “${key}” now.`, 'Take a key from swapwright check --json; it may have been put right already.', key)
  if (finding.verdict === 'sound')
    throw refuse('nothing-to-do', `${finding.about} is sound: there is nothing to do.`, 'Choose a finding that is not sound.', key)
  const open = Object.values(build.collections.jobs).find(
    (job) => job.finding === key && job.status !== 'done' && job.status !== 'closed',
  )
  if (open !== undefined)
    throw refuse('job-exists', `The job ${open.id} (${open.title}) already answers this finding.`, 'Do that one.', `jobs/${open.id}`)
  const id = freeId(`${finding.rule} ${finding.subject.split('/')[1] ?? ''}`, build.collections.jobs)
  const zone = finding.zone !== undefined && Object.hasOwn(build.collections.zones, finding.zone) ? finding.zone : undefined
  return {
    job: id,
    label: `Job from finding: ${finding.about}`.slice(0, 200),
    changes: [
      {
        collection: 'jobs',
        id,
        value: {
          id,
          title: `${finding.about}: ${finding.todo}`.slice(0, 160),
          ...(zone === undefined ? {} : { zone }),
          status: 'to do',
          finding: key,
          steps: [finding.todo],
          ...(finding.cautions.length === 0 ? {} : { cautions: finding.cautions.map((caution) => caution.slice(0, 160)) }),
        },
      },
    ],
  }
}
