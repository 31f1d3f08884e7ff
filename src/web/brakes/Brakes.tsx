/** Brakes: the chain from pedal to tyre in a chosen case, which axle locks first, pedal force in every state, and what if. */
import { useCallback, useState } from 'react'
import { isAdhesion } from '../../assess/brakes/adhesion.ts'
import { judgedBrakes } from '../../assess/brakes/brakeRules.ts'
import { type BrakeCase, FIRST_CASE } from '../../assess/brakes/chain.ts'
import type { Build } from '../../model/build.ts'
import { BenchSentence } from '../chain/BenchSentence.tsx'
import { Stations } from '../chain/Stations.tsx'
import { useTrial } from '../chain/useTrial.ts'
import { WhatIfNote } from '../chain/WhatIfNote.tsx'
import { Empty } from '../parts/Empty.tsx'
import { AdhesionDrawing, verdictWords } from './AdhesionDrawing.tsx'
import { BrakeDrawing } from './BrakeDrawing.tsx'
import { CaseChooser } from './CaseChooser.tsx'
import { brakeLevers } from './levers.ts'
import { PedalTable } from './PedalTable.tsx'
import { readableAt } from './subjects.ts'
import { VacuumUsers } from './VacuumUsers.tsx'
import '../chain/chain.css'
import './brakes.css'

export function Brakes() {
  const [chosen, setChosen] = useState<BrakeCase>(FIRST_CASE)
  const judge = useCallback((build: Build) => judgedBrakes(build, chosen), [chosen])
  const trial = useTrial(judge, brakeLevers, 'Brakes as tried')
  const { stored, tried } = trial
  if (!stored) return <Empty says="No build is open." />
  const shown = tried ?? stored
  const adhesion = shown.chain.adhesion[shown.chain.case.load]
  return (
    <div className="brakes">
      <h1>Brakes</h1>
      <BenchSentence judged={shown.judged} about="the brakes" />
      <p className="small">
        <b>Figures are no inspection.</b> At best the arithmetic holds; a qualified person must inspect the brakes
        before the car is driven
        {shown.chain.facts.antiLock ? ', and the anti-lock unit is a brake specialist’s work' : ''}.
      </p>
      <WhatIfNote trial={trial} />
      <CaseChooser chain={shown.chain} onChoose={setChosen} />
      <BrakeDrawing stored={stored.chain} tried={tried?.chain} />
      <BrakeDrawing stored={stored.chain} tried={tried?.chain} narrow />
      <div className="brake-pictures">
        <PedalTable stored={stored.chain} tried={tried?.chain} onChoose={setChosen} />
        <section className="locks-first" aria-label="Which axle locks first">
          <h2>Which axle locks first</h2>
          {isAdhesion(adhesion) && (
            <p>
              {adhesion.load === 'laden' ? 'Laden' : 'Driver only'}: <b>{verdictWords(adhesion)}</b>.
            </p>
          )}
          <AdhesionDrawing stored={stored.chain} tried={tried?.chain} />
          {isAdhesion(adhesion) && (
            <p className="small soft">
              Whole line front, broken line rear; the higher of both locks first. Thin beside them: the linings at the
              ends of their range. Dotted: adhesion used to the full by both. Dash and dot: more adhesion than{' '}
              {shown.chain.facts.yardstick?.name ?? 'a yardstick'} lets a deceleration take.
            </p>
          )}
        </section>
      </div>
      <VacuumUsers vacuum={trial.build?.sheets.vacuum} />
      <p className="small soft">
        Press a part for its figures; open a figure for its working. Stations stand for {shown.chain.case.load},{' '}
        {shown.chain.case.state}.
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
