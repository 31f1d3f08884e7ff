/** One row of a list: its word and shape, what there is to show, and what can be said of it. */
import { evidenceEdit } from '../../assess/commissioning/commissioning.ts'
import { filedUnderRow, INSPECT, type RowStanding } from '../../assess/lists/rows.ts'
import { removeRow } from '../../assess/lists/start.ts'
import type { Build } from '../../model/build.ts'
import { withDays } from '../jobs/today.ts'
import { VERDICT_SHAPES } from '../parts/VerdictMark.tsx'
import { Photos } from '../phone/Photos.tsx'
import { bench } from '../workbench/bench.ts'
import { EvidenceList } from './EvidenceList.tsx'
import { keep } from './keep.ts'
import { SayForm } from './SayForm.tsx'
import { saidNow } from './who.ts'

export function ListRow({ build, row }: { build: Build; row: RowStanding }) {
  const { check, verdict, says, missing, evidence, qualified } = row
  const filed = filedUnderRow(check)
  const first = check.every ? 'Done today' : verdict === 'sound' ? undefined : 'Shown: as it should be'
  return (
    <section className="ask" aria-label={check.title}>
      <p className="verdict">
        <RowMark row={row} />
        {check.origin === 'common practice' && <span className="soft small"> common practice</span>}
      </p>
      <h3>{check.title}</h3>
      {check.every && <p>{withDays(says)}</p>}
      {check.every && missing !== undefined && <p>Missing: {missing}.</p>}
      {qualified && verdict === 'sound' && <p>{INSPECT}</p>}
      <EvidenceList {...{ build, lines: evidence }} />
      <div className="answers no-print">
        <SayForm
          about={check.title}
          {...(first === undefined ? {} : { first })}
          choices={['not as it should', 'does not apply', 'a remark']}
          say={(shows, words) =>
            keep(() =>
              evidenceEdit(build, filed, check.title, shows, saidNow(), words === undefined ? {} : { says: words }),
            )
          }
        >
          <Photos about={filed} name={check.title} />
          <button type="button" className="quiet" onClick={() => void bench.edit(removeRow(build, check))}>
            Strike out<span className="out-of-sight">: {check.title}</span>
          </button>
        </SayForm>
      </div>
    </section>
  )
}

/** The verdict’s shape with the list’s own word; never green where a qualified person still has to look. */
function RowMark({ row: { verdict, word, qualified } }: { row: RowStanding }) {
  return (
    <span className="row-mark" style={{ color: qualified && verdict === 'sound' ? 'var(--ink)' : `var(--${verdict})` }}>
      <svg width="28" height="16" viewBox="0 0 28 16" aria-hidden="true">
        <path
          d={VERDICT_SHAPES[verdict]}
          fill="none"
          stroke="currentColor"
          strokeWidth={verdict === 'unknown' ? 3 : 2}
          strokeDasharray={verdict === 'unknown' ? '3 4' : undefined}
        />
      </svg>{' '}
      {word.charAt(0).toUpperCase() + word.slice(1)}
    </span>
  )
}
