/** The register of torques and clearances: each line with what it is to have, what it had, whether it is due again. */
import { useState } from 'react'
import { Link } from 'wouter'
import { addFixing, mendFixing, removeFixing, seeTo, takeBackEntry } from '../../assess/register/edit.ts'
import { KINDS_OF } from '../../assess/register/kinds.ts'
import { preloadOf } from '../../assess/register/preload.ts'
import { QUALIFIED_FIXING } from '../../assess/register/registerRules.ts'
import { askedText, type Fixing, figureText, fixingStanding } from '../../assess/register/standing.ts'
import { registerPage } from '../../book/records/registerPage.ts'
import type { Build } from '../../model/build.ts'
import { parseQuantity } from '../../units/parse.ts'
import type { Problem } from '../../units/problem.ts'
import { dayText, today, withDays } from '../jobs/today.ts'
import { Problems } from '../parts/Problems.tsx'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import { FixingForm } from './FixingForm.tsx'
import { keep } from './keep.ts'
import { openPage } from './openPage.ts'
import { Who } from './Who.tsx'
import { saidNow } from './who.ts'
import './records.css'
import './lists.css'
import './fixings.css'

export function Fixings({ chosen }: { chosen?: string | undefined }) {
  const { build } = useBench()
  if (!build) return null
  const fixings = Object.values(build.collections.fixings)
  return (
    <div className="list fixings">
      <p className="no-print">
        <Link to="/records">Records</Link>
      </p>
      <h1>Torques and clearances</h1>
      <p className="soft small">
        The vehicle maker’s figure comes first. {QUALIFIED_FIXING} What a bolt, rivet nut or flare bears:{' '}
        <Link to="/calculations/bolt-preload">calculations</Link>.
      </p>
      <div className="row no-print">
        <button type="button" onClick={() => openPage(registerPage(build, today()))}>
          Print
        </button>
      </div>
      <div className="no-print">
        <Who />
      </div>
      {fixings.length === 0 && <p role="status">No torque or clearance is entered yet.</p>}
      {fixings.map((fixing) => (
        <FixingRow key={fixing.id} {...{ build, fixing }} open={fixing.id === chosen} />
      ))}
      <details className="no-print add-row" open={fixings.length === 0}>
        <summary>Another joint or clearance</summary>
        <FixingForm key={fixings.length} build={build} save={(fields) => keep(() => addFixing(build, fields))} />
      </details>
    </div>
  )
}

function FixingRow({ build, fixing, open }: { build: Build; fixing: Fixing; open: boolean }) {
  const { value, due, newest } = fixingStanding(build, fixing, today())
  const clamps = preloadOf(fixing, newest)
  const zone = fixing.zone === undefined ? undefined : build.collections.zones[fixing.zone]?.name
  return (
    <section className="ask" aria-label={fixing.name} ref={(node) => (open ? node?.scrollIntoView() : undefined)}>
      <h2>{fixing.name}</h2>
      <p className="soft small">
        {[askedText(fixing) && `Asked ${askedText(fixing)}`, fixing.asked?.source, fixing.group, zone]
          .filter(Boolean)
          .join(', ')}
      </p>
      {[value, clamps, due].map(
        (part) =>
          part && (
            <p key={part.says}>
              <VerdictMark verdict={part.verdict} system="fixings" /> {withDays(part.says)}
              {part.missing !== undefined && ` Missing: ${part.missing}.`}
            </p>
          ),
      )}
      <SeeTo fixing={fixing} />
      <details className="no-print">
        <summary className="small">
          Mend, earlier entries<span className="out-of-sight">: {fixing.name}</span>
        </summary>
        <ul className="plain evidence">
          {fixing.entries.map((entry) => (
            <li key={`${entry.when ?? ''} ${entry.value ?? entry.says ?? ''}`}>
              <strong className="taken">
                {entry.value === undefined ? '' : figureText(fixing, entry.value, entry)}
              </strong>{' '}
              {[entry.says, entry.method, entry.marked && `marked: ${entry.marked}`].filter(Boolean).join(', ')}{' '}
              <span className="soft small">
                {[entry.by, entry.when && dayText(entry.when.slice(0, 10))].filter(Boolean).join(', ') ||
                  'no name, no day'}
              </span>
              <button type="button" className="quiet" onClick={() => void bench.edit(takeBackEntry(fixing, entry))}>
                Take back
              </button>
            </li>
          ))}
        </ul>
        <FixingForm build={build} fixing={fixing} save={(fields) => keep(() => mendFixing(fixing, fields))} />
        <button type="button" className="quiet" onClick={() => void bench.edit(removeFixing(fixing))}>
          Strike out<span className="out-of-sight">: {fixing.name}</span>
        </button>
      </details>
    </section>
  )
}

/** What it has now: a large field for the figure, how it was read, how it is marked. */
function SeeTo({ fixing }: { fixing: Fixing }) {
  const last = fixing.entries.at(-1)
  const { kind, unit: usual, title } = KINDS_OF[fixing.of]
  const unit = fixing.asked?.unit ?? usual
  const [text, setText] = useState('')
  const [method, setMethod] = useState(last?.method ?? '')
  const [marked, setMarked] = useState('')
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const take = (): void => {
    const wrong = keep(() => {
      const { by, when } = saidNow()
      const typed = text.trim() === '' ? undefined : parseQuantity(kind, text, { unit })
      return seeTo(fixing, {
        ...(typed === undefined ? {} : { value: typed.value, unit: typed.unit || unit }),
        ...(typed?.plusMinus === undefined ? {} : { plusMinus: typed.plusMinus }),
        ...(method.trim() ? { method: method.trim() } : {}),
        ...(marked.trim() ? { marked: marked.trim() } : {}),
        ...(by.trim() ? { by: by.trim() } : {}),
        when,
      })
    })
    setProblems(wrong)
    if (wrong.length === 0) {
      setText('')
      setMarked('')
    }
  }
  return (
    <form
      className="figure-form no-print"
      onSubmit={(event) => {
        event.preventDefault()
        take()
      }}
    >
      <div className="row the-figure">
        <label>
          {title} now, {unit}
          <span className="out-of-sight">: {fixing.name}</span>
          <input inputMode="decimal" autoComplete="off" value={text} onChange={(e) => setText(e.target.value)} />
        </label>
        <label>
          With
          <input value={method} placeholder="torque wrench …" onChange={(e) => setMethod(e.target.value)} />
        </label>
        <label>
          Marked
          <input value={marked} placeholder="yellow paint …" onChange={(e) => setMarked(e.target.value)} />
        </label>
        <button type="submit">
          Keep<span className="out-of-sight">: {fixing.name}</span>
        </button>
      </div>
      <Problems list={problems} />
    </form>
  )
}
