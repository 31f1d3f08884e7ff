/** Working through a sitting beside the car: large ticks, a timer for each job, and a record of the hours at the end. */
import { useEffect, useState } from 'react'
import { Link } from 'wouter'
import type { Build, Change, Job } from '../../model/build.ts'
import { nextId } from '../../model/newId.ts'
import type { PlanStep } from '../../plan/steps.ts'
import { hoursText } from '../../plan/workTime.ts'
import type { Problem } from '../../units/problem.ts'
import { Photos } from '../phone/Photos.tsx'
import { isOpenJob, keepText, withField, workTime, write } from './edits.ts'
import { TextField, Wrong } from './Fields.tsx'
import { clockText, countOf, type RunningSitting } from './kept.ts'
import { MeterReading } from './MeterReading.tsx'
import { Ready, stepName, stepTime } from './SittingSteps.tsx'
import { STANDS_CAUTION, wantsStands } from './stands.ts'
import { today } from './today.ts'

interface Props {
  readonly build: Build
  readonly running: RunningSitting
  readonly keep: (next: RunningSitting | undefined) => void
}

/** The clock of the page, each second while anything is timed. */
const useNow = (): number => {
  const [now, setNow] = useState(Date.now)
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 1000)
    return () => clearInterval(timer)
  }, [])
  return now
}

