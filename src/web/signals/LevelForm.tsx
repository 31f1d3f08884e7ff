/** What is known of a tank and its sender: a fill test, or shape and sender; and a sender that has no litres yet. */
import { type FormEvent, useState } from 'react'
import { useLocation } from 'wouter'
import type { LevelRecord } from '../../assess/signals/levels.ts'
import { fillFrom, fillText, senderFrom, senderText, tankFrom, tankText } from '../../assess/signals/levelText.ts'
import { FILL_CAUTION } from '../../engineering/signals/level/fillTest.ts'
import type { Of } from '../../units/index.ts'
import { parseQuantity } from '../../units/index.ts'
import { type Problem, Refusal, refuse } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { measureText, readMeasure } from '../parts/quantityText.ts'
import { bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import { sheetPlace } from './LedgerList.tsx'

/** ± of a can’s mark, and of filling it to the mark, where nothing else was written: common practice, no published source. */
const CAN = { scale: 0.01, each: { value: 1e-4 as Of<'volume'>, unit: 'l' } }

export function LevelForm({ record }: { record: LevelRecord }) {
  const [fill, setFill] = useState(fillText(record.fillTest?.readings))
  const [poured, setPoured] = useState('')
  const [shows, setShows] = useState('')
  const [tank, setTank] = useState(tankText(record.tank))
  const [sender, setSender] = useState(senderText(record.curve))
  const [reserve, setReserve] = useState(measureText('volume', record.reserve))
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const tried = (event: FormEvent, act: () => void): void => {
    event.preventDefault()
    try {
      act()
      setProblems([])
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProblems(error.problems)
    }
  }
  const addCan = (event: FormEvent): void =>
    tried(event, () => {
      parseQuantity('volume', poured)
      parseQuantity('resistance', shows, { unit: 'Ω' })
      setFill(`${fill}${fill.trim() === '' ? '' : '; '}${poured.trim()}=${shows.trim()}`)
      setPoured('')
      setShows('')
    })
  const store = (event: FormEvent): void =>
    tried(event, () => {
      const { fillTest: before, tank: _tank, curve: _curve, reserve: kept, ...rest } = record
      const readings = fill.trim() === '' ? undefined : fillFrom(fill)
      if (readings && readings.length < 3)
        throw refuse(
          'missing-input',
          `${readings.length} readings of the fill test are there, three are needed.`,
          'Read the sender empty and after every can.',
        )
      const held = readMeasure('volume', reserve, kept)
      const value: LevelRecord = {
        ...rest,
        ...(readings ? { fillTest: { ...(before ?? CAN), readings } } : {}),
        ...(tank.trim() === '' ? {} : { tank: tankFrom(tank) }),
        ...(sender.trim() === '' ? {} : { curve: senderFrom(sender) }),
        ...(held ? { reserve: held } : {}),
      }
      bench.edit({
        label: `Tank and sender of ${record.name}`,
        changes: [{ collection: 'levelSenders', id: record.id, value }],
      })
    })
  return (
    <section aria-label="What is measured of it">
      <h2>What is measured of it</h2>
      <p className="small">
        Surest is a fill test: the sender read empty and after every can. {FILL_CAUTION} It goes before shape and
        sender.
      </p>
      <form className="design" onSubmit={addCan}>
        <label>
          Poured since the reading before
          <input value={poured} placeholder="10 l" onChange={(event) => setPoured(event.target.value)} />
        </label>
        <label>
          The sender then shows
          <input value={shows} placeholder="131 Ω" onChange={(event) => setShows(event.target.value)} />
        </label>
        <button type="submit">Add this can</button>
      </form>
      <form className="design" onSubmit={store}>
        <label className="wide">
          Fill test, can by can
          <textarea
            rows={2}
            value={fill}
            placeholder="0 l=180 Ω; 10 l=131 Ω; 10 l=99 Ω"
            onChange={(event) => setFill(event.target.value)}
          />
        </label>
        <label className="wide">
          Shape of the tank inside
          <input
            value={tank}
            placeholder="box 60 cm × 40 cm × 25 cm"
            aria-describedby="tank-hint"
            onChange={(event) => setTank(event.target.value)}
          />
          <span id="tank-hint" className="soft small">
            or cylinder 40 cm × 90 cm, lying; or its level areas by height: loft 25 cm: 0 cm=0.1 m², 25 cm=0.24 m²
          </span>
        </label>
        <label className="wide">
          What the sender shows by height of the liquid
          <input
            value={sender}
            placeholder="0 cm=180 Ω; 25 cm=10 Ω"
            onChange={(event) => setSender(event.target.value)}
          />
        </label>
        <label>
          Reserve
          <input value={reserve} placeholder="7 l" onChange={(event) => setReserve(event.target.value)} />
        </label>
        <button type="submit" className="first">
          Store what is measured
        </button>
      </form>
      <Problems list={problems} />
    </section>
  )
}

/** A sender of the circuits that is to be read in litres. */
export function NewLevel() {
  const { build } = useBench()
  const [, go] = useLocation()
  const [device, setDevice] = useState('')
  if (!build) return null
  const { devices, levelSenders } = build.collections
  const held = new Set(Object.values(levelSenders).map((each) => each.device))
  const open = Object.values(devices).filter(
    ({ id, spec, restricted }) => !held.has(id) && !restricted && (spec.kind === 'sensor' || spec.kind === 'resistor'),
  )
  return (
    <>
      <h1>Litres from a level sender</h1>
      {open.length === 0 ? (
        <p>No sender without litres is in the circuits. Add one there first, by the pattern for a level sender.</p>
      ) : (
        <form
          className="design"
          onSubmit={(event) => {
            event.preventDefault()
            const chosen = devices[device]
            if (!chosen) return
            const value: LevelRecord = { id: chosen.id, name: chosen.name, device: chosen.id }
            if (
              bench.edit({
                label: `Litres from ${chosen.name}`,
                changes: [{ collection: 'levelSenders', id: chosen.id, value }],
              })
            )
              go(sheetPlace(`levelSenders/${chosen.id}`))
          }}
        >
          <label>
            Which of the circuits
            <select value={device} onChange={(event) => setDevice(event.target.value)}>
              <option value="">not chosen</option>
              {open.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </select>
          </label>
          <button type="submit" className="first" disabled={device === ''}>
            Take it
          </button>
        </form>
      )}
    </>
  )
}
