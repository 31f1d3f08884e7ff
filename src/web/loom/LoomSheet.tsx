/** How this loom is laid and cut: each figure as entered, or what is taken until it is. */
import { loomSettings, type Setting } from '../../assess/loom/settings.ts'
import type { Build } from '../../model/build.ts'
import { Cell } from '../circuits/tables/Cell.tsx'
import { measureText } from '../parts/quantityText.ts'
import { LOOM_KINDS, type LoomField, setLoom, setWall } from './edits.ts'
import { millimetres } from './words.ts'

const FIELDS: readonly (readonly [LoomField, string, (setting: Setting) => string])[] = [
  ['tail', 'Tail from the loom to a device, each end', ({ value }) => millimetres(value)],
  ['service', 'More at each end, to terminate once again', ({ value }) => millimetres(value)],
  ['handLaid', 'Laid by hand over the tightest packing', ({ value }) => `× ${value}`],
  ['tape', 'One layer of the tape', ({ value }) => millimetres(value)],
  ['waste', 'Bought beyond what is cut', ({ value }) => `${(value * 100).toFixed(0)} %`],
]

export function LoomSheet({ build }: { readonly build: Build }) {
  const settings = loomSettings(build)
  return (
    <details className="loom-sheet">
      <summary>How this loom is laid and cut</summary>
      <table className="folds">
        <caption className="out-of-sight">Allowances of the loom</caption>
        <thead>
          <tr>
            {['What', 'Entered', 'Reckoned with', 'From'].map((name) => (
              <th key={name} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {FIELDS.map(([field, word, show], row) => (
            <tr key={field}>
              <th scope="row" data-label="What">
                {word}
              </th>
              <td data-label="Entered">
                <Cell
                  label={word}
                  text={measureText(LOOM_KINDS[field], build.sheets.loom?.[field])}
                  hint="not entered"
                  row={row}
                  column={0}
                  keep={(text) => setLoom(build, field, word, text)}
                />
              </td>
              <td data-label="Reckoned">{show(settings[field])}</td>
              <td data-label="From" className="small soft">
                {settings[field].from}
              </td>
            </tr>
          ))}
          <tr>
            <th scope="row" data-label="What">
              Insulation wall of the wires
            </th>
            <td data-label="Entered">
              <select
                aria-label="Insulation wall of the wires"
                className="cell"
                value={build.sheets.loom?.wall ?? ''}
                onChange={(event) => setWall(build, event.target.value)}
              >
                <option value="">not said</option>
                <option>thin</option>
                <option>thick</option>
              </select>
            </td>
            <td data-label="Reckoned">{settings.wall}</td>
            <td data-label="From" className="small soft">
              {settings.wallFrom}
            </td>
          </tr>
        </tbody>
      </table>
    </details>
  )
}
