/** The one document: a build. Records by id in named collections, one-of-a-kind sheets beside them. */
import { z } from 'zod'
import { branchPoint, circuit, device, id, input, operatingCase, output, passage, run, wire } from './electrical.ts'
import { check, controllerFile, evidenceEntry, inspection } from './evidence.ts'
import { fixing } from './fixing.ts'
import { measure } from './measure.ts'
import { sheets } from './sheets.ts'
import { gauge, levelSender, resistanceSwitch, sensor } from './signals.ts'
import { name, text } from './words.ts'

export const FORMAT = 'swapwright-build/1'
const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/)
const instant = z.iso.datetime()

export const zone = z.strictObject({
  id,
  name,
  ambient: measure('temperature').optional().describe('highest ambient temperature'),
  wet: z.enum(['dry', 'splash', 'wet']).optional(),
  vibration: z.enum(['body', 'engine', 'wheel']).optional(),
  outline: z
    .array(z.tuple([z.number(), z.number()]))
    .optional()
    .describe('plan view, metres aft of the nose, metres right of the centre line'),
})

export const job = z.strictObject({
  id,
  title: name,
  zone: id.optional(),
  time: z
    .strictObject({
      least: measure('time', 'positive'),
      likely: measure('time', 'positive'),
      most: measure('time', 'positive'),
    })
    .optional(),
  needs: z
    .strictObject({
      jobs: z.array(id).optional(),
      parts: z.array(id).optional(),
      tools: z.array(name).optional(),
      person: z.boolean().optional(),
      dry: z.boolean().optional(),
      daylight: z.boolean().optional(),
    })
    .optional(),
  accesses: z.array(id).optional(),
  milestone: id.optional(),
  status: z.enum(['to do', 'doing', 'done', 'closed']),
  finding: z.string().optional().describe('key of the finding it answers; closes when the finding goes'),
  steps: z.array(text).optional(),
  cautions: z.array(name).optional(),
  spent: measure('time', 'non-negative').optional(),
  remark: text.optional(),
})
export const access = z.strictObject({
  id,
  name,
  zone: id.optional(),
  open: measure('time', 'non-negative').optional(),
  close: measure('time', 'non-negative').optional(),
  requires: z.array(id).optional(),
  excludes: z.array(id).optional(),
  isOpen: z.boolean().optional(),
  drivable: z.boolean().optional().describe('the car can be driven while this is open'),
  cautions: z.array(name).optional(),
})
export const part = z.strictObject({
  id,
  name,
  status: z.enum(['wanted', 'ordered', 'arrived', 'on the shelf', 'fitted', 'borrowed', 'removed', 'returned']),
  quantity: z.number().positive().optional(),
  supplier: name.optional(),
  price: z.number().nonnegative().optional().describe('for the whole quantity'),
  currency: z.string().length(3).optional(),
  from: name.optional(),
  backBy: day.optional(),
  due: day.optional(),
  bestBefore: day.optional().describe('end of shelf life or of the interval: hoses, belts, fluids'),
})
export const milestone = z.strictObject({ id, name, order: z.number().int() })
export const reading = z.strictObject({
  id,
  subject: name.describe('what was measured: charge-cooler-effectiveness, volts at pump…'),
  quantity: z.string(),
  value: z.number(),
  unit: z.string().max(20).optional().describe('in which it was typed; the value is SI'),
  step: z
    .number()
    .positive()
    .optional()
    .describe('worth of the last digit that was typed, SI: tells the range of a meter'),
  plusMinus: z.number().nonnegative().optional(),
  at: z.string().optional(),
  against: z.string().optional(),
  case: id.optional(),
  when: instant.optional(),
  by: name.optional(),
  instrument: name.optional(),
  provenance: z.strictObject({ log: id.optional(), method: name, remark: text.optional() }).optional(),
  accuracy: z
    .strictObject({ relative: z.number().nonnegative().max(1), absolute: z.number().nonnegative() })
    .optional()
    .describe('limits of the instrument: share of the reading plus so much, in the unit of the value'),
  inputResistance: measure('resistance', 'positive').optional().describe('of a voltmeter; 10 MΩ where none is said'),
  leadResistance: measure('resistance', 'non-negative').optional().describe('of both leads, when ohms are read'),
  test: name.optional().describe('line of the test sheet that it answers'),
  search: id.optional().describe('fault search that it was taken for'),
  confirmed: z.boolean().optional().describe('asked about, and right as it stands'),
  remark: text.optional(),
})
const evidence = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('reading'),
    quantity: z.enum(['volts', 'ohms', 'amps']),
    at: z.string().max(160).describe('endpoint, or endpoint/wire for the terminal on that wire'),
    against: z.string().max(160).optional().describe('as `at`; none: battery negative'),
    value: z.number(),
    unit: z.string().max(20).optional().describe('in which it was typed; the value is SI'),
    step: z.number().positive().optional().describe('worth of the last digit that was typed, SI'),
    reading: id.optional().describe('the reading it was taken from'),
    alone: z.boolean().optional().describe('ohms of a part by itself, unplugged or out of its socket'),
    confirmed: z.boolean().optional().describe('asked about, and right as it stands'),
    when: instant.optional(),
  }),
  z.strictObject({
    kind: z.literal('remark'),
    remark: z.string().max(60).describe('key of the list of remarks'),
    about: z.string().max(160).optional().describe('device or wire'),
    when: instant.optional(),
  }),
])
export const faultSearch = z.strictObject({
  id,
  complaint: z.strictObject({
    device: id,
    load: id.optional().describe('where the device has several'),
    kind: z.enum(['dead', 'weak', 'on when it should be off', 'alive when it should be dead', 'comes and goes']),
    at: z.string().max(160).optional().describe('of a point that is alive: endpoint'),
    says: text.optional().describe('in the words of who noticed it'),
  }),
  case: id,
  switches: z.record(id, name).optional().describe('as the car is found: over those of the case'),
  outputs: z.record(id, z.number().min(0).max(1)).optional().describe('as `switches`'),
  evidence: z.array(evidence),
  priors: z
    .record(z.string().max(160), z.number().positive())
    .optional()
    .describe('kind of part or part → weight; zone:<id> → times as often as elsewhere'),
  sure: z.number().min(0.5).max(0.999).optional(),
  status: z.enum(['open', 'closed']),
  found: z.strictObject({ part: name, name, mode: name.optional() }).optional(),
  job: id.optional().describe('the repair'),
  opened: instant.optional(),
  closed: instant.optional(),
  history: z.array(z.strictObject({ when: instant.optional(), says: text })).optional(),
})
export const log = z.strictObject({
  id,
  name,
  file: name,
  table: name,
  added: instant,
  samples: z.number().int().nonnegative(),
  first: z.number().nullable(),
  last: z.number().nullable(),
  source: z.string(),
  channels: z.array(
    z.strictObject({
      name,
      unit: z.string().optional(),
      role: z.string().optional(),
      confirmed: z.boolean().optional(),
    }),
  ),
  remark: text.optional(),
})
export const photo = z.strictObject({
  id,
  file: name,
  caption: text.optional(),
  about: z.string().optional(),
  when: instant.optional(),
})
export const note = z.strictObject({ id, text, about: z.string().optional(), when: instant.optional() })
export const calibration = z.strictObject({
  id,
  name,
  kind: name,
  table: z
    .array(z.tuple([z.number(), z.number()]))
    .optional()
    .describe('of a thermistor: [K, Ω]; of any other kind: [V at the input, SI of what it shows]'),
  source: text.optional(),
  when: instant.optional(),
})
export const record = z.strictObject({
  id,
  kind: z.enum(['commissioning gate', 'donor', 'inspection', 'service', 'calibration change', 'sitting']),
  title: name,
  done: z.boolean().optional(),
  when: instant.optional(),
  evidence: text.optional(),
  hours: measure('time', 'positive').optional().describe('time worked in a sitting'),
  jobs: z.array(id).optional().describe('worked on in a sitting'),
  by: name.optional(),
  gate: name.optional().describe('commissioning gate that it closes'),
  file: controllerFile.optional().describe('of a calibration change'),
  inspection: inspection.optional().describe('of an inspection: where, as what, when'),
  remark: text.optional(),
})

