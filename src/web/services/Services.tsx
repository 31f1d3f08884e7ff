/** Oil, exhaust and cabin services: pressure by speed, back-pressure by part, heat beside hot metal, and what if. */
import { judgedServices } from '../../assess/services/servicesRules.ts'
import { BenchSentence } from '../chain/BenchSentence.tsx'
import { Stations } from '../chain/Stations.tsx'
import { useTrial } from '../chain/useTrial.ts'
import { WhatIfNote } from '../chain/WhatIfNote.tsx'
import { Empty } from '../parts/Empty.tsx'
import { AddRows } from './AddRows.tsx'
import { HeatDrawing } from './HeatDrawing.tsx'
import { LossDrawing } from './LossDrawing.tsx'
import { servicesLevers } from './levers.ts'
import { PressureDrawing } from './PressureDrawing.tsx'
import { readableAt } from './subjects.ts'
import '../chain/chain.css'
import './services.css'

export function Services() {
  const trial = useTrial(judgedServices, servicesLevers, 'Services as tried')
  const { stored, tried, build } = trial
  if (!stored || !build) return <Empty says="No build is open." />
  const shown = tried ?? stored
  const both = { stored: stored.chain, tried: tried?.chain }
  return (
    <div className="services">
      <h1>Oil, exhaust and cabin services</h1>
      <BenchSentence judged={shown.judged} about="oil, exhaust and cabin services" chief="oil-pressure" />
      <p className="small">
        <b>Hot metal, hot oil, fumes.</b> Run the engine outside; open nothing hot; touch no belt with the key in. Near
        fuel and brakes at best the arithmetic holds, and a qualified person must inspect it.
      </p>
      <WhatIfNote trial={trial} />
      <div className="services-pictures">
        <section aria-label="Hot oil pressure by speed">
          <h2>Hot oil pressure</h2>
          <PressureDrawing {...both} />
        </section>
        <section aria-label="Back-pressure by part">
          <h2>Back-pressure</h2>
          <LossDrawing {...both} />
        </section>
        <section aria-label="Heat near the exhaust">
          <h2>Near hot metal</h2>
          <HeatDrawing chain={shown.chain} />
        </section>
      </div>
      <p className="small soft">
        Near hot metal: still air at full load. A bar goes from the mean to the side that faces; the upright stroke is
        what it stands. Vacuum users and blanked ports are on the Brakes bench.
      </p>
      <details className="services-rows" open={Object.keys(build.sheets.oil ?? {}).length === 0 || undefined}>
        <summary>
          <h2>Rows to add or take away</h2>
        </summary>
        <AddRows build={build} />
      </details>
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
