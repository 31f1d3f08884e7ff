/** The suspects of a search, most likely first, with how each would have failed. */
import type { SearchView } from '../../assess/faults/faults.ts'
import { share } from './faultEdits.ts'

const SHOWN = 8
export function Suspects({ view: { suspects } }: { view: SearchView }) {
  if (suspects.length === 0) return null
  return (
    <section aria-labelledby="suspects">
      <h2 id="suspects">Suspects</h2>
      <table>
        <tbody>
          {suspects.slice(0, SHOWN).map((suspect) => (
            <tr key={suspect.part}>
              <th scope="row">{suspect.name}</th>
              <td className="figure">{share(suspect)}</td>
              <td>
                {suspect.modes
                  .slice(0, 2)
                  .map(({ mode }) => mode)
                  .join(', ')}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {suspects.length > SHOWN && <p className="soft small">and {suspects.length - SHOWN} less likely ones.</p>}
    </section>
  )
}
