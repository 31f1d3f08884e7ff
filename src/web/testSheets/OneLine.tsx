/** One line of the sheet at a time, large, for a phone beside the car. It opens at the first that is not done. */
import { useState } from 'react'
import { expectedText } from '../../assess/testSheets/figures.ts'
import type { sheetStanding, TestSheet } from '../../assess/testSheets/testSheet.ts'
import type { Build } from '../../model/build.ts'
import { LineEntry } from './LineEntry.tsx'
import { Cautions, Expected } from './SheetParts.tsx'

interface Props {
  readonly build: Build
  readonly sheet: TestSheet
  readonly standing: ReturnType<typeof sheetStanding>
}

export function OneLine({ build, sheet, standing }: Props) {
  const places = sheet.sections.flatMap((section) => section.lines.map((line) => ({ section, line })))
  const openFrom = (from: number): number => {
    const next = places.findIndex(({ line }, i) => i >= from && !standing.lines.get(line.id)!.done)
    return next < 0 ? from : next
  }
  const [at, setAt] = useState(() => openFrom(0))
  const place = places[Math.min(at, places.length - 1)]!
  const { section, line } = place
  const go = (to: number): void => setAt(Math.max(0, Math.min(places.length - 1, to)))
  return (
    <section className="one-line" aria-labelledby="line">
      <p className="soft">
        {at + 1} of {places.length}, {section.title}
      </p>
      <p className="small">
        State: <strong>{section.state}</strong>.
      </p>
      <details className="small" open={section.lines[0] === line}>
        <summary>Take care</summary>
        <Cautions list={section.cautions} />
      </details>
      <h2 id="line" className="where">
        {line.says}
      </h2>
      {line.kind === 'test' && (
        <>
          <p className="expected">
            {line.expect
              ? expectedText(line.expect, line.quantity)
              : `not known: ${line.missing ?? 'what to expect there'} is not entered`}
          </p>
          <Expected line={line} />
        </>
      )}
      <LineEntry
        key={line.id}
        {...{ build, sheet }}
        standing={standing.lines.get(line.id)!}
        after={(settled) => settled && go(at + 1)}
      />
      <div className="row steps">
        <button type="button" disabled={at === 0} onClick={() => go(at - 1)}>
          Line before
        </button>
        <button type="button" disabled={at >= places.length - 1} onClick={() => go(at + 1)}>
          Line after
        </button>
      </div>
    </section>
  )
}
