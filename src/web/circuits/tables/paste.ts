/**
 * A block copied from a spreadsheet, laid over a table from the cell it was pasted in. Pure: says which cells fit, as
 * one edit, and which do not and why; nothing is written here.
 */
import type { Build, Change, Entity } from '../../../model/build.ts'
import { applyChanges } from '../../../model/read.ts'
import { type Problem, Refusal, refuse } from '../../../units/problem.ts'

export type Item = Entity<'wires'> | Entity<'devices'>
export interface Column<T extends Item> {
  readonly word: string
  /** The item with the text in this column; throws Refusal. */
  readonly put: (item: T, text: string) => T
}
export interface BadCell {
  /** As a person would point at it: `Size of W-92`. */
  readonly where: string
  readonly text: string
  readonly problems: readonly Problem[]
}
export interface Pasted {
  readonly changes: readonly Change[]
  /** Cells that fit. */
  readonly taken: number
  readonly bad: readonly BadCell[]
}

/** Tabs between cells, line ends between rows, as every spreadsheet copies. Undefined: a single cell, no block. */
export const readBlock = (text: string): readonly (readonly string[])[] | undefined => {
  const rows = text
    .replace(/(\r?\n)+$/, '')
    .split(/\r?\n/)
    .map((line) => line.split('\t').map(unquoted))
  return rows.length > 1 || rows[0]!.length > 1 ? rows : undefined
}
/** A cell that itself holds quotes comes quoted. */
const unquoted = (cell: string): string =>
  /^".*"$/.test(cell.trim()) ? cell.trim().slice(1, -1).replaceAll('""', '"') : cell.trim()

interface Target<T extends Item> {
  readonly collection: 'wires' | 'devices'
  readonly items: readonly T[]
  readonly columns: readonly Column<T>[]
  /** Cell that the block's first cell goes to. */
  readonly row: number
  readonly column: number
  /** An item for a row below the last, from that row's texts by column; undefined where none can be made. */
  readonly make?: (texts: ReadonlyMap<number, string>, taken: ReadonlySet<string>) => T | undefined
}

export const planPaste = <T extends Item>(
  build: Build,
  block: readonly (readonly string[])[],
  target: Target<T>,
): Pasted => {
  const changes: Change[] = []
  const bad: BadCell[] = []
  const made = new Set<string>()
  let taken = 0
  const problemsOf = (item: T): readonly Problem[] => {
    try {
      applyChanges(build, [{ collection: target.collection, id: item.id, value: item } as Change])
      return []
    } catch (error) {
      if (error instanceof Refusal) return error.problems
      throw error
    }
  }
  for (const [index, texts] of block.entries()) {
    const row = target.row + index
    const byColumn = new Map(texts.map((text, offset) => [target.column + offset, text]))
    const before = target.items[row]
    let item = before ?? target.make?.(byColumn, made)
    if (item === undefined) {
      bad.push({
        where: `Row ${index + 1} of the block`,
        text: texts.join(' | '),
        problems: refuse(
          'no-row',
          'It falls below the last row of the table.',
          'Add rows first, or paste From and To as well.',
        ).problems,
      })
      continue
    }
    made.add(item.id)
    if (item.restricted !== undefined) {
      bad.push({
        where: item.id,
        text: texts.join(' | '),
        problems: refuse('restricted', `It belongs to the ${item.restricted} system.`, 'It is never altered here.')
          .problems,
      })
      continue
    }
    let fits = 0
    for (const [column, text] of byColumn) {
      const into = target.columns[column]
      const where = `${into?.word ?? `Column ${column + 1}`} of ${item.id}`
      if (into === undefined) {
        if (text !== '')
          bad.push({
            where,
            text,
            problems: refuse(
              'no-column',
              'The table has no column there.',
              'Paste further to the left, or fewer columns.',
            ).problems,
          })
        continue
      }
      try {
        const next: T = into.put(item, text)
        const problems = problemsOf(next)
        if (problems.length > 0) bad.push({ where, text, problems })
        else {
          item = next
          fits++
        }
      } catch (error) {
        if (!(error instanceof Refusal)) throw error
        bad.push({ where, text, problems: error.problems })
      }
    }
    taken += fits
    if (fits > 0) changes.push({ collection: target.collection, id: item.id, value: item } as Change)
  }
  return { changes, taken, bad }
}
