/** The calibration ledger: files of the controller, newest first, what each changed, and the way back. */
import { useState } from 'react'
import { Link } from 'wouter'
import type { FileDifference } from '../../assess/ledger/difference.ts'
import { type LedgerEntry, ledgerOf } from '../../assess/ledger/ledger.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { dayText } from '../jobs/today.ts'
import { Empty } from '../parts/Empty.tsx'
import { Problems } from '../parts/Problems.tsx'
import { ask, send } from '../workbench/api.ts'
import { type BuildAnswer, bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import { LedgerAdd } from './LedgerAdd.tsx'
import { Who } from './Who.tsx'
import { whoHere } from './who.ts'
import './records.css'
import './ledger.css'

export function Ledger() {
  const { build } = useBench()
  if (!build) return null
  const entries = ledgerOf(build)
  return (
    <div className="ledger">
      <p className="no-print">
        <Link to="/records">Records</Link>
      </p>
      <h1>Calibration ledger</h1>
      <p>
        Each file of the controller as it was, kept in the build’s folder under its SHA-256, so that there is always a
        way back. It is not loaded into the controller from here.
      </p>
      <Who />
      <LedgerAdd build={build} first={entries.length === 0} />
      {entries.length === 0 ? (
        <Empty says="No file is kept yet. Save the one that is in the controller now, before anything is changed." />
      ) : (
        <ol className="plain changes">
          {entries.map((entry) => (
            <Entry key={entry.change.id} entry={entry} />
          ))}
        </ol>
      )}
    </div>
  )
}

const size = (bytes: number): string => (bytes < 10_000 ? `${bytes} bytes` : `${(bytes / 1000).toFixed(0)} kB`)

function Entry({ entry }: { entry: LedgerEntry }) {
  const { change, current, differs, belongs, back, lacks } = entry
  const { file } = change
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const goBack = async (): Promise<void> => {
    try {
      bench.took(
        await send<BuildAnswer>(`/api/controller-files/${change.id}/back`, { by: whoHere() }),
        'Way back written down',
      )
      setProblems([])
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProblems(error.problems)
    }
  }
  return (
    <li aria-labelledby={`change-${change.id}`}>
      <h2 id={`change-${change.id}`}>{change.title}</h2>
      <p>
        {current && <strong>In the controller now. </strong>}
        {change.when ? dayText(change.when.slice(0, 10)) : 'No day'}, {change.by ?? 'nobody’s name'}. {differs}
      </p>
      <p className="small">
        {file.name}, {size(file.bytes)}, SHA-256 <code>{file.sha256.slice(0, 16)}…</code>
      </p>
      {belongs.length > 0 && (
        <ul className="small">
          {belongs.map(({ ref, name }) => (
            <li key={ref}>{name}</li>
          ))}
        </ul>
      )}
      {lacks.length > 0 && (
        <p className="soft small">
          <em>Not known: {lacks.join('; ')}.</em>
        </p>
      )}
      {back && (
        <p className="small">
          The way back: “{back.title}” of {back.when ? dayText(back.when.slice(0, 10)) : 'an unknown day'}.
        </p>
      )}
      <Problems list={problems} />
      <div className="row no-print">
        <a className="button" href={`/api/controller-files/${change.id}`} download={file.name}>
          Save the file<span className="out-of-sight"> of {change.title}</span>
        </a>
        {!current && (
          <button type="button" onClick={() => void goBack()}>
            It is in the controller again<span className="out-of-sight">: {change.title}</span>
          </button>
        )}
      </div>
      {back && <Differs id={change.id} title={change.title} />}
    </li>
  )
}

type Told = Omit<FileDifference, 'changes'> & { readonly changes: FileDifference['changes'] | null }

function Differs({ id, title }: { id: string; title: string }) {
  const [told, setTold] = useState<Told>()
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const look = async (): Promise<void> => {
    if (told) return
    try {
      setTold(await ask<Told>(`/api/controller-files/${id}/differs`))
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProblems(error.problems)
    }
  }
  return (
    <details onToggle={() => void look()}>
      <summary>
        What differs<span className="out-of-sight"> in {title}</span>
      </summary>
      <Problems list={problems} />
      {told?.changes && (
        <pre className="working">
          {told.changes.map(({ sign, line, text }) => `${sign} ${line}  ${text}`).join('\n') || 'The same lines.'}
        </pre>
      )}
      {told && !told.changes && told.runs && (
        <ul className="small">
          {told.runs.slice(0, 40).map(({ at, length }) => (
            <li key={at}>
              {length} {length === 1 ? 'byte' : 'bytes'} from {at} (hexadecimal {at.toString(16)})
            </li>
          ))}
        </ul>
      )}
      {told && !told.changes && !told.runs && <p>Rewritten from end to end: only its lines were counted.</p>}
    </details>
  )
}
