/** The chosen moment on the drawings of the chains: what was logged where, beside what the build reckons. */
import { useMemo } from 'react'
import { judgedAir } from '../../assess/air/airRules.ts'
import type { Station } from '../../assess/chain/chain.ts'
import { coolingChainOf } from '../../assess/cooling/chain.ts'
import { fuelChainOf } from '../../assess/fuel/chain.ts'
import type { Build } from '../../model/build.ts'
import { AirDrawing, type LoggedAt } from '../air/AirDrawing.tsx'
import { AirLine } from '../air/AirLine.tsx'
import { shortText } from '../chain/FigureLine.tsx'
import { type MomentReading, onChains } from './momentPlaces.ts'
import '../chain/chain.css'

export function MomentChains({ build, readings }: { build: Build; readings: readonly MomentReading[] }) {
  const placed = useMemo(() => onChains(readings), [readings])
  const air = useMemo(() => judgedAir(build).chain, [build])
  const lines = useMemo(
    () =>
      [
        ['fuel', 'Fuel', fuelChainOf(build).stations],
        ['cooling', 'Engine cooling', coolingChainOf(build).stations],
      ] as const,
    [build],
  )
  const inAir = placed.get('air')
  if (placed.size === 0) return null
  return (
    <section className="moment-chains" aria-label="The moment on the drawings">
      <p className="small soft">
        Logged: what was read at this moment. The rest is what the build reckons at its target power, or was measured
        before.
      </p>
      {inAir && (
        <>
          <h4>Air</h4>
          <AirDrawing stored={air} tried={undefined} logged={inAir} />
          <AirLine stored={air} tried={undefined} logged={inAir} />
        </>
      )}
      {lines.map(([system, name, stations]) => {
        const logged = placed.get(system)
        return logged && <LoggedLine key={system} {...{ system, name, stations, logged }} />
      })}
    </section>
  )
}

interface LoggedLineProps {
  readonly system: 'fuel' | 'cooling'
  readonly name: string
  readonly stations: readonly Pick<Station, 'id' | 'name' | 'figures'>[]
  readonly logged: LoggedAt
}

/** The stations as stops on one line. */
function LoggedLine({ system, name, stations, logged }: LoggedLineProps) {
  return (
    <>
      <h4>
        <a href={`#/${system}`}>{name}</a>
      </h4>
      <ol className="plain logged-line">
        {stations.map(({ id, name: station, figures }) => {
          const [chief] = figures
          return (
            <li key={id} className={logged.has(id) ? 'logged' : undefined}>
              <span className="small">{station.split(',')[0]}</span>
              {chief && (
                <span className="small soft">
                  {chief.symbol} {shortText(chief.kind, chief.datum, chief.unit)}
                </span>
              )}
              {logged.get(id)?.map(({ says }) => (
                <b key={says} className="change">
                  {says}
                </b>
              ))}
            </li>
          )
        })}
      </ol>
    </>
  )
}
