/** Pieces that a whole sheet and a single line share. */
import type { SheetTest } from '../../assess/testSheets/types.ts'

/** What the tolerance is made of, and what a wrong reading would mean. */
export function Expected({ line }: { line: SheetTest }) {
  return (
    <details className="small no-print">
      <summary>Why, and if not</summary>
      <ul>
        {line.expect?.working.map((each) => (
          <li key={each}>{each}</li>
        ))}
        {line.low && <li>Too low: {line.low}</li>}
        {line.high && <li>Too high: {line.high}</li>}
      </ul>
    </details>
  )
}
