/** Car: this car from above, what was found where, and what stands before the next milestone. */
import { lazy, Suspense } from 'react'
import { Link } from 'wouter'
import { tallyOf } from '../../assess/finding.ts'
import type { Build } from '../../model/build.ts'
import { afterName, worstFirst } from '../findings/sortFindings.ts'
import { Empty } from '../parts/Empty.tsx'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { findingPlace } from '../search/placeOf.ts'
import { JUDGING } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import { planRuns, planZones } from './drawing.ts'
import { Greeting } from './Greeting.tsx'
import { beforeMilestone } from './milestone.ts'
import { PlanView, type ZoneCount } from './PlanView.tsx'
import './car.css'

// Fetched after the first paint: the gates are no part of it.
const BeforePower = lazy(async () => ({ default: (await import('../records/BeforePower.tsx')).BeforePower }))

const isEmpty = (build: Build): boolean =>
  Object.keys(build.sheets).length === 0 &&
  (['zones', 'devices', 'wires', 'jobs', 'logs', 'readings'] as const).every(
    (name) => Object.keys(build.collections[name]).length === 0,
  )

export function Car() {
  const { build, assessment, isJudged } = useBench()
  if (!build) return null
  if (isEmpty(build)) return <Greeting />
  const findings = assessment?.findings ?? []
  const jobs = Object.values(build.collections.jobs).filter((job) => job.status === 'to do' || job.status === 'doing')
  const accesses = Object.values(build.collections.accesses)
  const zones = planZones(build)
  const countOf = (zone: string): ZoneCount => {
    const here = findings.filter((item) => item.zone === zone && item.verdict !== 'sound')
    const worst = worstFirst(here)[0]?.verdict
    return {
      worst: worst === 'sound' ? undefined : worst,
      findings: here.length,
      jobs: jobs.filter((job) => job.zone === zone).length,
      open: accesses.filter((access) => access.zone === zone && access.isOpen).length,
    }
  }
  const worst = worstFirst(findings).filter((item) => item.verdict === 'no-go')
  const { vehicle } = build.sheets
  const next = beforeMilestone(build)
  return (
    <div className="two">
      <section>
        <h1>{vehicle?.name ?? build.name}</h1>
        {zones.length === 0 ? (
          <Empty says="No zone has an outline yet, so there is nothing to draw." />
        ) : (
          <>
            <PlanView
              zones={zones}
              runs={planRuns(build)}
              length={vehicle?.length?.value}
              width={vehicle?.width?.value}
              countOf={countOf}
              hrefOf={(zone) => `#/findings/zone/${encodeURIComponent(zone)}`}
            />
            <p className="soft small">Nose up. The loom’s runs are as thick as the root of the metal in them.</p>
          </>
        )}
      </section>
      <section>
        {assessment === undefined ? (
          <p className="soft" role="status">
            {isJudged ? 'This build cannot be judged as it stands; see above.' : JUDGING}
          </p>
        ) : (
          <>
            <div className="tally">
              {tallyOf(findings).map(({ word, of, count }) => (
                <span key={word}>
                  <VerdictMark {...of} /> {count}
                </span>
              ))}
            </div>
            <Suspense fallback={null}>
              <BeforePower build={build} findings={findings} />
            </Suspense>
          </>
        )}
        <h2>{next === undefined ? 'What is to do' : `Before “${next.milestone.name}”`}</h2>
        {next === undefined ? (
          <p>{jobs.length === 0 ? 'No job is open.' : `${jobs.length} jobs are open; no milestone is set.`}</p>
        ) : (
          <>
            <p>
              {next.jobs.length} {next.jobs.length === 1 ? 'job stands' : 'jobs stand'} before it
              {next.waiting.length > 0 && `; ${next.waiting.length} wait for parts`}.
            </p>
            <ul>
              {next.jobs.slice(0, 8).map((job) => (
                <li key={job.id}>
                  <Link to={`/jobs/of/${encodeURIComponent(job.id)}`}>{job.title}</Link>{' '}
                  {next.waiting.includes(job) && <span className="soft small">waits for parts</span>}
                </li>
              ))}
            </ul>
            {next.jobs.length > 8 && <p className="soft">and {next.jobs.length - 8} more.</p>}
            <p>
              <Link to="/jobs/sitting">Choose for the next sitting</Link>
            </p>
          </>
        )}
        {worst.length > 0 && (
          <>
            <h2>Not to be driven or powered like this</h2>
            <ul className="plain">
              {worst.slice(0, 6).map((item) => (
                <li key={item.key} className="field">
                  <VerdictMark verdict={item.verdict} system={item.system} />{' '}
                  <Link to={findingPlace(item.key)}>{item.about}</Link>
                  {afterName(item.about, item.says)}
                </li>
              ))}
            </ul>
            <p>
              <Link to="/findings">All findings</Link>
            </p>
          </>
        )}
      </section>
    </div>
  )
}
