/** Who speaks: the name that this device keeps with its meter. */
import type { Said } from '../../assess/commissioning/commissioning.ts'
import { keepMeter, readMeter } from '../faults/meter.ts'

export const whoHere = (): string => readMeter().by
export const keepWho = (by: string): void => keepMeter({ ...readMeter(), by })
export const saidNow = (): Said => ({ by: whoHere(), when: new Date().toISOString() })
