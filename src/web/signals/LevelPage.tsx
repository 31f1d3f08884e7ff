/** One level sender: litres against resistance, the reserve, the rows, and the old gauge that it drives. */
import { useMemo } from 'react'
import { type GaugeSheet, gaugeResistors, gaugeSheet } from '../../assess/signals/gauges.ts'
import { knownOf } from '../../assess/signals/known.ts'
import { type LevelSheet, levelSheet } from '../../assess/signals/levels.ts'
import { bestRows } from '../../engineering/signals/table/bestRows.ts'
import { CONTROLLER_TABLE, type ControllerTable } from '../../engineering/signals/table/format.ts'
import { formatQuantity } from '../../units/index.ts'
import { Problems } from '../parts/Problems.tsx'
import { showPreferred } from '../parts/units.ts'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import { LevelForm } from './LevelForm.tsx'
import { Plot } from './Plot.tsx'
import { fileName, TakeAway } from './TableOut.tsx'

const LITRE = 1e-3
const litres = (volume: number, plusMinus?: number): string =>
  formatQuantity('volume', volume, { unit: 'l', digits: 3, ...(plusMinus === undefined ? {} : { plusMinus }) })

export function LevelPage({ id }: { id: string }) {
  const { build, assessment } = useBench()
  const record = build?.collections.levelSenders[id]
  const bound = useMemo(() => {
    if (!build || !assessment || !record) return undefined
    const known = knownOf(build, assessment)
    return {
      sheet: levelSheet(known, record),
      gauges: Object.values(build.collections.gauges)
        .filter(({ sender }) => sender === id)
        .flatMap((gauge) => gaugeSheet(known, gauge) ?? []),
    }
  }, [build, assessment, record, id])
  if (!record || !bound) return <p>There is no such level sender in this build.</p>
  const { sheet, gauges } = bound
  const finding = assessment?.findings.find(({ subject }) => subject === `levelSenders/${id}`)
  return (
    <>
      <h1>{record.name}</h1>
      {finding && (
        <p className="answer">
          <VerdictMark verdict={finding.verdict} /> {finding.says}{' '}
          {finding.verdict !== 'sound' && <strong>{finding.todo}</strong>}
        </p>
      )}
      <Problems list={sheet.problems} />
      {sheet.points.length > 1 && (
        <div className="two">
          <Plot
            title={`Litres of ${record.name}`}
            x="Ω"
            y="litres"
            lines={[
              {
                name: sheet.from ?? 'curve',
                kind: 'curve',
                points: curveOf(sheet),
              },
            ]}
            dots={sheet.readings.map(({ resistance, volume, plusMinus }) => ({
              x: resistance,
              y: volume / LITRE,
              up: plusMinus / LITRE,
            }))}
          />
          <LevelRows sheet={sheet} />
        </div>
      )}
      {gauges.map((gauge) => (
        <Gauge key={gauge.record.id} sheet={gauge} />
      ))}
      <LevelForm key={JSON.stringify(record)} record={record} />
    </>
  )
}

const COUNT = 61
const curveOf = ({ points, volumeAt }: LevelSheet) => {
  const [low, high] = [points[0]!.x, points.at(-1)!.x]
  return Array.from({ length: COUNT }, (_, i) => {
    const resistance = i === COUNT - 1 ? high : low + ((high - low) * i) / (COUNT - 1)
    return { x: resistance, y: (volumeAt?.(resistance) ?? Number.NaN) / LITRE }
  })
}

function LevelRows({ sheet }: { sheet: LevelSheet }) {
  const { record, readings, points } = sheet
  const shownRows =
    readings.length > 0
      ? readings.map(({ resistance, volume, plusMinus }) => ({ x: resistance, y: volume, up: plusMinus }))
      : bestRows({ curve: points, rows: 10 }).rows.map(({ x, y }) => ({ x, y, up: undefined }))
  const table: ControllerTable = {
    format: CONTROLLER_TABLE,
    title: record.name,
    x: { name: 'resistance', kind: 'resistance', unit: 'Ω' },
    y: { name: 'volume', kind: 'volume', unit: 'l' },
    rows: shownRows.map(({ x, y }) => ({ x, y: Number((y / LITRE).toPrecision(6)) })).sort((a, b) => a.x - b.x),
  }
  const cells = table.rows.map(({ x, y }) => `${Number(x.toPrecision(6))}\t${y}`)
  return (
    <div>
      <table className="controller-rows">
        <caption>Litres</caption>
        <thead>
          <tr>
            <th scope="col" className="figure">
              Shows
            </th>
            <th scope="col" className="figure">
              In the tank
            </th>
          </tr>
        </thead>
        <tbody>
          {shownRows.map(({ x, y, up }) => (
            <tr key={x}>
              <td className="figure">{showPreferred('resistance', x)}</td>
              <td className="figure">{litres(y, up)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <TakeAway
        name={fileName(record.name)}
        csv={`ohm,litres\n${table.rows.map(({ x, y }) => `${x},${y}`).join('\n')}\n`}
        json={JSON.stringify(table, null, 2)}
        plain={cells.join('\n')}
      />
    </div>
  )
}

function Gauge({ sheet }: { sheet: GaugeSheet }) {
  const { build, assessment } = useBench()
  const help = useMemo(() => gaugeResistors(sheet, 'E24'), [sheet])
  const { record, points } = sheet
  const finding = assessment?.findings.find(({ subject }) => subject === `gauges/${record.id}`)
  const better = help && !('problems' in help) ? help : undefined
  const store = (): void => {
    if (!better || !build) return
    const network = {
      order: better.order,
      ...(better.series > 0 ? { series: { value: better.series as never, unit: 'Ω' } } : {}),
      ...(Number.isFinite(better.across) ? { across: { value: better.across as never, unit: 'Ω' } } : {}),
    }
    bench.edit({
      label: `Resistors before ${record.name}`,
      changes: [{ collection: 'gauges', id: record.id, value: { ...record, network } }],
    })
  }
  return (
    <section aria-label={record.name}>
      <h2>{record.name}</h2>
      {finding && (
        <p className="answer">
          <VerdictMark verdict={finding.verdict} /> {finding.says}{' '}
          {finding.verdict !== 'sound' && <strong>{finding.todo}</strong>}
        </p>
      )}
      {points.length > 0 && (
        <Plot
          title={`Needle of ${record.name} against the level`}
          x="% full"
          y="% of the scale"
          lines={[
            { name: 'true', kind: 'bound', points: [0, 1].map((each) => ({ x: each * 100, y: each * 100 })) },
            {
              name: 'needle now',
              kind: 'second',
              points: points.map(({ level, shows }) => ({ x: level * 100, y: shows * 100 })),
            },
            ...(better
              ? [
                  {
                    name: 'with the best two resistors',
                    kind: 'curve' as const,
                    points: better.points.map(({ level, shows }) => ({ x: level * 100, y: shows * 100 })),
                  },
                ]
              : []),
          ]}
        />
      )}
      {help && 'problems' in help && <Problems list={help.problems} />}
      {better && (
        <>
          <p>
            Best of E24:{' '}
            {better.series > 0 ? `${showPreferred('resistance', better.series)} in series` : 'none in series'},{' '}
            {Number.isFinite(better.across) ? `${showPreferred('resistance', better.across)} across` : 'none across'};{' '}
            {(better.worst * 100).toFixed(0)} % of the scale off at most.
          </p>
          <p>
            <button type="button" onClick={store}>
              Store these resistors
            </button>
          </p>
        </>
      )}
    </section>
  )
}
