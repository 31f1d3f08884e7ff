/** A switch that exists: its resistors as known or as measured at its plug, and the pull-up that suits them best. */
import { type FormEvent, useState } from 'react'
import { pullUpFor } from '../../assess/signals/designOf.ts'
import { insideOf } from '../../assess/signals/measuredSwitch.ts'
import { partsFrom } from '../../assess/signals/partsText.ts'
import type { SwitchRecord, SwitchSheet } from '../../assess/signals/switches.ts'
import type { PullUpChoice } from '../../engineering/signals/resistanceSwitch/pullUp.ts'
import type { Of } from '../../units/index.ts'
import { type Problem, Refusal, refuse } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { measureText, readMeasure } from '../parts/quantityText.ts'
import { bench } from '../workbench/bench.ts'
import { millivolts } from './BandAxis.tsx'
import { partText, shareOf } from './DesignForm.tsx'

const ohm = (value: number) => ({ value: Number(value.toPrecision(6)) as Of<'resistance'>, unit: 'Ω' })

const tried = (act: () => void): readonly Problem[] => {
  try {
    act()
    return []
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return error.problems
  }
}

/** The tolerance of all, where they have one in common. */
const commonTolerance = ({ buttons, idle }: SwitchRecord): string => {
  const all = new Set([...buttons, ...(idle ? [idle] : [])].map(({ tolerance }) => tolerance))
  const [tolerance] = all
  return all.size > 1 || tolerance === undefined ? '' : `${Number((tolerance * 100).toPrecision(3))} %`
}

export function Resistances({ sheet }: { sheet: SwitchSheet }) {
  const { record } = sheet
  const [shows, setShows] = useState(record.buttons.map(({ resistance }) => measureText('resistance', resistance)))
  const [idle, setIdle] = useState(measureText('resistance', record.idle?.resistance))
  const [contact, setContact] = useState(measureText('resistance', record.contact))
  const [tolerance, setTolerance] = useState(commonTolerance(record))
  const [way, setWay] = useState<'itself' | 'plug'>('itself')
  const [problems, setProblems] = useState<readonly Problem[]>([])

  const store = (event: FormEvent): void => {
    event.preventDefault()
    setProblems(
      tried(() => {
        const share = shareOf(tolerance)
        if (tolerance.trim() !== '' && share === undefined)
          throw refuse('not-a-number', `“${tolerance}” is no tolerance.`, 'Write it as 1 %, or leave it empty.')
        const read = shows.map((text, i) => {
          const button = record.buttons[i]!
          const measure = readMeasure('resistance', text, button.resistance)
          if (measure && measure.value > 0) return { name: button.name, shows: measure.value }
          throw refuse(
            'missing-input',
            `The resistance of ${button.name} is not above 0 Ω.`,
            'Hold the button and measure between the wire and the return, plug off. 0 Ω cannot be told from a short.',
          )
        })
        const end = readMeasure('resistance', idle, record.idle?.resistance)?.value
        const inside =
          way === 'plug'
            ? insideOf(record.topology, read, end)
            : { buttons: read.map((each) => each.shows), idle: end as number | undefined }
        const rated = (before: number | undefined) => {
          const tolerance = share ?? before
          return tolerance === undefined ? {} : { tolerance }
        }
        const { idle: _idle, contact: before, ...kept } = record
        const worn = readMeasure('resistance', contact, before)
        const value: SwitchRecord = {
          ...kept,
          buttons: record.buttons.map(({ name, tolerance }, i) => ({
            name,
            resistance: ohm(inside.buttons[i]!),
            ...rated(tolerance),
          })),
          ...(inside.idle === undefined
            ? {}
            : { idle: { resistance: ohm(inside.idle), ...rated(record.idle?.tolerance) } }),
          ...(worn ? { contact: worn } : {}),
        }
        bench.edit({
          label: `Resistances of ${record.name}`,
          changes: [{ collection: 'resistanceSwitches', id: record.id, value }],
        })
      }),
    )
  }

  return (
    <section aria-label="Resistances of this switch">
      <form className="design narrow" onSubmit={store}>
        <label className="wide">
          The figures are
          <select value={way} onChange={(event) => setWay(event.target.value as typeof way)}>
            <option value="itself">of each resistor itself</option>
            <option value="plug">measured at its plug, one button held at a time</option>
          </select>
        </label>
        {record.buttons.map(({ name }, i) => (
          <label key={name}>
            {name}
            <input
              value={shows[i]}
              onChange={(event) => setShows(shows.map((each, k) => (k === i ? event.target.value : each)))}
            />
          </label>
        ))}
        <label>
          No button held
          <input value={idle} placeholder="no connection" onChange={(event) => setIdle(event.target.value)} />
        </label>
        <label>
          Most that a worn contact shows
          <input value={contact} placeholder="20 Ω" onChange={(event) => setContact(event.target.value)} />
        </label>
        <label>
          Tolerance of the resistors
          <input value={tolerance} placeholder="each its own" onChange={(event) => setTolerance(event.target.value)} />
        </label>
        <button type="submit">Store these figures</button>
      </form>
      <Problems list={problems} />
      {sheet.circuit && sheet.around && sheet.made && <PullUp sheet={sheet} />}
    </section>
  )
}

function PullUp({ sheet }: { sheet: SwitchSheet }) {
  const { record } = sheet
  const [from, setFrom] = useState('E12 100 Ω … 100 kΩ')
  const [choice, setChoice] = useState<PullUpChoice>()
  const [problems, setProblems] = useState<readonly Problem[]>([])
  return (
    <>
      <form
        className="design narrow"
        onSubmit={(event) => {
          event.preventDefault()
          setChoice(undefined)
          setProblems(tried(() => setChoice(pullUpFor(sheet, partsFrom(from, 0.01)))))
        }}
      >
        <label className="wide">
          Pull-up for these resistors, from
          <input value={from} onChange={(event) => setFrom(event.target.value)} />
        </label>
        <button type="submit">Find the pull-up</button>
      </form>
      <Problems list={problems} />
      <div aria-live="polite">
        {choice && (
          <>
            <p className="pull-up">
              Best is {partText(choice.pullUp)}: narrowest gap {millivolts(choice.reading.smallest.gap)}, between{' '}
              {choice.reading.smallest.below} and {choice.reading.smallest.above}; all {choice.tried.length} were tried.
              {choice.reading.smallest.gap <= 0 && ' With no pull-up are these resistors told apart.'} It takes the
              place of the controller’s own only where that one can be switched off; else both lie side by side.
            </p>
            <button
              type="button"
              onClick={() =>
                bench.edit({
                  label: `Pull-up of ${record.name}`,
                  changes: [
                    {
                      collection: 'resistanceSwitches',
                      id: record.id,
                      value: {
                        ...record,
                        pullUp: { resistance: ohm(choice.pullUp.nominal), tolerance: choice.pullUp.tolerance },
                      },
                    },
                  ],
                })
              }
            >
              Store this pull-up
            </button>
          </>
        )}
      </div>
    </>
  )
}
