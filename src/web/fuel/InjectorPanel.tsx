/** The injectors: how they fit driver, idle and plug; their card in and out; slope and dead time from a bench test. */
import { type ChangeEvent, useId, useMemo, useState } from 'react'
import { Link } from 'wouter'
import type { FuelChain } from '../../assess/fuel/chain.ts'
import { injectorFit } from '../../assess/fuel/injectorFit.ts'
import type { InjectorCard } from '../../model/injectorCard.ts'
import { readInjectorCard, writeInjectorCard } from '../../model/readInjectorCard.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { measureText } from '../parts/quantityText.ts'
import { VerdictMark, wordFor } from '../parts/VerdictMark.tsx'
import { bench } from '../workbench/bench.ts'
import { BenchTest } from './BenchTest.tsx'

function Card({ card }: { card: InjectorCard }) {
  return (
    <>
      <table className="card">
        <caption>{card.name}</caption>
        <tbody>
          <tr>
            <th scope="row">Slope</th>
            <td>
              {measureText('massFlow', card.slope)} of {card.fluid.name} at{' '}
              {measureText('pressureDifference', card.pressure)}
            </td>
          </tr>
          {card.deadTime.map(([volts, seconds]) => (
            <tr key={volts.value}>
              <th scope="row">Dead time at {measureText('voltage', volts)}</th>
              <td>{measureText('time', seconds)}</td>
            </tr>
          ))}
          <tr>
            <th scope="row">Short pulses</th>
            <td>{card.shortPulse ? `bent below ${measureText('time', card.shortPulse.below)}` : 'not looked at'}</td>
          </tr>
          <tr>
            <th scope="row">From</th>
            <td>
              {card.method}: {card.provenance.from}
              {card.provenance.when && `, ${card.provenance.when}`}
              {card.provenance.remark && `; ${card.provenance.remark}`}
            </td>
          </tr>
        </tbody>
      </table>
      <a
        className="button"
        download="injector-card.json"
        href={`data:application/json;charset=utf-8,${encodeURIComponent(writeInjectorCard(card))}`}
      >
        Save the card as a file
      </a>
    </>
  )
}

interface InjectorPanelProps {
  readonly chain: FuelChain
  /** As stored, where something is tried. */
  readonly before: FuelChain | undefined
}

export function InjectorPanel({ chain, before }: InjectorPanelProps) {
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const id = useId()
  const { fuel } = chain.facts
  const points = injectorFit(chain)
  const stood = useMemo(() => new Map(before && injectorFit(before).map(({ id, verdict }) => [id, verdict])), [before])
  const take = async (event: ChangeEvent<HTMLInputElement>): Promise<void> => {
    const file = event.target.files?.[0]
    event.target.value = ''
    if (!file || !fuel.injectors) return
    try {
      const card = readInjectorCard(await file.text())
      setProblems([])
      bench.edit({
        label: `Injector card ${card.name}`,
        changes: [{ sheet: 'fuel', value: { ...fuel, injectors: { ...fuel.injectors, card } } }],
      })
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProblems(error.problems)
    }
  }
  return (
    <section aria-labelledby="injector-heading">
      <h2 id="injector-heading">Injectors, fit and card</h2>
      {points.length > 0 && (
        <ul className="plain fit">
          {points.map((point) => (
            <li key={point.id} data-fit={point.id}>
              <VerdictMark verdict={point.verdict} system="fuel" /> <b>{point.name}.</b> {point.says}{' '}
              {before && stood.get(point.id) !== point.verdict && (
                <span className="soft">
                  As stored: {stood.has(point.id) ? wordFor(stood.get(point.id)!, 'fuel').toLowerCase() : 'not asked'}.{' '}
                </span>
              )}
              {point.verdict !== 'sound' && <span className="soft">{point.todo}</span>}
            </li>
          ))}
        </ul>
      )}
      {fuel.injectors?.card && <Card card={fuel.injectors.card} />}
      {fuel.injectors ? (
        <div className="field">
          <label htmlFor={id}>Read an injector card (injector-card/1)</label>
          <input id={id} type="file" accept="application/json,.json" onChange={(event) => void take(event)} />
        </div>
      ) : (
        <p>No injectors are entered on the fuel sheet; a card needs them.</p>
      )}
      <Problems list={problems} />
      <BenchTest />
      <p className="small">
        <Link to="/calculations/bench-static-flow">Static flow from a bench test</Link>
      </p>
    </section>
  )
}
