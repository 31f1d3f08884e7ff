/** One list of the loom, to read, print or take away as a spreadsheet. */
import { useMemo, useState } from 'react'
import { Link } from 'wouter'
import { cellText, LISTS, type List, type ListId, type Table } from '../../book/loom/list.ts'
import { loomList } from '../../book/loom/lists.ts'
import { listAsCsv, listAsRows } from '../../book/loom/spreadsheet.ts'
import { Empty } from '../parts/Empty.tsx'
import { useBench } from '../workbench/useBench.ts'
import { LOOM_PLACE } from './places.ts'
import './loom.css'

const isList = (id: string): id is ListId => LISTS.some((each) => each === id)

const save = (name: string, blob: Blob): void => {
  const link = document.createElement('a')
  link.href = URL.createObjectURL(blob)
  link.download = name
  link.click()
  URL.revokeObjectURL(link.href)
}

export function LoomList({ id }: { readonly id: string }) {
  const { build } = useBench()
  const [trouble, setTrouble] = useState('')
  const list = useMemo(() => (build && isList(id) ? loomList(build, id) : undefined), [build, id])
  if (!build) return null
  if (!list)
    return (
      <Empty says="The loom has no such list.">
        <Link to={LOOM_PLACE}>Back to the loom</Link>
      </Empty>
    )
  const xlsx = async (): Promise<void> => {
    try {
      // Fetched when it is asked for: few visits need it.
      const { default: writeXlsx } = await import('write-excel-file/browser')
      save(`${list.id}.xlsx`, await writeXlsx([...listAsRows(list)]).toBlob())
      setTrouble('')
    } catch {
      setTrouble('The XLSX file could not be made; take the CSV.')
    }
  }
  return (
    <div className={`loom-list list-${list.id}`}>
      <p className="no-print">
        <Link to={LOOM_PLACE}>Loom</Link>
      </p>
      <h1>{list.title}</h1>
      <p>
        {list.says} <span className="print-only">{build.name}.</span>
      </p>
      {list.empty !== undefined ? (
        <Empty says={list.empty} />
      ) : (
        <p className="row no-print">
          <button type="button" className="first" onClick={() => window.print()}>
            Print
          </button>
          <button
            type="button"
            onClick={() => save(`${list.id}.csv`, new Blob([`\ufeff${listAsCsv(list)}`], { type: 'text/csv' }))}
          >
            CSV
          </button>
          <button type="button" onClick={() => void xlsx()}>
            XLSX
          </button>
          <span role="status">{trouble}</span>
        </p>
      )}
      {list.id === 'labels' ? (
        <Labels list={list} />
      ) : (
        list.tables.map((table) => <ListTable key={table.title ?? ''} table={table} />)
      )}
      {list.notes.map((note) => (
        <p key={note} className="soft small">
          {note}
        </p>
      ))}
      {list.missing.length > 0 && (
        <section aria-labelledby="not-known">
          <h2 id="not-known">Not known ({list.missing.length})</h2>
          <ul className="small">
            {list.missing.map((each) => (
              <li key={each}>{each}</li>
            ))}
          </ul>
        </section>
      )}
    </div>
  )
}

function ListTable({ table: { title, columns, rows } }: { readonly table: Table }) {
  if (rows.length === 0) return null
  return (
    <table className="folds list-table">
      {title !== undefined && <caption>{title}</caption>}
      <thead>
        <tr>
          {columns.map(({ name, digits }) => (
            <th key={name} scope="col" className={digits === undefined ? undefined : 'figure'}>
              {name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row, index) => (
          // A row is known by its place: two may say the same.
          // biome-ignore lint/suspicious/noArrayIndexKey: rows are never moved
          <tr key={index}>
            {row.map((cell, column) => {
              const text = cellText(cell, columns[column]!)
              const className = typeof cell === 'number' ? 'figure' : text === '' ? 'bare' : undefined
              return column === 0 ? (
                <th key={columns[column]!.name} scope="row" data-label={columns[column]!.name}>
                  {text}
                </th>
              ) : (
                <td key={columns[column]!.name} data-label={columns[column]!.name} className={className}>
                  {text}
                </td>
              )
            })}
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function Labels({ list }: { readonly list: List }) {
  return (
    <ul className="plain label-sheet">
      {list.tables.flatMap(({ rows }) =>
        rows.map(([wire, what, here, there], index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: labels are never moved
          <li key={index}>
            <strong>{wire}</strong> {what}
            <br />
            {here}
            <br />
            <span className="other">to {there}</span>
          </li>
        )),
      )}
    </ul>
  )
}
