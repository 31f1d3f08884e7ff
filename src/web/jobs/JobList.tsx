/** Every job, by the corner of the car it is in; and a new one. */
import { useMemo, useState } from 'react'
import { Link, useLocation } from 'wouter'
import { type Proposal, proposeJobs } from '../../assess/proposedJobs.ts'
import type { Build, Job } from '../../model/build.ts'
import { nextId } from '../../model/newId.ts'
import { expectedTime } from '../../plan/threePoint.ts'
import { hoursText } from '../../plan/workTime.ts'
import type { Problem } from '../../units/problem.ts'
import { isOpenJob, put, write } from './edits.ts'
import { Wrong } from './Fields.tsx'

export const jobPlace = (id: string): string => `/jobs/of/${encodeURIComponent(id)}`
const timeOf = ({ time }: Job): string =>
  time === undefined
    ? 'time unknown'
    : hoursText(expectedTime({ least: time.least.value, likely: time.likely.value, most: time.most.value }))

export function JobList({ build }: { build: Build }) {
  const { jobs, zones, milestones } = build.collections
  const [title, setTitle] = useState('')
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const [, go] = useLocation()
  const add = (): void => {
    const job: Job = { id: nextId(jobs, 'J'), title: title.trim(), status: 'to do' }
    const found = put(build, 'jobs', job, `New job: ${job.title}`)
    setProblems(found)
    if (found.length === 0) go(jobPlace(job.id))
  }
  const open = Object.values(jobs).filter(isOpenJob)
  const over = Object.values(jobs).filter((job) => !isOpenJob(job))
  const groups = [...Object.values(zones).map(({ id, name }) => ({ id, name })), { id: undefined, name: 'No zone' }]
    .map(({ id, name }) => ({
      name,
      jobs: open.filter(({ zone }) => zone === id || (id === undefined && zone !== undefined && !zones[zone])),
    }))
    .filter((group) => group.jobs.length > 0)
  const line = (job: Job) => (
    <li key={job.id}>
      <Link to={jobPlace(job.id)}>{job.title}</Link>
      <span className="soft small">
        {job.id}, {job.status === 'to do' ? '' : `${job.status}, `}
        {timeOf(job)}
        {job.milestone === undefined ? '' : `, for ${milestones[job.milestone]?.name ?? job.milestone}`}
      </span>
    </li>
  )
  return (
    <>
      <h1>All jobs</h1>
      <form
        className="row new-job"
        onSubmit={(event) => {
          event.preventDefault()
          add()
        }}
      >
        <label htmlFor="new-job">New job</label>
        <input
          id="new-job"
          value={title}
          maxLength={160}
          autoComplete="off"
          placeholder="what is to be done"
          onChange={(event) => setTitle(event.target.value)}
        />
        <button type="submit" disabled={title.trim() === ''}>
          Enter it
        </button>
      </form>
      <Wrong list={problems} />
      <Proposed build={build} />
      <div className="job-groups">
        {groups.map((group) => (
          <section key={group.name}>
            <h2>
              {group.name} <span className="soft small">{group.jobs.length}</span>
            </h2>
            <ul className="plain">{group.jobs.map(line)}</ul>
          </section>
        ))}
        {over.length > 0 && (
          <section>
            <h2>
              Done or closed <span className="soft small">{over.length}</span>
            </h2>
            <ul className="plain">{over.map(line)}</ul>
          </section>
        )}
      </div>
      {open.length + over.length === 0 && <p>No job is entered yet.</p>}
    </>
  )
}

/** What the loom asks for, circuit by circuit: one press takes its jobs in, or says that its wires are in the car. */
function Proposed({ build }: { build: Build }) {
  const { circuits, wires, runs, devices, jobs } = build.collections
  // biome-ignore lint/correctness/useExhaustiveDependencies: only these are read.
  const proposed = useMemo(() => proposeJobs(build), [circuits, wires, runs, devices, jobs])
  const [problems, setProblems] = useState<readonly Problem[]>([])
  if (proposed.length === 0) return null
  const take = ({ name, jobs: made }: Proposal): void =>
    setProblems(
      write(build, `Jobs for the wiring: ${name}`, () =>
        made.map((job) => ({ collection: 'jobs' as const, id: job.id, value: job })),
      ),
    )
  const fitted = ({ name, wires: ids }: Proposal): void =>
    setProblems(
      write(build, `In the car already: ${name}`, () =>
        ids.map((id) => ({ collection: 'wires' as const, id, value: { ...wires[id]!, fitted: true } })),
      ),
    )
  return (
    <details className="proposed">
      <summary>
        The loom proposes jobs for {proposed.length === 1 ? 'one circuit' : `${proposed.length} circuits`}
      </summary>
      <p className="soft small">
        Circuits with wires that are not said to be fitted. Each becomes four jobs: cut and label, terminate, lay in,
        test. What has to be opened for laying in is yours to add.
      </p>
      <Wrong list={problems} />
      <ul className="plain">
        {proposed.map((proposal) => (
          <li key={proposal.circuit} className="row offered" data-circuit={proposal.circuit}>
            <span>
              {proposal.name}{' '}
              <span className="soft small">
                {proposal.wires.length === 1 ? 'one wire' : `${proposal.wires.length} wires`},{' '}
                {hoursText(
                  proposal.jobs.reduce(
                    (sum, { time }) =>
                      sum +
                      (time === undefined
                        ? 0
                        : expectedTime({
                            least: time.least.value,
                            likely: time.likely.value,
                            most: time.most.value,
                          })),
                    0,
                  ),
                )}
              </span>
            </span>
            <span className="row">
              <button type="button" aria-label={`Take in the jobs of ${proposal.name}`} onClick={() => take(proposal)}>
                Take in
              </button>
              <button
                type="button"
                aria-label={`The wires of ${proposal.name} are in the car`}
                onClick={() => fitted(proposal)}
              >
                Is in the car
              </button>
            </span>
          </li>
        ))}
      </ul>
    </details>
  )
}
