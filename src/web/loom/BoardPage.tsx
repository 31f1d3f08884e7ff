/** The layout board at full size: sheets to print and glue, every drawing unit a millimetre. */
import { useMemo } from 'react'
import { Link, useLocation } from 'wouter'
import { layoutBoard } from '../../book/loom/board.ts'
import { PAPERS, type Paper } from '../../engineering/electrical/loom/tiles.ts'
import { Empty } from '../parts/Empty.tsx'
import { useBench } from '../workbench/useBench.ts'
import { boardPlace, LOOM_PLACE } from './places.ts'
import { drawn } from './Shapes.tsx'
import './loom.css'

const isPaper = (paper: string): paper is Paper => Object.hasOwn(PAPERS, paper)

export function BoardPage({ paper, zone }: { readonly paper: string; readonly zone?: string | undefined }) {
  const { build } = useBench()
  const [, go] = useLocation()
  const board = useMemo(
    () => (build && isPaper(paper) ? layoutBoard(build, paper, zone) : undefined),
    [build, paper, zone],
  )
  if (!build) return null
  if (!board)
    return (
      <Empty says="There is no board on that paper.">
        <Link to={boardPlace('A4')}>On A4</Link>
      </Empty>
    )
  const { zones, runs } = build.collections
  const lain = new Set(Object.values(runs).map((run) => run.zone))
  const here = zone === undefined ? undefined : zones[zone]
  const lie = `${board.paper}-${board.tiling.turned ? 'across' : 'upright'}`
  return (
    <div className="board">
      <div className={`board-first page-${lie}`}>
        <p className="no-print">
          <Link to={LOOM_PLACE}>Loom</Link>
        </p>
        <h1>
          {build.name}: layout board on {board.paper}
          {here && `, ${here.name}`}
        </h1>
        {board.empty !== undefined ? (
          <Empty says={board.empty} />
        ) : (
          <p className="row no-print">
            <button type="button" className="first" onClick={() => window.print()}>
              Print {board.sheets.length + 1} sheets
            </button>
            {(Object.keys(PAPERS) as Paper[])
              .filter((other) => other !== board.paper)
              .map((other) => (
                <Link key={other} to={boardPlace(other, zone)}>
                  On {other}
                </Link>
              ))}
          </p>
        )}
        {lain.size > 1 && (
          <p className="row no-print choose-run">
            <label htmlFor="board-part">Part</label>
            <select
              id="board-part"
              value={zone ?? ''}
              onChange={(event) => go(boardPlace(board.paper, event.target.value))}
            >
              <option value="">the whole loom</option>
              {Object.values(zones)
                .filter(({ id }) => lain.has(id))
                .map(({ id, name }) => (
                  <option key={id} value={id}>
                    only what lies in: {name}
                  </option>
                ))}
            </select>
          </p>
        )}
        {board.notes.map((note) => (
          <p key={note}>{note}</p>
        ))}
        {board.empty === undefined && <div className="board-map">{drawn(board.map)}</div>}
      </div>
      {board.sheets.map(({ tile, drawing }) => (
        <div key={tile.name} className={`board-sheet page-${lie}`} data-sheet={tile.name}>
          {drawn(drawing)}
        </div>
      ))}
    </div>
  )
}
