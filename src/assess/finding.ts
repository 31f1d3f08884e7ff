/** What an assessment says. Verdicts in the house order, worst first. */
export const VERDICTS = ['no-go', 'marginal', 'unknown', 'sound'] as const
export type Verdict = (typeof VERDICTS)[number]
export type System = 'model' | 'electrical' | 'signals' | 'fuel' | 'air' | 'cooling' | 'brakes' | 'plan'

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

/** Of brakes the best that is ever said is that the arithmetic holds: no printed word says more. */
export const verdictWord = ({ verdict, system }: Pick<Finding, 'verdict' | 'system'>): string =>
  verdict === 'sound' && system === 'brakes' ? 'arithmetic holds' : verdict
