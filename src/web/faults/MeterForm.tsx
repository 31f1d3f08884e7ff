/** Who reads, and with which meter: kept in this browser, and with every reading that is taken from here on. */
import { useState } from 'react'
import { parseNumber } from '../parts/parseNumber.ts'
import { keepMeter, type MeterKept, readMeter } from './meter.ts'

interface Field {
  readonly says: string
  readonly unit: string
  readonly get: (meter: MeterKept) => number
  readonly set: (meter: MeterKept, value: number) => MeterKept
}
const FIELDS: readonly Field[] = [
  {
    says: 'Off by, of the reading',
    unit: '%',
    get: ({ accuracy }) => accuracy.relative * 100,
    set: (meter, value) => ({ ...meter, accuracy: { ...meter.accuracy, relative: value / 100 } }),
  },
  {
    says: 'and so much more, on the range for 12 V',
    unit: 'V',
    get: ({ accuracy }) => accuracy.absolute,
    set: (meter, value) => ({ ...meter, accuracy: { ...meter.accuracy, absolute: value } }),
  },
  {
    says: 'Input resistance',
    unit: 'MΩ',
    get: ({ inputResistance }) => inputResistance / 1e6,
    set: (meter, value) => ({ ...meter, inputResistance: value * 1e6 }),
  },
  {
    says: 'Both leads, touched together',
    unit: 'Ω',
    get: ({ leadResistance }) => leadResistance,
    set: (meter, value) => ({ ...meter, leadResistance: value }),
  },
]
const figure = (value: number): string => String(Number(value.toPrecision(4)))

export function MeterForm() {
  const [meter, setMeter] = useState(readMeter)
  const keep = (next: MeterKept): void => {
    keepMeter(next)
    setMeter(readMeter())
  }
  return (
    <details className="meter">
      <summary>
        {meter.instrument}: ± ({figure(meter.accuracy.relative * 100)} % + {figure(meter.accuracy.absolute)} V)
        {meter.by === '' ? '' : `, read by ${meter.by}`}
      </summary>
      <div className="meter-fields">
        <label>
          Read by
          <input value={meter.by} onChange={(event) => keep({ ...meter, by: event.target.value })} />
        </label>
        <label>
          Instrument
          <input
            defaultValue={meter.instrument}
            onBlur={(event) => keep({ ...meter, instrument: event.target.value })}
          />
        </label>
        {FIELDS.map(({ says, unit, get, set }) => (
          <label key={says}>
            {says}
            <span className="row">
              <input
                inputMode="decimal"
                defaultValue={figure(get(meter))}
                onBlur={(event) => {
                  const value = parseNumber(event.target.value)
                  if (value === undefined || value < 0 || (unit === 'MΩ' && value === 0))
                    event.target.value = figure(get(meter))
                  else keep(set(meter, value))
                }}
              />
              <span>{unit}</span>
            </span>
          </label>
        ))}
      </div>
      <p className="small soft">
        A reading is kept with what stands here. The accuracy is that of volts, from the meter’s own sheet; ohms are
        taken as ± (1 % + 0.3 Ω), a clamp as ± (2 % + 0.1 A).
      </p>
    </details>
  )
}
