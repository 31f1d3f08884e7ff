/** How sure a search has to be, and what fails how often in this car: both are the builder's to say. */
import { zonePrior } from '../../assess/faults/carFaults.ts'
import { type StoredSearch, SURE } from '../../assess/faults/faults.ts'
import { PRIOR_WEIGHTS } from '../../engineering/electrical/faults/hypothesis.ts'
import type { Build } from '../../model/build.ts'
import { parseNumber } from '../parts/parseNumber.ts'
import { bench } from '../workbench/bench.ts'
import { settingsEdit } from './faultEdits.ts'

const CHOICES = [0.8, SURE, 0.95, 0.99] as const
const NAMES: Readonly<Record<string, string>> = {
  bulb_holder: 'lamp holders',
  exposed: 'joints in the wet',
  connector: 'plugs',
  crimp: 'crimps',
  solder: 'soldered joints',
  wire: 'wires',
  load: 'consumers',
  fuse: 'fuses',
  switch: 'switches and contacts',
  battery: 'the battery',
}

export function SearchSettings({ build, search }: { build: Build; search: StoredSearch }) {
  const { sure = SURE, priors = {} } = search
  const weight = (key: string, name: string, usual: number) => (
    <label key={key}>
      {name}
      <input
        inputMode="decimal"
        defaultValue={priors[key] ?? usual}
        onBlur={(event) => {
          const value = parseNumber(event.target.value)
          if (value === undefined || value <= 0) event.target.value = String(priors[key] ?? usual)
          else if (value !== (priors[key] ?? usual))
            bench.edit(settingsEdit(search, { priors: { ...priors, [key]: value } }))
        }}
      />
    </label>
  )
  return (
    <details>
      <summary>How sure, and what fails most</summary>
      <label>
        It stops when it is so sure of one part{' '}
        <select
          value={sure}
          onChange={(event) => void bench.edit(settingsEdit(search, { sure: Number(event.target.value) }))}
        >
          {[...new Set([...CHOICES, sure])].map((each) => (
            <option key={each} value={each}>
              {Math.round(100 * each)} %
            </option>
          ))}
        </select>
      </label>
      <p className="small soft">
        How often each fails, against the others. Common practice, no published source; yours stand in their place.
      </p>
      <div className="meter-fields">
        {Object.entries(PRIOR_WEIGHTS).map(([kind, usual]) => weight(kind, NAMES[kind] ?? kind, usual))}
      </div>
      <p className="small soft">
        How many times as often as elsewhere things fail in a zone, such as one that was under water. That joints fail
        more in the wet and where it shakes is counted already.
      </p>
      <div className="meter-fields">
        {Object.values(build.collections.zones).map(({ id, name }) => weight(zonePrior(id), name, 1))}
      </div>
    </details>
  )
}
