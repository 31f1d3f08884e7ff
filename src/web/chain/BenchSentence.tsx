/** The sentence at the head of a chain's bench: its worst finding, or that nothing is entered. */
import type { Judged } from '../../assess/chain/judged.ts'
import { VERDICTS } from '../../assess/finding.ts'
import { VerdictMark } from '../parts/VerdictMark.tsx'

interface BenchSentenceProps {
  readonly judged: readonly Judged[]
  /** What it would all be about: `Nothing is entered about the brakes yet.` */
  readonly about: string
  /** Of two equally bad findings, the rule that is told. */
  readonly chief?: string
}

export function BenchSentence({ judged, about, chief }: BenchSentenceProps) {
  const [worst] = [...judged].sort(
    (a, b) =>
      VERDICTS.indexOf(a.finding.verdict) - VERDICTS.indexOf(b.finding.verdict) ||
      Number(b.finding.rule === chief) - Number(a.finding.rule === chief),
  )
  return (
    <p className="bench-sentence" aria-live="polite">
      {worst ? (
        <>
          <VerdictMark verdict={worst.finding.verdict} system={worst.finding.system} /> {worst.finding.says}
        </>
      ) : (
        `Nothing is entered about ${about} yet. Each station below says what it lacks.`
      )}
    </p>
  )
}
