/** What is there to show: figure, words, day and name, oldest first; photographs stand beside. */
import { takeBack } from '../../assess/commissioning/commissioning.ts'
import type { EvidenceLine } from '../../assess/commissioning/types.ts'
import type { Build } from '../../model/build.ts'
import { dayText } from '../jobs/today.ts'
import { bench } from '../workbench/bench.ts'

const SHOWN = 3

export function EvidenceList({ build, lines }: { build: Build; lines: readonly EvidenceLine[] }) {
  const written = lines.filter(({ photo }) => photo === undefined)
  if (written.length === 0) return null
  const list = (
    <ul className="plain evidence">
      {written.map((line, i) => (
        <EvidenceItem key={line.entry ?? `${i} ${line.says}`} build={build} line={line} />
      ))}
    </ul>
  )
  return written.length <= SHOWN ? (
    list
  ) : (
    <details>
      <summary>{written.length} pieces of evidence</summary>
      {list}
    </details>
  )
}

function EvidenceItem({ build, line: { says, figure, when, by, entry } }: { build: Build; line: EvidenceLine }) {
  const stored = entry === undefined ? undefined : build.collections.evidence[entry]
  return (
    <li>
      {figure !== undefined && <strong className="taken">{figure} </strong>}
      {says}{' '}
      <span className="soft small">
        {[by, when && dayText(when.slice(0, 10))].filter(Boolean).join(', ') || 'no name, no day'}
      </span>
      {stored && (
        <button type="button" className="quiet no-print" onClick={() => void bench.edit(takeBack(stored))}>
          Take back<span className="out-of-sight">: {says}</span>
        </button>
      )}
    </li>
  )
}
