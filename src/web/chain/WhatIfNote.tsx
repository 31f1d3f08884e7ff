/** Says that what is seen is tried and not stored, and offers both ways on; nothing where nothing is tried. */
import type { ChainTrial } from './useTrial.ts'

export function WhatIfNote({ trial }: { trial: ChainTrial<unknown> }) {
  const { aside, tried, typed } = trial
  if (Object.keys(typed).length === 0 && aside.length === 0) return null
  const readable = tried !== undefined || Object.keys(trial.trial?.problems ?? {}).length === 0
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
        <button type="button" className="first" disabled={!trial.trial?.changes.length} onClick={trial.store}>
          Store this set-up
        </button>
        <button type="button" onClick={trial.back}>
          Back to the build as stored
        </button>
      </div>
    </div>
  )
}
