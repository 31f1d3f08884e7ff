/** The pedal-force sheet: every state by both loads against what is allowed; a cell is pressed to see its stations. */
import type { BrakeCase, BrakeChain } from '../../assess/brakes/chain.ts'
import { LOADS } from '../../assess/brakes/facts.ts'
import type { PedalRow } from '../../assess/brakes/pedalSheet.ts'
import { STATES, stateWords } from '../../assess/brakes/states.ts'
import { isKnown } from '../../assess/chain/chain.ts'
import { datumText, differenceText, shortText } from '../chain/FigureLine.tsx'

interface PedalTableProps {
  readonly stored: BrakeChain
  readonly tried: BrakeChain | undefined
  readonly onChoose: (chosen: BrakeCase) => void
}

const capital = (text: string): string => `${text[0]!.toUpperCase()}${text.slice(1)}`
const find = (chain: BrakeChain | undefined, { load, state }: BrakeCase): PedalRow | undefined =>
  chain?.sheet.find((row) => row.load === load && row.state === state)

/** How much of the allowed force is taken: a line with its ±, the limit as a stroke across. */
function ForceLine({ row }: { row: PedalRow }) {
  const { force, limit } = row
  if (!isKnown(force) || !isKnown(limit)) return null
  const scale = (value: number): number => Math.min(Math.max(value / limit.value, 0), 1.4) * 100
  return (
    <svg className="line-drawing force-line" viewBox="0 0 142 12" aria-hidden="true">
      <path className="fine" d="M0 6H141" />
      <path className="pen" d="M100 0V12" />
      <path className="heavy" d={`M0 6H${scale(force.value).toFixed(1)}`} />
      <path
        className="pen"
        d={`M${scale(force.value - force.plusMinus).toFixed(1)} 2v8M${scale(force.value + force.plusMinus).toFixed(1)} 2v8`}
      />
    </svg>
  )
}

function Cell({ stored, tried, chosen, onChoose }: PedalTableProps & { readonly chosen: BrakeCase }) {
  const shown = tried ?? stored
  const row = find(shown, chosen)
  if (!row) return <td className="soft">–</td>
  const change = tried && differenceText('force', find(stored, chosen)?.force, row.force)
  const here = shown.case.load === chosen.load && shown.case.state === chosen.state
  return (
    <td>
      <button
        type="button"
        className="pedal-force"
        aria-pressed={here}
        aria-label={`${stateWords(shown.facts, chosen.state)}, ${chosen.load}: show its stations`}
        onClick={() => onChoose(chosen)}
      >
        {datumText('force', row.force)}
      </button>
      {change && <span className="fig-change"> {change}</span>}
      <ForceLine row={row} />
    </td>
  )
}

export function PedalTable({ stored, tried, onChoose }: PedalTableProps) {
  const shown = tried ?? stored
  const states = STATES.filter((state) =>
    [stored, shown].some((chain) => chain.sheet.some((row) => row.state === state)),
  )
  const limit = shown.row.limit
  return (
    <section className="pedal-sheet" aria-label="Pedal force in every state">
      <h2>Pedal force in every state</h2>
      <p className="small soft">
        The stroke across is the greatest force allowed{isKnown(limit) ? `, ${shortText('force', limit)}` : ''}
        {shown.facts.yardstick ? ` by ${shown.facts.yardstick.name}` : ''}. Press a force to see its stations.
      </p>
      <table>
        <thead>
          <tr>
            <th scope="col">State</th>
            {LOADS.map((load) => (
              <th key={load} scope="col">
                {capital(load)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {states.map((state) => {
            const row = find(shown, { load: 'driver only', state })
            return (
              <tr key={state}>
                <th scope="row">
                  {capital(stateWords(shown.facts, state))}
                  {row && isKnown(row.wanted) && (
                    <span className="soft small"> for {shortText('acceleration', row.wanted)}</span>
                  )}
                </th>
                {LOADS.map((load) => (
                  <Cell key={load} {...{ stored, tried, onChoose }} chosen={{ load, state }} />
                ))}
              </tr>
            )
          })}
        </tbody>
      </table>
      <StalledLine chain={shown} />
    </section>
  )
}

/** Stop after stop with the engine stalled. */
function StalledLine({ chain }: { chain: BrakeChain }) {
  const forces = (chain.stalled ?? []).map(({ force }) => force)
  const known = forces.flatMap((force) => (isKnown(force) ? [force] : []))
  if (known.length === 0 || known.length < forces.length) return null
  return (
    <p className="small">
      Engine stalled, laden, firm stop after firm stop:{' '}
      <b>
        {known
          .slice(0, 6)
          .map((force) => force.value.toFixed(0))
          .join(', ')}{' '}
        N
      </b>
      . The last is what it takes without help.
    </p>
  )
}
