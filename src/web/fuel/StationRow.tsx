/** One station of the chain: its drawing, the channel through it, what it says, its figures, and what can be tried there. */
import { Link } from 'wouter'
import { isKnown } from '../../assess/chain/chain.ts'
import type { FuelStation } from '../../assess/fuel/chain.ts'
import type { Problem } from '../../units/problem.ts'
import { ReadingField } from '../chain/ReadingField.tsx'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { Channel } from './Channel.tsx'
import type { Opening } from './channel.ts'
import { datumText, differenceText, FigureLine, workingText } from './FigureLine.tsx'
import { LeverField } from './LeverField.tsx'
import type { Lever, Tried } from './levers.ts'
import { readableAt } from './subjects.ts'
import { StationSymbol } from './symbols.tsx'

export interface StationRowProps {
  readonly stored: FuelStation
  readonly tried: FuelStation | undefined
  readonly openings: { readonly before: Opening; readonly here: Opening }
  readonly triedOpenings: { readonly before: Opening; readonly here: Opening } | undefined
  readonly weakest: boolean
  /** It feeds less than the target. */
  readonly short: boolean
  /** A target power is entered. */
  readonly aimed: boolean
  readonly finding: string | undefined
  readonly levers: readonly Lever[]
  readonly typed: Tried
  readonly problems: Readonly<Record<string, readonly Problem[]>>
  readonly onType: (lever: string, text: string) => void
}

export function StationRow(props: StationRowProps) {
  const { stored, tried, openings, triedOpenings, weakest, short, aimed, finding, levers, typed, problems, onType } =
    props
  const shown = tried ?? stored
  const change =
    tried?.capacity && stored.capacity ? differenceText('power', stored.capacity, tried.capacity) : undefined
  return (
    <li className="station" data-station={stored.id} data-weakest={weakest || undefined}>
      <div className="station-symbol">
        <StationSymbol id={stored.id} />
      </div>
      <Channel {...openings} tried={triedOpenings} short={short} aimed={aimed} />
      <div className="station-says">
        <h2>{shown.name}</h2>
        {shown.capacity === undefined ? (
          <p className="capacity soft">
            {shown.id === 'engine' ? 'what all this is for' : 'sets no limit within reach'}
          </p>
        ) : (
          <details className="capacity-line">
            <summary className="capacity">
              {change && <span className="soft">{datumText('power', stored.capacity!)} → </span>}
              <b>{isKnown(shown.capacity) ? datumText('power', shown.capacity) : 'power unknown'}</b>
              {change && <span> ({change})</span>}
              {weakest && <span className="weakest">gives out first</span>}
            </summary>
            <pre className="working">{workingText(shown.capacity)}</pre>
          </details>
        )}
        <p>
          <VerdictMark verdict={shown.verdict} system="fuel" /> {shown.says}
        </p>
        {shown.problems.map((problem) => (
          <p key={problem}>{problem}</p>
        ))}
        {shown.verdict === 'unknown' && shown.missing.length > 0 && <p>Missing: {shown.missing.join(', ')}.</p>}
        {shown.verdict !== 'sound' && (
          <p className="soft">
            {shown.todo} {finding && <Link to={`/findings/${encodeURIComponent(finding)}`}>Finding and job</Link>}
          </p>
        )}
      </div>
      <div className="station-figures">
        <p className="soft small">{shown.about}</p>
        {stored.figures.map((figure) => {
          const readable = readableAt(stored.id, figure.id)
          return (
            <FigureLine key={figure.id} stored={figure} tried={tried?.figures.find(({ id }) => id === figure.id)}>
              {readable && <ReadingField {...readable} name={figure.name} />}
            </FigureLine>
          )
        })}
        {levers.length > 0 && (
          <fieldset className="tries">
            <legend>What if</legend>
            {levers.map((lever) => (
              <LeverField
                key={lever.id}
                lever={lever}
                text={typed[lever.id]}
                problems={problems[lever.id] ?? []}
                onType={(text) => onType(lever.id, text)}
              />
            ))}
          </fieldset>
        )}
      </div>
    </li>
  )
}
