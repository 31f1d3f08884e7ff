/** One sensor: how far off is the controller today, its curve through the readings, the error over the range, the rows. */
import { useMemo, useState } from 'react'
import { errorWords, readingWords } from '../../assess/earths/sensorError.ts'
import { controllerTableOf } from '../../assess/signals/controllerTableOf.ts'
import { type Known, knownOf } from '../../assess/signals/known.ts'
import {
  finestPullUp,
  inputVolts,
  type Sensor,
  type SensorSheet,
  sensorSheet,
  thermistorRange,
} from '../../assess/signals/sensors.ts'
import { tableToday } from '../../assess/signals/tableToday.ts'
import { propagate } from '../../engineering/calculation.ts'
import { boilingWaterAtAltitude } from '../../engineering/signals/boilingWaterAtAltitude.ts'
import { seriesParts } from '../../engineering/signals/resistanceSwitch/parts.ts'
import type { ControllerTable } from '../../engineering/signals/table/format.ts'
import type { Build } from '../../model/build.ts'
import { formatQuantity, KINDS, type Kind, parseQuantity, toUnit } from '../../units/index.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import { checkedEdit, sensorEdit, tableEdit } from './edits.ts'
import { Plot } from './Plot.tsx'
import { TableOut } from './TableOut.tsx'

const unitOf = (sensor: Sensor): string => sensor.unit ?? KINDS[sensor.quantity].si
/** Differences of a temperature are kelvin. */
const errorUnit = (sensor: Sensor): string => (sensor.quantity === 'temperature' ? 'K' : unitOf(sensor))
const shown = (sensor: Sensor, si: number): number => toUnit(sensor.quantity, unitOf(sensor), si)
const errorShown = (sensor: Sensor, si: number): number =>
  sensor.quantity === 'temperature' ? si : shown(sensor, si) - shown(sensor, 0)
/** Kind of the electrical side. */
const sideOf = ({ form }: Sensor): Kind =>
  form === 'resistance' ? 'resistance' : form === 'voltage' ? 'voltage' : 'ratio'
const sideText = (sensor: Sensor, si: number): string =>
  sensor.form === 'resistance'
    ? `${Number(si.toPrecision(4))} Ω`
    : sensor.form === 'voltage'
      ? `${si.toFixed(3)} V`
      : `${(si * 100).toFixed(1)} %`

export function SensorPage({ id }: { id: string }) {
  const { build, assessment } = useBench()
  const sensor = build?.collections.sensors[id]
  const bound = useMemo(() => {
    if (!build || !assessment || !sensor) return undefined
    const known = knownOf(build, assessment)
    return { known, sheet: sensorSheet(known, sensor) }
  }, [build, assessment, sensor])
  if (!build || !sensor || !bound) return <p>There is no such sensor in this build.</p>
  const { known, sheet } = bound
  const findings = assessment?.findings.filter(({ subject }) => subject === `sensors/${id}`) ?? []
  return (
    <>
      <h1>{sensor.name}</h1>
      {findings.map(({ key, verdict, says, todo }) => (
        <p key={key} className="answer">
          <VerdictMark verdict={verdict} /> {says} {verdict !== 'sound' && <strong>{todo}</strong>}
        </p>
      ))}
      <div className="two">
        <div>
          <CurvePlot sheet={sheet} />
          <ErrorPlot known={known} sheet={sheet} />
        </div>
        <div>
          <Readings key={id} sheet={sheet} />
          <Checked build={build} sheet={sheet} />
        </div>
      </div>
      <Rows key={`${id}rows`} build={build} sheet={sheet} />
    </>
  )
}

const COUNT = 61

function CurvePlot({ sheet: { sensor, input, curve, covers } }: { sheet: SensorSheet }) {
  if (!curve || !covers) return null
  const points = Array.from({ length: COUNT }, (_, i) => {
    const value = covers.low + ((covers.high - covers.low) * i) / (COUNT - 1)
    const electrical = curve.electricalOf(value)
    const volts = electrical === undefined ? undefined : inputVolts(sensor, input, electrical)
    return { x: volts ?? Number.NaN, y: shown(sensor, value) }
  })
  const dots = (sensor.readings ?? []).map(({ value, shows, valuePlusMinus }) => ({
    x: inputVolts(sensor, input, shows) ?? Number.NaN,
    y: shown(sensor, value),
    ...(valuePlusMinus === undefined ? {} : { up: errorShown(sensor, valuePlusMinus) }),
  }))
  return (
    <>
      <h2>Curve</h2>
      <p className="small">
        {curve.from === 'readings' ? 'From its readings' : 'From its sheet'}: {curve.by}.
      </p>
      <Plot
        title={`Curve of ${sensor.name}`}
        x="V at the input"
        y={unitOf(sensor)}
        lines={[{ name: 'curve', kind: 'curve', points }]}
        dots={dots.filter(({ x }) => Number.isFinite(x))}
      />
    </>
  )
}

