/** A reading as it is kept: with the meter it was taken with, its leads, and who held them. */
import type { Evidence, Test } from '../../assess/faults/faults.ts'
import { METER } from '../../assess/testSheets/expect.ts'
import type { Build, Entity } from '../../model/build.ts'
import { readMeter } from './meter.ts'

type Reading = Entity<'readings'>

const QUANTITY = { volts: 'voltage', ohms: 'resistance', amps: 'current' } as const

const freeReading = (build: Build): string => {
  let n = 1
  while (Object.hasOwn(build.collections.readings, `M-${n}`)) n += 1
  return `M-${n}`
}

/** `value` in V, Ω or A, as the meter shows it: lead resistance is kept beside it, not taken off. */
export const newReading = (build: Build, test: Test, value: number, when: string): Reading => {
  const meter = readMeter()
  return {
    id: freeReading(build),
    subject: test.says.slice(0, 160),
    quantity: QUANTITY[test.quantity],
    value,
    at: test.at,
    ...(test.against === undefined ? {} : { against: test.against }),
    when,
    ...(meter.by === '' ? {} : { by: meter.by }),
    instrument: meter.instrument,
    accuracy: test.quantity === 'volts' ? meter.accuracy : METER[test.quantity],
    ...(test.quantity === 'volts' ? { inputResistance: { value: meter.inputResistance } } : {}),
    ...(test.quantity === 'ohms' ? { leadResistance: { value: meter.leadResistance } } : {}),
  }
}

/** As a search takes it: the leads taken off an ohm reading. */
export const evidenceOf = (reading: Reading, test: Test): Evidence => ({
  kind: 'reading',
  quantity: test.quantity,
  at: test.at,
  ...(test.against === undefined ? {} : { against: test.against }),
  value: reading.value - (reading.leadResistance?.value ?? 0),
  reading: reading.id,
  ...(reading.when === undefined ? {} : { when: reading.when }),
})
