/**
 * What is not known, gathered: one line for each kind of datum that is missing, with the items that lack it, the one that
 * settles most first. Findings name what they miss in words for people; the names of this build's things part the words
 * into datum and item again. What no name fits is told of the finding's own subject, so nothing is lost.
 */
import type { Build } from '../model/build.ts'
import { naturalOrder } from '../model/naturalOrder.ts'
import type { Finding } from './finding.ts'
import { list } from './make.ts'

export interface GatheredItem {
  /** `collection/id` or `sheet/name`. */
  readonly subject: string
  readonly name: string
  /** Keys of the findings that miss this datum of this item. */
  readonly findings: readonly string[]
}
export interface Gathered {
  /** `cross-section`, `what it draws`. */
  readonly datum: string
  readonly items: readonly GatheredItem[]
  /** Findings that miss it of any item. */
  readonly asked: number
  /** Findings that lack nothing more once this line and those above it are entered. */
  readonly settles: number
}

interface Gap {
  readonly datum: string
  readonly subject: string
}

/** A piece of what a finding misses; without a subject it names no item. */
interface Piece {
  readonly datum: string
  readonly subject: string | undefined
}

const MARK = '\u0000'
/** Words that may stand right before and right after a name in what a finding misses. */
const BEFORE = '(^|\\bof (?:the |outputs? )?|\\bfor |\\bwhat |\\bthat |\\bwet |, | and )'
const AFTER = '(?=$|, | and | or | of | survives| gets| draws| needs| does| while)'

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')

interface Names {
  readonly pattern: RegExp | undefined
  readonly subjects: ReadonlyMap<string, readonly string[]>
}

const namesOf = ({ collections }: Build): Names => {
  const subjects = new Map<string, string[]>()
  const put = (name: string, subject: string): void => {
    const there = subjects.get(name)
    if (there === undefined) subjects.set(name, [subject])
    else there.push(subject)
  }
  for (const { id } of Object.values(collections.wires)) put(id, `wires/${id}`)
  for (const { id, name } of Object.values(collections.devices)) {
    put(name, `devices/${id}`)
    if (name !== id) put(id, `devices/${id}`)
  }
  for (const collection of ['sensors', 'outputs', 'inputs', 'zones'] as const)
    for (const { id, name } of Object.values(collections[collection])) put(name, `${collection}/${id}`)
  for (const { id, name } of Object.values(collections.cases)) put(`“${name}”`, `cases/${id}`)
  for (const { id } of Object.values(collections.runs)) put(id, `runs/${id}`)
  // The longest first: “Fuel pump relay” is not the relay of a “Fuel pump”.
  const all = [...subjects.keys()].sort((a, b) => b.length - a.length).map(escaped)
  return { pattern: all.length === 0 ? undefined : new RegExp(`${BEFORE}(${all.join('|')})${AFTER}`, 'gu'), subjects }
}

/** One kind, however the load or pin at hand is called. */
const kindOf = (datum: string): string =>
  datum
    .replace(/^what .+ draws(?:, between which pins)?$/, 'what it draws')
    .replace(/^(least voltage at which) .+ (does its job)$/, '$1 it $2')
    .replace(/ at pin \S+$/, ' at its pin')

/** The gaps that one finding names; a datum is empty where only an item is named. */
const gapsIn = (finding: Finding, { pattern, subjects }: Names): readonly Gap[] => {
  const found: string[] = []
  const subjectOf = (name: string): string => {
    const all = subjects.get(name) ?? []
    return all.includes(finding.subject) ? finding.subject : (all[0] ?? finding.subject)
  }
  const said = (finding.missing ?? finding.todo).replace(/, and between which pins/g, '')
  const masked =
    pattern === undefined
      ? said
      : said.replace(pattern, (_, before: string, name: string) => `${before}${MARK}${found.push(name) - 1}${MARK}`)
  const unmasked = (text: string): string =>
    text.replace(new RegExp(`${MARK}(\\d+)${MARK}`, 'g'), (_, index: string) => found[Number(index)] ?? '')
  const pieces = masked.split(/, | and /).flatMap((piece): Piece[] => {
    // “clamp voltage of A, or what suppresses the coil”: one of the two will do.
    if (piece.startsWith('or ')) return []
    const [whole, index] = new RegExp(`${MARK}(\\d+)${MARK}`).exec(piece) ?? []
    if (whole === undefined || index === undefined) return [{ datum: piece.trim(), subject: undefined }]
    const datum = piece
      .replace(new RegExp(` of (?:the |outputs? )?${whole}`), '')
      .replace(whole, piece === whole ? '' : 'it')
      .replace(new RegExp(` of ${MARK}\\d+${MARK}$`), '')
    return [{ datum: unmasked(datum).trim(), subject: subjectOf(found[Number(index)]!) }]
  })
  return pieces.map(({ datum, subject }, at): Gap => {
    // “cross-section and material of W-4”: the item comes later; “clamp voltage of A, B”: the datum came before.
    const later = pieces.slice(at + 1).find((piece) => piece.subject !== undefined)
    const earlier = pieces.slice(0, at).findLast((piece) => piece.datum !== '')
    return {
      datum: kindOf(datum === '' ? (earlier?.datum ?? '') : datum.replace(/^the /, '')),
      subject: subject ?? later?.subject ?? finding.subject,
    }
  })
}

