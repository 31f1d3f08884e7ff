/** Records: what is proved, kept, shown and kept up; one line each with how far it is. */
import { Link, useLocation } from 'wouter'
import { closingOf, gatesOf } from '../../assess/commissioning/row.ts'
import { ledgerOf } from '../../assess/ledger/ledger.ts'
import { listStanding } from '../../assess/lists/rows.ts'
import { type ListKind, START, startList } from '../../assess/lists/start.ts'
import { fixingStanding } from '../../assess/register/standing.ts'
import type { Build } from '../../model/build.ts'
import { today } from '../jobs/today.ts'
import { bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import './records.css'

export const listPlace = (id: string): string => `/records/lists/${encodeURIComponent(id)}`

export function Records() {
  const { build } = useBench()
  if (!build) return null
  const gates = gatesOf(build)
  const closed = gates.filter(({ id }) => closingOf(build, id) !== undefined).length
  const next = gates.find(({ id }) => closingOf(build, id) === undefined)
  const [newest] = ledgerOf(build)
  return (
    <div className="records">
      <h1>Records</h1>
      <section>
        <h2>
          <Link to="/records/gates">Commissioning</Link>
        </h2>
        <p>
          {closed} of {gates.length} gates closed.{next && ` In turn: ${next.title}.`}
        </p>
      </section>
      <section>
        <h2>
          <Link to="/records/files">Calibration ledger</Link>
        </h2>
        <p>{newest ? `In the controller now: ${newest.change.title}.` : 'No file of the controller is kept yet.'}</p>
      </section>
      <section>
        <h2>
          <Link to="/records/use">In use</Link>
        </h2>
        <p>Counters, crank volts, oil pressure and trims over the months, the card for the glovebox.</p>
      </section>
      <section>
        <h2>
          <Link to="/records/fixings">Torques and clearances</Link>
        </h2>
        <p>{fixingsText(build)}</p>
      </section>
      <Lists build={build} />
    </div>
  )
}

const fixingsText = (build: Build): string => {
  const standings = Object.values(build.collections.fixings).map((fixing) => fixingStanding(build, fixing, today()))
  if (standings.length === 0) return 'No torque or clearance is entered yet.'
  const due = standings.filter((each) => each.due?.verdict === 'marginal').length
  const out = standings.filter(({ value: { verdict } }) => verdict === 'marginal' || verdict === 'no-go').length
  return `${standings.length} entered${out > 0 ? `, ${out} not as asked` : ''}${due > 0 ? `, ${due} due to be seen to again` : ''}.`
}

const KINDS: readonly ListKind[] = ['inspection', 'donor', 'shakedown', 'service']

function Lists({ build }: { build: Build }) {
  const [, go] = useLocation()
  const lists = Object.values(build.collections.records).filter(
    ({ id, kind }) =>
      (kind === 'inspection' || kind === 'donor' || kind === 'service') &&
      Object.values(build.collections.checks).some(({ list }) => list === id),
  )
  const start = (kind: ListKind): void => {
    const edit = startList(build, kind)
    const [first] = edit.changes
    if (bench.edit(edit) && first && 'collection' in first) go(listPlace(first.id))
  }
  return (
    <>
      {lists.map((record) => {
        const { rows, shown, wrong } = listStanding(build, record, today())
        return (
          <section key={record.id}>
            <h2>
              <Link to={listPlace(record.id)}>{record.title}</Link>
            </h2>
            <p>
              {shown} of {rows.length} rows have something to show{wrong > 0 ? `, ${wrong} wrong` : ''}.
            </p>
          </section>
        )
      })}
      <section>
        <h2>Begin a list</h2>
        <p className="soft small">
          Each begins with a short list that is common practice and no law; it is yours to alter.
        </p>
        <div className="row">
          {KINDS.map((kind) => (
            <button key={kind} type="button" onClick={() => start(kind)}>
              {START[kind].title}
            </button>
          ))}
        </div>
      </section>
    </>
  )
}
