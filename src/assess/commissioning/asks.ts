/** One thing asked, judged by what is there to show for it. */
import type { Build } from '../../model/build.ts'
import type { Finding } from '../finding.ts'
import { list } from '../make.ts'
import { expectedText, readText } from '../testSheets/figures.ts'
import type { LineStanding, sheetStanding } from '../testSheets/testSheet.ts'
import type { TestSheet } from '../testSheets/types.ts'
import { entriesOf, figureIn, filedUnder, lineOfReading, linesOf, photosOf, readingFor, wordOf } from './evidence.ts'
import type { Ask, AskStanding, EvidenceLine, Figure, Judged } from './types.ts'

export interface Sheet {
  readonly sheet: TestSheet
  readonly standing: ReturnType<typeof sheetStanding>
}
const SHEET = 'first-power'
const some = (items: readonly string[], most = 3): string =>
  items.length <= most ? list(items) : `${items.slice(0, most).join(', ')} and ${items.length - most} more`

export const judgeAsk = (
  build: Build,
  ask: Ask,
  findings: readonly Finding[],
  sheet: Sheet | undefined,
): AskStanding => {
  const filed = linesOf(build, filedUnder(ask.id))
  switch (ask.kind) {
    case 'lines':
      return { ask, ...linesJudged(ask, sheet), evidence: [...lineEvidence(ask, sheet), ...filed] }
    case 'findings':
      return {
        ask,
        ...findingsJudged(build, ask, findings),
        findings: findings.filter(ask.about).map(({ key, verdict, says }) => ({ key, verdict, says })),
        evidence: filed,
      }
    case 'known':
      return { ask, ...ask.judge(build, findings), evidence: filed }
    case 'figures':
      return figuresJudged(build, ask, filed)
    case 'hand':
      return { ask, ...handJudged(build, ask), evidence: filed }
  }
}

type Of<K extends Ask['kind']> = Extract<Ask, { kind: K }>

const standingsOf = ({ section, of, starting, notStarting }: Of<'lines'>, { sheet, standing }: Sheet): LineStanding[] =>
  (sheet.sections.find(({ id }) => id === section)?.lines ?? [])
    .filter(
      ({ kind, id }) =>
        kind === (of === 'readings' ? 'test' : 'do') &&
        (starting === undefined || id.startsWith(starting)) &&
        (notStarting === undefined || !id.startsWith(notStarting)),
    )
    .map(({ id }) => standing.lines.get(id)!)

const linesJudged = (ask: Of<'lines'>, found: Sheet | undefined): Judged => {
  if (!found) return { verdict: 'unknown', says: 'Being reckoned …', missing: 'what the sheet expects' }
  const lines = standingsOf(ask, found)
  if (lines.length === 0) {
    const { notes, sections } = found.sheet
    const lacks = notes.findLast((note) => note.startsWith('Not entered: '))?.slice('Not entered: '.length)
    // A sheet that could be made and has nothing in this part asks for nothing there.
    if (lacks === undefined && sections.length > 0 && ask.of === 'steps' && ask.needs === undefined)
      return { verdict: 'sound', says: 'The sheet asks for nothing here.' }
    const missing = lacks?.replace(/[.;].*$/, '') ?? ask.needs ?? 'what the sheet is made from'
    return {
      verdict: 'unknown',
      says:
        lacks === undefined ? 'The first-power sheet has no line for it.' : 'The first-power sheet cannot be made yet.',
      missing,
      next: { says: `Enter ${missing} on Circuits.`, at: { bench: 'circuits' } },
    }
  }
  if (ask.of === 'steps') return stepsJudged(lines)
  const judged = readingsJudged(lines)
  // Earths that ohms cannot prove stand in the sheet's notes: silence would let them pass for proved.
  const blind = ask.section === 'earths' ? found.sheet.notes.filter((note) => / is not proved in ohms/.test(note)) : []
  return blind.length === 0
    ? judged
    : {
        ...judged,
        says: `${judged.says} ${blind.length === 1 ? 'One earth' : `${blind.length} earths`} no ohms can prove; ${blind.length === 1 ? 'it is' : 'they are'} proved with a load, gates further on.`,
      }
}

