/** A fault search on a car in the terminal: from what is given, or by asking for one answer after another. */

import { createInterface } from 'node:readline'
import type { Readable } from 'node:stream'
import { isUsable, suitedCases } from '../assess/faults/complaintCase.ts'
import {
  answerOf,
  type ComplaintKind,
  closeSearch,
  type Evidence,
  newSearch,
  REMARKS,
  type ReadySearch,
  repairOf,
  type SearchStart,
  type SearchView,
  type StoredSearch,
  startSearch,
  withEvidence,
} from '../assess/faults/faults.ts'
import { complaintSays, pointSays } from '../assess/faults/words.ts'
import { deviceIdOf, deviceName, list, own } from '../assess/make.ts'
import { figureOf } from '../assess/testSheets/figures.ts'
import { meterReading } from '../assess/testSheets/meterText.ts'
import { PRIOR_WEIGHTS } from '../engineering/electrical/faults/hypothesis.ts'
import type { Build, Change, Entity } from '../model/build.ts'
import { nextId } from '../model/newId.ts'
import type { Store } from '../store/store.ts'
import { Refusal, refuse } from '../units/problem.ts'
import { inert, type Out, problemText, wrap } from './print.ts'

export interface CarOptions {
  readonly build?: string
  readonly kind?: string
  readonly case?: string
  readonly read: readonly string[]
  readonly remark: readonly string[]
  readonly sure?: string
  readonly prior: readonly string[]
  readonly search?: string
  readonly keep?: boolean
  readonly ask?: boolean
  readonly json?: boolean
}

const WIDTH = 100
const KINDS: Readonly<Record<string, ComplaintKind>> = {
  dead: 'dead',
  weak: 'weak',
  on: 'on when it should be off',
  alive: 'alive when it should be dead',
  'comes-and-goes': 'comes and goes',
}

const kindOf = (text: string | undefined): ComplaintKind => {
  const kind = KINDS[text ?? 'dead'] ?? Object.values(KINDS).find((each) => each === text)
  if (!kind) throw refuse('no-kind', `“${text}” is no complaint.`, `Choose ${list(Object.keys(KINDS))}.`)
  return kind
}

/** Of a device, or of a point that is alive: `light-switch.58`. */
const complaintOf = (named: string, kind: string | undefined): SearchStart['complaint'] =>
  kindOf(kind) === 'alive when it should be dead'
    ? { device: deviceIdOf(named), at: named, kind: 'alive when it should be dead' }
    : { device: named, kind: kindOf(kind) }

const settingsOf = (
  build: Build,
  { sure, prior }: CarOptions,
  before: StoredSearch | undefined,
): Pick<StoredSearch, 'sure' | 'priors'> => {
  const share = sure === undefined ? before?.sure : Number(sure)
  if (share !== undefined && !(share >= 0.5 && share <= 0.999))
    throw refuse('no-share', `--sure ${sure} is outside 0.5 … 0.999.`, 'Give a share, such as 0.95.')
  const priors: Record<string, number> = { ...before?.priors }
  for (const text of prior) {
    const cut = text.lastIndexOf('=')
    const weight = Number(text.slice(cut + 1))
    if (cut < 1 || !(weight > 0) || !Number.isFinite(weight))
      throw refuse('no-prior', `“${text}” is no prior.`, 'Write it as kind=weight, weight above 0: crimp=3')
    const key = text.slice(0, cut)
    const zone = key.startsWith('zone:') ? key.slice(5) : undefined
    if (zone !== undefined && !Object.hasOwn(build.collections.zones, zone))
      throw refuse(
        'no-zone',
        `There is no zone ${zone}.`,
        `Name one of: ${Object.keys(build.collections.zones).join(', ')}.`,
      )
    if (!key.includes(':') && !Object.hasOwn(PRIOR_WEIGHTS, key))
      throw refuse(
        'no-kind',
        `“${key}” is no kind of part.`,
        `Name one of: ${Object.keys(PRIOR_WEIGHTS).join(', ')}; or zone:<zone>.`,
      )
    priors[key] = weight
  }
  return {
    ...(share === undefined ? {} : { sure: share }),
    ...(Object.keys(priors).length === 0 ? {} : { priors }),
  }
}

