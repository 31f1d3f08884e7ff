/** Each action once: its name, its key, what it does. Buttons, keyboard and search read this list. */
import { bench } from '../workbench/bench.ts'
import { switchTheme } from '../workbench/theme.ts'

export interface Action {
  readonly name: string
  readonly key?: string
  readonly run: () => void
}
export const actions: readonly Action[] = [
  { name: 'Undo the last edit', key: 'Ctrl+Z', run: () => void bench.undo() },
  { name: 'Redo what was undone', key: 'Ctrl+Shift+Z', run: () => void bench.redo() },
  { name: 'Switch between light and dark', run: switchTheme },
]

const typing = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && /^(INPUT|TEXTAREA|SELECT)$/.test(target.tagName)

/** In a text field the browser's own undo of typing stands. */
export const listenForKeys = (): (() => void) => {
  const hear = (event: KeyboardEvent): void => {
    if (typing(event.target)) return
    if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === 'z') {
      event.preventDefault()
      void (event.shiftKey ? bench.redo() : bench.undo())
    } else if (event.key === '/' && !event.ctrlKey && !event.metaKey && !event.altKey) {
      event.preventDefault()
      document.getElementById('search')?.focus()
    }
  }
  document.addEventListener('keydown', hear)
  return () => document.removeEventListener('keydown', hear)
}
