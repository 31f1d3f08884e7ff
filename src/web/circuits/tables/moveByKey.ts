/** Arrow keys and Enter go from cell to cell as in a spreadsheet; Tab does as everywhere. */
import type { KeyboardEvent } from 'react'

const STEPS: Readonly<Record<string, readonly [rows: number, columns: number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
}

/** Within a text the side arrows move the caret; at its ends they leave the cell. */
const leavesText = (input: HTMLInputElement, key: string): boolean => {
  const { selectionStart: start, selectionEnd: end, value } = input
  if (start === 0 && end === value.length) return true
  if (key === 'ArrowLeft') return start === 0 && end === 0
  return start === value.length && end === value.length
}

export const moveByKey = (event: KeyboardEvent<HTMLTableElement>): void => {
  if (event.defaultPrevented || event.altKey || event.ctrlKey || event.metaKey) return
  const from = event.target
  if (!(from instanceof HTMLInputElement || from instanceof HTMLSelectElement)) return
  const at = from.dataset.cell?.split(':').map(Number)
  if (at === undefined) return
  const step = event.key === 'Enter' ? ([event.shiftKey ? -1 : 1, 0] as const) : STEPS[event.key]
  if (step === undefined) return
  // Up and down choose within a list.
  if (from instanceof HTMLSelectElement && step[0] !== 0 && event.key !== 'Enter') return
  if (from instanceof HTMLInputElement && step[1] !== 0 && !leavesText(from, event.key)) return
  let [row, column] = [at[0]! + step[0], at[1]! + step[1]]
  // A row may lack a cell (a thing that is never altered): on to the next one that has it.
  for (let tries = 0; tries < 200; tries++) {
    const to = event.currentTarget.querySelector<HTMLElement>(`[data-cell="${row}:${column}"]`)
    if (to) {
      event.preventDefault()
      to.focus()
      if (to instanceof HTMLInputElement) to.select()
      return
    }
    row += step[0]
    column += step[1]
    if (row < 0 || column < 0 || column > 40) return
  }
}
