/** Cooling: the loop drawn as a loop, how near it comes to boiling, and what if. */
import { judgedCooling } from '../../assess/cooling/coolingRules.ts'
import { VERDICTS } from '../../assess/finding.ts'
import { Stations } from '../chain/Stations.tsx'
import { useTrial } from '../chain/useTrial.ts'
import { WhatIfNote } from '../chain/WhatIfNote.tsx'
import { Empty } from '../parts/Empty.tsx'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { CoolingDrawing } from './CoolingDrawing.tsx'
import { coolingLevers } from './levers.ts'
import { readableAt } from './subjects.ts'
import { TemperatureRule } from './TemperatureRule.tsx'
import '../chain/chain.css'
import './cooling.css'

export function Cooling() {
  const trial = useTrial(judgedCooling, coolingLevers, 'Cooling set-up as tried')
  const { stored, tried } = trial
  if (!stored) return <Empty says="No build is open." />
  const shown = tried ?? stored
  const [worst] = [...shown.judged].sort(
    (a, b) =>
      VERDICTS.indexOf(a.finding.verdict) - VERDICTS.indexOf(b.finding.verdict) ||
      Number(b.finding.rule === 'boil-margin') - Number(a.finding.rule === 'boil-margin'),
  )
  return (
    <div className="cooling">
      <h1>Cooling</h1>
      <p className="bench-sentence" aria-live="polite">
        {worst ? (
          <>
            <VerdictMark verdict={worst.finding.verdict} /> {worst.finding.says}
          </>
        ) : (
          'Nothing is entered about the cooling yet. Each station below says what it lacks.'
        )}
      </p>
      <p className="small">
        <b>Never open the system hot.</b> It is under pressure and scalds: everything below is read, filled and tested
        cold.
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
      <div className="cooling-picture">
        <div>
          <CoolingDrawing stored={stored.chain} tried={tried?.chain} />
          <CoolingDrawing stored={stored.chain} tried={tried?.chain} narrow />
        </div>
        <TemperatureRule stored={stored.chain} tried={tried?.chain} />
      </div>
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
