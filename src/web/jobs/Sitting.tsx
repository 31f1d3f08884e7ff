/** A sitting: what there is today, the answer, and then working through it with ticks and timers. */
import { useEffect, useState } from 'react'
import type { Build } from '../../model/build.ts'
import { arrivalOf } from '../../plan/arrival.ts'
import type { Sitting as Answer, SittingOptions } from '../../plan/sitting.ts'
import { hoursText, readWorkTime } from '../../plan/workTime.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { isOpenJob } from './edits.ts'
import { SelectField, Tick } from './Fields.tsx'
import { keepRunning, type RunningSitting, readRunning } from './kept.ts'
import { askPlanner, solver } from './planner.ts'
import { RunSitting } from './RunSitting.tsx'
import { Ready, SittingSteps } from './SittingSteps.tsx'
import { today } from './today.ts'

type End = NonNullable<SittingOptions['end']>
const END_WORDS: Readonly<Record<End, string>> = {
  apart: 'may stay apart',
  drivable: 'must be fit to drive',
  closed: 'must be closed',
}
const HOURS_KEY = 'swapwright-sitting-hours'

export function Sitting({ build }: { build: Build }) {
  const [running, setRunning] = useState(() => readRunning(build.name))
  const keep = (next: RunningSitting | undefined): void => {
    keepRunning(build.name, next)
    setRunning(next)
  }
  return running === undefined ? (
    <AskSitting
      build={build}
      begin={(sitting) =>
        keep({ began: Date.now(), sitting, ticked: [], since: {}, counted: {}, booked: {}, added: [] })
      }
    />
  ) : (
    <RunSitting build={build} running={running} keep={keep} />
  )
}

function AskSitting({ build, begin }: { build: Build; begin: (sitting: Answer) => void }) {
  const { accesses, parts, jobs } = build.collections
  const open = Object.values(jobs).filter(isOpenJob)
  const day = today()
  const wanted = new Set(open.flatMap(({ needs }) => needs?.parts ?? []))
  const away = Object.values(parts).filter(({ id }) => wanted.has(id) && arrivalOf(id, parts[id], day) !== undefined)
  const [hours, setHours] = useState(() => sessionStorage.getItem(HOURS_KEY) ?? '')
  const [changed, setChanged] = useState<Readonly<Record<string, boolean>>>({})
  const [here, setHere] = useState<readonly string[]>([])
  const [end, setEnd] = useState<End>('apart')
  const [there, setThere] = useState({ person: false, dry: true, daylight: true })
  const [answer, setAnswer] = useState<Answer>()
  const [working, setWorking] = useState(false)
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const isApart = (id: string): boolean => changed[id] ?? accesses[id]?.isOpen ?? false
  const ask = async (said: string): Promise<void> => {
    setAnswer(undefined)
    try {
      const time = readWorkTime(said).value
      setProblems([])
      sessionStorage.setItem(HOURS_KEY, said)
      setWorking(true)
      setAnswer(
        await askPlanner<'sitting'>({
          kind: 'sitting',
          build,
          options: {
            time,
            today: day,
            end,
            ...there,
            here,
            apart: Object.keys(accesses).filter(isApart),
          },
          solver: new URL(solver, location.href).href,
        }).answer,
      )
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProblems(error.problems)
    } finally {
      setWorking(false)
    }
  }
  const [wide] = useState(() => matchMedia('(min-width: 761px)').matches)
  const apartNow = Object.values(accesses)
    .filter(({ id }) => isApart(id))
    .map(({ name }) => name)
    .join(', ')
  const inWords = [
    `The car ${END_WORDS[end]} at the end`,
    there.person ? 'a helper is here' : 'nobody helps',
    there.dry ? 'it is dry' : 'it is wet',
    there.daylight ? 'there is daylight' : 'it is dark',
    apartNow === '' ? 'nothing is apart' : `apart: ${apartNow}`,
  ].join('; ')
  // An answer to other questions than those on the page would be wrong.
  // biome-ignore lint/correctness/useExhaustiveDependencies: whatever is asked.
  useEffect(() => setAnswer(undefined), [hours, changed, here, end, there, build.collections.jobs])
  return (
    <>
      <h1>What to do now</h1>
      <div className="sitting">
        <form
          onSubmit={(event) => {
            event.preventDefault()
            void ask(hours)
          }}
        >
          <div className="job-field">
            <label htmlFor="sitting-hours">How long have you</label>
            <div className="ask-hours">
              <input
                id="sitting-hours"
                value={hours}
                autoComplete="off"
                placeholder="2.5 h or 90 min"
                aria-describedby="sitting-wrong"
                onChange={(event) => setHours(event.target.value)}
              />
              <button type="submit" className="first" disabled={hours.trim() === '' || working}>
                What fits?
              </button>
            </div>
            <Problems list={problems} id="sitting-wrong" />
          </div>
          <details open={wide}>
            <summary className="terms-words">{inWords}</summary>
            <SelectField
              label="At the end the car"
              value={end}
              choices={Object.entries(END_WORDS).map(([value, name]) => ({ value, name }))}
              keep={(value) => setEnd(value as End)}
            />
            <fieldset>
              <legend>There is</legend>
              <Tick checked={there.person} change={(person) => setThere({ ...there, person })}>
                another person to help
              </Tick>
              <Tick checked={there.dry} change={(dry) => setThere({ ...there, dry })}>
                dry weather
              </Tick>
              <Tick checked={there.daylight} change={(daylight) => setThere({ ...there, daylight })}>
                daylight
              </Tick>
            </fieldset>
            {Object.keys(accesses).length > 0 && (
              <details>
                <summary>Apart now: {apartNow || 'nothing'}</summary>
                {Object.values(accesses).map(({ id, name }) => (
                  <Tick key={id} checked={isApart(id)} change={(on) => setChanged({ ...changed, [id]: on })}>
                    {name}
                  </Tick>
                ))}
              </details>
            )}
            {away.length > 0 && (
              <details>
                <summary>
                  Parts here besides those the build knows of:{' '}
                  {away
                    .filter(({ id }) => here.includes(id))
                    .map(({ name }) => name)
                    .join(', ') || 'none'}
                </summary>
                {away.map(({ id, name, status }) => (
                  <Tick
                    key={id}
                    checked={here.includes(id)}
                    change={(on) => setHere(on ? [...here, id] : here.filter((other) => other !== id))}
                  >
                    {name} <span className="soft small">{status}</span>
                  </Tick>
                ))}
              </details>
            )}
          </details>
        </form>
        <section aria-live="polite">
          {working && <p role="status">Choosing …</p>}
          {answer && <SittingAnswer answer={answer} begin={() => begin(answer)} />}
        </section>
      </div>
    </>
  )
}

