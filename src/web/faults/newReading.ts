/** A reading as it is kept: with the meter it was taken with, its leads, and who held them. */
import type { Evidence, Test } from '../../assess/faults/faults.ts'
import { KIND } from '../../assess/faults/typed.ts'
import { METER } from '../../assess/testSheets/expect.ts'
import type { MeterReading } from '../../assess/testSheets/meterText.ts'
import type { HowTaken } from '../../assess/testSheets/testSheet.ts'
import type { Build, Entity } from '../../model/build.ts'
import { nextId } from '../../model/newId.ts'
import { readMeter } from './meter.ts'

type Reading = Entity<'readings'>

/** With which meter, when and by whom: kept with the reading, lead resistance beside it and not taken off. */
export const howRead = (quantity: Test['quantity'], when: string): HowTaken => {
  const meter = readMeter()
  return {
    when,
    ...(meter.by === '' ? {} : { by: meter.by }),
    instrument: meter.instrument,
    accuracy: quantity === 'volts' ? meter.accuracy : METER[quantity],
    ...(quantity === 'volts' ? { inputResistance: { value: meter.inputResistance } } : {}),
    ...(quantity === 'ohms' ? { leadResistance: { value: meter.leadResistance } } : {}),
  }
}

/** `read`: as the meter shows it. */
export const newReading = (build: Build, test: Test, read: MeterReading, when: string): Reading => ({
  id: nextId(build.collections.readings, 'M'),
  subject: test.says.slice(0, 160),
  quantity: KIND[test.quantity],
  ...read,
  at: test.at,
  ...(test.against === undefined ? {} : { against: test.against }),
  ...howRead(test.quantity, when),
})

/** As a search takes it: the leads taken off an ohm reading. */
export const evidenceOf = (reading: Reading, test: Test): Evidence => ({
  kind: 'reading',
  quantity: test.quantity,
  at: test.at,
  ...(test.against === undefined ? {} : { against: test.against }),
  value: reading.value - (reading.leadResistance?.value ?? 0),
  ...(reading.unit === undefined ? {} : { unit: reading.unit }),
  ...(reading.step === undefined ? {} : { step: reading.step }),
  reading: reading.id,
  ...(reading.when === undefined ? {} : { when: reading.when }),
})
