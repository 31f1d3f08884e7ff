/** Cooling: the loop drawn as a loop, how near it comes to boiling, and what if. */
import { judgedCooling } from '../../assess/cooling/coolingRules.ts'
import { BenchSentence } from '../chain/BenchSentence.tsx'
import { Stations } from '../chain/Stations.tsx'
import { useTrial } from '../chain/useTrial.ts'
import { WhatIfNote } from '../chain/WhatIfNote.tsx'
import { Empty } from '../parts/Empty.tsx'
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
  return (
    <div className="cooling">
      <h1>Cooling</h1>
      <BenchSentence judged={shown.judged} about="the cooling" chief="boil-margin" />
      <p className="small">
        <b>Never open the system hot.</b> It is under pressure and scalds: everything below is read, filled and tested
        cold.
      </p>
      <WhatIfNote trial={trial} />
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