export function RunSitting({ build, running, keep }: Props) {
  const now = useNow()
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const { jobs } = build.collections
  const { sitting, ticked, added } = running
  const tickAccess = (at: number, step: Extract<PlanStep, { kind: 'open' | 'close' }>): void => {
    const done = ticked.includes(at)
    const access = build.collections.accesses[step.id]
    // Unticking says that it was not done: the access stands as it stood before the step.
    const isOpen = (step.kind === 'open') !== done
    const found =
      access === undefined
        ? []
        : write(build, `${isOpen ? 'Open' : 'Closed'}: ${step.name}`, () => [
            { collection: 'accesses', id: step.id, value: { ...access, isOpen } },
          ])
    setProblems(found)
    if (found.length === 0)
      keep({ ...running, ticked: done ? ticked.filter((other) => other !== at) : [...ticked, at] })
  }
  const todo = [
    ...sitting.steps.map((step, at) => ({ step, at })),
    ...added.flatMap((id) => {
      const offered = sitting.whileThere.find((other) => other.id === id)
      return offered === undefined
        ? []
        : [
            {
              step: {
                kind: 'job',
                id,
                title: offered.title,
                time: offered.time,
                mostly: offered.time,
                known: true,
              } as const,
              at: -1,
            },
          ]
    }),
  ]
  const left = sitting.whileThere.filter(
    ({ id, lacks }) => lacks.length === 0 && !added.includes(id) && jobs[id] && isOpenJob(jobs[id]),
  )
  const count = sitting.steps.filter(
    (step, at) => ticked.includes(at) || (step.kind === 'job' && !(jobs[step.id] && isOpenJob(jobs[step.id]!))),
  ).length
  return (
    <div className="running">
      <h1>This sitting</h1>
      <p className="soft" role="timer">
        {count} of {sitting.steps.length} steps ticked, {hoursText(Math.max(0, (now - running.began) / 1000))} since the
        beginning of {hoursText(sitting.time)} foreseen.
      </p>
      <Wrong list={problems} />
      <details open={count === 0}>
        <summary>Before you begin</summary>
        <Ready answer={sitting} />
      </details>
      <ol className="plain ticks">
        {todo.map(({ step, at }) =>
          step.kind === 'job' ? (
            <JobTick key={`job ${step.id}`} {...{ build, running, keep, step, now }} />
          ) : step.kind === 'wait' ? null : (
            <li key={`${at} ${step.kind}`} className={step.kind}>
              <label className="tick-line soft-step">
                <input type="checkbox" checked={ticked.includes(at)} onChange={() => tickAccess(at, step)} />
                <span>{stepName(step)}</span>
                <span className="soft">{stepTime(step)}</span>
              </label>
            </li>
          ),
        )}
      </ol>
      {left.length > 0 && (
        <>
          <h2>While you are there</h2>
          <ul className="plain">
            {left.map(({ id, title, time }) => (
              <li key={id} className="row offered">
                <span>
                  {title} <span className="soft">{hoursText(time)}</span>
                </span>
                <button type="button" onClick={() => keep({ ...running, added: [...added, id] })}>
                  Take it in
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
      <EndSitting {...{ build, running, keep, now }} />
    </div>
  )
}

function JobTick({
  build,
  running,
  keep,
  step,
  now,
}: Props & {
  readonly step: { readonly id: string; readonly title: string; readonly mostly: number }
  readonly now: number
}) {
  const [open, setOpen] = useState(false)
  const [took, setTook] = useState('')
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const job = build.collections.jobs[step.id]
  if (job === undefined) return <li className="soft">{step.title} is no longer in the build.</li>
  const done = !isOpenJob(job)
  const timed = countOf(running, job.id, now)
  const ticking = running.since[job.id] !== undefined
  const startOrStop = (): void => {
    const { [job.id]: since, ...others } = running.since
    if (since === undefined) keep({ ...running, since: { ...running.since, [job.id]: Date.now() } })
    else
      keep({
        ...running,
        since: others,
        counted: { ...running.counted, [job.id]: countOf(running, job.id, Date.now()) },
      })
  }
  /** Books the time of this sitting on the job: what was typed, else what the timer counted, else nothing. */
  const book = (status: Job['status']): void => {
    const found = keepText(took, workTime, (typed) => {
      const counted = countOf(running, job.id, Date.now())
      const more = typed?.value ?? (counted >= 1 ? Math.round(counted) : undefined)
      const spent =
        more === undefined ? job.spent : { value: (job.spent?.value ?? 0) + more, unit: typed?.unit ?? 'min' }
      const label = status === 'done' ? `Done: ${job.title}` : `Left for another time: ${job.title}`
      const wrong = write(build, label, () => [
        { collection: 'jobs', id: job.id, value: withField({ ...job, status }, 'spent', spent) },
      ])
      if (wrong.length === 0) {
        const { [job.id]: _, ...since } = running.since
        const { [job.id]: __, ...counted } = running.counted
        keep({ ...running, since, counted, booked: { ...running.booked, [job.id]: more ?? null } })
        setTook('')
      }
      return wrong
    })
    setProblems(found)
  }
  /** Unticking takes the booked time back: the job stands as before this sitting. */
  const unbook = (): void => {
    const booked = running.booked[job.id] ?? 0
    const before = (job.spent?.value ?? 0) - booked
    const spent = before > 0 && job.spent ? { ...job.spent, value: before } : undefined
    const wrong = write(build, `Not done after all: ${job.title}`, () => [
      {
        collection: 'jobs',
        id: job.id,
        value: withField({ ...job, status: spent === undefined ? 'to do' : 'doing' }, 'spent', spent),
      },
    ])
    setProblems(wrong)
    if (wrong.length > 0) return
    const { [job.id]: _, ...others } = running.booked
    keep({
      ...running,
      booked: others,
      counted: booked > 0 ? { ...running.counted, [job.id]: booked } : running.counted,
    })
  }
  const booked = running.booked[job.id]
  return (
    <li className="job" data-job={job.id}>
      <label className="tick-line">
        <input type="checkbox" checked={done} onChange={() => (done ? unbook() : book('done'))} />
        <span>{job.title}</span>
        <span className="soft">
          {booked !== undefined
            ? booked === null
              ? 'no time booked'
              : `took ${hoursText(booked)}`
            : hoursText(step.mostly)}
        </span>
      </label>
      {!done && (
        <div className="row timer">
          <button
            type="button"
            aria-pressed={ticking}
            onClick={startOrStop}
            aria-label={`${ticking ? 'Stop' : 'Start'} the timer of ${job.title}`}
          >
            {ticking ? 'Stop' : timed > 0 ? 'Go on' : 'Start'} <span className="clock">{clockText(timed)}</span>
          </button>
          <label>
            <span className="out-of-sight">Time that {job.title} took</span>
            <input
              value={took}
              autoComplete="off"
              placeholder={timed >= 1 ? clockText(timed) : 'or type: 40 min'}
              onChange={(event) => setTook(event.target.value)}
            />
          </label>
          <button type="button" aria-label={`Leave for another time: ${job.title}`} onClick={() => book('doing')}>
            Leave it
          </button>
        </div>
      )}
      <Wrong list={problems} />
      <button
        type="button"
        className="plain-link"
        aria-expanded={open}
        aria-label={`${open ? 'Less' : 'More'} about ${job.title}`}
        onClick={() => setOpen(!open)}
      >
        {open ? 'Less' : 'Steps, photographs, readings'}
      </button>
      {open && <JobHelp build={build} job={job} />}
    </li>
  )
}

function JobHelp({ build, job }: { build: Build; job: Job }) {
  const { parts } = build.collections
  const need = [...(job.needs?.parts ?? []).map((id) => parts[id]?.name ?? id), ...(job.needs?.tools ?? [])]
  return (
    <div className="job-help">
      {wantsStands(build, job) && <p className="stands">{STANDS_CAUTION}</p>}
      {(job.steps?.length ?? 0) > 0 && (
        <ol>
          {job.steps!.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
      )}
      {job.remark !== undefined && <p>{job.remark}</p>}
      {need.length > 0 && <p>With: {need.join(', ')}.</p>}
      <MeterReading build={build} job={job} />
      <Photos about={`jobs/${job.id}`} name={job.title} />
      <p>
        <Link to={`/jobs/of/${encodeURIComponent(job.id)}`}>Everything about this job</Link>
      </p>
    </div>
  )
}

function EndSitting({ build, running, keep, now }: Props & { readonly now: number }) {
  const elapsed = Math.max(60, Math.round((now - running.began) / 60_000) * 60)
  const [said, setSaid] = useState<string>()
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const worked = Object.keys(running.booked).filter((id) => Object.hasOwn(build.collections.jobs, id))
  const end = (): void => {
    const found = keepText(said ?? '', workTime, (typed) => {
      const day = today()
      const id = nextId(build.collections.records, `sitting-${day}`)
      const record: Change = {
        collection: 'records',
        id,
        value: {
          id,
          kind: 'sitting',
          title: `Sitting of ${day}`,
          done: true,
          when: new Date().toISOString(),
          hours: typed ?? { value: elapsed, unit: 'min' },
          ...(worked.length === 0 ? {} : { jobs: worked }),
        },
      }
      return write(build, `Sitting of ${day}, ${hoursText(typed?.value ?? elapsed)}`, () => [record])
    })
    setProblems(found)
    if (found.length === 0) keep(undefined)
  }
  const learning = worked.filter((id) => {
    const job = build.collections.jobs[id]!
    return job.time !== undefined && running.booked[id] !== null && !isOpenJob(job)
  }).length
  return (
    <section className="end-sitting" aria-labelledby="end-sitting">
      <h2 id="end-sitting">At the end</h2>
      <TextField
        label="Hours of this sitting"
        text={said ?? ''}
        hint={`${hoursText(elapsed)}, by the clock`}
        keep={(text) => {
          const wrong = keepText(text, workTime, () => [])
          if (wrong.length === 0) setSaid(text === '' ? undefined : text)
          return wrong
        }}
        note={`Empty: as the clock says. The forecast learns your pace from it${learning === 0 ? '' : `, and how good your estimates are from ${learning === 1 ? 'the job' : `the ${learning} jobs`} ticked with a time`}.`}
      />
      <Wrong list={problems} />
      <p className="row">
        <button type="button" className="first" onClick={end}>
          End the sitting and record it
        </button>
        <button type="button" onClick={() => keep(undefined)}>
          Put it aside, record nothing
        </button>
      </p>
    </section>
  )
}
