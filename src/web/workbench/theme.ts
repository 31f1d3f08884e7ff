/** Light or dark: the system's choice until the builder makes one, then theirs, kept in this browser. */
const KEY = 'swapwright-theme'
type Theme = 'light' | 'dark'

const kept = (): string | null => {
  try {
    return localStorage.getItem(KEY)
  } catch {
    return null // Storage is closed in some private windows; the system's choice then stands.
  }
}
const show = (theme: Theme): void => {
  document.documentElement.dataset.theme = theme
}

export const startTheme = (): void => {
  const system = matchMedia('(prefers-color-scheme: dark)')
  const settle = (): void => {
    const chosen = kept()
    show(chosen === 'dark' || chosen === 'light' ? chosen : system.matches ? 'dark' : 'light')
  }
  settle()
  system.addEventListener('change', settle)
}

export const switchTheme = (): void => {
  const next: Theme = document.documentElement.dataset.theme === 'dark' ? 'light' : 'dark'
  show(next)
  try {
    localStorage.setItem(KEY, next)
  } catch {
    // Then it lasts as long as the page.
  }
}
