/** The wires of a circuit, edited in place in the builder's units; what each carries in the chosen case stands beside. */
import type { Build, Wire } from '../../model/build.ts'
import { measureText } from '../parts/quantityText.ts'
import { Cell } from './Cell.tsx'
import { removeWire, setWire, setWires, WIRE_WORDS, type WireField } from './edits.ts'
import { ampsText, dropText } from './small.ts'

interface Props {
  readonly build: Build
  readonly wires: readonly Wire[]
  readonly voltages: Readonly<Record<string, number | null>>
  readonly currents: Readonly<Record<string, number | null>>
  readonly shown: string | undefined
}
const FIELDS: readonly WireField[] = ['from', 'to', 'area', 'length', 'colour', 'tracer']

const textOf = (wire: Wire, field: WireField): string =>
  field === 'area' || field === 'length' ? measureText(field, wire[field]) : (wire[field] ?? '')

export function WireTable({ build, wires, voltages, currents, shown }: Props) {
  return (
    <table className="folds wires">
      <caption>Wires</caption>
      <thead>
        <tr>
          <th scope="col">Wire</th>
          {FIELDS.map((field) => (
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
          <th scope="col">
            <span className="out-of-sight">Remove</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {wires.map((wire, index) => {
          return (
            <tr key={wire.id} id={`wires-${wire.id}`} className={shown === wire.id ? 'shown' : undefined}>
              <th scope="row" data-label="Wire">
                {wire.id}
              </th>
              {FIELDS.map((field) => (
                <td key={field} data-label={WIRE_WORDS[field]}>
                  {wire.restricted === undefined ? (
                    <Cell
                      label={`${WIRE_WORDS[field]} of wire ${wire.id}`}
                      text={textOf(wire, field)}
                      hint={field === 'length' && wire.path?.length ? 'from its path' : undefined}
                      keep={(text) => setWire(build, wire, field, text)}
                      keepLines={(lines) => setWires(build, wires.slice(index), field, lines)}
                    />
                  ) : (
                    textOf(wire, field)
                  )}
                </td>
              ))}
              <td data-label="Current" className="figure">
                {ampsText(currents[wire.id])}
              </td>
              <td data-label="Drop" className="figure">
                {dropText(voltages[wire.from], voltages[wire.to])}
              </td>
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
  )
}
