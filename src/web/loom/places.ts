/** Where the loom's pages stand. */

import type { ListId } from '../../book/loom/list.ts'
import type { Paper } from '../../engineering/electrical/loom/tiles.ts'

export const LOOM_PLACE = '/loom'
export const runPlace = (id: string): string => `/loom/runs/${encodeURIComponent(id)}`
export const listPlace = (id: ListId): string => `/loom/lists/${id}`
export const boardPlace = (paper: Paper, zone = ''): string =>
  `/loom/board/${paper}${zone === '' ? '' : `/${encodeURIComponent(zone)}`}`
