/** What was understood of a file, what was guessed, and what was set aside. */
import type { Report } from './report.ts'

export function LogReport({ report }: { report: Report }) {
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
