/** The smallest conductor and fuse for a wire of the circuit, or for all that feed a device, and why nothing smaller will do. */
import { useMemo, useState } from 'react'
import { BATTERY_CAUTION } from '../../../assess/make.ts'
import { sizeName } from '../../../assess/wireData.ts'
import { Empty } from '../../parts/Empty.tsx'
import { Problems } from '../../parts/Problems.tsx'
import type { ViewProps } from '../viewProps.ts'
import { SizedWireSheet } from './SizedWireSheet.tsx'
import { type Asked, answersTo, sizeable, takeOver } from './sizeEdit.ts'
import './size.css'

const NOTHING: Asked = { load: '', drop: '3 %' }

export function SizeView({ build, devices, wires, chosen }: ViewProps) {
  const [picked, pick] = useState<string>()
  const [asked, ask] = useState<Asked>(NOTHING)
  const [smaller, setSmaller] = useState(false)
  const [stored, setStored] = useState<string>()
  const offered = useMemo(() => sizeable(build, devices, wires), [build, devices, wires])
  const subject =
    [picked, chosen, offered[0]?.subject].find((one) => offered.some((each) => each.subject === one)) ?? undefined
  const { sized, problems } = useMemo(
    () => (subject === undefined ? { sized: [], problems: [] } : answersTo(build, subject, asked, smaller)),
    [build, subject, asked, smaller],
  )
  if (subject === undefined)
    return <Empty says="Nothing here can be sized: this circuit has no wire, or only those of a restricted system." />
  const changes = takeOver(build, sized)
  return (
    <div className="size-view">
      <div className="choose">
        <label>
          What is sized
          <select
            value={subject}
            onChange={(event) => {
              pick(event.target.value)
              ask(NOTHING)
              setSmaller(false)
              setStored(undefined)
            }}
          >
            {(['devices', 'wires'] as const).map((collection) => (
              <optgroup key={collection} label={collection === 'devices' ? 'Devices, with their wires' : 'Wires'}>
                {offered
                  .filter((one) => one.subject.startsWith(collection))
                  .map((one) => (
                    <option key={one.subject} value={one.subject}>
                      {one.name}
                    </option>
                  ))}
              </optgroup>
            ))}
          </select>
        </label>
        <label>
          Load, if not as the model has it
          <input
            value={asked.load}
            placeholder={sized[0] === undefined ? 'such as 8 A' : `${Number(sized[0].current.toPrecision(3))} A`}
            autoComplete="off"
            onChange={(event) => ask({ ...asked, load: event.target.value })}
          />
        </label>
        <label>
          Drop allowed over each wire
          <input
            value={asked.drop}
            placeholder="not asked"
            autoComplete="off"
            onChange={(event) => ask({ ...asked, drop: event.target.value })}
          />
        </label>
      </div>
      <p className="small soft">
        A share is of 12 V; 3 % for what matters and 10 % for the rest, out and back (ABYC E-11, as supplier charts
        print it).
      </p>
      <Problems list={problems} />
      {sized.map((one) => (
        <SizedWireSheet key={one.wire.id} {...{ one, smaller, setSmaller }} />
      ))}
      {sized.length > 0 && (
        <div className="row">
          <button
            type="button"
            className="first"
            disabled={changes.changes.length === 0}
            onClick={() => {
              if (changes.store()) setStored(changes.says)
            }}
          >
            Use it
          </button>
          <span className="small" role="status">
            {changes.changes.length > 0
              ? changes.says
              : (stored ??
                (sized.some(({ choice }) => choice.chosen === undefined)
                  ? 'There is nothing to take over.'
                  : 'Nothing has to be thicker.'))}
          </span>
        </div>
      )}
      {sized.length > 0 && <p className="small soft">{BATTERY_CAUTION}</p>}
      {sized.map(({ wire, choice }) =>
        wire.area !== undefined && choice.chosen && wire.area.value > choice.chosen.candidate.area * 1.001 ? (
          <p key={wire.id} className="small soft">
            {wire.id} has {sizeName(wire.area.value)}, more than is needed; nothing speaks against leaving it.
          </p>
        ) : null,
      )}
    </div>
  )
}
