/** A log that is here: its answer in a sentence, then one strip a system. Drag over a strip to look closer, click it to read. */
import { type KeyboardEvent, useEffect, useMemo, useState } from 'react'
import { Link } from 'wouter'
import type { Finding } from '../../assess/finding.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { afterName } from '../findings/sortFindings.ts'
import { Problems } from '../parts/Problems.tsx'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { findingPlace } from '../search/placeOf.ts'
import { bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import { AnswerView } from './AnswerView.tsx'
import { type Answer, askLog, steadyOf } from './answers.ts'
import { type AskDetails, Details } from './Details.tsx'
import { Meanings } from './Meanings.tsx'
import { Moment } from './Moment.tsx'
import type { Question } from './questions.ts'
import { saveAs, stripsAsCsv, stripsAsPng, stripsAsSvg } from './saveStrips.ts'
import { channelsFor, fetchStrips, type Log, type StripSet } from './strips.ts'
import { bySystem } from './systems.ts'
import { TimeStrip } from './TimeStrip.tsx'

/** Slices of the whole log that stay in the page, so that moving along it never waits for the store. */
const COARSE = 4000
/** After this long without a move the store is asked for the window at the screen's own fineness, ms. */
const REST = 150

export function LogView({ log, question, findings }: { log: Log; question: Question; findings: readonly Finding[] }) {
  const { build } = useBench()
  const whole = useMemo(() => ({ from: log.first ?? 0, to: log.last ?? 0 }), [log.first, log.last])
  const [view, setView] = useState(whole)
  const [channels, setChannels] = useState(() => channelsFor(log, question))
  const [coarse, setCoarse] = useState<StripSet>()
  const [fine, setFine] = useState<StripSet>()
  const [moment, setMoment] = useState<number>()
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const [answer, setAnswer] = useState<{ readonly of: Question['id']; readonly result: Answer }>()
  const [asked, setAsked] = useState<AskDetails>({})
  const [busy, setBusy] = useState(false)
  useEffect(() => setChannels(channelsFor(log, question)), [log, question])

  const fail = (error: unknown): void => {
    if (!(error instanceof Refusal)) throw error
    setProblems(error.problems)
  }
  useEffect(() => {
    setFine(undefined)
    if (channels.length === 0 || !(whole.to > whole.from)) return setCoarse(undefined)
    let wanted = true
    fetchStrips(log.id, channels, whole.from, whole.to, COARSE)
      .then((found) => {
        if (!wanted) return
        setProblems([])
        setCoarse(found)
      })
      .catch((error: unknown) => {
        if (!(error instanceof Refusal)) throw error
        if (wanted) setProblems(error.problems)
      })
    return () => {
      wanted = false
    }
  }, [log.id, channels, whole])
  useEffect(() => {
    if (channels.length === 0 || (view.from === whole.from && view.to === whole.to)) return setFine(undefined)
    let wanted = true
    const timer = setTimeout(() => {
      const pixels = Math.min(1600, Math.max(200, Math.round(innerWidth)))
      fetchStrips(log.id, channels, view.from, view.to, pixels)
        .then((found) => {
          if (wanted) setFine(found)
        })
        .catch((error: unknown) => {
          // The coarse strips still stand.
          if (!(error instanceof Refusal)) throw error
        })
    }, REST)
    return () => {
      wanted = false
      clearTimeout(timer)
    }
  }, [log.id, channels, view, whole])

  const put = async (details: AskDetails): Promise<void> => {
    setBusy(true)
    setAsked(details)
    setProblems([])
    try {
      const told = await askLog(question.id, log.id, details)
      setAnswer({ of: question.id, result: told.result })
      bench.took(told, 'Answered')
    } catch (error) {
      fail(error)
    } finally {
      setBusy(false)
    }
  }
  const move = (by: number, zoom: number): void => {
    const width = Math.min((view.to - view.from) * zoom, whole.to - whole.from)
    const middle = (view.from + view.to) / 2 + by * (view.to - view.from)
    const from = Math.max(whole.from, Math.min(whole.to - width, middle - width / 2))
    setView({ from, to: from + width })
  }
  const keys = (event: KeyboardEvent): void => {
    const moves: Readonly<Record<string, readonly [number, number]>> = {
      ArrowLeft: [-0.04, 1],
      ArrowRight: [0.04, 1],
      '+': [0, 0.8],
      '-': [0, 1.25],
    }
    const found = moves[event.key]
    if (!found) return
    event.preventDefault()
    move(...found)
  }
  const show = (t: number): void => {
    setMoment(t)
    if (t < view.from || t > view.to) setView(whole)
  }
  const mine = answer?.of === question.id ? answer.result : undefined
  const steady = useMemo(() => steadyOf(mine), [mine])
  const covers = fine && fine.t0 <= view.from + 1e-9 && fine.t1 >= view.to - 1e-9
  const set = covers ? fine : coarse
  const systems = useMemo(() => (set ? bySystem(log, set.strips) : []), [log, set])
  const span = useMemo(() => (set ? { from: set.t0, to: set.t1 } : whole), [set, whole])
  const save = (ending: string, content: Blob): void => saveAs(`${log.id}.${ending}`, content)
  const bearing = findings.filter(question.bears)
  const logs = Object.values(build?.collections.logs ?? {})
  return (
    <section>
      <h2>{log.name}</h2>
      <p className="soft">
        {log.samples.toLocaleString('en')} samples, {log.channels.length} channels
        {log.first !== null && log.last !== null && `, ${(log.last - log.first).toFixed(0)} s`}
      </p>
      <Problems list={problems} />
      {question.id !== 'look' && (
        <>
          <Details
            key={question.id}
            question={question.id}
            log={log}
            logs={logs}
            hasCard={build?.sheets.fuel?.injectors?.card !== undefined}
            busy={busy}
            onAsk={(details) => void put(details)}
          />
          {busy && <p role="status">Reckoning …</p>}
          {mine && (
            <AnswerView
              answer={mine}
              log={log}
              other={build?.collections.logs[asked.other ?? '']}
              again={() => void put(asked)}
              onMoment={show}
            />
          )}
        </>
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
      {set && (
        <section aria-label="Strips" onKeyDown={keys}>
          <div className="row">
            <button type="button" onClick={() => move(0, 0.5)}>
              Closer
            </button>
            <button type="button" onClick={() => move(0, 2)}>
              Wider
            </button>
            <button type="button" disabled={view.from <= whole.from} onClick={() => move(-0.5, 1)}>
              Earlier
            </button>
            <button type="button" disabled={view.to >= whole.to} onClick={() => move(0.5, 1)}>
              Later
            </button>
            <button
              type="button"
              disabled={view.from === whole.from && view.to === whole.to}
              onClick={() => setView(whole)}
            >
              Show the whole log
            </button>
            <span className="soft small">
              {view.from.toFixed(1)} to {view.to.toFixed(1)} s; drag over a strip to look closer
              {steady.length > 0 && `; tinted: the ${steady.length} steady windows of the answer`}
            </span>
          </div>
          {systems.map(({ system, strips }) => (
            <TimeStrip
              key={system}
              system={system}
              strips={strips}
              data={span}
              view={view}
              steady={steady}
              moment={moment}
              onWindow={(from, to) => setView({ from, to })}
              onMoment={setMoment}
            />
          ))}
          <div className="row">
            <span>Save the strips as</span>
            <button
              type="button"
              onClick={() =>
                save('svg', new Blob([stripsAsSvg(systems, span, view, log.name)], { type: 'image/svg+xml' }))
              }
            >
              SVG
            </button>
            <button
              type="button"
              onClick={() => void stripsAsPng(systems, span, view, log.name).then((blob) => save('png', blob))}
            >
              PNG
            </button>
            <button
              type="button"
              onClick={() => save('csv', new Blob([stripsAsCsv(systems, span, view)], { type: 'text/csv' }))}
            >
              CSV
            </button>
          </div>
          <Moment log={log} t={moment} onMoment={show} />
        </section>
      )}
      <Meanings log={log} drawn={channels} onDrawn={setChannels} />
    </section>
  )
}
