/** How a sentence names a record: `Wire W-104`, `Job J-12`. */
import type { Build, CollectionName, SheetName } from './build.ts'

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
  fixings: 'Fixing',
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
  cabin: 'The sheet of cabin services',
  brakes: 'The brake sheet',
  driveline: 'The driveline sheet',
  loom: 'The loom sheet',
}

export const called = (collection: CollectionName, id: string): string => `${RECORD[collection]} ${id}`
/** By the name that somebody gave it: `Engine controller`, `Output Radiator fan`; as `called` where it has none. */
export const named = (build: Build, collection: CollectionName, id: string): string => {
  const record = Object.hasOwn(build.collections[collection], id) ? build.collections[collection][id] : undefined
  if (!record || !('name' in record) || record.name === undefined) return called(collection, id)
  return collection === 'devices' ? record.name : `${RECORD[collection]} ${record.name}`
}
export const sheetCalled = (sheet: SheetName): string => SHEET[sheet]
