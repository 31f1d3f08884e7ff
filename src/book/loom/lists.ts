/** Every list of the loom, by its name. */
import type { Build } from '../../model/build.ts'
import { cutList } from './cutList.ts'
import { fuseChart } from './fuseChart.ts'
import { labelSheet } from './labelSheet.ts'
import type { List, ListId } from './list.ts'
import { pinTables } from './pinTables.ts'
import { runTable } from './runTable.ts'
import { shoppingList } from './shoppingList.ts'
import { spliceList } from './spliceList.ts'

const MAKERS: Readonly<Record<ListId, (build: Build) => List>> = {
  runs: runTable,
  cut: cutList,
  pins: pinTables,
  splices: spliceList,
  fuses: fuseChart,
  labels: labelSheet,
  shopping: shoppingList,
}

export const loomList = (build: Build, id: ListId): List => MAKERS[id](build)