function ErrorPlot({ known, sheet }: { known: Known; sheet: SensorSheet }) {
  const { sensor } = sheet
  const today = tableToday(known, sheet)
  const range = thermistorRange(sheet, COUNT)
  if (!today && range.length === 0) return null
  // Differences of rounding are none, and would be drawn as a storm.
  const values = today?.points.map(({ value }) => Math.abs(value)) ?? []
  const nothing = Math.max(0, ...values) * 1e-9
  if (range.length === 0 && today?.points.every(({ error }) => Math.abs(error) <= nothing))
    return (
      <>
        <h2>Error</h2>
        <p>The controller’s table of today follows the curve without error.</p>
      </>
    )
  const ends = (pick: 'low' | 'high') =>
    range.flatMap(({ temperature, error }) => {
      const end = error[pick]
      return end === undefined ? [] : [{ x: shown(sensor, temperature), y: end }]
    })
  const coarse = range.reduce((most, each) => Math.max(most, each.resolution), 0)
  const warm = range.reduce((most, each) => Math.max(most, each.selfHeating ?? 0), 0)
  const finest = finestPullUp(sheet, seriesParts('E12', 100, 100e3, 0.01))
  return (
    <>
      <h2>Error</h2>
      {range.length > 0 && (
        <p className="small">
          Worst case of pull-up, converter, leakage, plugs and earth, with the ± of the curve. Coarsest step{' '}
          {coarse.toPrecision(2)} K
          {finest && finest.worst < coarse * 0.95
            ? `; with a pull-up of ${Number(finest.pullUp.nominal.toPrecision(3))} Ω it would be ${finest.worst.toPrecision(2)} K`
            : finest
              ? '; no pull-up of E12 is much finer'
              : ''}
          .{' '}
          {sensor.dissipation === undefined
            ? 'How far its own current warms it: its dissipation is not entered.'
            : `Its own current warms it by up to ${warm.toPrecision(2)} K.`}
        </p>
      )}
      <Plot
        title={`Error of ${sensor.name} over its range`}
        x={unitOf(sensor)}
        y={`${errorUnit(sensor)} off`}
        lines={[
          ...(today
            ? [
                {
                  name: 'controller’s table today',
                  kind: 'second' as const,
                  points: today.points.map(({ value, error }) => ({
                    x: shown(sensor, value),
                    y: errorShown(sensor, error),
                  })),
                },
              ]
            : []),
          ...(range.length > 0
            ? [
                { name: 'circuit, high', kind: 'bound' as const, points: ends('high') },
                { name: 'circuit, low', kind: 'bound' as const, points: ends('low') },
              ]
            : []),
        ]}
      />
    </>
  )
}

const refused = (work: () => void): readonly Problem[] => {
  try {
    work()
    return []
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return error.problems
  }
}

