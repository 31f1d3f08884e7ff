/** The evidence of a build in chapters: each figure with its ±, how it was come by, when and by whom, and what it lacks. */
import { complaintSays } from '../assess/faults/words.ts'
import { own, pinName } from '../assess/make.ts'
import { OPEN_OHMS } from '../assess/testSheets/meterText.ts'
import { TICK } from '../assess/testSheets/standing.ts'
import type { Build, Entity } from '../model/build.ts'
import { findUnit } from '../units/find.ts'
import { formatQuantity, KINDS, type Kind } from '../units/index.ts'

export interface Entry {
  /** `readings/M-1`. */
  readonly subject: string
  readonly title: string
  /** With unit and ±; empty where the entry is no figure. */
  readonly figure: string
  /** How, from what, when, by whom: a sentence each. */
  readonly from: readonly string[]
  /** What is not known of it. */
  readonly lacks: readonly string[]
}
export interface Chapter {
  readonly id: 'logs' | 'meters' | 'curves' | 'faults' | 'sittings'
  readonly title: string
  readonly entries: readonly Entry[]
  /** What goes in here and is not there yet; undefined where something is. */
  readonly empty: string | undefined
}

const words = (subject: string): string => {
  const plain = subject.replace(/-/g, ' ')
  return plain.charAt(0).toUpperCase() + plain.slice(1)
}
const day = (when: string | undefined): string[] => (when === undefined ? [] : [`On ${when.slice(0, 10)}.`])
const sentence = (text: string): string => (/[.!?]$/.test(text) ? text : `${text}.`)

const figureOf = ({ quantity, value, unit, plusMinus }: Entity<'readings'>): string =>
  quantity === 'resistance' && value >= OPEN_OHMS
    ? 'no continuity'
    : Object.hasOwn(KINDS, quantity)
      ? formatQuantity(quantity as Kind, value as never, {
          plusMinus,
          unit: unit !== undefined && findUnit(quantity as Kind, unit) ? unit : undefined,
        })
      : `${value}${plusMinus === undefined ? '' : ` ± ${plusMinus}`} (${quantity})`

const placeOf = (build: Build, { at, against }: Entity<'readings'>): string[] => {
  const named = (point: string): string =>
    point
      .split('/')
      .map((part, i) => (i === 0 ? pinName(build, part) : `wire ${part}`))
      .join(', ')
  return at === undefined ? [] : [`At ${named(at)}${against === undefined ? '' : `, against ${named(against)}`}.`]
}

const logOf = (build: Build, id: string): { readonly says: string; readonly lacks: string[] } => {
  const log = own(build.collections.logs, id)
  if (!log) return { says: `Log ${id}.`, lacks: [`log ${id} is no longer in the build`] }
  const span = log.first === null || log.last === null ? '' : `, ${Math.round(log.last - log.first)} s`
  return { says: `Log “${log.name}” (${log.file}): ${log.samples} samples${span}.`, lacks: [] }
}

const readingEntry = (build: Build, reading: Entity<'readings'>): Entry => {
  const { provenance, instrument, by } = reading
  const log = provenance?.log === undefined ? undefined : logOf(build, provenance.log)
  const kase = reading.case === undefined ? undefined : own(build.collections.cases, reading.case)
  return {
    subject: `readings/${reading.id}`,
    title: words(reading.subject),
    figure: figureOf(reading),
    from: [
      ...placeOf(build, reading),
      ...(kase === undefined ? [] : [`In “${kase.name}”.`]),
      ...(provenance === undefined ? [] : [`How: ${sentence(provenance.method)}`]),
      ...(log === undefined ? [] : [log.says]),
      ...(provenance?.remark === undefined ? [] : [sentence(provenance.remark)]),
      ...(instrument === undefined ? [] : [`With ${sentence(instrument)}`]),
      ...day(reading.when),
      ...(by === undefined ? [] : [`Measured by ${sentence(by)}`]),
    ],
    lacks: [
      ...(reading.plusMinus === undefined && reading.accuracy === undefined ? ['its ±'] : []),
      ...(reading.when === undefined ? ['when it was taken'] : []),
      ...(provenance === undefined && instrument === undefined ? ['what it was measured with'] : []),
      ...(log?.lacks ?? []),
    ],
  }
}

const chapter = (id: Chapter['id'], title: string, entries: readonly Entry[], empty: string): Chapter => ({
  id,
  title,
  entries,
  empty: entries.length === 0 ? empty : undefined,
})

