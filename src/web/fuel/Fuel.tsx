/** Fuel: the chain from the tank to the engine, every capacity in engine power; what if; the tank; the injectors. */
import { isKnown } from '../../assess/chain/chain.ts'
import type { FuelChain, FuelStation } from '../../assess/fuel/chain.ts'
import { Empty } from '../parts/Empty.tsx'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { useBench } from '../workbench/useBench.ts'
import { type Opening, openingOf } from './channel.ts'
import { datumText } from './FigureLine.tsx'
import { InjectorPanel } from './InjectorPanel.tsx'
import { StationRow } from './StationRow.tsx'
import { TankTable } from './TankTable.tsx'
import { useFuel } from './useFuel.ts'
import './fuel.css'

const RULES: Readonly<Record<string, string>> = {
  suction: 'fuel-suction:sheet/fuel',
  pump: 'pump-supports-power:sheet/fuel',
  filter: 'fuel-filter:sheet/fuel',
  feed: 'fuel-feed:sheet/fuel',
  rail: 'fuel-return:sheet/fuel',
  injectors: 'injector-duty:sheet/fuel',
}
const opening = (station: FuelStation | undefined, chain: FuelChain): Opening => {
  const target = isKnown(chain.target) ? chain.target.value : undefined
  // The sink is as wide as what it takes.
  const capacity = station?.id === 'engine' ? chain.target : station?.capacity
  return openingOf(capacity === undefined ? 'none' : isKnown(capacity) ? capacity.value : 'unknown', target)
}
const isShort = (station: FuelStation | undefined, { target }: FuelChain): boolean =>
  station?.capacity !== undefined &&
  isKnown(station.capacity) &&
  isKnown(target) &&
  station.capacity.value < target.value
const openings = (chain: FuelChain, index: number) => ({
  before: opening(index === 0 ? chain.stations[0] : chain.stations[index - 1], chain),
  here: opening(chain.stations[index], chain),
})

function Sentence({ chain }: { chain: FuelChain }) {
  const { weakest, target } = chain
  const unknown = chain.stations.filter(({ verdict }) => verdict === 'unknown').map(({ name }) => name)
  return (
    <p className="sentence">
      {weakest?.capacity && isKnown(weakest.capacity) ? (
        <>
          <VerdictMark verdict={weakest.verdict} system="fuel" /> First to give out: {weakest.name}, at{' '}
          <b>{datumText('power', weakest.capacity)}</b>
          {isKnown(target) ? ` of the ${datumText('power', target)} aimed at.` : '; no target power is entered.'}
        </>
      ) : (
        <>
          <VerdictMark verdict="unknown" /> What power the fuel system feeds is not known.
        </>
      )}{' '}
      {unknown.length > 0 && <span className="soft">Not known: {unknown.join(', ')}.</span>}
    </p>
  )
}

export function Fuel() {
  const { build, stored, tried, trial, levers, typed, type, back, save } = useFuel()
  const { assessment } = useBench()
  if (!build || !stored) return <Empty says="No build is open." />
  const keys = new Set(assessment?.findings.map(({ key }) => key))
  const shown = tried ?? stored
  return (
    <div className="fuel">
      <h1>Fuel</h1>
      <Sentence chain={shown} />
      {trial && (
        <div className="what-if-note" role="status">
          <p>
            <b>What if: not stored.</b>{' '}
            {tried
              ? 'Light lines and first figures are the build as stored; the build itself is as it was.'
              : 'What was typed cannot be read yet.'}
          </p>
          <div className="row">
            <button type="button" className="first" disabled={!tried} onClick={save}>
              Store this set-up
            </button>
            <button type="button" onClick={back}>
              Back to the build as stored
            </button>
          </div>
        </div>
      )}
      <p className="small soft">
        The channel is as wide at each station as the engine power it can feed; the two thin lines are the target.
        Dashed: wider than the drawing, or no limit. Dotted: not known. Open a figure for its working.
      </p>
      <ol className="plain chain">
        {stored.stations.map((station, index) => (
          <StationRow
            key={station.id}
            stored={station}
            tried={tried?.stations[index]}
            openings={openings(stored, index)}
            triedOpenings={tried && openings(tried, index)}
            weakest={shown.weakest?.id === station.id}
            short={isShort(shown.stations[index], shown)}
            aimed={isKnown(shown.target)}
            finding={keys.has(RULES[station.id] ?? '') ? RULES[station.id] : undefined}
            levers={levers.filter((lever) => lever.station === station.id)}
            typed={typed}
            problems={trial?.problems ?? {}}
            onType={type}
          />
        ))}
      </ol>
      <TankTable chain={shown} />
      <InjectorPanel chain={shown} before={tried && stored} />
    </div>
  )
}
