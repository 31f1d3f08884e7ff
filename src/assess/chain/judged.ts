/** Findings by station, and the verdict that a station shows: the worst of them. */
import { type Finding, VERDICTS, type Verdict } from '../finding.ts'
import { list } from '../make.ts'
import type { Chain, Datum, Station } from './chain.ts'
import { isKnown } from './chain.ts'

export interface Judged {
  readonly station: string
  readonly finding: Finding
}

/** The stations with the worst verdict of their findings and its sentence. */
export const withVerdicts = <C extends Chain>(chain: C, judged: readonly Judged[]): C => ({
  ...chain,
  stations: chain.stations.map((station): Station => {
    const [worst] = judged
      .filter((each) => each.station === station.id)
      .map(({ finding }) => finding)
      .sort((a, b) => VERDICTS.indexOf(a.verdict) - VERDICTS.indexOf(b.verdict))
    return worst === undefined ? station : { ...station, verdict: worst.verdict, says: worst.says }
  }),
})

/** What a lacking datum waits for, in words: the data to enter, else what was refused and its likely cause. */
export const waitsFor = (...data: readonly Datum[]): { readonly missing: readonly string[]; readonly says: string } => {
  const without = data.flatMap((datum) => (isKnown(datum) ? [] : [datum]))
  const missing = [...new Set(without.flatMap((datum) => datum.missing))]
  const problems = [...new Set(without.flatMap((datum) => datum.problems.map(({ says, todo }) => `${says} ${todo}`)))]
  return {
    missing: missing.length > 0 ? missing : problems.length > 0 ? ['figures that can hold together'] : [],
    says: problems.join(' '),
  }
}

/** How figures came about, each line once. */
export const linesOfWorking = (...data: readonly Datum[]): string[] =>
  data
    .flatMap((datum) => (isKnown(datum) ? datum.working : []))
    .filter((line, index, all) => all.indexOf(line) === index)

/** Verdict, sentence and datum of what cannot be told. */
export const unknownFor = (
  what: string,
  ...data: readonly Datum[]
): { verdict: Verdict; says: string; todo: string; missing: string } => {
  const { missing, says } = waitsFor(...data)
  return {
    verdict: 'unknown',
    says: `${what} is not known${says === '' ? `: ${list(missing)} ${missing.length === 1 ? 'is' : 'are'} missing` : ''}.${says === '' ? '' : ` ${says}`}`,
    todo: says === '' ? `Enter ${list(missing)}.` : 'Mend what is said above.',
    missing: list(missing),
  }
}
