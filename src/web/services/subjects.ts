/** Which figures a reading may stand in place of: the figure to the subject of its reading. */
import { SERVICE_READINGS } from '../../assess/services/facts.ts'
import type { Readable } from '../chain/ReadingField.tsx'

const SUBJECTS: Readonly<Record<string, keyof typeof SERVICE_READINGS>> = {
  'oil-temperature': 'oil-temperature',
  // The trends in use read the same readings.
  'oil-pressure-idle': 'hot idle oil pressure',
  'turbo-need': 'turbo-oil-flow',
  'blow-by': 'blow-by-flow',
  'crankcase-pressure': 'crankcase-pressure',
  'back-measured': 'exhaust-back-pressure',
  'exhaust-surface': 'exhaust-surface',
  'heater-flow': 'heater-coolant-flow',
}
export const readableAt = (figure: string): Readable | undefined => {
  const subject = SUBJECTS[figure]
  return subject && { subject, kind: SERVICE_READINGS[subject] }
}