/** The quietest state of the car in which the complaint can be made: nobody measures while driving if standing will do. */
const startInSomeCase = (build: Build, start: Omit<SearchStart, 'case'>): ReadySearch => {
  const [quietest] = suitedCases(build, start.complaint)
  if (quietest !== undefined) return startSearch(build, { ...start, case: quietest })
  const usable = Object.values(build.collections.cases).filter(isUsable)
  const some = usable.find(({ engine }) => engine === 'off') ?? usable[0]
  if (!some)
    throw refuse('no-case', 'There is no operating case with the battery connected.', 'Enter one, as ignition on.')
  // Says why not.
  return startSearch(build, { ...start, case: some.id })
}

/** `tail-left.+=12.9`, `tail-left.+~tail-left.-=11.2 V`, `earth-1.1~battery.-=0.4 ohm`. */
const readingOf = (text: string): Evidence => {
  const cut = text.lastIndexOf('=')
  const [at, against] = text.slice(0, Math.max(0, cut)).split('~')
  if (cut < 0 || !at)
    throw refuse(
      'no-reading',
      `“${text}” is no reading.`,
      'Write it as point=volts, or point~other point=volts: tail-left.+=12.9',
    )
  const value = text.slice(cut + 1).trim()
  const quantity = /(Ω|ohm)s?$/i.test(value) ? 'ohms' : /A$/.test(value) ? 'amps' : 'volts'
  const read = meterReading(quantity, value)
  return answerOf({ quantity, at, ...(against === undefined ? {} : { against }), says: '' }, read)
}

const remarkOf = (build: Build, text: string): Evidence => {
  const [key, about] = text.split(':')
  const remark = REMARKS.find((each) => each.key === key)
  if (!remark) throw refuse('no-remark', `“${key}” is no remark.`, `Choose ${list(REMARKS.map((each) => each.key))}.`)
  if (remark.about !== undefined && about === undefined)
    throw refuse('no-remark', `“${remark.says}”: about what?`, `Write it as ${key}:device.`)
  if (about !== undefined && !own(build.collections.devices, about) && !own(build.collections.wires, about))
    throw refuse('unknown-device', `There is no device or wire ${about}.`, 'Name one of the build.')
  return { kind: 'remark', remark: remark.key, ...(about === undefined ? {} : { about }) }
}

const evidenceText = (build: Build, entry: Evidence): string =>
  entry.kind === 'remark'
    ? (REMARKS.find(({ key }) => key === entry.remark)?.says ?? entry.remark).replace(
        '…',
        entry.about === undefined ? '' : deviceName(build, entry.about),
      )
    : `${figureOf(entry.value, entry.quantity, entry.unit)} at ${pointSays(build, entry.at)}, to ${entry.against === undefined ? 'battery negative' : pointSays(build, entry.against)}`

const percent = (p: number): string => (p > 0.995 ? '> 99 %' : `${(100 * p).toFixed(p < 0.1 ? 1 : 0)} %`)

const standingText = ({ standing, suspects }: SearchView): string => {
  switch (standing.kind) {
    case 'found':
      return `It is the ${standing.name}, ${percent(standing.probability)} sure.`
    case 'searching':
      return `Most suspect so far: ${suspects[0]?.name ?? 'nothing'}.`
    case 'cannot tell apart':
      return `No test that can be taken tells these apart: ${list(standing.parts.map((part) => suspects.find((each) => each.part === part)?.name ?? part))}. Renew the cheapest first, and confirm.`
    case 'the model does not fit':
      return 'What is known fits no fault of this circuit as it is entered. Take the odd reading again, or look for a wire that is not entered.'
    default:
      return 'Before it goes on, this is asked:'
  }
}

const viewText = (build: Build, view: SearchView, evidence: readonly Evidence[], first: boolean): string => {
  const lines: string[] = []
  if (first) lines.push(...view.cautions.map((caution) => wrap(`! ${caution}`, WIDTH)), '')
  evidence.forEach((entry, i) => {
    lines.push(wrap(`${i + 1}. ${evidenceText(build, entry)}`, WIDTH))
  })
  lines.push(wrap(standingText(view), WIDTH))
  for (const { evidence: at, code, says, instead } of view.questions)
    lines.push(
      wrap(
        `? ${at + 1}. ${says}${instead ? ` Answer “yes ${at + 1}” to take it as ${figureOf(instead.value, instead.quantity, instead.unit)},` : ' Answer'} ${code === 'unknown-point' ? '' : `“right ${at + 1}” to keep it, or `}“back ${at + 1}”.`,
        WIDTH,
      ),
    )
  for (const { name, probability, modes } of view.suspects.slice(0, 5))
    lines.push(`  ${percent(probability).padStart(6)}  ${inert(name)}${modes[0] ? ` (${inert(modes[0].mode)})` : ''}`)
  view.looks.forEach(({ says, answers }, i) => {
    const ways = answers.map((answer) => `“look ${i + 1} ${answer.says.toLowerCase()}”`)
    lines.push(wrap(`Look first: ${says} Answer ${ways.join(' or ')}.`, WIDTH))
  })
  if (view.next) {
    const { next } = view
    lines.push(...next.cautions.map((caution) => wrap(`! ${caution}`, WIDTH)))
    lines.push(wrap(`Measure next: ${next.says}. About ${Math.max(1, Math.round(next.time / 60))} min.`, WIDTH))
    for (const { name, value, others } of next.expects)
      lines.push(
        wrap(
          `if it is the ${name}${others > 0 ? ` or ${others} more` : ''}: ${figureOf(value, next.quantity)}`,
          WIDTH - 4,
          '    ',
        ),
      )
  }
  return `${lines.join('\n')}\n`
}

