/** What to look at or listen to before the next probe, each with the answers that count as a remark. */
import type { LookFirst, StoredSearch } from '../../assess/faults/faults.ts'
import type { Build } from '../../model/build.ts'
import { bench } from '../workbench/bench.ts'
import { remarkSays } from './EvidenceList.tsx'
import { remarkEdit } from './faultEdits.ts'

export function Looks({ build, search, looks }: { build: Build; search: StoredSearch; looks: readonly LookFirst[] }) {
  return (
    <section aria-labelledby="looks">
      <h2 id="looks">Look first, it costs nothing</h2>
      {looks.map((look) => (
        <div key={look.about} className="look">
          <span>{look.says}</span>
          <span className="row">
            {look.answers.map(({ says, remark }) => (
              <button
                key={remark}
                type="button"
                aria-label={`${says}, ${look.name}`}
                onClick={() => {
                  bench.edit(remarkEdit(search, remark, look.about, remarkSays(build, remark, look.about)))
                }}
              >
                {says}
              </button>
            ))}
          </span>
        </div>
      ))}
    </section>
  )
}