function SittingAnswer({ answer, begin }: { answer: Answer; begin: () => void }) {
  if (answer.nothing !== undefined)
    return (
      <>
        <p className="bench-sentence">{answer.nothing}</p>
        <WhileThere answer={answer} />
      </>
    )
  const count = answer.jobs.length
  return (
    <>
      <p className="bench-sentence">
        {count} {count === 1 ? 'job' : 'jobs'} in {hoursText(answer.time)}, with times that are kept in 8 of 10 cases;{' '}
        {answer.openings === 0
          ? 'nothing has to be opened or closed.'
          : `${hoursText(answer.openings)} of it opening and closing.`}{' '}
        {answer.proven ? 'Nothing better fits.' : 'The search was not finished: something better may fit.'}
        {answer.dear &&
          ' Opening and closing take longer than the work: with more time, more would be done behind the same.'}
      </p>
      <SittingSteps steps={answer.steps} />
      <p>
        <button type="button" className="first begin" onClick={begin}>
          Begin the sitting
        </button>
      </p>
      <Ready answer={answer} />
      <WhileThere answer={answer} />
      {answer.unknown
        .filter(
          ({ path, code }) => code === 'drivable-unknown' || answer.jobs.some((id) => path?.startsWith(`jobs/${id}/`)),
        )
        .map(({ says, todo }) => (
          <p key={says} className="small">
            {says} <span className="soft">{todo}</span>
          </p>
        ))}
    </>
  )
}

function WhileThere({ answer }: { answer: Answer }) {
  if (answer.whileThere.length === 0) return null
  return (
    <>
      <h2>While you are there, if there is time left</h2>
      <ul>
        {answer.whileThere.map(({ id, title, time, lacks }) => (
          <li key={id}>
            {title}{' '}
            <span className="soft small">
              {hoursText(time)}
              {lacks.length > 0 && `; lacks ${lacks.join(', ')}`}
            </span>
          </li>
        ))}
      </ul>
    </>
  )
}
