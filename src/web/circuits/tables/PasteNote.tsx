/** A pasted block of which some cells do not fit: what is wrong with them; the others wait for the builder's word. */
import type { Pasted } from './paste.ts'

interface Props {
  readonly pasted: Pasted
  readonly take: () => void
  readonly leave: () => void
}
const MOST = 12

export function PasteNote({ pasted: { taken, bad }, take, leave }: Props) {
  return (
    <div className="paste-note" role="alert">
      <p>
        <strong>
          {bad.length} pasted {bad.length === 1 ? 'cell does' : 'cells do'} not fit
        </strong>
        {taken > 0 ? `; the other ${taken} ${taken === 1 ? 'waits' : 'wait'} for your word. ` : '. '}
        Nothing has been changed yet.
      </p>
      <ul>
        {bad.slice(0, MOST).map(({ where, text, problems }) => (
          <li key={`${where} ${text}`}>
            <strong>{where}</strong>, “{text}”: {problems.map(({ says, todo }) => `${says} ${todo}`).join(' ')}
          </li>
        ))}
        {bad.length > MOST && <li>and {bad.length - MOST} more.</li>}
      </ul>
      <p className="row">
        {taken > 0 && (
          <button type="button" className="first" onClick={take}>
            Take the {taken} that {taken === 1 ? 'fits' : 'fit'}
          </button>
        )}
        <button type="button" onClick={leave}>
          {taken > 0 ? 'Take none' : 'Understood'}
        </button>
      </p>
    </div>
  )
}
