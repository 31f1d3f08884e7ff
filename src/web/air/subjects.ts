/** Which figures a reading may stand in place of: the figure to the subject of its reading. */
import { AIR_READINGS } from '../../assess/air/facts.ts'
import type { Readable } from '../chain/ReadingField.tsx'

const SUBJECTS: Readonly<Record<string, keyof typeof AIR_READINGS>> = {
  'outside-pressure': 'outside-pressure',
  'intake-temperature': 'intake-air-temperature',
  'intake-loss': 'intake-pressure-loss',
  'compressor-temperature': 'charge-temperature-before-cooler',
  effectiveness: 'charge-cooler-effectiveness',
  'cold-reference': 'charge-cooler-water-in',
  'charge-out': 'charge-temperature-after-cooler',
  'loop-flow': 'charge-cooler-water-flow',
  'charge-loss': 'charge-pressure-loss',
}
export const readableAt = (figure: string): Readable | undefined => {
  const subject = SUBJECTS[figure]
  return subject && { subject, kind: AIR_READINGS[subject] }
}
