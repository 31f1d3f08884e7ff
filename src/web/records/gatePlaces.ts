/** Where gates stand in the workbench, and where their next thing is done. */
import type { Next, Stand } from '../../assess/commissioning/types.ts'
import { findingPlace } from '../search/placeOf.ts'
import { sheetPlace } from '../testSheets/sheetPlace.ts'

export const gatePlace = (gate: string): string => `/records/gates/${encodeURIComponent(gate)}`

export const nextPlace = ({ at }: Next): { readonly to: string; readonly says: string } | undefined => {
  if (at === undefined) return undefined
  if ('sheet' in at) return { to: sheetPlace(at.sheet), says: 'Open the first-power sheet' }
  if ('finding' in at) return { to: findingPlace(at.finding), says: 'Open the finding' }
  return { to: `/${at.bench}`, says: `Open ${at.bench.charAt(0).toUpperCase()}${at.bench.slice(1)}` }
}

export const STAND_WORDS: Readonly<Record<Stand, string>> = {
  closed: 'closed',
  'asks again': 'asks again',
  'in turn': 'in turn',
  waits: 'waits',
  locked: 'locked',
}
