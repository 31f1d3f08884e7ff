/** The stations in order: what each says, its figures, where a sensor goes, and what can be tried there. */
import { useId } from 'react'
import { Link } from 'wouter'
import type { Station } from '../../assess/chain/chain.ts'
import type { Judged } from '../../assess/chain/judged.ts'
import { Cautions } from '../parts/Cautions.tsx'
import { Problems } from '../parts/Problems.tsx'
import { measureText } from '../parts/quantityText.ts'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { FigureLine } from './FigureLine.tsx'
import { chosenAt, type Lever, numbersAt, storedAt } from './levers.ts'
import { type Readable, ReadingField } from './ReadingField.tsx'
import type { ChainTrial } from './useTrial.ts'

function LeverField({ lever, trial }: { lever: Lever; trial: ChainTrial<unknown> }) {
  const id = useId()
  const problems = trial.trial?.problems[lever.id] ?? []
  return (
    <div className="stop-lever">
      <label htmlFor={id}>{lever.label}</label>
      {'options' in lever ? (
        <select
          id={id}
          value={trial.typed[lever.id] ?? (trial.build ? chosenAt(trial.build, lever) : '')}
          onChange={(event) => trial.type(lever.id, event.target.value)}
        >
          <option value="">not known</option>
          {Object.keys(lever.options).map((words) => (
            <option key={words}>{words}</option>
          ))}
        </select>
      ) : (
        <input
          id={id}
          value={
            trial.typed[lever.id] ??
            (trial.build === undefined
              ? ''
              : 'numbers' in lever
                ? numbersAt(trial.build, lever)
                : measureText(lever.kind, storedAt(trial.build, lever)))
          }
          placeholder="not known"
          autoComplete="off"
          aria-invalid={problems.length > 0}
          aria-describedby={problems.length > 0 ? `${id}-wrong` : undefined}
          onChange={(event) => trial.type(lever.id, event.target.value)}
        />
      )}
      <Problems list={problems} id={`${id}-wrong`} />
    </div>
  )
}

interface StationsProps {
  readonly stored: readonly Station[]
  readonly tried: readonly Station[] | undefined
  readonly judged: readonly Judged[]
  readonly trial: ChainTrial<unknown>
  /** What a reading of a figure would be of; undefined where none stands in its place. */
  readonly readableAt: (figure: string) => Readable | undefined
}

export function Stations({ stored, tried, judged, trial, readableAt }: StationsProps) {
  return (
    <ol className="plain stops">
      {stored.map((station) => {
        const other = tried?.find(({ id }) => id === station.id)
        const found = judged.filter((each) => each.station === station.id)
        const levers = trial.levers.filter((lever) => lever.station === station.id)
        const readings = station.figures.flatMap(({ reading, name }) => (reading ? [{ reading, name }] : []))
        return (
          <li key={station.id} className="stop" id={`stop-${station.id}`} data-station={station.id}>
            <div>
              <h2>{station.name}</h2>
              <p className="soft small">{(other ?? station).about}</p>
              {found.map(({ finding }) => (
                <div key={finding.key} className="stop-finding">
                  <p>
                    <VerdictMark verdict={finding.verdict} system={finding.system} /> {finding.says}
                  </p>
                  {finding.verdict !== 'sound' && (
                    <p className="soft">
                      {finding.todo}{' '}
                      {!tried && <Link to={`/findings/${encodeURIComponent(finding.key)}`}>Finding and job</Link>}
                    </p>
                  )}
                </div>
              ))}
              {station.cautions && <Cautions list={station.cautions} />}
              {station.sensor && (
                <p className="small">
                  <b>To log it:</b> {station.sensor}
                </p>
              )}
            </div>
            <div>
              {station.figures.map((figure) => {
                const readable = readableAt(figure.id)
                return (
                  <FigureLine key={figure.id} stored={figure} tried={other?.figures.find(({ id }) => id === figure.id)}>
                    {readable && <ReadingField {...readable} name={figure.name} />}
                  </FigureLine>
                )
              })}
              {(levers.length > 0 || readings.length > 0) && (
                <fieldset className="stop-levers">
                  <legend>What if, at {station.name.toLowerCase()}</legend>
                  {levers.map((lever) => (
                    <LeverField key={lever.id} lever={lever} trial={trial} />
                  ))}
                  {readings.map(({ reading, name }) => (
                    <label key={reading} className="choice">
                      <input
                        type="checkbox"
                        checked={trial.aside.includes(reading)}
                        onChange={(event) => trial.setAside(reading, event.target.checked)}
                      />
                      without reading {reading} ({name})
                    </label>
                  ))}
                </fieldset>
              )}
            </div>
          </li>
        )
      })}
    </ol>
  )
}
