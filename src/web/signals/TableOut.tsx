/** Rows for the controller: shown, copied, downloaded. */

import { useState } from 'react'
import {
  type ControllerTable,
  writeControllerTableCsv,
  writeControllerTableJson,
} from '../../engineering/signals/table/format.ts'
import { slug } from '../../model/newId.ts'

const download = (name: string, text: string, type: string): void => {
  const link = document.createElement('a')
  link.href = URL.createObjectURL(new Blob([text], { type }))
  link.download = name
  link.click()
  URL.revokeObjectURL(link.href)
}

/** Copy and download of any text; says that it was copied, or that the browser would not. */
export function TakeAway({
  name,
  csv,
  json,
  plain,
}: {
  name: string
  csv: string
  json: string
  /** Tab-separated rows alone, as a controller's table editor takes them. */
  plain: string
}) {
  const [said, setSaid] = useState('')
  const copy = async (): Promise<void> => {
    try {
      await navigator.clipboard.writeText(plain)
      setSaid('Copied.')
    } catch {
      setSaid('The browser does not let this page copy; download it instead.')
    }
  }
  return (
    <div className="row">
      <button type="button" onClick={() => void copy()}>
        Copy the rows
      </button>
      <button type="button" onClick={() => download(`${name}.csv`, csv, 'text/csv')}>
        Download CSV
      </button>
      <button type="button" onClick={() => download(`${name}.json`, json, 'application/json')}>
        Download JSON
      </button>
      <span role="status">{said}</span>
    </div>
  )
}

export const fileName = (title: string): string => slug(title, 'table', 80)

export function TableOut({ table }: { table: ControllerTable }) {
  const cells = table.rows.map(({ x, y }) => [x.toFixed(3), String(Number(y.toPrecision(4)))] as const)
  return (
    <>
      <table className="controller-rows">
        <caption>Rows for the controller</caption>
        <thead>
          <tr>
            <th scope="col" className="figure">
              V
            </th>
            <th scope="col" className="figure">
              {table.y.unit}
            </th>
          </tr>
        </thead>
        <tbody>
          {cells.map(([x, y]) => (
            <tr key={x}>
              <td className="figure">{x}</td>
              <td className="figure">{y}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>
        {table.largestError === 0
          ? 'These rows follow the curve without error.'
          : `At most ${Number((table.largestError ?? Number.NaN).toPrecision(2))} ${table.y.unit === '°C' ? 'K' : table.y.unit} off between rows; no other choice of as many rows is less.`}
        {table.shortBelow !== undefined &&
          table.openAbove !== undefined &&
          ` Shorted below ${table.shortBelow.toFixed(2)} V, open above ${table.openAbove.toFixed(2)} V.`}
      </p>
      <TakeAway
        name={fileName(table.title)}
        csv={writeControllerTableCsv(table)}
        json={writeControllerTableJson(table)}
        plain={cells.map((row) => row.join('\t')).join('\n')}
      />
    </>
  )
}
