/** Air: from outside to the cylinders, what it loses and gains on the way, and what if. */
import { judgedAir } from '../../assess/air/airRules.ts'
import { BenchSentence } from '../chain/BenchSentence.tsx'
import { Stations } from '../chain/Stations.tsx'
import { useTrial } from '../chain/useTrial.ts'
import { WhatIfNote } from '../chain/WhatIfNote.tsx'
import { Empty } from '../parts/Empty.tsx'
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
  return (
    <div className="air">
      <h1>Air</h1>
      <BenchSentence judged={shown.judged} about="the air" />
      <WhatIfNote trial={trial} />
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
