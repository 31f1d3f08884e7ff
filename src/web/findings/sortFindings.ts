/** Worst first, in the house order of verdicts; within one, by system and name as a person would look for them. */
import { type Finding, VERDICTS } from '../../assess/finding.ts'

export const worstFirst = (findings: readonly Finding[]): readonly Finding[] =>
  [...findings].sort(
    (a, b) =>
      VERDICTS.indexOf(a.verdict) - VERDICTS.indexOf(b.verdict) ||
      a.system.localeCompare(b.system) ||
      a.about.localeCompare(b.about, 'en', { numeric: true }),
  )

/** Working comes as lines; the reader looks for sources, limits and cautions in places of their own. */
export interface SplitWorking {
  readonly working: readonly string[]
  readonly sources: readonly string[]
  readonly limits: readonly string[]
  readonly cautions: readonly string[]
}
export const splitWorking = (lines: readonly string[]): SplitWorking => {
  const led = (lead: string): readonly string[] => [
    ...new Set(lines.filter((line) => line.startsWith(lead)).map((line) => line.slice(lead.length).trim())),
  ]
  return {
    working: lines.filter((line) => !/^(Source|Holds for|Caution):/.test(line)),
    sources: led('Source:'),
    limits: led('Holds for:'),
    cautions: led('Caution:'),
  }
}

/** The sentence without the name it begins with, which stands before it in bold. */
export const afterName = (about: string, says: string): string =>
  says.startsWith(`${about} `) || says.startsWith(`${about},`) ? says.slice(about.length) : ` ${says}`