const stepsJudged = (lines: readonly LineStanding[]): Judged => {
  const open = lines.filter(({ done }) => !done)
  if (open.length === 0) return { verdict: 'sound', says: `All ${lines.length} steps ticked.` }
  return {
    verdict: 'unknown',
    says: `${lines.length - open.length} of ${lines.length} steps ticked on the sheet.`,
    missing: `${open.length} ${open.length === 1 ? 'step' : 'steps'} of the sheet`,
    next: { says: open[0]!.line.says, at: { sheet: SHEET } },
  }
}

/** A tick says that somebody looked; only a figure shows what the meter showed. */
const readingsJudged = (lines: readonly LineStanding[]): Judged => {
  const at = { sheet: SHEET } as const
  const out = lines.filter(({ verdict }) => verdict?.kind === 'out of tolerance')
  if (out[0]) {
    const { line, verdict, reading } = out[0]
    const means = verdict?.kind === 'out of tolerance' ? verdict.means : ''
    return {
      verdict: 'no-go',
      says: `${out.length === 1 ? 'One reading is' : `${out.length} readings are`} out of tolerance: ${line.says}, ${line.kind === 'test' ? readText(reading!, line.quantity) : ''}. ${means}`,
      next: { says: means === '' ? 'Mend it and read it again.' : `${means} Then read it again.`, at },
    }
  }
  const asked = lines.find(({ verdict }) => verdict?.kind === 'asked about')
  if (asked?.verdict?.kind === 'asked about')
    return {
      verdict: 'unknown',
      says: asked.verdict.question,
      missing: 'an answer to what is asked about a reading',
      next: { says: 'Answer it on the sheet.', at },
    }
  const blind = lines.flatMap(({ line }) => (line.kind === 'test' && line.missing ? [line.missing] : []))
  const open = lines.filter(({ line, reading, verdict }) =>
    line.kind === 'test' && line.expect ? reading === undefined || verdict === undefined : false,
  )
  const ticked = open.filter(({ reading }) => reading !== undefined)
  const read = lines.length - open.length - blind.length
  if (open[0])
    return {
      verdict: 'unknown',
      says: `${read === 0 ? `None of ${lines.length} read yet` : `${read} of ${lines.length} read, all in tolerance so far`}${ticked.length > 0 ? `; ${ticked.length} only ticked` : ''}.`,
      missing: `${open.length === 1 ? 'a reading' : `${open.length} readings`}: ${some(open.map(({ line }) => line.says))}`,
      next: {
        says: `${ticked.includes(open[0]) ? 'A tick is no reading; read' : 'Read'} ${open[0].line.says}.`,
        at,
      },
    }
  if (blind[0])
    return {
      verdict: 'unknown',
      says: `${read} of ${lines.length} read, all in tolerance; of the others it is not known what to expect.`,
      missing: some([...new Set(blind)]),
      next: { says: `Enter ${blind[0]} on Circuits.`, at: { bench: 'circuits' } },
    }
  return {
    verdict: 'sound',
    says: lines.length === 1 ? 'Read, and in tolerance.' : `All ${lines.length} read and in tolerance.`,
  }
}

const lineEvidence = (ask: Of<'lines'>, found: Sheet | undefined): EvidenceLine[] =>
  found
    ? standingsOf(ask, found).flatMap(({ line, reading, verdict }): EvidenceLine[] => {
        if (!reading) return []
        const expected =
          line.kind === 'test' && line.expect ? `, expected ${expectedText(line.expect, line.quantity)}` : ''
        return [
          {
            says: verdict === undefined ? `${line.says} Ticked.` : `${line.says}${expected}`,
            ...(verdict === undefined || line.kind === 'do' ? {} : { figure: readText(reading, line.quantity) }),
            when: reading.when,
            by: reading.by,
          },
        ]
      })
    : []

