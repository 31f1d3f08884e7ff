/** Nothing here yet: says so, and says what comes next. */
import type { ReactNode } from 'react'

export function Empty({ says, children }: { says: string; children?: ReactNode }) {
  return (
    <div style={{ borderTop: '1px solid var(--line)', paddingTop: '0.8rem' }}>
      <p>{says}</p>
      {children}
    </div>
  )
}
