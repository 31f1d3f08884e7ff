/** One cell of a table that is edited in place: Enter or leaving it keeps, Escape takes back. */
import { type ClipboardEvent, type KeyboardEvent, useEffect, useState } from 'react'
import type { Problem } from '../../units/problem.ts'

interface Props {
  readonly label: string
  readonly text: string
  /** Stands in an empty cell: where the figure comes from instead. */
  readonly hint?: string | undefined
  /** The problems, when the text is refused. */
  readonly keep: (text: string) => readonly Problem[]
  /** A column pasted from a spreadsheet: this row and those under it. */
  readonly keepLines?: (lines: readonly string[]) => readonly Problem[]
}

export function Cell({ label, text, hint, keep, keepLines }: Props) {
  const [typed, setTyped] = useState(text)
  const [problems, setProblems] = useState<readonly Problem[]>([])
  useEffect(() => {
    setTyped(text)
    setProblems([])
  }, [text])
  const settle = (): void => {
    if (typed.trim() === text.trim()) {
      setTyped(text)
      setProblems([])
    } else setProblems(keep(typed.trim()))
  }
  const press = (event: KeyboardEvent): void => {
    if (event.key === 'Enter') settle()
    else if (event.key === 'Escape') {
      setTyped(text)
      setProblems([])
    }
  }
  const paste = (event: ClipboardEvent): void => {
    const lines = event.clipboardData
      .getData('text/plain')
      .replace(/\r?\n$/, '')
      .split(/\r?\n/)
    if (lines.length < 2 || keepLines === undefined) return
    event.preventDefault()
    setProblems(keepLines(lines))
  }
  return (
    <div>
      <input
        className="cell"
        aria-label={label}
        aria-invalid={problems.length > 0}
        placeholder={hint}
        value={typed}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={settle}
        onKeyDown={press}
        onPaste={paste}
      />
      {problems.map((problem) => (
        <p key={problem.says} className="small wrong" role="alert">
          {problem.says} {problem.todo}
        </p>
      ))}
    </div>
  )
}
