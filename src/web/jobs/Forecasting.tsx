/** When it will be done: one sentence with two dates, what holds them most, and what would move them. */
import { useEffect, useMemo, useState } from 'react'
import { Link } from 'wouter'
import type { Build } from '../../model/build.ts'
import { daysBetween } from '../../plan/arrival.ts'
import type { Forecast } from '../../plan/forecast.ts'
import { paceOf } from '../../plan/history.ts'
import type { Plan } from '../../plan/plan.ts'
import { hoursText } from '../../plan/workTime.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Empty } from '../parts/Empty.tsx'
import { Problems } from '../parts/Problems.tsx'
import { isOpenJob } from './edits.ts'
import { SelectField, SeveralField, TextField } from './Fields.tsx'
import { jobPlace } from './JobList.tsx'
import { askPlanner } from './planner.ts'
import { jobSteps } from './strip.ts'
import { today, withDays } from './today.ts'
import { usePlan } from './usePlan.ts'
import { readSaid, useWeekHours, WeekHours } from './WeekHours.tsx'

const ALL = 'all open jobs'

export function Forecasting({ build }: { build: Build }) {
  const { jobs, milestones } = build.collections
  const open = Object.values(jobs).filter(isOpenJob)
  const inOrder = Object.values(milestones)
    .sort((a, b) => a.order - b.order)
    .filter(({ id }) => open.some((job) => job.milestone === id))
  const [chosen, choose] = useState(inOrder[0]?.id ?? ALL)
  const to = inOrder.some(({ id }) => id === chosen) ? chosen : null
  const week = useWeekHours()
  const { planned, running, problems } = usePlan(build, to, week.time)
  return (
    <>
      <h1>When it will be done</h1>
      {open.length === 0 ? (
        <Empty says="No job is open." />
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
          {planned === undefined ? (
            running && <p role="status">Reckoning …</p>
          ) : (
            <div className="two" aria-busy={running}>
              <section>
                <p className="bench-sentence forecast" role="status">
                  {withDays(planned.forecast.sentence)}
                </p>
                <p>{learntOf(planned.forecast)}</p>
                {planned.forecast.unknown
                  .filter(({ code }) => code === 'no-pace')
                  .map(({ todo }) => (
                    <p key={todo} className="soft">
                      {todo}
                    </p>
                  ))}
                {planned.forecast.supposed.length > 0 && (
                  <p className="soft">
                    Parts without a date, supposed here when needed:{' '}
                    {planned.forecast.supposed.map(({ name }) => name).join(', ')}.
                  </p>
                )}
                <Holds forecast={planned.forecast} />
              </section>
              <WhatIf build={build} plan={planned.plan} forecast={planned.forecast} said={week.time} />
            </div>
          )}
        </>
      )}
    </>
  )
}

const learntOf = ({ pace, factor }: Forecast): string => {
  const hours =
    pace === undefined
      ? ''
      : `${hoursText(pace.mean)} a week, ${pace.from === 'said' ? 'as said' : `from ${pace.weeks} weeks of sittings`}. `
  const learnt =
    factor.jobs === 0
      ? 'No job with an estimate is over yet, so nothing is known of your estimates.'
      : `From ${factor.jobs === 1 ? 'one job that is' : `${factor.jobs} jobs that are`} over: jobs take ${factor.middle.toFixed(2)} times their estimate (${factor.low.toFixed(2)} to ${factor.high.toFixed(2)}).`
  return hours + learnt
}

function Holds({ forecast: { holds } }: { forecast: Forecast }) {
  if (holds.length === 0) return null
  return (
    <>
      <h2>What holds the date most</h2>
      <table>
        <thead>
          <tr>
            <th scope="col">Job or part</th>
            <th scope="col" className="figure">
              Days gained without it
            </th>
          </tr>
        </thead>
        <tbody>
          {holds.map(({ kind, id, name, days }) => (
            <tr key={`${kind} ${id}`}>
              <td>{kind === 'job' ? <Link to={jobPlace(id)}>{name}</Link> : <>part: {name}</>}</td>
              <td className="figure">{days.toFixed(1)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  )
}

/** How far the later of the two dates moves. */
const moved = (before: Forecast, after: Forecast): string => {
  if (before.dates === undefined || after.dates === undefined) return ''
  const change = daysBetween(before.dates.in80, after.dates.in80)
  if (change === 0) return 'The date does not move.'
  return `That is ${Math.abs(change)} ${Math.abs(change) === 1 ? 'day' : 'days'} ${change > 0 ? 'later' : 'sooner'}.`
}

function WhatIf({
  build,
  plan,
  forecast,
  said,
}: {
  build: Build
  plan: Plan
  forecast: Forecast
  said: number | undefined
}) {
  const [hours, setHours] = useState('')
  const [part, setPart] = useState('')
  const [late, setLate] = useState('14')
  const [drop, setDrop] = useState<readonly string[]>([])
  const [other, setOther] = useState<Forecast>()
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const tried = hours !== '' || part !== '' || drop.length > 0
  const options = useMemo(() => {
    const pace = readSaid(hours) ?? said
    return {
      today: today(),
      drop,
      ...(pace === undefined ? {} : { pace }),
      ...(part === '' ? {} : { late: { [part]: Number(late) } }),
    }
  }, [hours, said, drop, part, late])
  useEffect(() => {
    if (!tried) {
      setOther(undefined)
      return
    }
    let wanted = true
    askPlanner<'forecast'>({ kind: 'forecast', build, plan, options })
      .answer.then((answer) => {
        if (!wanted) return
        setOther(answer)
        setProblems([])
      })
      .catch((error: unknown) => {
        if (!wanted) return
        if (!(error instanceof Refusal)) throw error
        setProblems(error.problems)
      })
    return () => {
      wanted = false
    }
  }, [build, plan, options, tried])
  const inPlan = jobSteps(plan.steps)
  const used = new Set(inPlan.flatMap(({ id }) => build.collections.jobs[id]?.needs?.parts ?? []))
  return (
    <section aria-labelledby="what-if">
      <h2 id="what-if">What if …</h2>
      <p className="small soft">Tried here only: nothing is stored.</p>
      <TextField
        label="So many hours a week"
        text={hours}
        hint={forecast.pace === undefined ? 'such as 8 h' : hoursText(forecast.pace.mean)}
        keep={(text) => {
          if (text !== '' && readSaid(text) === undefined)
            return [
              {
                code: 'not-hours',
                says: `“${text}” is not a time of work in hours or minutes.`,
                todo: 'Write it as 8 h or 90 min.',
              },
            ]
          setHours(text)
          return []
        }}
      />
      {used.size > 0 && (
        <div className="late">
          <SelectField
            label="This part comes late"
            value={part}
            empty="none"
            choices={[...used].map((id) => ({ value: id, name: build.collections.parts[id]?.name ?? id }))}
            keep={setPart}
          />
          <TextField
            label="by days"
            type="number"
            text={late}
            keep={(text) => {
              if (!/^\d{1,4}$/.test(text))
                return [{ code: 'not-days', says: `“${text}” is not a number of days.`, todo: 'Type it as 14.' }]
              setLate(text)
              return []
            }}
          />
        </div>
      )}
      <SeveralField
        label="These jobs are not done"
        nothing="All are done."
        chosen={drop}
        choices={inPlan.map(({ id, title }) => ({ value: id, name: `${id} ${title}` }))}
        keep={setDrop}
      />
      <Problems list={problems} />
      {other && (
        <p className="bench-sentence what-if" role="status">
          Then {withDays(other.sentence)} {moved(forecast, other)}
        </p>
      )}
    </section>
  )
}
