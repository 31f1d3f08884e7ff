/** The wires of a circuit, edited in place in the builder's units; what each carries in the chosen case stands beside. */
import { useState } from 'react'
import type { Build, Wire } from '../../../model/build.ts'
import { measureText } from '../../parts/quantityText.ts'
import { type Live, voltsText, wireFigures } from '../drawing/live.ts'
import {
  removeWire,
  setWire,
  WIRE_COLUMNS,
  WIRE_FIELDS,
  WIRE_WORDS,
  type WireField,
  wireFromRow,
  write,
} from '../edits.ts'
import { Cell } from './Cell.tsx'
import { moveByKey } from './moveByKey.ts'
import { PasteNote } from './PasteNote.tsx'
import { type Pasted, planPaste } from './paste.ts'

interface Props {
  readonly build: Build
  readonly circuit: string | undefined
  readonly wires: readonly Wire[]
  readonly live: Live | undefined
  readonly shown: string | undefined
}

const textOf = (wire: Wire, field: WireField): string =>
  field === 'area' || field === 'length' ? measureText(field, wire[field]) : (wire[field] ?? '')

const dropText = (wire: Wire, live: Live): string => {
  const [a, b] = [live.solved.voltages[wire.from], live.solved.voltages[wire.to]]
  return wireFigures(live, wire).current === null || a == null || b == null
    ? 'unknown'
    : voltsText(Math.abs(a - b), true)
}

export function WireTable({ build, circuit, wires, live, shown }: Props) {
  const [waiting, setWaiting] = useState<Pasted>()
  const take = (pasted: Pasted): void => {
    const cells = `${pasted.taken} pasted ${pasted.taken === 1 ? 'cell' : 'cells'}`
    if (pasted.changes.length > 0) write(build, `Wires: ${cells}`, () => pasted.changes)
    setWaiting(undefined)
  }
  const paste = (row: number, column: number, block: readonly (readonly string[])[]): void => {
    const pasted = planPaste(build, block, {
      collection: 'wires',
      items: wires,
      columns: WIRE_COLUMNS,
      row,
      column,
      make: wireFromRow(build, circuit),
    })
    if (pasted.bad.length > 0) setWaiting(pasted)
    else take(pasted)
  }
  const hasHeat = live !== undefined && wires.some((wire) => wireFigures(live, wire).temperature !== undefined)
  return (
    <>
      {waiting && <PasteNote pasted={waiting} take={() => take(waiting)} leave={() => setWaiting(undefined)} />}
      <table className="folds wires" onKeyDown={moveByKey}>
        <caption>Wires</caption>
        <thead>
          <tr>
            <th scope="col">Wire</th>
            {WIRE_FIELDS.map((field) => (
              <th key={field} scope="col">
                {WIRE_WORDS[field]}
              </th>
            ))}
            <th scope="col" className="figure">
              Current
            </th>
            <th scope="col" className="figure">
              Drop
            </th>
            {hasHeat && (
              <th scope="col" className="figure">
                Conductor
              </th>
            )}
            <th scope="col">
              <span className="out-of-sight">Remove</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {wires.map((wire, row) => {
            const figures = live && wireFigures(live, wire)
            return (
              <tr key={wire.id} id={`wires-${wire.id}`} className={shown === wire.id ? 'shown' : undefined}>
                <th scope="row" data-label="Wire">
                  {wire.id}
                </th>
                {WIRE_FIELDS.map((field, column) => (
                  <td key={field} data-label={WIRE_WORDS[field]}>
                    {wire.restricted === undefined ? (
                      <Cell
                        label={`${WIRE_WORDS[field]} of wire ${wire.id}`}
                        text={textOf(wire, field)}
                        hint={field === 'length' && wire.path?.length ? 'from its path' : undefined}
                        row={row}
                        column={column}
                        keep={(text) => setWire(build, wire, field, text)}
                        paste={(block) => paste(row, column, block)}
                      />
                    ) : (
                      textOf(wire, field)
                    )}
                  </td>
                ))}
                <td data-label="Current" className="figure">
                  {figures?.amps ?? 'unknown'}
                </td>
                <td data-label="Drop" className="figure">
                  {live ? dropText(wire, live) : 'unknown'}
                </td>
                {hasHeat && (
                  <td data-label="Conductor" className="figure">
                    {figures?.temperature ?? 'unknown'}
                  </td>
                )}
                <td data-label="">
                  {wire.restricted === undefined ? (
                    <button type="button" aria-label={`Remove wire ${wire.id}`} onClick={() => removeWire(wire)}>
                      Remove
                    </button>
                  ) : (
                    `${wire.restricted}: never altered here`
                  )}
                </td>
              </tr>
            )
          })}
        </tbody>
      </table>
    </>
  )
}
