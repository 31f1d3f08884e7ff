/** Every switch and controller output as a list: the same levers as on the drawing, for whoever prefers words. */
import { useState } from 'react'
import type { Build, Device, Wire } from '../../../model/build.ts'
import { parseQuantity } from '../../../units/index.ts'
import { type Problem, Refusal } from '../../../units/problem.ts'
import { type Live, leversOf, positionOf } from './live.ts'

interface Props {
  readonly build: Build
  readonly wires: readonly Wire[]
  readonly live: Live
  readonly setSwitch: (id: string, position: string) => void
  readonly setOutput: (id: string, duty: number) => void
}
type Output = Build['collections']['outputs'][string]

export function Levers({ build, wires, live, setSwitch, setOutput }: Props) {
  const { switches, outputs, isOwn } = leversOf(build, wires)
  const mine = {
    switches: switches.filter(({ id }) => isOwn(id)),
    outputs: outputs.filter((one) => isOwn(one.device, one.pin)),
  }
  const rest = {
    switches: switches.filter((one) => !mine.switches.includes(one)),
    outputs: outputs.filter((one) => !mine.outputs.includes(one)),
  }
  const list = (some: typeof mine) => (
    <div className="levers">
      {some.switches.map((device) => (
        <SwitchLever key={device.id} device={device} live={live} setSwitch={setSwitch} />
      ))}
      {some.outputs.map((output) => (
        <OutputLever key={output.id} output={output} duty={live.kase.outputs[output.id]} setOutput={setOutput} />
      ))}
    </div>
  )
  const count = rest.switches.length + rest.outputs.length
  return (
    <section aria-labelledby="levers">
      <h2 id="levers">Switches and outputs</h2>
      {mine.switches.length + mine.outputs.length === 0 ? (
        <p className="soft">This circuit has no switch and no controller output of its own.</p>
      ) : (
        list(mine)
      )}
      {count > 0 && (
        <details>
          <summary>{count} more elsewhere in the car</summary>
          {list(rest)}
        </details>
      )}
    </section>
  )
}

function SwitchLever({ device, live, setSwitch }: { device: Device; live: Live; setSwitch: Props['setSwitch'] }) {
  if (device.spec.kind !== 'switch') return null
  return (
    <label className="lever">
      {device.name}
      <select
        value={positionOf(device, live)}
        disabled={device.restricted !== undefined}
        onChange={(event) => setSwitch(device.id, event.target.value)}
      >
        {Object.keys(device.spec.positions).map((position) => (
          <option key={position}>{position}</option>
        ))}
      </select>
    </label>
  )
}

const percent = (duty: number | undefined): string =>
  duty === undefined ? '' : String(Number((duty * 100).toPrecision(4)))

function OutputLever({
  output,
  duty,
  setOutput,
}: {
  output: Output
  duty: number | undefined
  setOutput: Props['setOutput']
}) {
  const [typed, setTyped] = useState<string>()
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const settle = (): void => {
    if (typed === undefined) return
    try {
      const { value } = parseQuantity('ratio', /%\s*$/.test(typed) ? typed : `${typed} %`)
      if (value < 0 || value > 1)
        setProblems([
          {
            code: 'out-of-range',
            says: `${output.name}: ${typed} is outside 0 … 100 %.`,
            todo: 'Type how much of the time it is on.',
          },
        ])
      else {
        setProblems([])
        setTyped(undefined)
        setOutput(output.id, value)
      }
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProblems(error.problems)
    }
  }
  const isOn = (duty ?? 0) > 0
  return (
    <div>
      <div className="lever">
        <span>
          {output.name} <span className="soft small">{output.pin}</span>
        </span>
        <span className="row">
          <button
            type="button"
            aria-pressed={isOn}
            aria-label={`${output.name} on`}
            onClick={() => {
              setTyped(undefined)
              setOutput(output.id, isOn ? 0 : 1)
            }}
          >
            {isOn ? 'on' : 'off'}
          </button>
          <input
            aria-label={`${output.name}, on for, %`}
            aria-invalid={problems.length > 0}
            inputMode="decimal"
            value={typed ?? percent(duty)}
            placeholder="0"
            onChange={(event) => setTyped(event.target.value)}
            onBlur={settle}
            onKeyDown={(event) => event.key === 'Enter' && settle()}
          />
          %
        </span>
      </div>
      {problems.map(({ says, todo }) => (
        <p key={says} className="small wrong" role="alert">
          {says} {todo}
        </p>
      ))}
    </div>
  )
}
