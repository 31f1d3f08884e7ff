/** One test sheet: as a table to print and fill in, or one line at a time beside the car. */
import { useMemo, useState } from 'react'
import { Link, useLocation } from 'wouter'
import {
  confirmRepair,
  FIRST_POWER,
  type TestSheet as Sheet,
  sheetStanding,
  testSheet,
} from '../../assess/testSheets/testSheet.ts'
import type { Build } from '../../model/build.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { MeterForm } from '../faults/MeterForm.tsx'
import { Problems } from '../parts/Problems.tsx'
import { bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import { madeFrom } from './madeFrom.ts'
import { OneLine } from './OneLine.tsx'
import { SheetTable } from './SheetTable.tsx'
import { sheetPlace } from './sheetPlace.ts'
import './testSheets.css'

export function TestSheet({ circuit, kase }: { circuit: string; kase: string | undefined }) {
  const { build } = useBench()
  return build ? <OpenSheet {...{ build, circuit, kase }} /> : null
}

const NARROW = '(max-width: 44rem)'

function OpenSheet({ build, circuit, kase }: { build: Build; circuit: string; kase: string | undefined }) {
  const [, go] = useLocation()
  const [one, setOne] = useState(() => window.matchMedia(NARROW).matches)
  // biome-ignore lint/correctness/useExhaustiveDependencies: what a sheet is made from, and nothing else of the build.
  const made = useMemo((): Sheet | readonly Problem[] => {
    try {
      return testSheet(build, circuit, kase)
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      return error.problems
    }
  }, [...madeFrom(build), circuit, kase])
  const sheet = 'sections' in made ? made : undefined
  const standing = useMemo(() => (sheet ? sheetStanding(build, sheet) : undefined), [build, sheet])
  const cases = Object.values(build.collections.cases).filter(
    ({ battery, supply }) => battery === 'connected' && supply === undefined,
  )
  const lines = sheet?.sections.flatMap((section) => section.lines).length ?? 0
  const notes = sheet?.notes.map((note) => (
    <p key={note} className="small">
      {note}
    </p>
  ))
  return (
    <div className="test-sheet">
      <p className="no-print">
        <Link to="/faults/sheets">All test sheets</Link>
      </p>
      <h1>Test sheet: {sheet?.title ?? circuit}</h1>
      <Problems list={sheet ? [] : (made as readonly Problem[])} />
      <div className="row no-print">
        <label>
          {circuit === FIRST_POWER ? 'The car stands as in' : 'Volts as in'}{' '}
          <select
            value={sheet?.case ?? kase ?? ''}
            onChange={(event) => go(sheetPlace(circuit, event.target.value), { replace: true })}
          >
            {(sheet?.case ?? kase) === undefined && <option value="">no case</option>}
            {cases.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </label>
        <button type="button" aria-pressed={one} onClick={() => setOne(true)}>
          One at a time
        </button>
        <button type="button" aria-pressed={!one} onClick={() => setOne(false)}>
          Whole sheet
        </button>
        <button type="button" onClick={() => window.print()}>
          Print
        </button>
      </div>
      {(!one || lines === 0) && notes}
      {sheet && standing && lines > 0 && (
        <>
          <p role="status" className="no-print">
            {standing.done} of {lines} lines done
            {standing.out.length > 0 ? `, ${standing.out.length} out of tolerance` : ''}.
          </p>
          {standing.confirmations.map((confirmation) => {
            const { search, lines: again, passed, confirmed } = confirmation
            return (
              <div key={search.id} className="confirmation" role="status">
                <p>
                  After the repair of <Link to={`/faults/${search.id}`}>{search.found!.name}</Link>:{' '}
                  {confirmed
                    ? 'all that was out reads as it should.'
                    : `read again, in tolerance so far ${passed.length} of ${again.length}:`}
                </p>
                {!confirmed && (
                  <ul>
                    {again
                      .filter((line) => !passed.some((each) => each.line.id === line.id))
                      .map(({ id, says }) => (
                        <li key={id}>{says}</li>
                      ))}
                  </ul>
                )}
                {confirmed && (
                  <button
                    type="button"
                    className="first"
                    onClick={() => void bench.edit(confirmRepair(build, sheet, confirmation, new Date().toISOString()))}
                  >
                    Confirmed: close the search, the repair is done
                  </button>
                )}
              </div>
            )
          })}
          {one ? (
            <>
              <OneLine key={`${sheet.id} ${sheet.case}`} {...{ build, sheet, standing }} />
              {sheet.notes.length > 0 && (
                <details>
                  <summary>What this sheet leaves out, and why</summary>
                  {notes}
                </details>
              )}
            </>
          ) : (
            <SheetTable {...{ build, sheet, standing }} />
          )}
          <div className="no-print">
            <MeterForm />
          </div>
          <p className="print-only">Read by ____________________ Date ____________ Instrument ____________________</p>
        </>
      )}
    </div>
  )
}