export const collections = {
  zones: zone,
  circuits: circuit,
  devices: device,
  wires: wire,
  branchPoints: branchPoint,
  runs: run,
  passages: passage,
  cases: operatingCase,
  inputs: input,
  outputs: output,
  sensors: sensor,
  resistanceSwitches: resistanceSwitch,
  levelSenders: levelSender,
  gauges: gauge,
  jobs: job,
  accesses: access,
  parts: part,
  milestones: milestone,
  readings: reading,
  faultSearches: faultSearch,
  logs: log,
  photos: photo,
  notes: note,
  calibrations: calibration,
  records: record,
  checks: check,
  evidence: evidenceEntry,
  fixings: fixing,
}
export type CollectionName = keyof typeof collections
export type SheetName = keyof typeof sheets
export type Entity<C extends CollectionName> = z.infer<(typeof collections)[C]>
export type Sheet<S extends SheetName> = z.infer<(typeof sheets)[S]>
export type Device = Entity<'devices'>
export type Wire = Entity<'wires'>
export type OperatingCase = Entity<'cases'>
export type Job = Entity<'jobs'>

export interface Build {
  format: typeof FORMAT
  name: string
  sheets: { [S in SheetName]?: Sheet<S> }
  collections: { [C in CollectionName]: Record<string, Entity<C>> }
}

const byId = <T extends z.ZodType>(schema: T) => z.record(id, schema)
export const buildSchema = z.strictObject({
  format: z.literal(FORMAT),
  name,
  sheets: z.strictObject(sheets).partial(),
  collections: z.strictObject({
    zones: byId(zone),
    circuits: byId(circuit),
    devices: byId(device),
    wires: byId(wire),
    branchPoints: byId(branchPoint),
    runs: byId(run),
    passages: byId(passage),
    cases: byId(operatingCase),
    inputs: byId(input),
    outputs: byId(output),
    sensors: byId(sensor).prefault({}),
    resistanceSwitches: byId(resistanceSwitch).prefault({}),
    levelSenders: byId(levelSender).prefault({}),
    gauges: byId(gauge).prefault({}),
    jobs: byId(job),
    accesses: byId(access),
    parts: byId(part),
    milestones: byId(milestone),
    readings: byId(reading),
    faultSearches: byId(faultSearch).prefault({}),
    logs: byId(log),
    photos: byId(photo),
    notes: byId(note),
    calibrations: byId(calibration),
    records: byId(record),
    checks: byId(check).prefault({}),
    evidence: byId(evidenceEntry).prefault({}),
    fixings: byId(fixing).prefault({}),
  }),
})

export const emptyBuild = (title: string): Build => ({
  format: FORMAT,
  name: title,
  sheets: {},
  collections: Object.fromEntries(Object.keys(collections).map((key) => [key, {}])) as unknown as Build['collections'],
})

/** One change to one record or sheet; `value: null` removes it. An edit is a list of these with a label. */
export type Change =
  | { readonly collection: CollectionName; readonly id: string; readonly value: unknown }
  | { readonly sheet: SheetName; readonly value: unknown }
  | { readonly name: string }
export interface Edit {
  readonly label: string
  readonly changes: readonly Change[]
}
