/** One line of the sheet at a time, large, for a phone beside the car. It opens at the first that is not done. */
import { useState } from 'react'
import { readingCautions } from '../../assess/electricalCautions.ts'
import { expectedOf } from '../../assess/testSheets/figures.ts'
import type { sheetStanding, TestSheet } from '../../assess/testSheets/testSheet.ts'
import type { Build } from '../../model/build.ts'
import { Cautions } from '../parts/Cautions.tsx'
import { LineEntry } from './LineEntry.tsx'
import { Expected } from './SheetParts.tsx'

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
  // Whoever comes back to a sheet in the middle reads its cautions first, as on the first line of each part.
  const [begun] = useState(at)
  const isEntered = at === begun || section.lines[0] === line
  const kase = section.id === 'live' && sheet.case !== undefined ? build.collections.cases[sheet.case] : undefined
  const here = line.kind === 'test' ? readingCautions(build, line, kase) : []
  const go = (to: number): void => setAt(Math.max(0, Math.min(places.length - 1, to)))
  return (
    <section className="one-line" aria-labelledby="line">
      <p className="soft">
        {at + 1} of {places.length}, {section.title}
      </p>
      <p className="small">
        State: <strong>{section.state}</strong>.
      </p>
      <details key={section.id} className="small" open={isEntered}>
        <summary>Take care</summary>
        <Cautions list={isEntered ? section.cautions : section.cautions.filter((each) => !here.includes(each))} />
      </details>
      <h2 id="line" className="where">
        {line.says}
      </h2>
      {!isEntered && here.length > 0 && (
        <div className="small">
          <Cautions list={here} />
        </div>
      )}
      {line.kind === 'test' && (
        <>
          <p className="expected">{expectedOf(line)}</p>
          {line.limit && <p className="small limit">{line.limit}</p>}
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
