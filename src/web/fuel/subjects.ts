/** Which figures of the fuel chain a reading may stand in place of: `station.figure` to its subject. */
import { READINGS } from '../../assess/fuel/facts.ts'
import type { Readable } from '../chain/ReadingField.tsx'

const SUBJECTS: Readonly<Record<string, keyof typeof READINGS>> = {
  'pump.volts': 'fuel-pump-volts',
  'filter.loss': 'fuel-filter-loss',
  'rail.rail': 'fuel-rail-pressure',
  'injectors.flow': 'injector-static-flow',
}
export const readableAt = (station: string, figure: string): Readable | undefined => {
  const subject = SUBJECTS[`${station}.${figure}`]
  return subject && { subject, kind: READINGS[subject] }
}
