/** A reading that nobody asked for: any point of the circuit against any other, volts, ohms or amperes. */
import { useState } from 'react'
import { readingCautions } from '../../assess/electricalCautions.ts'
import type { Test } from '../../assess/faults/faults.ts'
import { leadsSay } from '../../assess/faults/words.ts'
import type { MeterReading } from '../../assess/testSheets/meterText.ts'
import type { Build, OperatingCase } from '../../model/build.ts'
import { Cautions } from '../parts/Cautions.tsx'
import { OneNumber } from './OneNumber.tsx'
import type { ShownSearch } from './searchEngine.ts'

interface Props {
  readonly build: Build
  /** State of the car in which it is read. */
  readonly kase: OperatingCase | undefined
  readonly ready: ShownSearch
  readonly take: (test: Test, reading: MeterReading) => void
}
const WHAT = { volts: 'Volts', ohms: 'Ohms, the circuit dead', amps: 'Amperes in a wire' } as const
type Quantity = keyof typeof WHAT

export function OwnReading({ build, kase, ready, take }: Props) {
  const [quantity, setQuantity] = useState<Quantity>('volts')
  const [at, setAt] = useState('')
  const [against, setAgainst] = useState('')
  const points = [...ready.points.values()].filter(({ wire }) => quantity !== 'amps' || wire !== undefined)
  const complete = points.some(({ id }) => id === at) && (quantity !== 'ohms' || against !== '') && at !== against
  const test: Test = {
    quantity,
    at,
    ...(quantity === 'amps' || against === '' ? {} : { against }),
    says: complete ? leadsSay(build, at, against === '' ? undefined : against, 'battery negative') : '',
  }
  return (
    <details className="own-reading">
      <summary>A reading of your own</summary>
      <div className="remark">
        <label>
          What was read
          <select value={quantity} onChange={(event) => setQuantity(event.target.value as Quantity)}>
            {Object.entries(WHAT).map(([id, says]) => (
              <option key={id} value={id}>
                {says}
              </option>
            ))}
          </select>
        </label>
        <label>
          {quantity === 'amps' ? 'Clamp round the wire at' : 'Red lead on'}
          <select value={at} onChange={(event) => setAt(event.target.value)}>
            <option value="">choose</option>
            {points.map(({ id, says }) => (
              <option key={id} value={id}>
                {says}
              </option>
            ))}
          </select>
        </label>
        {quantity !== 'amps' && (
          <label>
            Black lead on
            <select value={against} onChange={(event) => setAgainst(event.target.value)}>
              <option value="">{quantity === 'ohms' ? 'choose' : 'the negative post of the battery'}</option>
              {points.map(({ id, says }) => (
                <option key={id} value={id}>
                  {says}
                </option>
              ))}
            </select>
          </label>
        )}
        {complete && <Cautions list={readingCautions(build, test, kase)} />}
        {complete && <OneNumber key={`${quantity} ${at} ${against}`} test={test} take={take} label="It shows" />}
      </div>
    </details>
  )
}