const PROMPT = 'Type what the meter shows, every digit (V), or: look, remark, back, job, stop > '

export const searchCar = async (
  store: Store,
  device: string | undefined,
  options: CarOptions,
  out: Out,
  input: Readable,
): Promise<void> => {
  const build = store.read()
  const before = options.search === undefined ? undefined : own(build.collections.faultSearches, options.search)
  if (options.search !== undefined && !before)
    throw refuse(
      'unknown-search',
      `There is no fault search ${options.search}.`,
      `There are: ${Object.keys(build.collections.faultSearches).join(', ') || 'none yet'}.`,
    )
  if (!before && device === undefined)
    throw refuse('no-device', 'What is wrong, is not said.', 'Name a device: swapwright fault tail-left --kind weak')
  const complaint = before?.complaint ?? complaintOf(device!, options.kind)
  const kase = before?.case ?? options.case
  const start = { complaint, ...settingsOf(build, options, before) }
  const ready = before
    ? startSearch(build, { ...before, ...start })
    : kase === undefined
      ? startInSomeCase(build, start)
      : startSearch(build, { ...start, case: kase })
  const when = new Date().toISOString()
  let search: StoredSearch = before ?? newSearch(build, { ...start, case: ready.start.case }, when)
  search = {
    ...search,
    ...start,
    evidence: [
      ...search.evidence,
      ...options.remark.map((text) => remarkOf(build, text)),
      ...options.read.map((text) => readingOf(text)),
    ],
  }
  const keeps = options.keep === true || options.ask === true || before !== undefined
  const keep = (label: string): void => {
    if (!keeps) return
    const { changes, kept } = withReadings(store.read(), search)
    search = kept
    store.edit({ label, changes: [{ collection: 'faultSearches', id: search.id, value: search }, ...changes] })
  }
  if (
    keeps &&
    (search.evidence.length > (before?.evidence.length ?? 0) || !before || options.sure || options.prior.length)
  )
    keep(`Fault search: ${complaintSays(build, complaint)}`.slice(0, 160))
  let view = withEvidence(ready, search.evidence)
  if (options.json) {
    out.write(
      `${JSON.stringify({ search: keeps ? search.id : undefined, complaint, case: search.case, evidence: search.evidence, ...view, lacking: ready.lacking, leftOut: ready.leftOut }, null, 2)}\n`,
    )
    return
  }
  out.write(
    `${inert(complaintSays(build, complaint))}, in “${inert(build.collections.cases[search.case]?.name ?? search.case)}”${keeps ? `, search ${search.id}` : ''}\n`,
  )
  out.write(viewText(build, view, search.evidence, true))
  if (!options.ask) return
  out.write(PROMPT)
  for await (const line of createInterface({ input, crlfDelay: Number.POSITIVE_INFINITY })) {
    const text = line.trim()
    if (/^(stop|quit|end)$/i.test(text)) break
    try {
      if (text === 'job') {
        makeJob(store, ready, search, view, out)
        break
      }
      if (text !== '') {
        search = { ...search, evidence: answered(build, search.evidence, view, text) }
        view = withEvidence(ready, search.evidence)
        keep(`Fault search ${search.id}: ${text}`.slice(0, 160))
      }
      out.write(`\n${viewText(build, view, search.evidence, false)}`)
    } catch (error) {
      // A mistyped answer is told, and asked for again.
      if (!(error instanceof Refusal)) throw error
      for (const problem of error.problems) out.error(`${problemText(problem)}\n`)
    }
    out.write(PROMPT)
  }
  input.destroy()
  out.write(`\nSearch ${search.id} is kept: swapwright fault --search ${search.id} goes on with it.\n`)
}

