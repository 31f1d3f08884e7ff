/** One thing that a gate asks: its verdict in words, what is missing, how it is answered, what is there to show. */
import { Link } from 'wouter'
import { sayOf } from '../../assess/commissioning/commissioning.ts'
import type { AskStanding, GateStanding } from '../../assess/commissioning/types.ts'
import type { Build } from '../../model/build.ts'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { Photos } from '../phone/Photos.tsx'
import { findingPlace } from '../search/placeOf.ts'
import { EvidenceList } from './EvidenceList.tsx'
import { FigureForm } from './FigureForm.tsx'
import { nextPlace } from './gatePlaces.ts'
import { keep } from './keep.ts'
import { SayForm } from './SayForm.tsx'
import { saidNow } from './who.ts'

/** Says already what is missing. */
const UNSEEN = 'Nobody has looked yet.'
/** Findings listed under one thing asked. */
const SHOWN = 8

interface Props {
  readonly build: Build
  readonly standing: GateStanding
  readonly one: AskStanding
}

export function AskOpen({ build, standing, one }: Props) {
  const { ask, verdict, says, missing, next, evidence } = one
  const answered = standing.stand === 'in turn' || standing.stand === 'asks again'
  const place = next && !('finding' in (next.at ?? {})) ? nextPlace(next) : undefined
  const found = (one.findings ?? []).filter((finding) => finding.verdict === verdict)
  return (
    <section className="ask" aria-labelledby={`ask-${ask.id}`}>
      <p className="verdict">
        <VerdictMark verdict={verdict} system={ask.system} />
      </p>
      <h2 id={`ask-${ask.id}`}>{ask.says}</h2>
      {found.length > 0 ? (
        <ul className="plain against">
          {found.slice(0, SHOWN).map((finding) => (
            <li key={finding.key}>
              <VerdictMark verdict={finding.verdict} /> <Link to={findingPlace(finding.key)}>{finding.says}</Link>
            </li>
          ))}
          {found.length > SHOWN && <li className="soft">and {found.length - SHOWN} more</li>}
        </ul>
      ) : (
        <p>{says}</p>
      )}
      {missing !== undefined && says !== UNSEEN && (
        <p>
          Missing: <strong>{missing}</strong>.
        </p>
      )}
      {answered && place && verdict !== 'sound' && (
        <p className="no-print">
          <Link to={place.to}>{place.says}</Link>
        </p>
      )}
      {answered && ask.kind === 'figures' && (
        <FigureForm key={evidence.length} {...{ build, standing, ask }} fields={ask.fields} />
      )}
      <EvidenceList {...{ build, lines: evidence }} />
      <div className="answers no-print">
        <SayForm
          about={ask.says}
          {...(answered && ask.kind === 'hand' && verdict !== 'sound' ? { first: 'Seen: as it should be' } : {})}
          choices={[
            ...(answered && ask.kind === 'hand' ? (['not as it should'] as const) : []),
            ...(answered && (ask.kind === 'figures' || (ask.kind === 'hand' && !ask.always))
              ? (['does not apply'] as const)
              : []),
            ...(answered && ask.kind === 'findings' && verdict === 'unknown' ? (['as it should'] as const) : []),
            'a remark',
          ]}
          say={(shows, words) => keep(() => sayOf(build, standing, ask, shows, saidNow(), words))}
        />
        {(ask.kind === 'hand' || ask.kind === 'figures') && <Photos about={`gate/${ask.id}`} name={ask.says} />}
      </div>
    </section>
  )
}
