/** Worst first, in the house order of verdicts; within one, by system and name as a person would look for them. */
import { type Finding, VERDICTS } from '../../assess/finding.ts'

export const worstFirst = (findings: readonly Finding[]): readonly Finding[] =>
  [...findings].sort(
    (a, b) =>
      VERDICTS.indexOf(a.verdict) - VERDICTS.indexOf(b.verdict) ||
      a.system.localeCompare(b.system) ||
      a.about.localeCompare(b.about, 'en', { numeric: true }),
  )

/** Working comes as lines; those that name where a figure is from are set apart. */
export const splitWorking = (lines: readonly string[]): { working: readonly string[]; sources: readonly string[] } => ({
  working: lines.filter((line) => !/^source:/i.test(line)),
  sources: lines.filter((line) => /^source:/i.test(line)).map((line) => line.replace(/^source:\s*/i, '')),
})
