/** One finding: a line that opens. */
import { useEffect, useRef, useState } from 'react'
import { Link } from 'wouter'
import type { Finding } from '../../assess/finding.ts'
import type { Job } from '../../model/build.ts'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { Photos } from '../phone/Photos.tsx'
import { afterName, splitWorking } from './sortFindings.ts'

interface Props {
  readonly finding: Finding
  readonly opened: boolean
  readonly job: Job | undefined
  readonly makeJob: () => void
}

export function FindingItem({ finding, opened, job, makeJob }: Props) {
  const [open, setOpen] = useState(opened)
  const line = useRef<HTMLButtonElement>(null)
  useEffect(() => {
    if (!opened) return
    setOpen(true)
    line.current?.scrollIntoView({ block: 'start' })
  }, [opened])
  return (
    <li data-finding={finding.key}>
      <button ref={line} type="button" className="line" aria-expanded={open} onClick={() => setOpen(!open)}>
        <VerdictMark verdict={finding.verdict} system={finding.system} />
        <span>
          <strong>{finding.about}</strong>
          {afterName(finding.about, finding.says)}
        </span>
        <span className="soft small">{finding.system}</span>
      </button>
      {open && <Opened finding={finding} job={job} makeJob={makeJob} />}
    </li>
  )
}

function Opened({ finding, job, makeJob }: Omit<Props, 'opened'>) {
  const { working, sources, limits, cautions: ofWorking } = splitWorking(finding.working)
  const cautions = [...new Set([...finding.cautions, ...ofWorking])]
  const [collection, id] = finding.subject.split('/')
  return (
    <div className="opened">
      {finding.todo !== '' && (
        <>
          <h2>What to do</h2>
          <p>{finding.todo}</p>
        </>
      )}
      {finding.missing !== undefined && (
        <p>
          <strong>Missing:</strong> {finding.missing}
        </p>
      )}
      {cautions.length > 0 && (
        <>
          <h2>Take care</h2>
          <ul>
            {cautions.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
        </>
      )}
      {working.length > 0 && (
        <>
          <h2>Working</h2>
          <pre className="working">{working.join('\n')}</pre>
        </>
      )}
      {limits.length > 0 && (
        <>
          <h2>Where it holds</h2>
          <ul>
            {limits.map((limit) => (
              <li key={limit}>{limit}</li>
            ))}
          </ul>
        </>
      )}
      {sources.length > 0 && (
        <>
          <h2>Source</h2>
          <ul>
            {sources.map((source) => (
              <li key={source}>{source}</li>
            ))}
          </ul>
        </>
      )}
      <div className="row">
        {finding.verdict !== 'sound' &&
          (job === undefined ? (
            <button type="button" className="first" onClick={makeJob}>
              Make it a job
            </button>
          ) : (
            <p role="status">
              Job <Link to={`/jobs/of/${encodeURIComponent(job.id)}`}>{job.id}</Link>, {job.status}; it closes when the
              finding goes.
            </p>
          ))}
        {(collection === 'wires' || collection === 'devices' || collection === 'circuits') && (
          <Link to={`/circuits/of/${collection}/${id}`} className="button">
            Show it in its circuit
          </Link>
        )}
        {(collection === 'runs' || collection === 'passages') && (
          <Link to={collection === 'runs' ? `/loom/runs/${id}` : '/loom'} className="button">
            Show it on the loom
          </Link>
        )}
      </div>
      <Photos about={finding.subject} name={finding.about} />
    </div>
  )
}
