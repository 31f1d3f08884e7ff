/** What was understood of a file, what was guessed, and what was set aside; and the way to say that a guess is wrong. */
import { type Choices, ReadingChoices } from './ReadingChoices.tsx'
import type { Report } from './report.ts'

interface Props {
  readonly report: Report
  readonly busy: boolean
  readonly onReadAgain: (choices: Choices) => void
}

export function LogReport({ report, busy, onReadAgain }: Props) {
  return (
    <section>
      <h2>How {report.source} was read</h2>
      <p>
        {report.samples.toLocaleString('en')} samples of {report.channels.length} channels
        {report.step !== null && `, a sample every ${Number(report.step.toPrecision(3))} s`}.
      </p>
      <Lines title="Understood" lines={report.understood} />
      <Lines title="Guessed" lines={report.guesses.map(({ says }) => says)} />
      <Lines
        title="Set aside"
        lines={report.warnings.map(({ line, text }) => (line === undefined ? text : `Line ${line}: ${text}`))}
      />
      <details>
        <summary>Something was read wrongly</summary>
        <ReadingChoices
          guessed={report.guesses.map(({ override }) => override)}
          busy={busy}
          act="Read the file again"
          onRead={onReadAgain}
        />
      </details>
    </section>
  )
}

function Lines({ title, lines }: { title: string; lines: readonly string[] }) {
  if (lines.length === 0) return null
  return (
    <>
      <h3>{title}</h3>
      <ul>
        {[...new Set(lines)].slice(0, 30).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  )
}
