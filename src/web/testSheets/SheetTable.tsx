/** The whole sheet as tables, a section each: to fill in here, or to print and fill in by hand. */

import { expectedOf } from '../../assess/testSheets/figures.ts'
import type { LineStanding, sheetStanding, TestSheet } from '../../assess/testSheets/testSheet.ts'
import type { Build } from '../../model/build.ts'
import { Cautions } from '../parts/Cautions.tsx'
import { LineEntry } from './LineEntry.tsx'
import { Expected } from './SheetParts.tsx'

interface Props {
  readonly build: Build
  readonly sheet: TestSheet
  readonly standing: ReturnType<typeof sheetStanding>
}

export function SheetTable({ build, sheet, standing }: Props) {
  return sheet.sections.map((section) => (
    <section key={section.id} aria-labelledby={`section-${section.id}`}>
      <h2 id={`section-${section.id}`}>{section.title}</h2>
      <p>
        State: <strong>{section.state}</strong>.
      </p>
      <Cautions list={section.cautions} />
      <table className="sheet-lines">
        <thead>
          <tr>
            <th scope="col">Where</th>
            <th scope="col">Expected</th>
            <th scope="col">Read</th>
          </tr>
        </thead>
        <tbody>
          {section.lines.map((line) => (
            <Row key={line.id} {...{ build, sheet }} one={standing.lines.get(line.id)!} />
          ))}
        </tbody>
      </table>
    </section>
  ))
}

function Row({ build, sheet, one }: { build: Build; sheet: TestSheet; one: LineStanding }) {
  const { line, verdict } = one
  return (
    <tr className={verdict?.kind === 'out of tolerance' ? 'out' : undefined}>
      <th scope="row">{line.says}</th>
      <td>
        {line.kind === 'test' &&
          (line.expect ? (
            <>
              <strong className="figure">{expectedOf(line)}</strong>
              {line.limit && <p className="small limit">{line.limit}</p>}
              <Expected line={line} />
              <span className="print-only hint">
                {[line.low && `Too low: ${line.low}`, line.high && `Too high: ${line.high}`].filter(Boolean).join(' ')}
              </span>
            </>
          ) : (
            expectedOf(line)
          ))}
      </td>
      <td className="answer-cell">
        <LineEntry {...{ build, sheet }} standing={one} />
        {!one.reading && <span className="print-only">{line.kind === 'do' ? '☐' : '________'}</span>}
      </td>
    </tr>
  )
}