/** Each reading of the evidence is kept as a reading of the build as well. */
const withReadings = (build: Build, search: StoredSearch): { changes: Change[]; kept: StoredSearch } => {
  const changes: Change[] = []
  const readings: Record<string, unknown> = { ...build.collections.readings }
  const evidence = search.evidence.map((entry): Evidence => {
    if (entry.kind !== 'reading' || entry.reading !== undefined) return entry
    const id = nextId(readings, 'M')
    readings[id] = true
    const when = new Date().toISOString()
    const value: Entity<'readings'> = {
      id,
      subject: evidenceText(build, entry).slice(0, 160),
      quantity: QUANTITY[entry.quantity],
      value: entry.value,
      ...(entry.unit === undefined ? {} : { unit: entry.unit }),
      ...(entry.step === undefined ? {} : { step: entry.step }),
      at: entry.at,
      ...(entry.against === undefined ? {} : { against: entry.against }),
      case: search.case,
      when,
      search: search.id,
    }
    changes.push({ collection: 'readings', id, value })
    return { ...entry, reading: id, when }
  })
  return { changes, kept: { ...search, evidence } }
}
const QUANTITY = { volts: 'voltage', ohms: 'resistance', amps: 'current' } as const

/** The evidence after one typed answer. Throws `Refusal` for what is none. */
const answered = (build: Build, evidence: readonly Evidence[], view: SearchView, text: string): Evidence[] => {
  const [word, ...rest] = text.split(/\s+/)
  const place = (given: string | undefined): number => {
    const at = given === undefined ? evidence.length - 1 : Number(given) - 1
    if (!evidence[at]) throw refuse('no-evidence', `There is no evidence ${given ?? ''}.`, 'Name the number before it.')
    return at
  }
  if (word === 'back') return evidence.filter((_, i) => i !== place(rest[0]))
  if (word === 'yes' || word === 'right') {
    const at = place(rest[0])
    const question = view.questions.find((each) => each.evidence === at)
    const entry = evidence[at]!
    if (!question || entry.kind !== 'reading' || (word === 'yes' && !question.instead))
      throw refuse('no-question', `Nothing is asked about ${at + 1}.`, 'Answer what is asked, or type a reading.')
    return evidence.map((each, i) =>
      i !== at ? each : word === 'yes' ? question.instead! : { ...entry, confirmed: true },
    )
  }
  if (word === 'look') {
    const look = view.looks[Number(rest[0]) - 1]
    const answer = look?.answers.find(({ says }) => says.toLowerCase() === rest[1]?.toLowerCase())
    if (!look || !answer) throw refuse('no-look', `“${text}” answers no question.`, 'Write: look 1 yes, or look 1 no.')
    return [...evidence, { kind: 'remark', remark: answer.remark, about: look.about }]
  }
  if (word === 'remark') return [...evidence, remarkOf(build, rest.join(' '))]
  if (text.includes('=')) return [...evidence, readingOf(text)]
  if (!view.next) throw refuse('no-test', 'No test is asked for.', 'Write point=volts for a reading of your own.')
  return [...evidence, answerOf(view.next, meterReading(view.next.quantity, text))]
}

const makeJob = (store: Store, ready: ReadySearch, search: StoredSearch, view: SearchView, out: Out): void => {
  const { standing } = view
  const part =
    standing.kind === 'found' ? standing.part : standing.kind === 'cannot tell apart' ? standing.parts[0] : undefined
  if (part === undefined) throw refuse('not-found', 'Nothing is found yet.', 'Go on measuring, or write stop.')
  const mode = view.suspects.find((each) => each.part === part)?.modes[0]?.mode
  const edit = repairOf(ready, search, part, new Date().toISOString(), mode)
  store.edit(edit)
  out.write(
    `${inert(edit.label)}: job J-repair-${search.id}, with its parts. After the repair, confirm it with the test sheet.\n`,
  )
}

/** Closes a search, for whoever has confirmed the repair another way. */
export const closeStored = (store: Store, id: string, out: Out): void => {
  const build = store.read()
  const search = own(build.collections.faultSearches, id)
  if (!search || search.status === 'closed')
    throw refuse('unknown-search', `There is no open fault search ${id}.`, 'Name one that is open.')
  store.edit(
    closeSearch(
      build,
      search,
      search.found ? 'Closed by hand: it works.' : 'Given up without a find.',
      new Date().toISOString(),
    ),
  )
  out.write(`Search ${id} is closed; its history stays.\n`)
}
