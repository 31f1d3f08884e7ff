/** What can be printed of the loom, and what each sheet still lacks. */

import { useDeferredValue, useMemo } from 'react'
import { Link } from 'wouter'
import { layoutBoard } from '../../book/loom/board.ts'
import { LISTS, type List } from '../../book/loom/list.ts'
import { loomList } from '../../book/loom/lists.ts'
import type { Build } from '../../model/build.ts'
import { boardPlace, listPlace } from './places.ts'

const lacksText = ({ missing, empty }: List): string =>
  empty ?? (missing.length === 0 ? '' : `${missing.length} ${missing.length === 1 ? 'datum' : 'data'} not known.`)

export function Printables({ build: newest }: { readonly build: Build }) {
  // What was edited is drawn first; what it does to the sheets follows.
  const build = useDeferredValue(newest)
  const lists = useMemo(() => LISTS.map((id) => loomList(build, id)), [build])
  const boards = useMemo(() => (['A4', 'A3'] as const).map((paper) => layoutBoard(build, paper)), [build])
  return (
    <section aria-labelledby="printables">
      <h2 id="printables">What can be printed</h2>
      <ul className="plain printables">
        {lists.map((list) => (
          <li key={list.id}>
            <Link to={listPlace(list.id)}>{list.title}</Link>
            <span className="soft small"> {list.says}</span>
            {lacksText(list) !== '' && <span className="small"> {lacksText(list)}</span>}
          </li>
        ))}
        {boards.map(({ paper, tiling, empty }) => (
          <li key={paper}>
            <Link to={boardPlace(paper)}>Layout board on {paper}, full size</Link>
            <span className="soft small">
              {' '}
              {empty ?? `${tiling.tiles.length} sheets to glue; each carries a bar of 100 mm to check the printer by.`}
            </span>
          </li>
        ))}
      </ul>
    </section>
  )
}
