/** References from one record or sheet to another record that is not in the build. */
import type { Problem } from '../units/problem.ts'
import type { Build, CollectionName } from './build.ts'
import { called } from './called.ts'

interface Reference {
  readonly path: string
  readonly from: string
  readonly to: CollectionName
  readonly id: string | undefined
}

export const checkReferences = (build: Build): Problem[] =>
  [...references(build)]
    .filter(({ to, id }) => id !== undefined && !Object.hasOwn(build.collections[to], id))
    .map(({ path, from, to, id }) => ({
      code: 'dangling-reference',
      path,
      says: `${from} refers to ${called(to, id!).replace(/^./, (letter) => letter.toLowerCase())}, which does not exist.`,
      todo: 'Choose one that exists, or undo the removal.',
    }))

function* references(build: Build): Generator<Reference> {
  const all = build.collections
  /** One reference, or a list of them, from a field of a record. */
  function* from(
    collection: CollectionName,
    id: string,
    field: string,
    to: CollectionName,
    target: string | readonly string[] | undefined,
  ): Generator<Reference> {
    const path = `${collection}/${id}/${field}`
    if (typeof target === 'string') yield { path, from: called(collection, id), to, id: target }
    else
      for (const [index, one] of (target ?? []).entries())
        yield { path: `${path}/${index}`, from: called(collection, id), to, id: one }
  }

  for (const [id, device] of Object.entries(all.devices)) {
    yield* from('devices', id, 'zone', 'zones', device.zone)
    yield* from('devices', id, 'circuit', 'circuits', device.circuit)
    yield* from('devices', id, 'at', 'branchPoints', device.at)
    for (const [index, load] of (device.loads ?? []).entries())
      yield* from('devices', id, `loads/${index}/onlyIn`, 'cases', load.onlyIn)
  }
  for (const [id, wire] of Object.entries(all.wires)) {
    yield* from('wires', id, 'from', 'devices', deviceOf(wire.from))
    yield* from('wires', id, 'to', 'devices', deviceOf(wire.to))
    yield* from('wires', id, 'path', 'runs', wire.path)
    yield* from('wires', id, 'circuit', 'circuits', wire.circuit)
    yield* from('wires', id, 'twistedWith', 'wires', wire.twistedWith)
    yield* from('wires', id, 'screenEarths', 'devices', wire.screenEarths?.map(deviceOf))
  }
  for (const [id, point] of Object.entries(all.branchPoints))
    yield* from('branchPoints', id, 'zone', 'zones', point.zone)
  for (const [id, run] of Object.entries(all.runs)) {
    yield* from('runs', id, 'from', 'branchPoints', run.from)
    yield* from('runs', id, 'to', 'branchPoints', run.to)
    yield* from('runs', id, 'zone', 'zones', run.zone)
    yield* from('runs', id, 'passage', 'passages', run.passage)
  }
  for (const [id, operating] of Object.entries(all.cases)) {
    yield* from('cases', id, 'switches', 'devices', Object.keys(operating.switches))
    yield* from('cases', id, 'outputs', 'outputs', Object.keys(operating.outputs))
  }
  for (const [id, input] of Object.entries(all.inputs)) {
    yield* from('inputs', id, 'device', 'devices', input.device)
    yield* from('inputs', id, 'source', 'devices', input.source)
    yield* from('inputs', id, 'calibration', 'calibrations', input.calibration)
  }
  for (const [id, output] of Object.entries(all.outputs)) {
    yield* from('outputs', id, 'device', 'devices', output.device)
    yield* from('outputs', id, 'drives', 'devices', output.drives)
  }
  for (const [id, sensor] of Object.entries(all.sensors)) {
    yield* from('sensors', id, 'device', 'devices', sensor.device)
    yield* from('sensors', id, 'input', 'inputs', sensor.input)
    yield* from('sensors', id, 'twin', 'sensors', sensor.twin)
  }
  for (const [id, made] of Object.entries(all.resistanceSwitches)) {
    yield* from('resistanceSwitches', id, 'device', 'devices', made.device)
    yield* from('resistanceSwitches', id, 'input', 'inputs', made.input)
  }
  for (const [id, sender] of Object.entries(all.levelSenders)) {
    yield* from('levelSenders', id, 'device', 'devices', sender.device)
    yield* from('levelSenders', id, 'input', 'inputs', sender.input)
  }
  for (const [id, gauge] of Object.entries(all.gauges)) {
    yield* from('gauges', id, 'device', 'devices', gauge.device)
    yield* from('gauges', id, 'sender', 'levelSenders', gauge.sender)
  }
  for (const [id, job] of Object.entries(all.jobs)) {
    yield* from('jobs', id, 'zone', 'zones', job.zone)
    yield* from('jobs', id, 'needs/jobs', 'jobs', job.needs?.jobs)
    yield* from('jobs', id, 'needs/parts', 'parts', job.needs?.parts)
    yield* from('jobs', id, 'accesses', 'accesses', job.accesses)
    yield* from('jobs', id, 'milestone', 'milestones', job.milestone)
  }
  for (const [id, access] of Object.entries(all.accesses)) {
    yield* from('accesses', id, 'zone', 'zones', access.zone)
    yield* from('accesses', id, 'requires', 'accesses', access.requires)
    yield* from('accesses', id, 'excludes', 'accesses', access.excludes)
  }
  for (const [id, record] of Object.entries(all.records)) {
    yield* from('records', id, 'jobs', 'jobs', record.jobs)
    yield* from('records', id, 'file/before', 'records', record.file?.before)
  }
  for (const [id, check] of Object.entries(all.checks)) {
    yield* from('checks', id, 'list', 'records', check.list)
    yield* from('checks', id, 'zone', 'zones', check.zone)
  }
  for (const [id, fixing] of Object.entries(all.fixings)) yield* from('fixings', id, 'zone', 'zones', fixing.zone)
  for (const [id, entry] of Object.entries(all.evidence)) {
    yield* from('evidence', id, 'reading', 'readings', entry.reading)
    if (entry.of.startsWith('checks/')) yield* from('evidence', id, 'of', 'checks', entry.of.slice('checks/'.length))
  }
  for (const [id, reading] of Object.entries(all.readings)) {
    yield* from('readings', id, 'case', 'cases', reading.case)
    yield* from('readings', id, 'provenance/log', 'logs', reading.provenance?.log)
    yield* from('readings', id, 'search', 'faultSearches', reading.search)
  }
  for (const [id, search] of Object.entries(all.faultSearches)) {
    yield* from('faultSearches', id, 'complaint/device', 'devices', search.complaint.device)
    yield* from('faultSearches', id, 'case', 'cases', search.case)
    yield* from('faultSearches', id, 'switches', 'devices', Object.keys(search.switches ?? {}))
    yield* from('faultSearches', id, 'outputs', 'outputs', Object.keys(search.outputs ?? {}))
    yield* from('faultSearches', id, 'job', 'jobs', search.job)
    for (const [index, entry] of search.evidence.entries())
      if (entry.kind === 'reading')
        yield* from('faultSearches', id, `evidence/${index}/reading`, 'readings', entry.reading)
  }

  const { engine, fuel, air, cooling, exhaust } = build.sheets
  yield { path: 'sheet/engine/controller', from: 'The engine sheet', to: 'devices', id: engine?.controller }
  for (const [index, device] of (fuel?.injectors?.devices ?? []).entries())
    yield { path: `sheet/fuel/injectors/devices/${index}`, from: 'The fuel sheet', to: 'devices', id: device }
  yield { path: 'sheet/fuel/tank/sender', from: 'The fuel sheet', to: 'levelSenders', id: fuel?.tank?.sender }
  yield { path: 'sheet/fuel/pump/device', from: 'The fuel sheet', to: 'devices', id: fuel?.pump?.device }
  yield { path: 'sheet/air/chargeCooler/pump', from: 'The air sheet', to: 'devices', id: air?.chargeCooler?.pump }
  yield { path: 'sheet/air/intakeZone', from: 'The air sheet', to: 'zones', id: air?.intakeZone }
  for (const [index, device] of (cooling?.fans ?? []).entries())
    yield { path: `sheet/cooling/fans/${index}`, from: 'The cooling sheet', to: 'devices', id: device }
  for (const [index, near] of (exhaust?.near ?? []).entries()) {
    yield { path: `sheet/exhaust/near/${index}/run`, from: 'The exhaust sheet', to: 'runs', id: near.run }
    yield { path: `sheet/exhaust/near/${index}/zone`, from: 'The exhaust sheet', to: 'zones', id: near.zone }
  }
}

const deviceOf = (endpoint: string): string => endpoint.slice(0, endpoint.lastIndexOf('.'))
