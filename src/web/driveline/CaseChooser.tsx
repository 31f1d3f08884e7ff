/** In which gear and with which load the stations stand. */
import { useId } from 'react'
import type { DrivelineCase, DrivelineChain } from '../../assess/driveline/chain.ts'
import { LOADS, type LoadName } from '../../assess/driveline/facts.ts'
import { gearName } from '../../assess/driveline/words.ts'

interface CaseChooserProps {
  readonly chain: DrivelineChain
  readonly onChoose: (chosen: DrivelineCase) => void
}

export function CaseChooser({ chain, onChoose }: CaseChooserProps) {
  const [gear, load] = [useId(), useId()]
  const { ratios } = chain.facts.now
  return (
    <div className="driveline-case">
      <label htmlFor={gear}>Gear</label>
      <select
        id={gear}
        value={chain.case.gear}
        onChange={(event) => onChoose({ ...chain.case, gear: Number(event.target.value) })}
      >
        {ratios.length === 0 && <option value={0}>ratios not entered</option>}
        {ratios.map((ratio, at) => (
          <option key={gearName(at)} value={at}>
            {gearName(at)}, {ratio}
          </option>
        ))}
      </select>
      <label htmlFor={load}>Load</label>
      <select
        id={load}
        value={chain.case.load}
        onChange={(event) => onChoose({ ...chain.case, load: event.target.value as LoadName })}
      >
        {LOADS.map((each) => (
          <option key={each}>{each}</option>
        ))}
      </select>
    </div>
  )
}
