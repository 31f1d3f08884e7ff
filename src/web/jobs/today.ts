/** The builder's day and week: today where the machine stands, and the hours a week they said in this browser. */

/** YYYY-MM-DD of this machine's own clock. */
export const today = (): string => {
  const now = new Date()
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10)
}

/** 2026-03-14 → 14 March 2026; the month in words, so that no reader takes it for a day. */
export const dayText = (day: string): string =>
  new Date(`${day}T00:00:00Z`).toLocaleDateString('en-GB', {
    timeZone: 'UTC',
    day: 'numeric',
    month: 'short',
    year: 'numeric',
  })

/** Every YYYY-MM-DD in a sentence, written so. */
export const withDays = (sentence: string): string => sentence.replace(/\b\d{4}-\d{2}-\d{2}\b/g, dayText)

const KEY = 'swapwright-hours-a-week'
/** As typed; empty where nothing was said. It is no part of the build: sittings recorded there say it better. */
export const saidHours = (): string => {
  try {
    return localStorage.getItem(KEY) ?? ''
  } catch {
    return ''
  }
}
export const sayHours = (text: string): void => {
  try {
    localStorage.setItem(KEY, text)
  } catch {
    // Storage switched off: said for this page only.
  }
}