function Readings({ sheet: { sensor, curve } }: { sheet: SensorSheet }) {
  const readings = sensor.readings ?? []
  const [value, setValue] = useState('')
  const [shows, setShows] = useState('')
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const [kept, setKept] = useState<NonNullable<Sensor['readings']>[number]>()
  const side = sideOf(sensor)
  const store = (next: NonNullable<Sensor['readings']>, label: string): void => {
    const { readings: _before, ...rest } = sensor
    bench.edit(sensorEdit(next.length === 0 ? rest : { ...rest, readings: next }, label))
  }
  const add = (): void =>
    setProblems(
      refused(() => {
        const read = parseQuantity(sensor.quantity, value, { unit: unitOf(sensor) })
        const electrical = parseQuantity(side, shows, side === 'resistance' ? { unit: 'Ω' } : {})
        const reading = {
          value: read.value as number,
          shows: electrical.value as number,
          ...(read.plusMinus === undefined ? {} : { valuePlusMinus: read.plusMinus }),
          ...(electrical.plusMinus === undefined ? {} : { showsPlusMinus: electrical.plusMinus }),
        }
        // The model keeps two or more; the first waits here for the second.
        const all = [...readings, ...(readings.length === 0 && kept ? [kept] : []), reading]
        if (all.length < 2) setKept(reading)
        else {
          store(all, `Reading of ${sensor.name}`)
          setKept(undefined)
        }
        setValue('')
        setShows('')
      }),
    )
  return (
    <section aria-label="Readings">
      <h2>Readings</h2>
      {readings.length === 0 && <p>None of this very sensor yet; in any order, three make a thermistor’s curve.</p>}
      {readings.length > 0 && (
        <table className="readings">
          <thead>
            <tr>
              <th scope="col">At</th>
              <th scope="col" className="figure">
                It shows
              </th>
              <th scope="col" className="figure">
                Curve less reading
              </th>
              <th scope="col">
                <span className="out-of-sight">Remove</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {readings.map((reading, i) => (
              <tr key={`${reading.value}/${reading.shows}`}>
                <th scope="row">{readingWords(sensor, reading.value)}</th>
                <td className="figure">{sideText(sensor, reading.shows)}</td>
                <td className="figure">
                  {curve ? (curve.residuals[i] ? errorWords(sensor, curve.residuals[i]!) : 'none') : 'unknown'}
                </td>
                <td>
                  <button
                    type="button"
                    aria-label={`Remove the reading at ${readingWords(sensor, reading.value)}`}
                    disabled={readings.length === 2}
                    onClick={() =>
                      store(
                        readings.filter((_, k) => k !== i),
                        `Reading of ${sensor.name} removed`,
                      )
                    }
                  >
                    Remove
                  </button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {kept && <p role="status">One reading is kept here; the second stores both.</p>}
      <form
        className="design"
        onSubmit={(event) => {
          event.preventDefault()
          add()
        }}
      >
        <label>
          Known value
          <input value={value} placeholder={unitOf(sensor)} onChange={(event) => setValue(event.target.value)} />
        </label>
        <label>
          The sensor shows
          <input
            value={shows}
            placeholder={side === 'resistance' ? 'Ω' : side === 'voltage' ? 'V' : '% of the supply'}
            onChange={(event) => setShows(event.target.value)}
          />
        </label>
        <button type="submit">Add the reading</button>
      </form>
      {sensor.quantity === 'temperature' && <Boiling take={setValue} refuse={setProblems} />}
      <Problems list={problems} />
      {sensor.quantity === 'temperature' && (
        <p className="small soft">Boiling water and steam scald: hold the sensor by its wires, gloves on.</p>
      )}
    </section>
  )
}

/** Pa at sea level, and by how much the weather moves it: a low or a high of the usual kind, no published source. */
const SEA_LEVEL = { value: 101325, plusMinus: 3000 }

function Boiling({ take, refuse }: { take: (text: string) => void; refuse: (problems: readonly Problem[]) => void }) {
  const [altitude, setAltitude] = useState('')
  const fill = (): void =>
    refuse(
      refused(() => {
        const { boilingPoint } = propagate(boilingWaterAtAltitude, {
          seaLevelPressure: SEA_LEVEL,
          altitude: parseQuantity('length', altitude, { unit: 'm' }).value,
        }).outputs
        take(formatQuantity('temperature', boilingPoint.value, { unit: '°C', plusMinus: boilingPoint.plusMinus }))
      }),
    )
  return (
    <form
      className="design"
      onSubmit={(event) => {
        event.preventDefault()
        fill()
      }}
    >
      <label>
        Altitude where the water boils
        <input value={altitude} placeholder="300 m" onChange={(event) => setAltitude(event.target.value)} />
      </label>
      <button type="submit">It boils: fill in</button>
    </form>
  )
}

function Checked({ build, sheet: { input } }: { build: Build; sheet: SensorSheet }) {
  const [typed, setTyped] = useState('')
  const [problems, setProblems] = useState<readonly Problem[]>([])
  if (!input) return null
  const pin = `${input.device}.${input.pin}`
  const newest = Object.values(build.collections.readings)
    .filter(({ at, subject }) => at === pin || subject === `inputs/${input.id}`)
    .sort((a, b) => (b.when ?? '').localeCompare(a.when ?? ''))[0]
  return (
    <section aria-label="On the car">
      <h2>On the car</h2>
      <p>
        {newest ? `Measured ${newest.when?.slice(0, 10) ?? 'on a day not noted'}.` : 'Not measured on the car yet.'}
      </p>
      <form
        className="design"
        onSubmit={(event) => {
          event.preventDefault()
          setProblems(
            refused(() => {
              const { value, plusMinus } = parseQuantity('voltage', typed)
              if (bench.edit(checkedEdit(build, input, value, plusMinus, new Date().toISOString()))) setTyped('')
            }),
          )
        }}
      >
        <label>
          Volts at pin {input.pin}
          <input value={typed} placeholder="1.32 V" onChange={(event) => setTyped(event.target.value)} />
        </label>
        <button type="submit">Store it as measured now</button>
      </form>
      <Problems list={problems} />
    </section>
  )
}

interface Made {
  readonly table?: ControllerTable
  readonly problems: readonly Problem[]
}

function Rows({ build, sheet }: { build: Build; sheet: SensorSheet }) {
  const [rows, setRows] = useState('10')
  const [round, setRound] = useState('')
  const { table, problems } = useMemo((): Made => {
    try {
      return {
        table: controllerTableOf(sheet, {
          rows: Number(rows),
          voltageStep: 0.01,
          valueStep: round.trim() === '' ? undefined : Number(round),
        }),
        problems: [],
      }
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      return { problems: error.problems }
    }
  }, [sheet, rows, round])
  const edit = table && tableEdit(build, sheet.sensor, table, new Date().toISOString())
  return (
    <section aria-label="Table for the controller" className="table-out">
      <h2>Table for the controller</h2>
      <form className="design" onSubmit={(event) => event.preventDefault()}>
        <label>
          Rows it takes
          <input inputMode="numeric" value={rows} onChange={(event) => setRows(event.target.value)} />
        </label>
        <label>
          Values in whole multiples of
          <input
            inputMode="decimal"
            value={round}
            placeholder="any value"
            onChange={(event) => setRound(event.target.value)}
          />
        </label>
      </form>
      <Problems list={problems} />
      {table && <TableOut table={table} />}
      {edit && (
        <button type="button" onClick={() => bench.edit(edit)}>
          I have typed it into the controller
        </button>
      )}
    </section>
  )
}
