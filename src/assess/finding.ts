/** What an assessment says. Verdicts in the house order, worst first. */
export const VERDICTS = ['no-go', 'marginal', 'unknown', 'sound'] as const
export type Verdict = (typeof VERDICTS)[number]
export type System =
  | 'model'
  | 'electrical'
  | 'signals'
  | 'fuel'
  | 'air'
  | 'cooling'
  | 'brakes'
  | 'driveline'
  | 'services'
  | 'fixings'
  | 'plan'

export interface Finding {
  /** Stable over edits that do not touch its cause: `rule:subject[:case]`. A job refers to it by this key. */
  readonly key: string
  readonly rule: string
  readonly verdict: Verdict
  readonly system: System
  /** `collection/id` or `sheet/name`; `about` is the name a person knows it by. */
  readonly subject: string
  readonly about: string
  readonly zone?: string
  readonly says: string
  readonly todo: string
  /** Formula, numbers put in, result, source: one line each. */
  readonly working: readonly string[]
  /** For `unknown`: the datum that is missing. */
  readonly missing?: string
  readonly cautions: readonly string[]
}

/** Where the best that is ever said is that the arithmetic holds, and a qualified person must inspect it. */
const INSPECTED: ReadonlySet<System> = new Set(['brakes', 'fuel', 'driveline', 'fixings'])
/** How many of each printed word, worst first; words that no finding has are left out but for the four verdicts. */
export const tallyOf = (
  findings: readonly Finding[],
): readonly { readonly word: string; readonly of: Pick<Finding, 'verdict' | 'system'>; readonly count: number }[] => {
  const kinds: readonly Pick<Finding, 'verdict' | 'system'>[] = [
    ...VERDICTS.map((verdict) => ({ verdict, system: 'model' as const })),
    { verdict: 'sound', system: 'brakes' },
  ]
  return kinds
    .map((of) => ({ of, word: verdictWord(of) }))
    .map((kind) => ({ ...kind, count: findings.filter((finding) => verdictWord(finding) === kind.word).length }))
    .filter(({ count, word, of }) => count > 0 || word === of.verdict)
}
/** The printed word of a verdict. */
export const verdictWord = ({ verdict, system }: Pick<Finding, 'verdict' | 'system'>): string =>
  verdict === 'sound' && INSPECTED.has(system) ? 'arithmetic holds' : verdict
