/** The frame: the build's name, the search field, undo and redo, the benches, and whatever went wrong. */
import { useEffect } from 'react'
import { Link, Route, Router, Switch, useLocation } from 'wouter'
import { useHashLocation } from 'wouter/use-hash-location'
import { Calculations } from './calculations/Calculations.tsx'
import { Car } from './car/Car.tsx'
import { CircuitOf, Circuits } from './circuits/Circuits.tsx'
import { Findings } from './findings/Findings.tsx'
import { Logs } from './logs/Logs.tsx'
import { Empty } from './parts/Empty.tsx'
import { Problems } from './parts/Problems.tsx'
import { Pairing } from './phone/Pairing.tsx'
import { Phone } from './phone/Phone.tsx'
import { Unsent } from './phone/Unsent.tsx'
import { listenForKeys } from './search/actions.ts'
import { SearchField } from './search/SearchField.tsx'
import { bench } from './workbench/bench.ts'
import { useBench } from './workbench/useBench.ts'

const BENCHES = [
  ['/', 'Car'],
  ['/findings', 'Findings'],
  ['/circuits', 'Circuits'],
  ['/calculations', 'Calculations'],
  ['/logs', 'Logs'],
  ['/phone', 'Phone'],
] as const

export function App() {
  return (
    <Router hook={useHashLocation}>
      <Frame />
    </Router>
  )
}

function Frame() {
  const { build, problems, done, unsent, canUndo, canRedo } = useBench()
  const [place] = useLocation()
  useEffect(listenForKeys, [])
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
          <ul className="plain">
            {BENCHES.map(([to, name]) => (
              <li key={to}>
                <Link to={to} aria-current={(to === '/' ? place === '/' : place.startsWith(to)) ? 'page' : undefined}>
                  {name}
                </Link>
              </li>
            ))}
          </ul>
        </nav>
      </header>
      <main id="bench">
        <Problems list={problems} />
        <p className="out-of-sight" role="status">
          {done}
          {unsent.length > 0 ? `, ${unsent.length} on the way` : ''}
        </p>
        <Unsent />
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
        ) : (
          <Switch>
            <Route path="/" component={Car} />
            <Route path="/findings/zone/:zone">{({ zone }) => <Findings zone={decodeURIComponent(zone)} />}</Route>
            <Route path="/findings/:key">{({ key }) => <Findings opened={decodeURIComponent(key)} />}</Route>
            <Route path="/findings">{() => <Findings />}</Route>
            <Route path="/circuits/of/:collection/:id">
              {({ collection, id }) => <CircuitOf collection={collection} id={id} />}
            </Route>
            <Route path="/circuits/:circuit?">
              {({ circuit }) => <Circuits chosen={circuit && decodeURIComponent(circuit)} />}
            </Route>
            <Route path="/calculations/:id?">{({ id }) => <Calculations chosen={id} />}</Route>
            <Route path="/logs/:id?">{({ id }) => <Logs key={id} chosen={id} />}</Route>
            <Route path="/phone" component={Phone} />
            <Route>
              <Empty says="There is no such page.">
                <Link to="/">Back to the car</Link>
              </Empty>
            </Route>
          </Switch>
        )}
      </main>
    </>
  )
}
