/** A log that is here: its answer in a sentence, then its strips. Drag over a strip to look closer. */
import { useEffect, useState } from 'react'
import { Link } from 'wouter'
import type { Finding } from '../../assess/finding.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { afterName } from '../findings/sortFindings.ts'
import { Problems } from '../parts/Problems.tsx'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { findingPlace } from '../search/things.ts'
import { send } from '../workbench/api.ts'
import { type BuildAnswer, bench } from '../workbench/bench.ts'
import type { Question } from './questions.ts'
import { SayChannel } from './SayChannel.tsx'
import { byUnit, channelsFor, fetchStrips, type Log, type StripSet } from './strips.ts'
import { TimeStrip } from './TimeStrip.tsx'

interface CoolingAnswer {
  readonly result: {
    readonly sentence: string
    readonly next?: string
    readonly cautions?: readonly string[]
    /** Meanings that no channel has yet. */
    readonly missing?: readonly string[]
  }
}

export function LogView({ log, question, findings }: { log: Log; question: Question; findings: readonly Finding[] }) {
  const whole = [log.first ?? 0, log.last ?? 0] as const
  const [span, setSpan] = useState(whole)
  const [channels, setChannels] = useState(() => channelsFor(log, question))
  const [set, setSet] = useState<StripSet>()
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const [answer, setAnswer] = useState<CoolingAnswer['result']>()
  useEffect(() => setChannels(channelsFor(log, question)), [log, question])

  const fail = (error: unknown): void => {
    if (!(error instanceof Refusal)) throw error
    setProblems(error.problems)
  }
  const [from, to] = span
  useEffect(() => {
    if (channels.length === 0 || !(to > from)) return setSet(undefined)
    let wanted = true
    const pixels = Math.min(1200, Math.max(200, Math.round(innerWidth * 0.8)))
    fetchStrips(log.id, channels, from, to, pixels)
      .then((found) => {
        if (!wanted) return
        setProblems([])
        setSet(found)
      })
      .catch((error: unknown) => {
        if (wanted && error instanceof Refusal) setProblems(error.problems)
        else if (wanted) throw error
      })
    return () => {
      wanted = false
    }
  }, [log.id, channels, from, to])

  const askCooling = async (): Promise<void> => {
    try {
      const told = await send<BuildAnswer & CoolingAnswer>(`/api/logs/${encodeURIComponent(log.id)}/cooling`)
      setAnswer(told.result)
      bench.took(told, 'Answered')
    } catch (error) {
      fail(error)
    }
  }
  const bearing = findings.filter(question.bears)
  return (
    <section>
      <h2>{log.name}</h2>
      <p className="soft">
        {log.samples.toLocaleString('en')} samples, {log.channels.length} channels
        {log.first !== null && log.last !== null && `, ${(log.last - log.first).toFixed(0)} s`}
      </p>
      <Problems list={problems} />
      {question.id === 'cooling' && (
        <div className="field">
          <button type="button" className="first" onClick={() => void askCooling()}>
            Answer from this log
          </button>
          {answer && (
            <div role="status" className="answer">
              <p>{answer.sentence}</p>
              {answer.next !== undefined && <p>{answer.next}</p>}
              {answer.missing?.map((role) => (
                <SayChannel key={role} log={log} role={role} then={() => void askCooling()} />
              ))}
              {answer.cautions?.map((line) => (
                <p key={line} className="soft">
                  {line}
                </p>
              ))}
            </div>
          )}
        </div>
      )}
      {bearing.length > 0 && (
        <ul className="plain field">
          {bearing.slice(0, 5).map((item) => (
            <li key={item.key}>
              <VerdictMark verdict={item.verdict} /> <Link to={findingPlace(item.key)}>{item.about}</Link>
              {afterName(item.about, item.says)}
            </li>
          ))}
        </ul>
      )}
      <div className="row">
        <button type="button" disabled={from === whole[0] && to === whole[1]} onClick={() => setSpan(whole)}>
          Show the whole log
        </button>
        <span className="soft small">
          {from.toFixed(1)} to {to.toFixed(1)} s; drag over a strip to look closer
        </span>
      </div>
      {set &&
        byUnit(set.strips).map((group) => (
          <TimeStrip
            key={group.map(({ channel }) => channel).join()}
            strips={group}
            t0={set.t0}
            t1={set.t1}
            onWindow={(a, b) => setSpan([a, b])}
          />
        ))}
      <details>
        <summary>Channels</summary>
        <div className="channels">
          {log.channels.map(({ name, unit, role }) => (
            <label key={name} className="choice">
              <input
                type="checkbox"
                checked={channels.includes(name)}
                onChange={() =>
                  setChannels(channels.includes(name) ? channels.filter((one) => one !== name) : [...channels, name])
                }
              />
              <span>
                {name} <span className="soft">{[unit, role].filter(Boolean).join(', ')}</span>
              </span>
            </label>
          ))}
        </div>
      </details>
    </section>
  )
}
