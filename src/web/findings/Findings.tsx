/** Findings: what was found, worst first; opened, its working, its source, what to do, and a job in one step. */
import { useMemo, useState } from 'react'
import { Link } from 'wouter'
import { type System, VERDICTS, type Verdict, verdictWord } from '../../assess/finding.ts'
import { gather } from '../../assess/gather.ts'
import { Empty } from '../parts/Empty.tsx'
import { VERDICT_WORDS } from '../parts/VerdictMark.tsx'
import { bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import { FindingItem } from './FindingItem.tsx'
import { GatheredList } from './GatheredList.tsx'
import { jobEdit, openJobFor } from './jobEdit.ts'
import { worstFirst } from './sortFindings.ts'
import './findings.css'

/** Unknown findings that are listed as they are. */
const FEW = 5

const toggled = <T,>(set: ReadonlySet<T>, item: T): ReadonlySet<T> => {
  const next = new Set(set)
  if (!next.delete(item)) next.add(item)
  return next
}

export function Findings({ opened, zone }: { opened?: string; zone?: string }) {
  const { build, assessment } = useBench()
  const [verdicts, setVerdicts] = useState<ReadonlySet<Verdict>>(new Set(['no-go', 'marginal', 'unknown']))
  const [systems, setSystems] = useState<ReadonlySet<System>>(new Set())
  const [each, setEach] = useState(false)
  const here = useMemo(
    () => (assessment?.findings ?? []).filter((item) => zone === undefined || item.zone === zone),
    [assessment, zone],
  )
  const bySystem = useMemo(
    () => (systems.size === 0 ? here : here.filter((item) => systems.has(item.system))),
    [here, systems],
  )
  const gathered = useMemo(() => (build === undefined ? [] : gather(build, bySystem)), [build, bySystem])
  if (!build) return null
  if (!assessment)
    return <Empty says="This build cannot be judged as it stands; what stands in the way is told above." />
  const present = [...new Set(here.map((item) => item.system))]
  // A few unknown ones are soon read; many are one datum missing of many things.
  const unknown = bySystem.filter((item) => item.verdict === 'unknown').length
  const isGathered = verdicts.has('unknown') && unknown > FEW
  const shown = worstFirst(bySystem).filter(
    (item) =>
      item.key === opened || (verdicts.has(item.verdict) && (item.verdict !== 'unknown' || each || !isGathered)),
  )
  const zoneName = zone === undefined ? undefined : (build.collections.zones[zone]?.name ?? zone)
  return (
    <>
      <h1>{zoneName === undefined ? 'Findings' : `Findings: ${zoneName}`}</h1>
      {zoneName !== undefined && (
        <p>
          <Link to="/findings">Show the whole car</Link>
        </p>
      )}
      <fieldset className="row">
        <legend className="out-of-sight">Verdicts shown</legend>
        {VERDICTS.map((verdict) => (
          <button
            key={verdict}
            type="button"
            aria-pressed={verdicts.has(verdict)}
            onClick={() => setVerdicts(toggled(verdicts, verdict))}
          >
            {VERDICT_WORDS[verdict]}
            {verdict === 'sound' && bySystem.some((item) => verdictWord(item) !== item.verdict) && ', or it holds'}{' '}
            {bySystem.filter((item) => item.verdict === verdict).length}
          </button>
        ))}
      </fieldset>
      <fieldset className="row">
        <legend className="out-of-sight">Systems shown</legend>
        {present.map((system) => (
          <button
            key={system}
            type="button"
            aria-pressed={systems.has(system)}
            onClick={() => setSystems(toggled(systems, system))}
          >
            {system}
          </button>
        ))}
      </fieldset>
      {opened !== undefined && !assessment.findings.some((item) => item.key === opened) && (
        <p role="status">That finding is gone: what it found has been put right.</p>
      )}
      {isGathered && shown.length > 0 && (
        <p className="small">
          {unknown} findings wait for figures that are not entered:{' '}
          <button
            type="button"
            className="plain-link"
            onClick={() => document.getElementById('gathered')?.scrollIntoView()}
          >
            what to enter first
          </button>
        </p>
      )}
      {shown.length === 0 && isGathered ? null : shown.length === 0 ? (
        <Empty
          says={
            here.length === 0
              ? 'Nothing has been found yet; there is nothing here to judge.'
              : 'None of the chosen kind.'
          }
        />
      ) : (
        <ol className="plain findings">
          {shown.map((item) => (
            <FindingItem
              key={item.key}
              finding={item}
              opened={item.key === opened}
              job={openJobFor(build, item.key)}
              makeJob={() => bench.edit(jobEdit(item))}
            />
          ))}
        </ol>
      )}
      {isGathered && (
        <GatheredList build={build} gathered={gathered}>
          <button type="button" aria-pressed={each} onClick={() => setEach(!each)}>
            Show each of the {unknown} unknown findings
          </button>
        </GatheredList>
      )}
    </>
  )
}
