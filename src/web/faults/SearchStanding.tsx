/** Where a search stands, in a sentence, and the job that its find becomes. */
import { Link } from 'wouter'
import { repairOf, type SearchView, type StoredSearch } from '../../assess/faults/faults.ts'
import { list } from '../../assess/make.ts'
import type { Build } from '../../model/build.ts'
import { Refusal } from '../../units/problem.ts'
import { bench } from '../workbench/bench.ts'
import { share } from './faultEdits.ts'

export const repair = (
  ready: Parameters<typeof repairOf>[0],
  search: StoredSearch,
  part: string,
  mode: string | undefined,
): void => {
  try {
    bench.edit(repairOf(ready, search, part, new Date().toISOString(), mode))
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    bench.complain(error.problems)
  }
}

export function Standing({ build, search, view }: { build: Build; search: StoredSearch; view: SearchView }) {
  const { standing, suspects } = view
  const names = (parts: readonly string[]): string =>
    list(parts.map((part) => suspects.find((suspect) => suspect.part === part)?.name ?? part))
  if (search.found) {
    const job = search.job === undefined ? undefined : build.collections.jobs[search.job]
    return (
      <p className="standing" role="status">
        Found: <strong>{search.found.name}</strong>
        {search.found.mode === undefined ? '' : ` (${search.found.mode})`}.
        {job && (
          <>
            {' '}
            Repair: <Link to={`/jobs/of/${encodeURIComponent(job.id)}`}>{job.title}</Link>, {job.status}.
          </>
        )}
        {search.status === 'closed' && ' The search is closed.'}
      </p>
    )
  }
  return (
    <p className="standing" role="status">
      {standing.kind === 'found' && (
        <>
          It is the <strong>{standing.name}</strong>, {share(standing)} sure
          {view.pairs ? ', as two faults at once' : ''}.
        </>
      )}
      {standing.kind === 'searching' &&
        (suspects[0] ? `Most suspect so far: ${suspects[0].name}, ${share(suspects[0])}.` : 'Nothing is suspect yet.')}
      {standing.kind === 'cannot tell apart' &&
        `No test that can be taken tells these apart: ${names(standing.parts)}. Renew the cheapest first, and confirm.`}
      {standing.kind === 'the model does not fit' &&
        'What is known fits no fault of this circuit as it is entered. Take the odd reading again, or look for a wire that the drawing does not have.'}
      {standing.kind === 'asks' && 'Before it goes on, answer what is asked about below.'}
    </p>
  )
}

export function Repairs({
  search,
  view,
  repair: mend,
}: {
  search: StoredSearch
  view: SearchView
  repair: (part: string, mode: string | undefined) => void
}) {
  const { standing, suspects } = view
  const parts =
    standing.kind === 'found' ? [standing.part] : standing.kind === 'cannot tell apart' ? standing.parts : []
  if (parts.length === 0 || search.found) return null
  return (
    <div className="row">
      {parts.map((part) => {
        const suspect = suspects.find((one) => one.part === part)
        return (
          <button key={part} type="button" className="first" onClick={() => mend(part, suspect?.modes[0]?.mode)}>
            Make the repair a job: {suspect?.name ?? part}
          </button>
        )
      })}
    </div>
  )
}
