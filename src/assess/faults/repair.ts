/** A search that has found its part: the repair as a job with its parts, and the search closed once a reading confirms. */
import { DRAGGING, HELD_FAST } from '../../engineering/electrical/faults/parts.ts'
import type { Build, Change, Edit, Entity, Job } from '../../model/build.ts'
import { nextId } from '../../model/newId.ts'
import { refuse } from '../../units/problem.ts'
import { DEAD_CIRCUIT, NO_AIRBAG, placeCautions } from '../electricalCautions.ts'
import { BATTERY_CAUTION, own, squareMillimetres } from '../make.ts'
import type { NamedPart } from './carFaults.ts'
import { accessTo } from './reach.ts'
import type { ReadySearch } from './start.ts'
import type { StoredSearch } from './types.ts'
import { complaintSays } from './words.ts'

const short = (text: string, length: number): string => (text.length <= length ? text : `${text.slice(0, length - 1)}…`)

interface Repair {
  readonly title: string
  readonly steps: readonly string[]
  /** Minutes: least, likely, most. Common practice, no published source. */
  readonly minutes: readonly [number, number, number]
  readonly parts: readonly string[]
}

const sizeOf = (build: Build, wires: readonly string[]): string => {
  const area = wires.map((id) => own(build.collections.wires, id)?.area?.value).find((each) => each !== undefined)
  return area === undefined ? 'as fitted' : squareMillimetres(area)
}

/** It turns, and hard: mostly nothing electrical is wrong with it. */
const freed = (name: string): Repair => ({
  title: `Free ${name}, or renew it`,
  steps: [
    'Battery off, or its fuse out: it may start by itself when it is freed.',
    'Turn it by hand: look for what brakes it (a cable or a stone in the blades, a dry bearing, a blocked filter or hose).',
    'Where it turns freely and still draws too much, renew it; then the fuse, if it has been hot.',
  ],
  minutes: [15, 45, 120],
  parts: [`Replacement for ${name}, should it not come free`],
})

const repairFor = (build: Build, { kind, name, devices, wires }: NamedPart, mode: string | undefined): Repair => {
  const size = sizeOf(build, wires)
  if (mode?.startsWith(DRAGGING) || mode?.startsWith(HELD_FAST)) return freed(name)
  switch (kind) {
    case 'bulb_holder':
      return {
        title: `Renew ${name}`,
        steps: ['Battery off.', 'Clean or renew the holder and its terminals, seal and grease them.'],
        minutes: [20, 40, 90],
        parts: [`Lamp holder with terminals for ${size}`],
      }
    case 'exposed':
    case 'connector':
    case 'crimp':
    case 'solder':
      return {
        title: `Remake ${name}`,
        steps: ['Battery off.', 'Cut back to bright copper, crimp a new terminal, seal it where the place is wet.'],
        minutes: [15, 30, 75],
        parts: [`Terminal for ${size}, with seal`],
      }
    case 'stud':
      return {
        title: `Clean ${name}`,
        steps: ['Battery off.', 'Bright metal under the ring, serrated washer, tighten, then protect with wax.'],
        minutes: [10, 25, 60],
        parts: ['Serrated washer and nut for the earth stud'],
      }
    case 'wire':
      return {
        title: `Renew ${name}`,
        steps: ['Battery off.', 'Find where it is broken or chafed; renew it, and protect the place.'],
        minutes: [30, 60, 180],
        parts: [`Wire ${size}, as fitted`],
      }
    case 'fuse': {
      const spec = own(build.collections.devices, devices[0] ?? '')?.spec
      const rating = spec?.kind === 'fuse' && spec.rating ? `${spec.rating.value} A` : 'as fitted'
      return {
        title: `Renew ${name}`,
        steps: [
          'Find first what blew it: a lamp of 21 W in its place must stay dark with the loads off.',
          'Then a new fuse of the same rating.',
        ],
        minutes: [5, 15, 60],
        parts: [`Fuse, ${rating}`],
      }
    }
    default:
      return {
        title: `Renew ${name}`,
        steps: ['Battery off.', 'Renew it, or open and clean it where it is made for that.'],
        minutes: [20, 45, 120],
        parts: [`Replacement for ${name}`],
      }
  }
}

