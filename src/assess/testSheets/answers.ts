/** What somebody answered to the lines of a sheet, in words. */
import { readText } from './figures.ts'
import type { LineStanding } from './standing.ts'

/** What somebody answered to a line, with what that says; a tick is no reading. Empty: nobody has. */
export const answerText = ({ line, reading, verdict }: LineStanding): string => {
  if (!reading) return ''
  if (line.kind === 'do' || !verdict) return 'done'
  const value = readText(reading, line.quantity)
  switch (verdict.kind) {
    case 'in tolerance':
      return `${value}, in tolerance`
    case 'out of tolerance':
      return `${value}, TOO ${verdict.side.toUpperCase()}: ${verdict.means}${reading.search === undefined ? '' : ` Search ${reading.search}.`}`
    case 'asked about':
      return `${value}? ${verdict.question}`
    default:
      return `${value}, kept; not known without ${verdict.missing}`
  }
}
