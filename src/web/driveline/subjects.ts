/** Which figures a reading may stand in place of: the figure to the subject of its reading. */
import { DRIVELINE_READINGS } from '../../assess/driveline/facts.ts'
import type { Readable } from '../chain/ReadingField.tsx'

const SUBJECTS: Readonly<Record<string, keyof typeof DRIVELINE_READINGS>> = {
  'engine-torque': 'engine-torque',
  'clutch-torque': 'clutch-torque',
}
export const readableAt = (figure: string): Readable | undefined => {
  const subject = SUBJECTS[figure]
  return subject && { subject, kind: DRIVELINE_READINGS[subject] }
}
