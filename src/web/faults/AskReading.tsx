/** The next test: where the leads go, one number to type, and what the suspects would show. */
import { useState } from 'react'
import { readingCautions } from '../../assess/electricalCautions.ts'
import type { NextTest, Test } from '../../assess/faults/faults.ts'
import { pointSays } from '../../assess/faults/words.ts'
import { figureOf } from '../../assess/testSheets/figures.ts'
import type { MeterReading } from '../../assess/testSheets/meterText.ts'
import type { Build, OperatingCase } from '../../model/build.ts'
import { Cautions } from '../parts/Cautions.tsx'
import { OneNumber } from './OneNumber.tsx'

const minutes = (seconds: number): string =>
  seconds < 90 ? `${Math.round(seconds)} s` : `${Math.round(seconds / 60)} min`

/** Others of the same access that are named; more are less to choose from. */
const OTHERS = 3

interface Props {
  readonly build: Build
  /** State of the car in which it is read. */
  readonly kase: OperatingCase | undefined
  readonly next: NextTest
  readonly take: (test: Test, reading: MeterReading) => void
}

export function AskReading({ build, kase, next, take }: Props) {
  const [chosen, setChosen] = useState(0)
  const tests: readonly Test[] = [next, ...next.together.slice(0, OTHERS)]
  const test = tests[chosen] ?? next
  return (
    <section aria-labelledby="next-test" className="next-test">
      <h2 id="next-test">Measure next</h2>
      <Cautions list={readingCautions(build, test, kase)} />
      <p className="where">{test.says}</p>
      <p className="small">
        Red lead <b>+</b> on {pointSays(build, test.at)}; black lead <b>−</b> on{' '}
        {test.against === undefined ? 'the negative post of the battery' : pointSays(build, test.against)}.
      </p>
      <OneNumber key={test.says} test={test} take={take} label="The meter shows" />
      <p className="soft small">
        About {minutes(next.time)}
        {next.together.length > 0 ? '; these cost nothing more from here:' : '.'}
      </p>
      {next.together.length > 0 && (
        <div className="row">
          {tests.map((one, i) => (
            <button key={one.says} type="button" aria-pressed={i === chosen} onClick={() => setChosen(i)}>
              {i === 0 ? 'The most telling' : one.says}
            </button>
          ))}
        </div>
      )}
      {chosen === 0 && next.expects.length > 0 && (
        <table>
          <caption className="small soft">What it would show</caption>
          <tbody>
            {next.expects.map(({ part, name, value, others }) => (
              <tr key={part}>
                <th scope="row">
                  if it is the {name}
                  {others > 0 && ` or ${others} more`}
                </th>
                <td className="figure">{figureOf(value, test.quantity)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  )
}
