/** One cell of a table that is edited in place: Enter or leaving it keeps, Escape takes back. */
import { type ClipboardEvent, type KeyboardEvent, useEffect, useRef, useState } from 'react'
import type { Problem } from '../../../units/problem.ts'
import { readBlock } from './paste.ts'

interface Props {
  readonly label: string
  readonly text: string
  /** Stands in an empty cell: where the figure comes from instead. */
  readonly hint?: string | undefined
  readonly row: number
  readonly column: number
  /** The problems, when the text is refused. */
  readonly keep: (text: string) => readonly Problem[]
  /** A block from a spreadsheet: this cell is its first. */
  readonly paste?: (block: readonly (readonly string[])[]) => void
}

export function Cell({ label, text, hint, row, column, keep, paste }: Props) {
  const [typed, setTyped] = useState(text)
  const [problems, setProblems] = useState<readonly Problem[]>([])
  // Enter keeps and moves on, and the cell is left before the page is drawn again: one edit, not two.
  const kept = useRef<string>(undefined)
  useEffect(() => {
    kept.current = undefined
    setTyped(text)
    setProblems([])
  }, [text])
  const settle = (): boolean => {
    if (typed.trim() === kept.current) return true
    const found = typed.trim() === text.trim() ? [] : keep(typed.trim())
    if (typed.trim() === text.trim()) setTyped(text)
    setProblems(found)
    if (found.length === 0) kept.current = typed.trim()
    return found.length === 0
  }
  const press = (event: KeyboardEvent): void => {
    if (event.key === 'Enter') {
      // The table moves on unless the text was refused.
      if (!settle()) event.preventDefault()
    } else if (event.key === 'Escape') {
      setTyped(text)
      setProblems([])
    }
  }
  const take = (event: ClipboardEvent): void => {
    const block = readBlock(event.clipboardData.getData('text/plain'))
    if (block === undefined || paste === undefined) return
    event.preventDefault()
    setTyped(text)
    setProblems([])
    paste(block)
  }
  return (
    <div>
      <input
        className="cell"
        aria-label={label}
        aria-invalid={problems.length > 0}
        placeholder={hint}
        data-cell={`${row}:${column}`}
        value={typed}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={settle}
        onKeyDown={press}
        onPaste={take}
      />
      {problems.map((problem) => (
        <p key={problem.says} className="small wrong" role="alert">
          {problem.says} {problem.todo}
        </p>
      ))}
    </div>
  )
}
