/** How a sentence names a record: `Wire W-104`, `Job J-12`. */
import type { CollectionName, SheetName } from './build.ts'

const RECORD: Record<CollectionName, string> = {
  zones: 'Zone',
  circuits: 'Circuit',
  devices: 'Device',
  wires: 'Wire',
  branchPoints: 'Branch point',
  runs: 'Run',
  passages: 'Passage',
  cases: 'Operating case',
  inputs: 'Input',
  outputs: 'Output',
  sensors: 'Sensor',
  resistanceSwitches: 'Resistance switch',
  levelSenders: 'Level sender',
  gauges: 'Gauge',
  jobs: 'Job',
  accesses: 'Access',
  parts: 'Part',
  milestones: 'Milestone',
  readings: 'Reading',
  faultSearches: 'Fault search',
  logs: 'Log',
  photos: 'Photo',
  notes: 'Note',
  calibrations: 'Calibration',
  records: 'Record',
  checks: 'Row',
  evidence: 'Evidence',
}
const SHEET: Record<SheetName, string> = {
  vehicle: 'The vehicle sheet',
  engine: 'The engine sheet',
  fuel: 'The fuel sheet',
  air: 'The air sheet',
  cooling: 'The cooling sheet',
  oil: 'The oil sheet',
  exhaust: 'The exhaust sheet',
  vacuum: 'The vacuum sheet',
  brakes: 'The brake sheet',
  driveline: 'The driveline sheet',
  loom: 'The loom sheet',
}

export const called = (collection: CollectionName, id: string): string => `${RECORD[collection]} ${id}`
export const sheetCalled = (sheet: SheetName): string => SHEET[sheet]
