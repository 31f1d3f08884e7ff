/** A verdict as a short line of our own, and its word: broken, necked, dotted or whole. Colour only repeats the shape. */
import { type System, type Verdict, verdictWord } from '../../assess/finding.ts'

export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  'no-go': 'No-go',
  marginal: 'Marginal',
  unknown: 'Unknown',
  sound: 'Sound',
}
export const VERDICT_SHAPES: Readonly<Record<Verdict, string>> = {
  'no-go': 'M1 6H10L13 2M15 14L18 10H27',
  marginal: 'M1 3H8Q14 7.4 20 3H27M1 13H8Q14 8.6 20 13H27',
  unknown: 'M2 8H26',
  sound: 'M1 5H27M1 11H27',
}

/** The word for a verdict; of brakes none says more than that the arithmetic holds. */
export const wordFor = (verdict: Verdict, system: System | undefined): string => {
  const word = system === undefined ? verdict : verdictWord({ verdict, system })
  return word === verdict ? VERDICT_WORDS[verdict] : `${word[0]!.toUpperCase()}${word.slice(1)}`
}

/** No green where a qualified person still has to look. */
export const holdsOnly = (verdict: Verdict, system: System | undefined): boolean =>
  system !== undefined && verdictWord({ verdict, system }) !== verdict

export function VerdictMark({ verdict, system }: { verdict: Verdict; system?: System | undefined }) {
  return (
    <span
      style={{
        color: holdsOnly(verdict, system) ? 'var(--ink)' : `var(--${verdict})`,
        whiteSpace: 'nowrap',
        fontWeight: 600,
      }}
    >
      <svg width="28" height="16" viewBox="0 0 28 16" aria-hidden="true" style={{ verticalAlign: '-2px' }}>
        <path
          d={VERDICT_SHAPES[verdict]}
          fill="none"
          stroke="currentColor"
          strokeWidth={verdict === 'unknown' ? 3 : 2}
          strokeDasharray={verdict === 'unknown' ? '3 4' : undefined}
        />
      </svg>{' '}
      {wordFor(verdict, system)}
    </span>
  )
}
