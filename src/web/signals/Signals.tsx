/** Signals: what every controller pin reads or drives and how well, and what is read through a table or a band. */
import { useMemo } from 'react'
import { Link } from 'wouter'
import { ledgerOf } from '../../assess/signals/ledger.ts'
import { speedTakers } from '../../assess/signals/speedTakers.ts'
import type { Build } from '../../model/build.ts'
import { Empty } from '../parts/Empty.tsx'
import { useBench } from '../workbench/useBench.ts'
import { LedgerList, sheetPlace } from './LedgerList.tsx'
import { NewLevel } from './LevelForm.tsx'
import { LevelPage } from './LevelPage.tsx'
import { NewSwitch } from './NewSwitch.tsx'
import { SensorPage } from './SensorPage.tsx'
import { NewSpeed, SpeedPage } from './SpeedPage.tsx'
import { SwitchPage } from './SwitchPage.tsx'
import './signals.css'

export function Signals({ kind, id }: { kind?: string | undefined; id?: string | undefined }) {
  if (kind === undefined) return <Ledger />
  return (
    <>
      <p>
        <Link to="/signals">All signals</Link>
      </p>
      {kind === 'new-switch' ? (
        <NewSwitch />
      ) : kind === 'new-level' ? (
        <NewLevel />
      ) : kind === 'new-speed' ? (
        <NewSpeed />
      ) : id === undefined ? (
        <Empty says="There is no such page." />
      ) : kind === 'resistanceSwitches' ? (
        <SwitchPage id={id} />
      ) : kind === 'sensors' ? (
        <SensorPage id={id} />
      ) : kind === 'levelSenders' ? (
        <LevelPage id={id} />
      ) : kind === 'gauges' || kind === 'inputs' ? (
        <SpeedPage kind={kind} id={id} />
      ) : (
        <Empty says="There is no such page." />
      )}
    </>
  )
}

function Ledger() {
  const { build, assessment } = useBench()
  const rows = useMemo(() => (build && assessment ? ledgerOf(build, assessment) : []), [build, assessment])
  if (!build) return null
  const count = (test: (row: (typeof rows)[number]) => boolean): number => rows.filter(test).length
  const bad = count(({ verdict }) => verdict === 'no-go')
  return (
    <>
      <h1>Signals</h1>
      {rows.length === 0 ? (
        <Empty says="No pin of a controller is entered yet. Add the controller and its wires on the Circuits page or by a wire list." />
      ) : (
        <p>
          {count(({ use }) => use === 'input')} inputs, {count(({ use }) => use === 'output')} outputs,{' '}
          {count(({ use }) => use === 'free')} free pins.{' '}
          {bad === 0
            ? 'Nothing forbids powering them.'
            : `${bad} ${bad === 1 ? 'is' : 'are'} no-go before the controller is powered.`}
        </p>
      )}
      <Pages build={build} />
      {rows.length > 0 && <LedgerList rows={rows} />}
    </>
  )
}

function Pages({ build }: { build: Build }) {
  const { resistanceSwitches, sensors, levelSenders } = build.collections
  const groups = [
    ['Switches', 'resistanceSwitches', Object.values(resistanceSwitches)],
    ['Sensors', 'sensors', Object.values(sensors)],
    ['Levels', 'levelSenders', Object.values(levelSenders)],
  ] as const
  const speeds = speedTakers(build)
  return (
    <nav aria-label="Curves and bands" className="signal-pages">
      {groups.map(([title, kind, all]) =>
        all.length === 0 ? null : (
          <p key={kind}>
            <strong>{title}</strong>{' '}
            {all.map(({ id, name }, i) => (
              <span key={id}>
                {i > 0 && ', '}
                <Link to={sheetPlace(`${kind}/${id}`)}>{name}</Link>
              </span>
            ))}
          </p>
        ),
      )}
      {speeds.length > 0 && (
        <p>
          <strong>Road speed</strong>{' '}
          {speeds.map(({ kind, entity: { id, name } }, i) => (
            <span key={`${kind}/${id}`}>
              {i > 0 && ', '}
              <Link to={sheetPlace(`${kind}/${id}`)}>{name}</Link>
            </span>
          ))}
        </p>
      )}
      <p>
        <Link to="/signals/new-switch" className="button">
          Several buttons on one wire: choose their resistors
        </Link>{' '}
        <Link to="/signals/new-level" className="button">
          Litres from a level sender
        </Link>{' '}
        <Link to="/signals/new-speed" className="button">
          Road speed of a dial or the controller
        </Link>
      </p>
    </nav>
  )
}
