/** Which load and which state the stations stand for. */
import { useId } from 'react'
import type { BrakeCase, BrakeChain } from '../../assess/brakes/chain.ts'
import { LOADS, type LoadName } from '../../assess/brakes/facts.ts'
import { type State, statesOf, stateWords } from '../../assess/brakes/states.ts'

interface CaseChooserProps {
  readonly chain: BrakeChain
  readonly onChoose: (chosen: BrakeCase) => void
}

export function CaseChooser({ chain, onChoose }: CaseChooserProps) {
  const [load, state] = [useId(), useId()]
  const { facts } = chain
  return (
    <div className="brake-case">
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
      <label htmlFor={state}>State</label>
      <select
        id={state}
        value={chain.case.state}
        onChange={(event) => onChoose({ ...chain.case, state: event.target.value as State })}
      >
        {statesOf(facts).map((each) => (
          <option key={each} value={each}>
            {stateWords(facts, each)}
          </option>
        ))}
      </select>
    </div>
  )
}
