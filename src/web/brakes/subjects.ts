/** Which figures a reading may stand in place of: the figure to the subject of its reading. */
import { BRAKE_READINGS } from '../../assess/brakes/facts.ts'
import type { Readable } from '../chain/ReadingField.tsx'

const SUBJECTS: Readonly<Record<string, keyof typeof BRAKE_READINGS>> = {
  source: 'servo-vacuum-idle',
  'front-friction': 'brake-friction-front',
  'rear-friction': 'brake-friction-rear',
  'fluid-temperature': 'brake-fluid-temperature',
}
export const readableAt = (figure: string): Readable | undefined => {
  const subject = SUBJECTS[figure]
  return subject && { subject, kind: BRAKE_READINGS[subject] }
}
