/**
 * Every place in the workbench and the screen that stands there. Only the car comes with the page; the other screens
 * are fetched once it has been painted, so that all of them are there when the signal goes.
 */
import { type ComponentType, lazy, Suspense } from 'react'
import { Link, Route, Switch } from 'wouter'
import { Car } from './car/Car.tsx'
import { Empty } from './parts/Empty.tsx'

const loaders: (() => Promise<unknown>)[] = []
const later = <P extends object>(load: () => Promise<ComponentType<P>>) => {
  loaders.push(load)
  return lazy(async () => ({ default: await load().catch((): ComponentType<P> => NotHere) }))
}
/** In the place of a page that could not be fetched. */
function NotHere() {
  return (
    <Empty says="This page has not been fetched yet, and the server does not answer. What you did is kept here.">
      <button type="button" onClick={() => location.reload()}>
        Load again
      </button>
    </Empty>
  )
}
const Findings = later(async () => (await import('./findings/Findings.tsx')).Findings)
const Circuits = later(async () => (await import('./circuits/Circuits.tsx')).Circuits)
const CircuitOf = later(async () => (await import('./circuits/Circuits.tsx')).CircuitOf)
const Earths = later(async () => (await import('./circuits/earths/Earths.tsx')).Earths)
const Energy = later(async () => (await import('./circuits/energy/Energy.tsx')).Energy)
const Patterns = later(async () => (await import('./circuits/patterns/Patterns.tsx')).Patterns)
const Loom = later(async () => (await import('./loom/Loom.tsx')).Loom)
const LoomList = later(async () => (await import('./loom/LoomList.tsx')).LoomList)
const LoomBoard = later(async () => (await import('./loom/BoardPage.tsx')).BoardPage)
const Signals = later(async () => (await import('./signals/Signals.tsx')).Signals)
const Faults = later(async () => (await import('./faults/Faults.tsx')).Faults)
const FaultSearch = later(async () => (await import('./faults/FaultSearch.tsx')).FaultSearch)
const TestSheets = later(async () => (await import('./testSheets/TestSheets.tsx')).TestSheets)
const TestSheet = later(async () => (await import('./testSheets/TestSheet.tsx')).TestSheet)
const Fuel = later(async () => (await import('./fuel/Fuel.tsx')).Fuel)
const Air = later(async () => (await import('./air/Air.tsx')).Air)
const Cooling = later(async () => (await import('./cooling/Cooling.tsx')).Cooling)
const Brakes = later(async () => (await import('./brakes/Brakes.tsx')).Brakes)
const Driveline = later(async () => (await import('./driveline/Driveline.tsx')).Driveline)
const Services = later(async () => (await import('./services/Services.tsx')).Services)
const Jobs = later(async () => (await import('./jobs/Jobs.tsx')).Jobs)
const Calculations = later(async () => (await import('./calculations/Calculations.tsx')).Calculations)
const Logs = later(async () => (await import('./logs/Logs.tsx')).Logs)
const Gates = later(async () => (await import('./records/Gates.tsx')).Gates)
const Ledger = later(async () => (await import('./records/Ledger.tsx')).Ledger)
const Records = later(async () => (await import('./records/Records.tsx')).Records)
const ListPage = later(async () => (await import('./records/ListPage.tsx')).ListPage)
const Use = later(async () => (await import('./records/Use.tsx')).Use)
const Fixings = later(async () => (await import('./records/Fixings.tsx')).Fixings)
const Evidence = later(async () => (await import('./book/Evidence.tsx')).Evidence)
const Book = later(async () => (await import('./book/Book.tsx')).Book)
const Phone = later(async () => (await import('./phone/Phone.tsx')).Phone)

/** Where the benches stand, in the order of the line that names them. */
export const BENCHES = [
  ['/', 'Car'],
  ['/findings', 'Findings'],
  ['/jobs', 'Jobs'],
  ['/circuits', 'Circuits'],
  ['/loom', 'Loom'],
  ['/signals', 'Signals'],
  ['/faults', 'Find a fault'],
  ['/fuel', 'Fuel'],
  ['/air', 'Air'],
  ['/cooling', 'Cooling'],
  ['/brakes', 'Brakes'],
  ['/driveline', 'Driveline'],
  ['/services', 'Services'],
  ['/calculations', 'Calculations'],
  ['/logs', 'Logs'],
  ['/records', 'Records'],
  ['/book', 'Book'],
  ['/phone', 'Phone'],
] as const