/** The edit that makes the found part a job with its parts and ties both to the search. `part`: id of a suspect. */
export const repairOf = (
  ready: Pick<ReadySearch, 'build' | 'parts' | 'leftOut'>,
  stored: StoredSearch,
  part: string,
  when?: string,
  mode?: string,
): Edit => {
  const { build } = ready
  const named = part.split(' + ').map((each) => ready.parts.get(each))
  if (named.some((each) => each === undefined))
    throw refuse(
      'unknown-part',
      `${part} is no suspect of this search.`,
      `Name one of: ${[...ready.parts.keys()].join(', ')}.`,
    )
  const changes: Change[] = []
  const repairs = named.map((each) => repairFor(build, each!, mode))
  const jobId = short(`J-repair-${stored.id}`, 48)
  const partIds: string[] = []
  repairs.forEach((repair, r) => {
    repair.parts.forEach((called, p) => {
      const id = short(`P-repair-${stored.id}-${r + 1}-${p + 1}`, 48)
      partIds.push(id)
      // What is on the shelf already stays so when the repair is written again.
      if (own(build.collections.parts, id)) return
      const value: Entity<'parts'> = { id, name: short(called, 160), status: 'wanted', quantity: 1 }
      changes.push({ collection: 'parts', id, value })
    })
  })
  const zone = named[0]!.zone
  const access = accessTo(build, zone).access
  const minutes = (k: 0 | 1 | 2): number => repairs.reduce((sum, repair) => sum + repair.minutes[k] * 60, 0)
  const devices = named.flatMap((each) => each!.devices)
  const sheet = own(build.collections.devices, stored.complaint.device)?.circuit
  const job: Job = {
    id: jobId,
    title: short(repairs.map(({ title }) => title).join('; '), 160),
    ...(zone === undefined ? {} : { zone }),
    time: { least: { value: minutes(0) }, likely: { value: minutes(1) }, most: { value: minutes(2) } },
    needs: { parts: partIds },
    ...(access === undefined ? {} : { accesses: [access] }),
    status: 'to do',
    steps: [
      ...repairs.flatMap(({ steps }) => steps),
      `Confirm with the test sheet${sheet === undefined ? '' : ` of circuit ${sheet}`}, then close the search ${stored.id}.`,
    ],
    cautions: [
      ...new Set([
        BATTERY_CAUTION,
        DEAD_CIRCUIT,
        ...placeCautions(build, devices),
        ...(ready.leftOut.length > 0 ? [NO_AIRBAG] : []),
      ]),
    ].map((caution) => short(caution, 160)),
    remark: `Found by fault search ${stored.id}: ${stored.complaint.says ?? stored.complaint.kind}.`,
  }
  changes.push({ collection: 'jobs', id: jobId, value: job })
  const called = named.map((each) => each!.name).join(', and ')
  const value: StoredSearch = {
    ...stored,
    found: { part: short(part, 160), name: short(called, 160), ...(mode === undefined ? {} : { mode }) },
    job: jobId,
    history: [
      ...(stored.history ?? []),
      { ...(when === undefined ? {} : { when }), says: `Found: ${called}. Repair is job ${jobId}.` },
    ],
  }
  changes.push({ collection: 'faultSearches', id: stored.id, value })
  return { label: `Repair of ${called}`, changes }
}

/** Closes a search; its evidence and history stay. `says`: what confirmed it, or why it is given up. */
export const closeSearch = (build: Build, stored: StoredSearch, says: string, when?: string): Edit => {
  const job = stored.job === undefined ? undefined : own(build.collections.jobs, stored.job)
  const at = when === undefined ? {} : { when }
  const value: StoredSearch = {
    ...stored,
    status: 'closed',
    ...(when === undefined ? {} : { closed: when }),
    history: [...(stored.history ?? []), { ...at, says }],
  }
  return {
    label: `Close fault search ${stored.id}`,
    changes: [
      { collection: 'faultSearches', id: stored.id, value },
      ...(job && job.status !== 'done' && job.status !== 'closed'
        ? [{ collection: 'jobs' as const, id: job.id, value: { ...job, status: 'done' as const } }]
        : []),
    ],
  }
}

/** A new search, with an id that is free. */
export const newSearch = (
  build: Build,
  start: Pick<StoredSearch, 'complaint' | 'case'> & Partial<StoredSearch>,
  when?: string,
): StoredSearch => ({
  id: nextId(build.collections.faultSearches, 'F'),
  evidence: [],
  status: 'open',
  ...(when === undefined ? {} : { opened: when }),
  history: [
    {
      ...(when === undefined ? {} : { when }),
      says: `Opened: ${complaintSays(build, start.complaint)}.`,
    },
  ],
  ...start,
})
