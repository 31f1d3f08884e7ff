/** The order of all jobs to a milestone, as a strip, with its hours in one sentence. */
import { useEffect, useRef, useState } from 'react'
import { Link } from 'wouter'
import type { Build } from '../../model/build.ts'
import { paceOf } from '../../plan/history.ts'
import type { Plan } from '../../plan/plan.ts'
import { hoursText } from '../../plan/workTime.ts'
import { Empty } from '../parts/Empty.tsx'
import { Problems } from '../parts/Problems.tsx'
import { isOpenJob } from './edits.ts'
import { SelectField } from './Fields.tsx'
import { StripAcross } from './StripAcross.tsx'
import { StripDown } from './StripDown.tsx'
import { jobSteps, onlyClosed } from './strip.ts'
import { today, withDays } from './today.ts'
import { usePlan } from './usePlan.ts'
import { useWeekHours, WeekHours } from './WeekHours.tsx'

const ALL = 'all open jobs'
/** Under this width the strip runs down, px. */
const NARROW = 720

export function Order({ build }: { build: Build }) {
  const { jobs, milestones } = build.collections
  const open = Object.values(jobs).filter(isOpenJob)
  const inOrder = Object.values(milestones)
    .sort((a, b) => a.order - b.order)
    .filter(({ id }) => open.some((job) => job.milestone === id))
  const [chosen, choose] = useState(inOrder[0]?.id ?? ALL)
  const week = useWeekHours()
  const to = inOrder.some(({ id }) => id === chosen) ? chosen : null
  const { planned, progress, running, problems, stop, again } = usePlan(build, to, week.time)
  const frame = useRef<HTMLDivElement>(null)
  const [room, setRoom] = useState(0)
  useEffect(() => {
    const element = frame.current
    if (!element) return
    const watch = new ResizeObserver(([entry]) => setRoom(Math.floor(entry!.contentRect.width)))
    watch.observe(element)
    return () => watch.disconnect()
  }, [])
  return (
    <div ref={frame}>
      <h1>The order of the jobs</h1>
      {open.length === 0 ? (
        <Empty says="No job is open.">
          <Link to="/jobs/list">Enter a job</Link>, or make one of a <Link to="/findings">finding</Link>.
        </Empty>
      ) : (
        <>
          <div className="choose">
            <SelectField
              label="As far as"
              value={to ?? ALL}
              choices={[...inOrder.map(({ id, name }) => ({ value: id, name })), { value: ALL, name: 'All open jobs' }]}
              keep={choose}
            />
            <WeekHours text={week.text} say={week.say} mean={paceOf(build, today())} />
          </div>
          <Problems list={problems} />
          {running ? (
            <p role="status" className="row">
              <progress max={1} {...(progress === undefined ? {} : { value: progress.share })} aria-label="Planning" />
              {progress && Number.isFinite(progress.cost)
                ? `Best so far ${hoursText(progress.cost)} of opening and closing; no order has less than ${hoursText(progress.bound)}.`
                : 'Looking for the order …'}
              <button type="button" onClick={stop}>
                Stop, and keep the best so far
              </button>
            </p>
          ) : (
            planned && <p className="bench-sentence">{sentenceOf(planned.plan)}</p>
          )}
          {planned && !running && (
            <p>
              {withDays(planned.forecast.sentence)}{' '}
              {planned.plan.cancelled && (
                <button type="button" onClick={again}>
                  Search again
                </button>
              )}
            </p>
          )}
          {planned && (
            <div className={running ? 'is-old' : undefined}>
              <StripAndWords {...planned} room={room} />
              <PlanRemarks plan={planned.plan} />
            </div>
          )}
        </>
      )}
    </div>
  )
}

function StripAndWords({
  plan,
  reached,
  room,
}: {
  plan: Plan
  reached: Parameters<typeof StripDown>[0]['reached']
  room: number
}) {
  if (jobSteps(plan.steps).length === 0) return <p>No open job is in the way of it.</p>
  if (room < NARROW) return <StripDown {...{ plan, reached }} />
  const closed = onlyClosed(plan.brackets)
  return (
    <>
      <StripAcross {...{ plan, reached, room }} />
      <p className="small soft">
        The line is the car closed; each access is a trench, nested in those it requires, dashed where it stands open
        already. A tick is a job, dotted where its time is unknown; a dotted line before it: it waits for a part. Order,
        not dates.
        {closed.length > 0 &&
          ` Closed at once, for no job wants it open: ${closed.map(({ name }) => name).join(', ')}.`}
      </p>
      <details className="in-words">
        <summary>The same in words</summary>
        <StripDown {...{ plan, reached }} />
      </details>
    </>
  )
}

const sentenceOf = (plan: Plan): string => {
  const count = jobSteps(plan.steps).length
  const judged = plan.proven
    ? `no order has less (bound ${hoursText(plan.bound)}, gap 0 %)`
    : `no order has less than ${hoursText(plan.bound)} (gap ${(plan.gap * 100).toFixed(1)} %)`
  return `${count} ${count === 1 ? 'job' : 'jobs'}, ${hoursText(plan.work)} of work, and ${hoursText(plan.openings)} of opening and closing: ${judged}; done as listed it would be ${hoursText(plan.asListed)}.${plan.cancelled ? ' The search was stopped before its end.' : ''}`
}

/** A path such as jobs/J-3/time leads to the page where it can be mended. */
const placeOf = (path: string | undefined): string | undefined => {
  const [collection, id] = path?.split('/') ?? []
  if (collection === 'jobs' && id !== undefined) return `/jobs/of/${encodeURIComponent(id)}`
  if (collection === 'accesses') return '/jobs/accesses'
  return undefined
}

function PlanRemarks({ plan }: { plan: Plan }) {
  return (
    <div className="plan-remarks">
      <section>
        {plan.problems.length > 0 && (
          <>
            <h2>Wrong in the build; the rest is planned all the same</h2>
            <ul className="plain remarks">
              {plan.problems.map((problem) => (
                <li key={`${problem.code}${problem.path}${problem.says}`} data-problem={problem.code}>
                  {problem.says} <span className="soft">{problem.todo}</span> <Mend path={problem.path} />
                </li>
              ))}
            </ul>
          </>
        )}
        {plan.unknown.length > 0 && (
          <details className="remarks-more" open={plan.unknown.length < 6}>
            <summary>
              <h2>Unknown: {plan.unknown.length}</h2>
            </summary>
            <ul className="plain remarks">
              {plan.unknown.map((problem) => (
                <li key={`${problem.code}${problem.path}`} data-problem={problem.code}>
                  {problem.says} <span className="soft">{problem.todo}</span> <Mend path={problem.path} />
                </li>
              ))}
            </ul>
          </details>
        )}
      </section>
      {plan.cautions.length > 0 && (
        <section>
          <h2>Before any of this work</h2>
          <ul className="small">
            {plan.cautions.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
        </section>
      )}
    </div>
  )
}

function Mend({ path }: { path: string | undefined }) {
  const place = placeOf(path)
  return place === undefined ? null : <Link to={place}>Mend it</Link>
}
