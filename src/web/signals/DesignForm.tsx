/** What resistors there are to choose from; the answer is proven, and stored only when asked. */
import { useState } from 'react'
import { type Designed, designFor } from '../../assess/signals/designOf.ts'
import { partsFrom } from '../../assess/signals/partsText.ts'
import { readAgain, type SwitchSheet } from '../../assess/signals/switches.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { showPreferred } from '../parts/units.ts'
import { bench } from '../workbench/bench.ts'
import { BandAxis, millivolts } from './BandAxis.tsx'
import { designEdit } from './edits.ts'
import { SolderDrawing } from './SolderDrawing.tsx'

interface Answer {
  readonly designed?: Designed
  readonly problems: readonly Problem[]
}

export const partText = ({ nominal, tolerance }: { nominal: number; tolerance: number }): string =>
  `${showPreferred('resistance', nominal)} ± ${Number((tolerance * 100).toPrecision(3))} %`

/** A tolerance as typed: `1 %` or `0.01`. Undefined for an empty field. */
export const shareOf = (text: string): number | undefined => {
  const found = /^\s*±?\s*([\d.]+)\s*(%?)\s*$/.exec(text)
  return found ? Number(found[1]) / (found[2] === '%' ? 100 : 1) : undefined
}

export function Proof({ designed: { design } }: { designed: Designed }) {
  return (
    <p className="proof">
      Narrowest gap {millivolts(design.smallestGap)}. Proven: no other choice of these parts has a wider one (
      {design.proof.nodes} looked at, {design.proof.cut} branches cut off by the bound). Resistors of every value would
      reach {millivolts(design.proof.unreachable)}.
    </p>
  )
}

export function DesignForm({ sheet }: { sheet: SwitchSheet }) {
  const { record } = sheet
  const [from, setFrom] = useState('E24 47 Ω … 10 kΩ')
  const [tolerance, setTolerance] = useState('1 %')
  const [topology, setTopology] = useState(record.topology)
  const [endOfLine, setEndOfLine] = useState(record.idle !== undefined)
  const [outside, setOutside] = useState('')
  const [{ designed, problems }, setAnswer] = useState<Answer>({ problems: [] })
  const choose = (): void => {
    try {
      const share = shareOf(tolerance)
      setAnswer({
        designed: designFor(sheet, {
          topology,
          parts: partsFrom(from, share),
          pullUps: outside.trim() === '' ? undefined : partsFrom(outside, share),
          endOfLine,
        }),
        problems: [],
      })
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setAnswer({ problems: error.problems })
    }
  }
  const then = designed && readAgain(sheet, designed)
  return (
    <section aria-label="Choose the resistors">
      <h2>Other resistors</h2>
      <form
        className="design"
        onSubmit={(event) => {
          event.preventDefault()
          choose()
        }}
      >
        <label className="wide">
          Choose from
          <input value={from} onChange={(event) => setFrom(event.target.value)} aria-describedby="from-hint" />
          <span id="from-hint" className="soft small">
            a series and its span, or what is in the drawer: 100 Ω 1 %, 220 Ω 5 % ×2
          </span>
        </label>
        <label>
          Tolerance where none is written
          <input value={tolerance} onChange={(event) => setTolerance(event.target.value)} />
        </label>
        <label>
          Wiring
          <select value={topology} onChange={(event) => setTopology(event.target.value as typeof topology)}>
            <option value="branches">a resistor a button</option>
            <option value="chain">one string with taps</option>
          </select>
        </label>
        <label>
          Pull-up outside, to be chosen
          <input
            value={outside}
            placeholder="empty: the one there is"
            onChange={(event) => setOutside(event.target.value)}
          />
        </label>
        <label className="choice">
          <input type="checkbox" checked={endOfLine} onChange={(event) => setEndOfLine(event.target.checked)} />
          No button differs from a broken wire
        </label>
        <button type="submit" className="first">
          Choose
        </button>
      </form>
      <Problems list={problems} />
      <div aria-live="polite">
        {designed && then?.reading && then.circuit && (
          <>
            <Proof designed={designed} />
            <div className="two">
              <SolderDrawing sheet={then} />
              <BandAxis
                reading={then.reading}
                fullScale={then.circuit.supply.high}
                title={`Bands of ${record.name} with the resistors chosen`}
              />
            </div>
            <button type="button" className="first" onClick={() => bench.edit(designEdit(designed))}>
              Store these resistors
            </button>
          </>
        )}
      </div>
    </section>
  )
}