const findingsJudged = (build: Build, ask: Of<'findings'>, findings: readonly Finding[]): Judged => {
  const here = findings.filter(ask.about)
  const of = (verdict: Finding['verdict']): Finding[] => here.filter((finding) => finding.verdict === verdict)
  const [noGo, unknown, marginal] = [of('no-go'), of('unknown'), of('marginal')]
  if (noGo[0])
    return {
      verdict: 'no-go',
      says: `${noGo.length === 1 ? 'One finding stands' : `${noGo.length} findings stand`} against it: ${some([...new Set(noGo.map(({ about }) => about))], 8)}.`,
      next: { says: noGo[0].todo, at: { finding: noGo[0].key } },
    }
  const word = wordOf(entriesOf(build, filedUnder(ask.id)))
  if (word?.shows === 'not as it should')
    return { verdict: 'no-go', says: word.says ?? 'Somebody says that it is not as it should be.' }
  const rest =
    marginal.length > 0 ? `${marginal.length} marginal: ${some([...new Set(marginal.map(({ about }) => about))])}.` : ''
  if (unknown[0]) {
    if (word?.shows === 'as it should' && word.says)
      return {
        verdict: 'marginal',
        says: `${unknown.length} not known, gone on with by ${word.by ?? 'somebody'}: ${word.says} ${rest}`.trim(),
      }
    return {
      verdict: 'unknown',
      says: `No no-go; ${unknown.length} cannot be told for want of a figure. ${rest}`.trim(),
      missing: some([...new Set(unknown.map(({ missing, about }) => missing ?? about))]),
      next: { says: unknown[0].todo, at: { finding: unknown[0].key } },
    }
  }
  if (marginal[0])
    return {
      verdict: 'marginal',
      says: `No no-go. ${rest}`,
      next: { says: marginal[0].todo, at: { finding: marginal[0].key } },
    }
  // An empty build has no findings either: silence about nothing proves nothing.
  if (Object.keys(build.collections.wires).length === 0)
    return {
      verdict: 'unknown',
      says: 'No wire is entered, so nothing could be found.',
      missing: 'the car’s wires',
      next: { says: 'Enter the wires, or bring in a wire list.', at: { bench: 'circuits' } },
    }
  return { verdict: 'sound', says: 'Nothing that the workbench knows of stands against it.' }
}

const figuresJudged = (build: Build, ask: Of<'figures'>, filed: readonly EvidenceLine[]): AskStanding => {
  const found = ask.fields.flatMap((field) => {
    const reading = readingFor(build, ask.id, field.id)
    return reading ? [{ field, reading }] : []
  })
  const evidence = [...found.map(({ field, reading }) => lineOfReading(reading, field)), ...filed]
  const open = ask.fields.filter((field) => !found.some((each) => each.field === field))
  const word = wordOf(entriesOf(build, filedUnder(ask.id)))
  if (word?.shows === 'does not apply' && found.length === 0) return { ask, ...doesNotApply(word), evidence }
  if (open.length > 0) {
    const missing = list(open.map(({ says }) => says.replace(/^./, (letter) => letter.toLowerCase())))
    return {
      ask,
      verdict: 'unknown',
      says: 'Not measured yet.',
      missing,
      next: { says: `Measure: ${missing}.` },
      evidence,
    }
  }
  const figures: Record<string, Figure> = Object.fromEntries(
    found.map(({ field, reading }) => [field.id, figureIn(reading)]),
  )
  return { ask, ...ask.judge(figures, build), evidence }
}

const doesNotApply = ({
  says,
  by,
}: {
  readonly says?: string | undefined
  readonly by?: string | undefined
}): Judged => ({
  verdict: 'sound',
  says: `Does not apply to this car${by === undefined ? '' : `, says ${by}`}: ${says ?? ''}`,
})

const handJudged = (build: Build, ask: Of<'hand'>): Judged => {
  const word = wordOf(entriesOf(build, filedUnder(ask.id)))
  if (!word)
    return {
      verdict: 'unknown',
      says: 'Nobody has looked yet.',
      missing: 'somebody’s word, with name and day',
      next: { says: ask.says },
    }
  if (word.shows === 'not as it should')
    return {
      verdict: 'no-go',
      says: word.says ?? 'Not as it should be.',
      next: { says: 'Put it right, look again, and say so here.' },
    }
  if (word.shows === 'does not apply') return doesNotApply(word)
  if (ask.photo && photosOf(build, filedUnder(ask.id)).length === 0)
    return {
      verdict: 'unknown',
      says: 'Said to be right; there is no picture to show for it.',
      missing: 'a photograph',
      next: { says: 'Photograph it.' },
    }
  return { verdict: 'sound', says: `Seen by ${word.by ?? 'somebody'}.` }
}
