/** One search: where it stands, what to do next, the circuit with its suspicion, what is known, who is suspect. */
import { useEffect, useState } from 'react'
import { Link } from 'wouter'
import { closeSearch, type StoredSearch } from '../../assess/faults/faults.ts'
import { complained, complaintSays } from '../../assess/faults/words.ts'
import { list } from '../../assess/make.ts'
import type { Build } from '../../model/build.ts'
import { Problems } from '../parts/Problems.tsx'
import { circuitOfDevice, sheetPlace } from '../testSheets/sheetPlace.ts'
import { bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import { AskReading } from './AskReading.tsx'
import { EvidenceList } from './EvidenceList.tsx'
import { readingEdit } from './faultEdits.ts'
import { Looks } from './Looks.tsx'
import { MeterForm } from './MeterForm.tsx'
import { OwnReading } from './OwnReading.tsx'
import { RemarkForm } from './RemarkForm.tsx'
import { SearchSettings } from './SearchSettings.tsx'
import { Repairs, repair, Standing } from './SearchStanding.tsx'
import { Suspects } from './Suspects.tsx'
import { SuspicionDrawing } from './SuspicionDrawing.tsx'
import { useSearch } from './useSearch.ts'
import './faults.css'

export function FaultSearch({ id }: { id: string }) {
  const { build } = useBench()
  const search = build?.collections.faultSearches[id]
  if (!build) return null
  if (!search)
    return (
      <>
        <h1>Find a fault</h1>
        <p role="status">
          There is no search {id}. <Link to="/faults">All searches</Link>
        </p>
      </>
    )
  return <OpenSearch build={build} search={search} />
}

function OpenSearch({ build, search }: { build: Build; search: StoredSearch }) {
  const { ready, view, isWeighing, problems } = useSearch(build, search)
  const about = complained(build, search.complaint)
  const isOpen = search.status === 'open'
  const kase = build.collections.cases[search.case]
  return (
    <>
      <p>
        <Link to="/faults">All searches</Link>
      </p>
      <h1>{complaintSays(build, search.complaint)}</h1>
      <p className="soft">In “{build.collections.cases[search.case]?.name ?? search.case}”.</p>
      <Problems list={problems} />
      {view === undefined && problems.length === 0 && <Working />}
      {ready && view && (
        <div className="search-bench">
          <div className="search-ask">
            {isWeighing ? (
              <p role="status" className="weighing">
                Weighing what is known …
              </p>
            ) : (
              <Standing {...{ build, search, view }} />
            )}
            {isOpen && view.cautions.length > 0 && (
              <details className="cautions-first" open={search.evidence.length === 0}>
                <summary>Take care</summary>
                <ul>
                  {view.cautions.map((caution) => (
                    <li key={caution}>{caution}</li>
                  ))}
                </ul>
              </details>
            )}
            {isOpen && !isWeighing && search.found === undefined && (
              <Repairs {...{ search, view }} repair={(part, mode) => repair(ready, search, part, mode)} />
            )}
            {isOpen && !isWeighing && view.looks.length > 0 && <Looks {...{ build, search }} looks={view.looks} />}
            {isOpen && !isWeighing && view.next && (
              <AskReading
                next={view.next}
                {...{ build, kase }}
                take={(test, reading) => void bench.edit(readingEdit(build, search, test, reading))}
              />
            )}
          </div>
          <div className="search-drawing">
            <SuspicionDrawing {...{ build, ready, view }} name={about} />
          </div>
          <div className="search-known">
            <EvidenceList {...{ build, search }} questions={view.questions} />
            {isOpen && <RemarkForm {...{ build, search, ready }} />}
            {isOpen && (
              <OwnReading
                {...{ build, kase, ready }}
                take={(test, reading) => void bench.edit(readingEdit(build, search, test, reading))}
              />
            )}
            <Suspects view={view} />
            {isOpen && <MeterForm />}
            {isOpen && <SearchSettings build={build} search={search} />}
            {ready.lacking.length > 0 && (
              <p className="small soft">
                Sharper with: {ready.lacking.slice(0, 6).join('; ')}
                {ready.lacking.length > 6 ? ` and ${ready.lacking.length - 6} more` : ''}.
              </p>
            )}
            {ready.leftOut.length > 0 && (
              <p>
                Left out, for it is work for those trained in it: {list(ready.leftOut)}. Airbag and anti-lock circuits
                are never probed.
              </p>
            )}
          </div>
        </div>
      )}
      {search.history && search.history.length > 0 && (
        <>
          <h2>History</h2>
          <ul>
            {search.history.map((entry) => (
              <li key={`${entry.when ?? ''}${entry.says}`}>
                {entry.when?.slice(0, 16).replace('T', ' ')} {entry.says}
              </li>
            ))}
          </ul>
        </>
      )}
      {isOpen && <Closing {...{ build, search }} />}
    </>
  )
}

/** A search is made ready beside the page, which stays alive and can be left. */
function Working() {
  const [seconds, setSeconds] = useState(0)
  useEffect(() => {
    const timer = setInterval(() => setSeconds((now) => now + 1), 1000)
    return () => clearInterval(timer)
  }, [])
  return (
    <>
      <p role="status">
        Working out what each fault would do. It takes some seconds; you can go elsewhere meanwhile and come back.
      </p>
      <p className="row">
        <progress aria-label="Working out what each fault would do" />
        <span className="soft" aria-hidden="true">
          {seconds} s
        </span>
      </p>
    </>
  )
}

function Closing({ build, search }: { build: Build; search: StoredSearch }) {
  const close = (says: string): void => void bench.edit(closeSearch(build, search, says, new Date().toISOString()))
  const circuit = circuitOfDevice(build, search.complaint.device)
  return (
    <p className="row">
      {search.found ? (
        <>
          {circuit !== undefined && (
            <Link className="button" to={sheetPlace(circuit, search.case)}>
              Confirm the repair with the test sheet of {build.collections.circuits[circuit]?.name ?? circuit}
            </Link>
          )}
          <button type="button" onClick={() => close('Closed by hand: the repair is done and it works.')}>
            Repaired and confirmed: close the search
          </button>
        </>
      ) : (
        <button type="button" onClick={() => close('Given up without a find.')}>
          Close without a find
        </button>
      )}
    </p>
  )
}
