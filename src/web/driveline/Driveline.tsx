/** Driveline: the chain from the crankshaft to the road in a chosen gear, gearing, the propeller shaft, weights, and what if. */
import { useCallback, useState } from 'react'
import { isKnown } from '../../assess/chain/chain.ts'
import type { DrivelineCase, DrivelineChain } from '../../assess/driveline/chain.ts'
import { judgedDriveline } from '../../assess/driveline/drivelineRules.ts'
import { gearName } from '../../assess/driveline/words.ts'
import type { Build } from '../../model/build.ts'
import { BenchSentence } from '../chain/BenchSentence.tsx'
import { datumText } from '../chain/FigureLine.tsx'
import { Stations } from '../chain/Stations.tsx'
import { useTrial } from '../chain/useTrial.ts'
import { WhatIfNote } from '../chain/WhatIfNote.tsx'
import { Empty } from '../parts/Empty.tsx'
import { CarWeights } from './CarWeights.tsx'
import { CaseChooser } from './CaseChooser.tsx'
import { GearingDrawing } from './GearingDrawing.tsx'
import { drivelineLevers } from './levers.ts'
import { ShaftDrawing } from './ShaftDrawing.tsx'
import { ShaftSpeeds } from './ShaftSpeeds.tsx'
import { readableAt } from './subjects.ts'
import { TorqueDrawing } from './TorqueDrawing.tsx'
import '../chain/chain.css'
import './driveline.css'

const LABELS: Readonly<Record<string, string>> = {
  clutch: 'the clutch',
  gearbox: 'the gearbox',
  mounts: 'the engine mounts',
  shaft: 'the propeller shaft',
  joints: 'the joints',
  axle: 'the axle',
}

/** The weakest part and the tyres, in one currency. */
function Weakest({ chain }: { chain: DrivelineChain }) {
  const { weakest, torques, facts, case: chosen } = chain
  if (!weakest)
    return (
      <p>
        Which part gives out first is not known: no limit of any part is entered that this gear can be reckoned with.
      </p>
    )
  const capacity = torques.capacities[weakest]
  return (
    <p>
      In {gearName(chosen.gear)}, {chosen.load}, the first to give out is <b>{LABELS[weakest]}</b>, at{' '}
      <b>{datumText('torque', capacity)}</b> of engine torque
      {isKnown(facts.torque) && <> of the {datumText('torque', facts.torque)} that the engine has</>}
      {isKnown(torques.gripAsEngine) && <>; the tyres spin at {datumText('torque', torques.gripAsEngine)}</>}.
    </p>
  )
}

export function Driveline() {
  const [chosen, setChosen] = useState<DrivelineCase>()
  const judge = useCallback((build: Build) => judgedDriveline(build, chosen), [chosen])
  const trial = useTrial(judge, drivelineLevers, 'Driveline as tried')
  const { stored, tried } = trial
  if (!stored) return <Empty says="No build is open." />
  const shown = tried ?? stored
  const both = { stored: stored.chain, tried: tried?.chain }
  return (
    <div className="driveline">
      <h1>Driveline</h1>
      <BenchSentence judged={shown.judged} about="the driveline" chief="propshaft-whirl" />
      <p className="small">
        <b>Figures are no inspection.</b> At best the arithmetic holds; a qualified person must inspect driveline,
        mounts and brackets before the car is driven. A propeller shaft is made and balanced by a specialist.
      </p>
      <WhatIfNote trial={trial} />
      <CaseChooser chain={shown.chain} onChoose={setChosen} />
      <Weakest chain={shown.chain} />
      <TorqueDrawing {...both} />
      <TorqueDrawing {...both} narrow />
      <p className="small soft">
        Every shelf stands for engine torque in this gear: what a part stands, the stroke through it its ±. Broken: less
        than it gets. Dashed: beyond it the tyres spin, and nothing behind the clutch gets more. Press a part for its
        figures.
      </p>
      <div className="driveline-pictures">
        <section aria-label="Road speed and revs">
          <h2>Road speed and revs</h2>
          <GearingDrawing {...both} />
        </section>
        <section aria-label="Four scales and centre of gravity">
          <h2>Four scales</h2>
          <CarWeights chain={shown.chain} />
        </section>
      </div>
      {shown.chain.parts.includes('shaft') && (
        <section aria-label="Propeller shaft">
          <h2>Propeller shaft</h2>
          <ShaftDrawing {...both} />
          <ShaftDrawing {...both} narrow />
          <ShaftSpeeds {...both} />
          <ShaftSpeeds {...both} narrow />
        </section>
      )}
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