const newestFirst = <T extends { readonly when?: string | undefined }>(records: readonly T[]): T[] =>
  [...records].sort((a, b) => (b.when ?? '').localeCompare(a.when ?? ''))

const curves = (build: Build): Entry[] =>
  newestFirst(Object.values(build.collections.calibrations)).map(({ id, name, kind, table, source, when }) => ({
    subject: `calibrations/${id}`,
    title: name,
    figure: '',
    from: [
      sentence(words(kind)),
      ...(table === undefined ? [] : [`${table.length} rows.`]),
      ...(source === undefined ? [] : [sentence(source)]),
      ...day(when),
    ],
    lacks: [...(source === undefined ? ['where it comes from'] : []), ...(when === undefined ? ['its day'] : [])],
  }))

const cards = (build: Build): Entry[] => {
  const card = build.sheets.fuel?.injectors?.card
  if (card === undefined) return []
  const { name, fluid, pressure, slope, method, provenance } = card
  return [
    {
      subject: 'sheet/fuel',
      title: `Injector card: ${name}`,
      figure: formatQuantity('massFlow', slope.value as never, { plusMinus: slope.plusMinus, unit: 'g/min' }),
      from: [
        `In ${fluid.name} at ${formatQuantity('pressureDifference', pressure.value as never)}.`,
        method === 'not known' ? '' : `By ${sentence(method)}`,
        sentence(provenance.from),
        ...(provenance.remark === undefined ? [] : [sentence(provenance.remark)]),
        ...day(provenance.when),
      ].filter(Boolean),
      lacks: [
        ...(method === 'not known' ? ['how it was measured'] : []),
        ...(slope.plusMinus === undefined ? ['its ±'] : []),
      ],
    },
  ]
}

const faults = (build: Build): Entry[] =>
  Object.values(build.collections.faultSearches)
    .filter(({ status }) => status === 'closed')
    .map(({ id, complaint, found, history = [], evidence, closed, job }) => ({
      subject: `faultSearches/${id}`,
      title: complaintSays(build, complaint),
      figure: '',
      from: [
        found === undefined ? 'Closed without a find.' : `Found: ${sentence(found.name)}`,
        `${evidence.length} readings and remarks.`,
        ...history.map(({ when, says }) => `${when === undefined ? '' : `${when.slice(0, 10)}: `}${sentence(says)}`),
        ...day(closed),
      ],
      lacks: found !== undefined && job === undefined ? ['the job that mended it'] : [],
    }))

const sittings = (build: Build): Entry[] =>
  newestFirst(Object.values(build.collections.records).filter(({ kind }) => kind === 'sitting')).map(
    ({ id, title, hours, jobs = [], when, remark }) => ({
      subject: `records/${id}`,
      title,
      figure: hours === undefined ? '' : formatQuantity('time', hours.value as never, { unit: 'h', digits: 2 }),
      from: [
        ...(jobs.length === 0
          ? []
          : [`${jobs.map((job) => own(build.collections.jobs, job)?.title ?? job).join('; ')}.`]),
        ...(remark === undefined ? [] : [sentence(remark)]),
        ...day(when),
      ],
      lacks: [...(hours === undefined ? ['its hours'] : []), ...(when === undefined ? ['its day'] : [])],
    }),
  )

export const chaptersOf = (build: Build): Chapter[] => {
  // A tick is no figure: it stands with the gates.
  const readings = newestFirst(Object.values(build.collections.readings).filter(({ quantity }) => quantity !== TICK))
  const fromLog = (reading: Entity<'readings'>): boolean => reading.provenance?.log !== undefined
  return [
    chapter(
      'logs',
      'Measured from logs',
      readings.filter(fromLog).map((reading) => readingEntry(build, reading)),
      'No log has answered a question yet.',
    ),
    chapter(
      'meters',
      'Measured on the car',
      readings.filter((reading) => !fromLog(reading)).map((reading) => readingEntry(build, reading)),
      'No reading has been kept yet.',
    ),
    chapter(
      'curves',
      'Curves, tables and cards in use',
      [...cards(build), ...curves(build)],
      'No sensor curve, table or injector card is entered yet.',
    ),
    chapter('faults', 'Faults that were looked for', faults(build), 'No fault search has been closed yet.'),
    chapter('sittings', 'Sittings', sittings(build), 'No sitting has been recorded yet.'),
  ]
}
