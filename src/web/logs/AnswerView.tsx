/** The answer: its sentence first, then what to drive, what was assumed, and the pictures that bear it. */
import { bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import type { Answer } from './answers.ts'
import { FitPicture } from './FitPicture.tsx'
import { SayChannel } from './SayChannel.tsx'
import { saveAs } from './saveStrips.ts'
import type { Log } from './strips.ts'

interface Props {
  readonly answer: Answer
  readonly log: Log
  readonly other: Log | undefined
  readonly again: () => void
  readonly onMoment: (t: number) => void
}

export function AnswerView({ answer, log, other, again, onMoment }: Props) {
  const lists: readonly (readonly [string, readonly string[]])[] = [
    ['What to drive next', answer.next === undefined ? [] : [answer.next].flat()],
    ['Not known', (answer.notIdentified ?? []).map(({ what, why }) => `${what}: ${why}`)],
    ['Not looked at', answer.unchecked ?? []],
    ['Taken as given', answer.assumptions ?? []],
    ['Mind', answer.cautions ?? []],
  ]
  return (
    <div role="status" className="answer">
      <p className="sentence">{answer.sentence}</p>
      {answer.missing?.map((missing) => {
        const role = typeof missing === 'string' ? missing : missing.role
        const of = typeof missing !== 'string' && missing.log === 'known' ? other : log
        return of && <SayChannel key={`${of.id} ${role}`} log={of} role={role} then={again} />
      })}
      {answer.remarks && answer.remarks.length > 0 && (
        <ul>
          {answer.remarks.map(({ channel, trouble, sentence, todo, at }) => (
            <li key={`${channel} ${trouble} ${sentence}`}>
              {sentence} <span className="soft">{todo}</span>{' '}
              {at !== null && (
                <button type="button" onClick={() => onMoment(at)}>
                  Show {channel} at {at.toFixed(1)} s
                </button>
              )}
            </li>
          ))}
        </ul>
      )}
      <Pictures answer={answer} />
      {answer.card && <Card answer={answer} />}
      {lists.map(
        ([title, lines]) =>
          lines.length > 0 && (
            <section key={title}>
              <h3>{title}</h3>
              <ul>
                {lines.map((line) => (
                  <li key={line}>{line}</li>
                ))}
              </ul>
            </section>
          ),
      )}
    </div>
  )
}

const RPM = 30 / Math.PI
const number = (value: unknown): number => (typeof value === 'number' ? value : Number.NaN)
const DASHES: readonly (readonly number[])[] = [[2, 3], [7, 4], [10, 3, 2, 3], []]

/** Means of neighbouring windows, in order of their flow. */
const meanLine = (log: readonly Readonly<Record<string, number>>[]): (readonly [number, number])[] => {
  const sorted = [...log].sort((a, b) => a.airFlow! - b.airFlow!)
  const size = Math.max(1, Math.ceil(sorted.length / 5))
  return Array.from({ length: Math.ceil(sorted.length / size) }, (_, i) => {
    const part = sorted.slice(i * size, (i + 1) * size)
    const mean = (key: string): number => part.reduce((sum, each) => sum + each[key]!, 0) / part.length
    return [mean('airFlow'), mean('effectiveness')] as const
  })
}

function Pictures({ answer }: { answer: Answer }) {
  const windows = (answer.windows ?? []).filter((each) => typeof each !== 'number')
  if (answer.pair?.every((each) => each.length > 0))
    return (
      <FitPicture
        title="Effectiveness against air flow, before and after"
        across="air flow, kg/s"
        up="effectiveness"
        marks={answer.pair.flatMap((log, i) =>
          log.map(({ airFlow, effectiveness, standardError }) => ({
            x: airFlow!,
            y: effectiveness!,
            half: 1.96 * standardError!,
            shape: i === 0 ? ('square' as const) : ('round' as const),
          })),
        )}
        curves={answer.pair.map((log, i) => ({
          points: meanLine(log),
          dash: i === 0 ? [4, 4] : [],
          label: i === 0 ? 'before: squares' : 'after: dots',
        }))}
      />
    )
  if (answer.curves && answer.target) {
    const target = answer.curves.find(({ pressure }) => Math.abs(pressure - answer.target!.pressure) < 3e3)
    return (
      <FitPicture
        title="Duty against speed"
        across="engine speed, rpm"
        up="duty, %"
        marks={windows
          .filter((_, i, all) => i % Math.ceil(all.length / 150) === 0)
          .map((each) => ({
            x: number(each.speed) * RPM,
            y: 100 * number(each.duty),
            shape: number(each.weight) < 0.05 ? 'open' : 'round',
          }))}
        curves={[
          ...answer.curves.map(({ pressure, points }, i) => ({
            points: points.map(({ speed, duty }) => [speed * RPM, 100 * duty] as const),
            dash: DASHES[i % DASHES.length]!,
            label: `${Math.round(pressure / 1e3)} kPa`,
          })),
          {
            points: [
              [(answer.curves[0]!.points[0]?.speed ?? 0) * RPM, 100 * (answer.provenance?.limit ?? 0.85)],
              [answer.target.speed * RPM, 100 * (answer.provenance?.limit ?? 0.85)],
            ],
            dash: [1, 5],
            label: 'limit',
          },
        ]}
        band={(target?.points ?? []).map(({ speed, low, high }) => [speed * RPM, 100 * low, 100 * high])}
      />
    )
  }
  const effectiveness = (answer.provenance?.windows ?? []).filter(({ airFlow }) => typeof airFlow === 'number')
  if (answer.againstAirFlow && effectiveness.length > 1)
    return (
      <FitPicture
        title="Effectiveness against air flow"
        across="air flow, kg/s"
        up="effectiveness"
        marks={effectiveness.map((each) => ({
          x: number(each.airFlow),
          y: number(each.effectiveness),
          half: 1.96 * number(each.standardError),
        }))}
        curves={[
          {
            points: answer.againstAirFlow.map(({ airFlow, value }) => [airFlow, value] as const),
            label: 'mean of neighbouring windows',
          },
        ]}
        band={answer.againstAirFlow.map(({ airFlow, low, high }) => [airFlow, low, high])}
      />
    )
  if (answer.deadTime && answer.slope) {
    const driven = answer.deadTime.filter(({ support }) => support === 'driven')
    return (
      <div className="pictures">
        <FitPicture
          title="Dead time against volts"
          across="volts at the injector, V"
          up="dead time, ms"
          marks={answer.deadTime
            .filter(({ voltage }) => voltage >= 10)
            .map(({ voltage, value, plusMinus, support }) => ({
              x: voltage,
              y: value * 1e3,
              half: plusMinus * 1e3,
              shape: support === 'driven' ? 'round' : 'open',
            }))}
          curves={[
            {
              points: driven.map(({ voltage, value }) => [voltage, value * 1e3] as const),
              label: 'driven; open rings: extrapolated',
            },
          ]}
        />
        <FitPicture
          title="What the fit leaves"
          across="pulse, ms"
          up="residual of fuel, %"
          marks={windows.map((each) => ({
            x: 1e3 * number(each.pulse),
            y: 100 * Math.max(-0.05, Math.min(0.05, number(each.residual))),
            half: 100 * number(each.plusMinus),
            shape: number(each.weight) === 0 ? 'open' : each.log === 'known' ? 'square' : 'round',
          }))}
          curves={[
            {
              points: [
                [1e3 * Math.min(...windows.map(({ pulse }) => number(pulse))), 0],
                [1e3 * Math.max(...windows.map(({ pulse }) => number(pulse))), 0],
              ],
              label:
                'the model; squares: known set, dots: unknown set, rings: not counted; beyond 5 % drawn at the edge',
            },
          ]}
        />
      </div>
    )
  }
  return null
}

/** The card: to give to another builder, or into this build's fuel sheet. */
function Card({ answer }: { answer: Answer }) {
  const { build } = useBench()
  const card = answer.card!
  const fuel = build?.sheets.fuel
  const count = fuel?.injectors?.count ?? build?.sheets.engine?.cylinders
  const held = fuel?.injectors?.card?.name === card.name && fuel.injectors.card.slope.value === card.slope.value
  return (
    <section aria-label="Injector card">
      <h3>Injector card: {card.name}</h3>
      <table>
        <tbody>
          <tr>
            <th scope="row">Flow at {(card.pressure.value / 1e3).toFixed(0)} kPa</th>
            <td>
              {(card.slope.value * 6e4).toFixed(1)} ± {((card.slope.plusMinus ?? 0) * 6e4).toFixed(1)} g/min
            </td>
          </tr>
          {card.deadTime.map(([volts, time]) => (
            <tr key={volts.value}>
              <th scope="row">Dead time at {volts.value} V</th>
              <td>
                {(time.value * 1e3).toFixed(3)} ± {((time.plusMinus ?? 0) * 1e3).toFixed(3)} ms
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <div className="row">
        <button
          type="button"
          onClick={() =>
            saveAs('injector-card.json', new Blob([`${JSON.stringify(card, null, 2)}\n`], { type: 'application/json' }))
          }
        >
          Save the card as a file
        </button>
        {count === undefined ? (
          <span className="soft">The fuel sheet takes it once the number of injectors or cylinders is entered.</span>
        ) : (
          <button
            type="button"
            disabled={held}
            onClick={() =>
              bench.edit({
                label: `Injector card ${card.name}`.slice(0, 200),
                changes: [{ sheet: 'fuel', value: { ...fuel, injectors: { ...fuel?.injectors, count, card } } }],
              })
            }
          >
            {held ? 'In the fuel sheet' : 'Put it into the fuel sheet'}
          </button>
        )}
      </div>
    </section>
  )
}