const nameOf = ({ collections }: Build, subject: string, about: string | undefined): string => {
  const [collection, id = ''] = subject.split('/')
  if (collection === 'sheet') return `${id} sheet`
  const records = (collections as unknown as Record<string, Record<string, { readonly name?: string }>>)[
    collection ?? ''
  ]
  const record = records !== undefined && Object.hasOwn(records, id) ? records[id] : undefined
  return record === undefined ? (about ?? id) : (record.name ?? id)
}

const WORDS: Readonly<Record<string, readonly [one: string, many: string]>> = {
  wires: ['wire', 'wires'],
  devices: ['device', 'devices'],
  sensors: ['sensor', 'sensors'],
  outputs: ['output', 'outputs'],
  inputs: ['input', 'inputs'],
  zones: ['zone', 'zones'],
  cases: ['case', 'cases'],
  runs: ['run', 'runs'],
  fixings: ['line of the register', 'lines of the register'],
  sheet: ['sheet', 'sheets'],
}
/** `132 wires and 1 device`; a single item by its name. */
export const howMany = ({ items }: Gathered): string => {
  if (items.length === 1) return items[0]!.name
  const counts = new Map<string, number>()
  for (const { subject } of items) {
    const collection = subject.split('/')[0]!
    counts.set(collection, (counts.get(collection) ?? 0) + 1)
  }
  return list(
    [...counts].map(
      ([collection, count]) => `${count} ${(WORDS[collection] ?? ['item', 'items'])[count === 1 ? 0 : 1]}`,
    ),
  )
}

/** The unknown among the findings; others are passed over. */
export const gather = (build: Build, findings: readonly Finding[]): readonly Gathered[] => {
  const names = namesOf(build)
  const unknown = findings.filter(({ verdict }) => verdict === 'unknown')
  const named = new Map(unknown.map((finding) => [finding.key, gapsIn(finding, names)]))
  const lacks = new Map<string, Set<string>>()
  for (const { datum, subject } of [...named.values()].flat())
    if (datum !== '') lacks.set(subject, (lacks.get(subject) ?? new Set<string>()).add(datum))
  const kinds = new Map<string, Map<string, Set<string>>>()
  const waiting = new Map<string, Set<string>>()
  const abouts = new Map(unknown.map(({ subject, about }) => [subject, about]))
  // A thing named without its datum lacks whatever other findings miss of it.
  for (const [key, gaps] of named)
    for (const { datum, subject } of gaps)
      for (const kind of datum === '' ? (lacks.get(subject) ?? ['figures']) : [datum]) {
        const items = kinds.get(kind) ?? new Map<string, Set<string>>()
        kinds.set(kind, items.set(subject, (items.get(subject) ?? new Set<string>()).add(key)))
        waiting.set(key, (waiting.get(key) ?? new Set<string>()).add(kind))
      }
  const ordered: Gathered[] = []
  while (kinds.size > 0) {
    // A finding that hangs on three kinds gives each a third: what is nearly settled counts most.
    const worth = new Map<string, number>()
    for (const left of waiting.values())
      for (const kind of left) worth.set(kind, (worth.get(kind) ?? 0) + 1 / left.size)
    const [datum, items] = [...kinds].sort(
      ([a], [b]) => (worth.get(b) ?? 0) - (worth.get(a) ?? 0) || (a < b ? -1 : 1),
    )[0]!
    kinds.delete(datum)
    let settles = 0
    for (const [key, left] of waiting) {
      if (!left.delete(datum) || left.size > 0) continue
      settles++
      waiting.delete(key)
    }
    ordered.push({
      datum,
      items: [...items]
        .map(([subject, keys]) => ({
          subject,
          name: nameOf(build, subject, abouts.get(subject)),
          findings: [...keys],
        }))
        .sort((a, b) => b.findings.length - a.findings.length || naturalOrder(a.name, b.name)),
      asked: new Set([...items.values()].flatMap((keys) => [...keys])).size,
      settles,
    })
  }
  return ordered
}
