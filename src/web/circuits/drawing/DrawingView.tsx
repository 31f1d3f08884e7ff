/** The drawing with its levers and, once something is tapped, that thing beside it. */
import { type Finding, VERDICTS, type Verdict } from '../../../assess/finding.ts'
import type { Build } from '../../../model/build.ts'
import type { ViewProps } from '../viewProps.ts'
import { CircuitDrawing } from './CircuitDrawing.tsx'
import { Levers } from './Levers.tsx'
import { nextPosition } from './live.ts'
import { ThingPanel } from './ThingPanel.tsx'

/** Findings by the thing drawn that they concern: a controller's input or output is a pin of it. */
const bySubject = (build: Build, findings: readonly Finding[]): ReadonlyMap<string, readonly Finding[]> => {
  const found = new Map<string, Finding[]>()
  for (const finding of findings) {
    const [collection, id = ''] = finding.subject.split('/')
    const pin =
      collection === 'inputs'
        ? build.collections.inputs[id]
        : collection === 'outputs'
          ? build.collections.outputs[id]
          : undefined
    const subject = pin ? `devices/${pin.device}` : finding.subject
    const there = found.get(subject)
    if (there) there.push(finding)
    else found.set(subject, [finding])
  }
  return found
}

/** What was found on something else and comes down to this wire: its id stands in the sentence or in what to do. */
const naming = (subject: string, findings: readonly Finding[]): readonly Finding[] => {
  const [collection, id = ''] = subject.split('/')
  if (collection !== 'wires') return []
  const whole = new RegExp(`(?<![\\w-])${id.replace(/[^\w-]/g, '\\$&')}(?![\\w-])`)
  return findings.filter(
    (finding) =>
      finding.verdict !== 'sound' && finding.subject !== subject && whole.test(`${finding.says} ${finding.todo}`),
  )
}

/** What asks for nothing is not marked on the drawing; the thing's own panel tells it. */
const worstIn = (findings: readonly Finding[] | undefined): Verdict | undefined =>
  VERDICTS.find((verdict) => verdict !== 'sound' && findings?.some((finding) => finding.verdict === verdict))

export function DrawingView(props: ViewProps) {
  const { build, assessment, circuit, name, wires, live, setSwitch, setOutput, chosen, choose } = props
  const findings = bySubject(build, assessment?.findings ?? [])
  const touch = (subject: string): void => {
    choose(subject)
    const device = build.collections.devices[subject.replace('devices/', '')]
    const position = device && live && device.restricted === undefined ? nextPosition(device, live) : undefined
    if (device && position !== undefined) setSwitch(device.id, position)
  }
  return (
    <div className={chosen === undefined ? 'drawing-view' : 'drawing-view with-side'}>
      <div className="drawing-side">
        <CircuitDrawing
          key={circuit ?? ''}
          {...{ build, circuit, name, live, chosen, choose, touch }}
          worstOf={(subject) => worstIn(findings.get(subject))}
        />
      </div>
      {chosen !== undefined && (
        <div className="drawing-side">
          <ThingPanel
            build={build}
            subject={chosen}
            live={live}
            findings={findings.get(chosen) ?? []}
            namedIn={naming(chosen, assessment?.findings ?? [])}
          />
          <button type="button" onClick={() => choose(undefined)}>
            Put it away
          </button>
        </div>
      )}
      {live && (
        <div className="all-levers">
          <Levers {...{ build, wires, live, setSwitch, setOutput }} />
        </div>
      )}
    </div>
  )
}
