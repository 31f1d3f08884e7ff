/** Says that what is seen is tried and not stored, and offers both ways on. */
interface WhatIfNoteProps {
  readonly readable: boolean
  readonly canStore: boolean
  readonly aside: readonly string[]
  readonly onStore: () => void
  readonly onBack: () => void
}

export function WhatIfNote({ readable, canStore, aside, onStore, onBack }: WhatIfNoteProps) {
  return (
    <div className="trial-note" role="status">
      <p>
        <b>What if: not stored.</b>{' '}
        {readable
          ? 'Thin lines and first figures are the build as stored; the build itself is as it was.'
          : 'What was typed cannot be read yet.'}{' '}
        {aside.length > 0 && `Set aside for now: ${aside.join(', ')}; storing does not remove readings.`}
      </p>
      <div className="row">
        <button type="button" className="first" disabled={!canStore} onClick={onStore}>
          Store this set-up
        </button>
        <button type="button" onClick={onBack}>
          Back to the build as stored
        </button>
      </div>
    </div>
  )
}
