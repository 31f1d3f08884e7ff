/** One switch of the build: are its buttons told apart, the bands, the rows for the controller, other resistors. */
import { useMemo } from 'react'
import { knownOf } from '../../assess/signals/known.ts'
import { ageingWords, type SwitchSheet, switchSheet } from '../../assess/signals/switches.ts'
import { Problems } from '../parts/Problems.tsx'
import { showPreferred } from '../parts/units.ts'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { useBench } from '../workbench/useBench.ts'
import { axisVolts, BandAxis, millivolts } from './BandAxis.tsx'
import { DesignForm } from './DesignForm.tsx'
import { Resistances } from './Resistances.tsx'
import { SolderDrawing } from './SolderDrawing.tsx'
import { fileName, TakeAway } from './TableOut.tsx'

export function SwitchPage({ id }: { id: string }) {
  const { build, assessment } = useBench()
  const record = build?.collections.resistanceSwitches[id]
  const sheet = useMemo(
    () => (build && assessment && record ? switchSheet(knownOf(build, assessment), record) : undefined),
    [build, assessment, record],
  )
  if (!sheet || !record) return <p>There is no such switch in this build.</p>
  const finding = assessment?.findings.find(({ subject }) => subject === `resistanceSwitches/${id}`)
  return (
    <>
      <h1>{record.name}</h1>
      {finding && (
        <p className="answer">
          <VerdictMark verdict={finding.verdict} /> {finding.says} <strong>{finding.todo}</strong>
        </p>
      )}
      <Problems list={sheet.problems} />
      {sheet.reading && sheet.circuit && (
        <div className="two">
          <BandAxis reading={sheet.reading} fullScale={sheet.circuit.supply.high} title={`Bands of ${record.name}`} />
          <div>
            <SwitchRows sheet={sheet} />
            <Offset sheet={sheet} />
            <Together sheet={sheet} />
          </div>
        </div>
      )}
      <h2>As it is wired</h2>
      <div className="two">
        <SolderDrawing sheet={sheet} />
        <Resistances key={JSON.stringify(record)} sheet={sheet} />
      </div>
      {sheet.circuit && sheet.around ? (
        <DesignForm key={id} sheet={sheet} />
      ) : (
        sheet.missing.length > 0 && <p>Missing: {sheet.missing.join('; ')}.</p>
      )}
    </>
  )
}

function Offset({ sheet: { offset, missing, ageing } }: { sheet: SwitchSheet }) {
  return (
    <p className="small">
      {ageing && `${ageingWords(ageing, (value) => showPreferred('resistance', value))} `}
      {offset
        ? `Its earth stands ${millivolts(offset.interval.low)} … ${millivolts(offset.interval.high)} above the sensor earth, over all cases; most in “${offset.worstCase}”.`
        : `Drawn for an earth without offset. Missing: ${missing.join('; ')}.`}
    </p>
  )
}

export function SwitchRows({ sheet }: { sheet: SwitchSheet }) {
  const { rows, record } = sheet
  const csv = `state,from V,below V,from code,to code\n${rows
    .map((row) => `"${row.state.replace(/"/g, '""')}",${row.from},${row.below},${row.fromCode},${row.toCode}`)
    .join('\n')}\n`
  return (
    <>
      <table className="controller-rows">
        <caption>Rows for the controller</caption>
        <thead>
          <tr>
            <th scope="col">State</th>
            <th scope="col" className="figure">
              from
            </th>
            <th scope="col" className="figure">
              below
            </th>
            <th scope="col" className="figure">
              codes
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.state}>
              <th scope="row">{row.state}</th>
              <td className="figure">{axisVolts(row.from)}</td>
              <td className="figure">{axisVolts(row.below)}</td>
              <td className="figure">
                {row.fromCode}–{row.toCode}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <TakeAway
        name={fileName(record.name)}
        csv={csv}
        json={JSON.stringify(rows, null, 2)}
        plain={rows.map((row) => [row.state, row.from.toFixed(3), row.below.toFixed(3)].join('\t')).join('\n')}
      />
    </>
  )
}

function Together({ sheet: { reading } }: { sheet: SwitchSheet }) {
  const wrong = reading?.pairs.filter(({ names, readsAs }) => readsAs.some((state) => !names.includes(state))) ?? []
  if (wrong.length === 0) return <p className="small">No two buttons held at once read as a third.</p>
  return (
    <details>
      <summary>{wrong.length} pairs of buttons, held at once, read as a third</summary>
      <ul className="small">
        {wrong.map(({ names, readsAs }) => (
          <li key={names.join()}>
            {names[0]} with {names[1]}: {readsAs.join(' or ')}
          </li>
        ))}
      </ul>
    </details>
  )
}
