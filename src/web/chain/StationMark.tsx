/** A station in a line drawing: pressed, it leads to the station's figures; its verdict as a line of our own. */
import type { ReactNode } from 'react'
import type { Station } from '../../assess/chain/chain.ts'
import { holdsOnly, VERDICT_SHAPES, wordFor } from '../parts/VerdictMark.tsx'

interface StationMarkProps {
  readonly station: Station
  readonly system: 'air' | 'cooling' | 'brakes' | 'driveline'
  /** Where the verdict's line is drawn, its left end. */
  readonly mark: readonly [x: number, y: number]
  readonly children: ReactNode
}

export function StationMark({ station, system, mark, children }: StationMarkProps) {
  const { verdict } = station
  return (
    <a
      className="press"
      href={`#/${system}`}
      aria-label={`${station.name}${verdict ? `: ${wordFor(verdict, system)}` : ''}; to its figures`}
      onClick={(event) => {
        const stop = document.getElementById(`stop-${station.id}`)
        // Elsewhere than on its own bench the drawing leads there.
        if (!stop) return
        event.preventDefault()
        stop.scrollIntoView({ block: 'start' })
      }}
    >
      {children}
      {verdict && (
        <path
          className={`mark ${holdsOnly(verdict, system) ? 'holds' : verdict}`}
          d={VERDICT_SHAPES[verdict]}
          transform={`translate(${mark[0]} ${mark[1]})`}
        />
      )}
    </a>
  )
}
