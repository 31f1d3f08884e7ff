/** The tank's five cases as a small table, and where its vent ends. */
import { Link } from 'wouter'
import { type Datum, isKnown } from '../../assess/chain/chain.ts'
import type { FuelChain } from '../../assess/fuel/chain.ts'
import { VAPOUR_CAUTION } from '../../assess/fuel/fuelRules.ts'
import { tankCases, ventWords } from '../../assess/fuel/tankCases.ts'
import { tankSender } from '../../assess/fuel/tankSender.ts'
import { FUEL_CAUTION, QUALIFIED_FUEL } from '../../assess/make.ts'
import { showPreferredOr } from '../parts/units.ts'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { datumText } from './FigureLine.tsx'

const gasText = (flow: Datum): string =>
  isKnown(flow) ? showPreferredOr('volumeFlow', 'l/min', flow.value, flow.plusMinus || undefined) : 'unknown'

export function TankTable({ chain }: { chain: FuelChain }) {
  const cases = tankCases(chain)
  const vent = ventWords(chain)
  const sender = tankSender(chain.facts.build)
  return (
    <section aria-labelledby="tank-heading" className="tank">
      <h2 id="tank-heading">Tank, five cases</h2>
      <table className="folds">
        <caption className="out-of-sight">The tank in five cases</caption>
        <thead>
          <tr>
            <th scope="col">Case</th>
            <th scope="col">Through the vent</th>
            <th scope="col">In the tank</th>
            <th scope="col">It stands</th>
            <th scope="col">Verdict</th>
          </tr>
        </thead>
        <tbody>
          {cases.map((each) => (
            <tr key={each.id} data-tank={each.id}>
              <th scope="row" data-label="Case">
                {each.name}
              </th>
              <td data-label="Vent">{each.flow ? gasText(each.flow) : 'nothing'}</td>
              <td data-label="In the tank">
                {each.pressure && each.id !== 'warmed'
                  ? `${datumText('pressureDifference', each.pressure)} of ${each.sense}`
                  : each.space
                    ? `${datumText('volume', each.space)} of space`
                    : 'unknown'}
              </td>
              <td data-label="It stands">
                {each.limit ? datumText('pressureDifference', each.limit) : 'no pressure counted'}
              </td>
              <td data-label="Verdict">
                <details>
                  <summary>
                    <VerdictMark verdict={each.verdict} system="fuel" />
                  </summary>
                  <p>{each.says}</p>
                  {each.working.length > 0 && <pre className="working">{each.working.join('\n')}</pre>}
                </details>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>
        <VerdictMark verdict={vent.verdict} system="fuel" /> {vent.says}
        {vent.missing.length > 0 && ` Missing: ${vent.missing.join(', ')}.`}
      </p>
      {sender && (
        <p>
          <VerdictMark verdict={sender.verdict} /> {sender.says} {sender.verdict !== 'sound' && sender.todo}{' '}
          <Link to="/signals">Level sender</Link>
        </p>
      )}
      <ul className="small">
        {[FUEL_CAUTION, VAPOUR_CAUTION, QUALIFIED_FUEL].map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </section>
  )
}
