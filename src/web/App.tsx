/** The frame: the build's name, the search field, undo and redo, the benches, and whatever went wrong. */
import { useEffect, useState } from 'react'
import { Link, Router, useLocation } from 'wouter'
import { useHashLocation } from 'wouter/use-hash-location'
import { Empty } from './parts/Empty.tsx'
import { Problems } from './parts/Problems.tsx'
import { Pairing } from './phone/Pairing.tsx'
import { Unsent } from './phone/Unsent.tsx'
import { BENCHES, fetchScreens, Places } from './places.tsx'
import { listenForKeys } from './search/actions.ts'
import { SearchField } from './search/SearchField.tsx'
import { bench, JUDGING } from './workbench/bench.ts'
import { useBench } from './workbench/useBench.ts'

export function App() {
  return (
    <Router hook={useHashLocation}>
      <Frame />
    </Router>
  )
}

const isAt = (to: string, place: string): boolean => (to === '/' ? place === '/' : place.startsWith(to))

function Frame() {
  const { build, isJudged, away, problems, done, unsent, canUndo, canRedo } = useBench()
  const [place] = useLocation()
  // On a phone the list of benches opens on a tap: it would take a quarter of the screen.
  const [listed, setListed] = useState(false)
  useEffect(listenForKeys, [])
  const opened = build !== undefined
  const [isWhole, setIsWhole] = useState(false)
  useEffect(() => {
    if (opened && !away && !isWhole) void fetchScreens().then(setIsWhole)
  }, [opened, away, isWhole])
  return (
    <>
      <header className="masthead">
        <div className="build-name">{build?.name ?? 'Swapwright'}</div>
        <div className="search">
          <SearchField />
        </div>
        <div className="deeds">
          <button type="button" disabled={!canUndo} onClick={() => void bench.undo()}>
            Undo
          </button>
          <button type="button" disabled={!canRedo} onClick={() => void bench.redo()}>
            Redo
          </button>
        </div>
        <nav aria-label="Benches">
          <button type="button" className="benches" aria-expanded={listed} onClick={() => setListed(!listed)}>
            <span className="out-of-sight">Benches, now </span>
            {BENCHES.find(([to]) => isAt(to, place))?.[1] ?? 'none'}
          </button>
          <ul className={listed ? 'plain' : 'plain folded'}>
            {BENCHES.map(([to, name]) => (
              <li key={to}>
                <Link to={to} aria-current={isAt(to, place) ? 'page' : undefined} onClick={() => setListed(false)}>
                  {name}
                </Link>
              </li>
            ))}
          </ul>
        </nav>
      </header>
      <main id="bench" data-pages={isWhole && isJudged ? 'all' : undefined}>
        <Problems list={problems} />
        <p className="out-of-sight" role="status">
          {done}
          {unsent.length > 0 ? `, ${unsent.length} on the way` : ''}
        </p>
        <Unsent isWhole={isWhole && isJudged} />
        {place.startsWith('/phone/pair/') ? (
          <Pairing code={place.slice('/phone/pair/'.length)} />
        ) : build === undefined ? (
          <Empty says={problems.length > 0 ? 'No build is open.' : 'Opening the build …'}>
            {problems.length > 0 && (
              <button type="button" onClick={() => void bench.open()}>
                Try again
              </button>
            )}
          </Empty>
        ) : isJudged || place === '/' ? (
          <Places />
        ) : (
          // Only the car is worth a look without its findings.
          <Empty says={JUDGING} />
        )}
      </main>
    </>
  )
}
