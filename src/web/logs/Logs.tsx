/** Logs: the question first, then the file, then what it answers. */
import { useRef, useState } from 'react'
import { Link, useLocation } from 'wouter'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { ask, send } from '../workbench/api.ts'
import { type BuildAnswer, bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import { LogReport } from './LogReport.tsx'
import { LogView } from './LogView.tsx'
import { QUESTIONS } from './questions.ts'
import { type Choices, ReadingChoices } from './ReadingChoices.tsx'
import type { Report } from './report.ts'
import './logs.css'

interface Added extends BuildAnswer {
  readonly id: string
  readonly report: Report
}
/** Kept over the change of place that showing the new log makes. */
let lastReport: { readonly id: string; readonly report: Report } | undefined
let lastQuestion: (typeof QUESTIONS)[number]['id'] | undefined

export function Logs({ chosen }: { chosen?: string }) {
  const { build, assessment } = useBench()
  const [, go] = useLocation()
  const [questionId, setQuestion] = useState(lastQuestion)
  const [reading, setReading] = useState<number | null>()
  const stop = useRef<AbortController>(undefined)
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const [refused, setRefused] = useState<File>()
  if (!build) return null
  const logs = Object.values(build.collections.logs)
  const log = chosen === undefined ? undefined : build.collections.logs[chosen]
  const question =
    QUESTIONS.find(({ id }) => id === questionId) ?? (log ? QUESTIONS.find(({ id }) => id === 'look') : undefined)

  const take = async (file: File, choices?: Choices): Promise<void> => {
    setReading(null)
    setProblems([])
    setRefused(undefined)
    const cancel = new AbortController()
    stop.current = cancel
    const token = crypto.getRandomValues(new Uint32Array(4)).join('-')
    const watch = setInterval(() => {
      ask<{ share: number | null }>(`/api/log-progress/${token}`)
        .then(({ share }) => setReading((before) => (before === undefined ? before : share)))
        // How far it has got is a courtesy; the reading-in itself reports what fails.
        .catch(() => undefined)
    }, 500)
    try {
      const added = await ask<Added>(
        `/api/logs?${new URLSearchParams({ name: file.name, token, ...(choices ? { read: JSON.stringify(choices) } : {}) })}`,
        {
          method: 'POST',
          body: file,
          signal: cancel.signal,
        },
      )
      lastReport = { id: added.id, report: { ...added.report, source: file.name } }
      bench.took(added, `Log ${file.name} taken in`)
      go(`/logs/${encodeURIComponent(added.id)}`)
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      if (!cancel.signal.aborted) {
        setProblems(error.problems)
        // A file of columns may still be a log once it is said how they are divided.
        if (
          error.problems.some(
            ({ code }) => code === 'not-a-log' || code === 'ambiguous-comma' || code === 'bad-reading',
          )
        )
          setRefused(file)
      }
    } finally {
      clearInterval(watch)
      setReading(undefined)
    }
  }
  const again = async (id: string, choices: Choices): Promise<void> => {
    setReading(null)
    setProblems([])
    try {
      const added = await send<Added>(`/api/logs/${encodeURIComponent(id)}/again`, choices)
      lastReport = { id: added.id, report: added.report }
      bench.took(added, 'The file was read again')
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProblems(error.problems)
    } finally {
      setReading(undefined)
    }
  }
  return (
    <>
      <h1>Logs</h1>
      <fieldset>
        <legend>What do you want to know?</legend>
        {QUESTIONS.map(({ id, asks }) => (
          <label key={id} className="choice">
            <input
              type="radio"
              name="question"
              checked={question?.id === id}
              onChange={() => {
                lastQuestion = id
                setQuestion(id)
              }}
            />
            {asks}
          </label>
        ))}
      </fieldset>
      {question && (
        <div className="field log-choice">
          <label>
            A file from the logger, text or Parquet
            <input
              type="file"
              disabled={reading !== undefined}
              onChange={(event) => {
                const file = event.target.files?.[0]
                if (file) void take(file)
              }}
            />
          </label>
          {reading !== undefined && (
            <div className="row">
              <p role="status">Reading the file …{reading === null ? '' : ` ${Math.round(reading * 100)} %`}</p>
              <button type="button" onClick={() => stop.current?.abort()}>
                Stop reading
              </button>
            </div>
          )}
          <Problems list={problems} />
          {refused && (
            <ReadingChoices
              guessed={[]}
              busy={reading !== undefined}
              act={`Read ${refused.name} so`}
              onRead={(choices) => void take(refused, choices)}
            />
          )}
          {logs.length > 0 && (
            <p>
              Or one that is here:{' '}
              {logs.map((one) => (
                <span key={one.id}>
                  <Link
                    to={`/logs/${encodeURIComponent(one.id)}`}
                    aria-current={one.id === chosen ? 'page' : undefined}
                  >
                    {one.name}
                  </Link>{' '}
                </span>
              ))}
            </p>
          )}
        </div>
      )}
      {chosen !== undefined && !log && <p role="status">There is no log “{chosen}” in this build.</p>}
      {log && question && (
        <>
          <LogView key={`view ${log.table}`} log={log} question={question} findings={assessment?.findings ?? []} />
          {lastReport?.id === log.id && (
            <LogReport
              key={`report ${log.table}`}
              report={lastReport.report}
              busy={reading !== undefined}
              onReadAgain={(choices) => void again(log.id, choices)}
            />
          )}
        </>
      )}
    </>
  )
}
