/** Findings: what was found, worst first; opened, its working, its source, what to do, and a job in one step. */
import { useState } from 'react'
import { Link } from 'wouter'
import { type System, VERDICTS, type Verdict } from '../../assess/finding.ts'
import { Empty } from '../parts/Empty.tsx'
import { VERDICT_WORDS } from '../parts/VerdictMark.tsx'
import { bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import { FindingItem } from './FindingItem.tsx'
import { jobEdit, openJobFor } from './jobEdit.ts'
import { worstFirst } from './sortFindings.ts'
import './findings.css'

const toggled = <T,>(set: ReadonlySet<T>, item: T): ReadonlySet<T> => {
  const next = new Set(set)
  if (!next.delete(item)) next.add(item)
  return next
}

export function Findings({ opened, zone }: { opened?: string; zone?: string }) {
  const { build, assessment } = useBench()
  const [verdicts, setVerdicts] = useState<ReadonlySet<Verdict>>(new Set(['no-go', 'marginal', 'unknown']))
  const [systems, setSystems] = useState<ReadonlySet<System>>(new Set())
  if (!build) return null
  if (!assessment)
    return <Empty says="This build cannot be judged as it stands; what stands in the way is told above." />
  const here = zone === undefined ? assessment.findings : assessment.findings.filter((item) => item.zone === zone)
  const present = [...new Set(here.map((item) => item.system))]
  const bySystem = systems.size === 0 ? here : here.filter((item) => systems.has(item.system))
  const shown = worstFirst(bySystem).filter((item) => verdicts.has(item.verdict) || item.key === opened)
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
            {VERDICT_WORDS[verdict]} {bySystem.filter((item) => item.verdict === verdict).length}
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
      {shown.length === 0 ? (
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
    </>
  )
}