/**
 * Fetches the screens one after another, so that the one a person opens meanwhile is not kept waiting. False where one
 * did not come.
 */
export const fetchScreens = async (): Promise<boolean> => {
  let all = true
  for (const load of loaders)
    await load().catch(() => {
      all = false
    })
  return all
}

export function Places() {
  return (
    <Suspense fallback={<Empty says="Opening …" />}>
      <Switch>
        <Route path="/" component={Car} />
        <Route path="/findings/zone/:zone">{({ zone }) => <Findings zone={decodeURIComponent(zone)} />}</Route>
        <Route path="/findings/:key">{({ key }) => <Findings opened={decodeURIComponent(key)} />}</Route>
        <Route path="/findings">{() => <Findings />}</Route>
        <Route path="/circuits/car/earths">{() => <Earths />}</Route>
        <Route path="/circuits/car/energy">{() => <Energy />}</Route>
        <Route path="/circuits/from/patterns/:id?">
          {({ id }) => <Patterns chosen={id && decodeURIComponent(id)} />}
        </Route>
        <Route path="/circuits/of/:collection/:id">
          {({ collection, id }) => <CircuitOf collection={collection} id={id} />}
        </Route>
        <Route path="/circuits/:circuit?">
          {({ circuit }) => <Circuits chosen={circuit && decodeURIComponent(circuit)} />}
        </Route>
        <Route path="/loom/lists/:id">{({ id }) => <LoomList key={id} id={decodeURIComponent(id)} />}</Route>
        <Route path="/loom/board/:paper/:zone?">
          {({ paper, zone }) => <LoomBoard paper={paper} zone={zone && decodeURIComponent(zone)} />}
        </Route>
        <Route path="/loom/runs/:id">{({ id }) => <Loom chosen={decodeURIComponent(id)} />}</Route>
        <Route path="/loom">{() => <Loom />}</Route>
        <Route path="/signals/:kind?/:id?">
          {({ kind, id }) => <Signals kind={kind} id={id && decodeURIComponent(id)} />}
        </Route>
        <Route path="/faults/sheets/:circuit/:kase?">
          {({ circuit, kase }) => (
            <TestSheet key={circuit} circuit={decodeURIComponent(circuit)} kase={kase && decodeURIComponent(kase)} />
          )}
        </Route>
        <Route path="/faults/sheets">{() => <TestSheets />}</Route>
        <Route path="/faults/new/:device">
          {({ device }) => <Faults key={device} about={decodeURIComponent(device)} />}
        </Route>
        <Route path="/faults/:id">{({ id }) => <FaultSearch key={id} id={decodeURIComponent(id)} />}</Route>
        <Route path="/faults">{() => <Faults />}</Route>
        <Route path="/fuel">{() => <Fuel />}</Route>
        <Route path="/air">{() => <Air />}</Route>
        <Route path="/cooling">{() => <Cooling />}</Route>
        <Route path="/brakes">{() => <Brakes />}</Route>
        <Route path="/driveline">{() => <Driveline />}</Route>
        <Route path="/services">{() => <Services />}</Route>
        <Route path="/jobs/of/:id">{({ id }) => <Jobs job={decodeURIComponent(id)} />}</Route>
        <Route path="/jobs/:view?">{({ view }) => <Jobs view={view && decodeURIComponent(view)} />}</Route>
        <Route path="/calculations/:id?">{({ id }) => <Calculations chosen={id} />}</Route>
        <Route path="/logs/:id?">{({ id }) => <Logs key={id} chosen={id} />}</Route>
        <Route path="/records">{() => <Records />}</Route>
        <Route path="/records/lists/:id">{({ id }) => <ListPage key={id} id={decodeURIComponent(id)} />}</Route>
        <Route path="/records/use">{() => <Use />}</Route>
        <Route path="/records/files">{() => <Ledger />}</Route>
        <Route path="/records/gates/:gate?">{({ gate }) => <Gates chosen={gate && decodeURIComponent(gate)} />}</Route>
        <Route path="/records/fixings/:id?">{({ id }) => <Fixings chosen={id && decodeURIComponent(id)} />}</Route>
        <Route path="/book/evidence">{() => <Evidence />}</Route>
        <Route path="/book">{() => <Book />}</Route>
        <Route path="/phone">{() => <Phone />}</Route>
        <Route>
          <Empty says="There is no such page.">
            <Link to="/">Back to the car</Link>
          </Empty>
        </Route>
      </Switch>
    </Suspense>
  )
}
