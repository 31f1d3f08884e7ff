/** Air: from outside to the cylinders, what it loses and gains on the way, and what if. */
import { judgedAir } from '../../assess/air/airRules.ts'
import { VERDICTS } from '../../assess/finding.ts'
import { Stations } from '../chain/Stations.tsx'
import { useTrial } from '../chain/useTrial.ts'
import { WhatIfNote } from '../chain/WhatIfNote.tsx'
import { Empty } from '../parts/Empty.tsx'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { AirDrawing } from './AirDrawing.tsx'
import { AirLine } from './AirLine.tsx'
import { airLevers } from './levers.ts'
import { readableAt } from './subjects.ts'
import '../chain/chain.css'

export function Air() {
  const trial = useTrial(judgedAir, airLevers, 'Air set-up as tried')
  const { stored, tried } = trial
  if (!stored) return <Empty says="No build is open." />
  const shown = tried ?? stored
  const [worst] = [...shown.judged].sort(
    (a, b) => VERDICTS.indexOf(a.finding.verdict) - VERDICTS.indexOf(b.finding.verdict),
  )
  return (
    <div className="air">
      <h1>Air</h1>
      <p className="bench-sentence" aria-live="polite">
        {worst ? (
          <>
            <VerdictMark verdict={worst.finding.verdict} /> {worst.finding.says}
          </>
        ) : (
          'Nothing is entered about the air yet. Each station below says what it lacks.'
        )}
      </p>
      {(Object.keys(trial.typed).length > 0 || trial.aside.length > 0) && (
        <WhatIfNote
          readable={tried !== undefined || Object.keys(trial.trial?.problems ?? {}).length === 0}
          canStore={(trial.trial?.changes.length ?? 0) > 0}
          aside={trial.aside}
          onStore={trial.store}
          onBack={trial.back}
        />
      )}
      <AirDrawing stored={stored.chain} tried={tried?.chain} />
      <AirLine stored={stored.chain} tried={tried?.chain} />
      <p className="small soft">
        Press a part for its figures; open a figure for its working. What was measured stands in place of what was
        reckoned, and says so.
      </p>
      <Stations
        stored={stored.chain.stations}
        tried={tried?.chain.stations}
        judged={shown.judged}
        trial={trial}
        readableAt={readableAt}
      />
    </div>
  )
}
