/** Which figures a reading may stand in place of: the figure to the subject of its reading. */
import { COOLING_READINGS } from '../../assess/cooling/facts.ts'
import type { Readable } from '../chain/ReadingField.tsx'

const SUBJECTS: Readonly<Record<string, keyof typeof COOLING_READINGS>> = {
  'radiator-air': 'radiator-air-flow',
  'coolant-flow': 'coolant-flow',
  coolant: 'coolant-temperature-climb',
  'cap-pressure': 'cap-opening-pressure',
}
export const readableAt = (figure: string): Readable | undefined => {
  const subject = SUBJECTS[figure]
  return subject && { subject, kind: COOLING_READINGS[subject] }
}
