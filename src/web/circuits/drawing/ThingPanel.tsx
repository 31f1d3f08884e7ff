/** The thing that was tapped: its name, its figures in the chosen case, what was found on it with the next act. */
import { Link } from 'wouter'
import type { Finding } from '../../../assess/finding.ts'
import { deviceName } from '../../../assess/make.ts'
import type { Build, Device, Wire } from '../../../model/build.ts'
import { FaultLinks } from '../../faults/FaultLinks.tsx'
import { jobEdit, openJobFor } from '../../findings/jobEdit.ts'
import { afterName } from '../../findings/sortFindings.ts'
import { VerdictMark } from '../../parts/VerdictMark.tsx'
import { findingPlace } from '../../search/placeOf.ts'
import { bench } from '../../workbench/bench.ts'
import { wireMake } from './Lines.tsx'
import { ampsText, type Live, positionOf, standInsTo, voltsAtText, voltsText, wireFigures } from './live.ts'

interface Props {
  readonly build: Build
  readonly subject: string
  readonly live: Live | undefined
  readonly findings: readonly Finding[]
  readonly namedIn: readonly Finding[]
}
type Row = readonly [what: string, figure: string]

export function ThingPanel({ build, subject, live, findings, namedIn }: Props) {
  const [collection, id = ''] = subject.split('/')
  const wire = collection === 'wires' ? build.collections.wires[id] : undefined
  const device = collection === 'devices' ? build.collections.devices[id] : undefined
  const item = wire ?? device
  if (item === undefined) return null
  const assumed = (live?.solved.assumed ?? []).filter((line) => line.startsWith(`${id}: `))
  const rows = wire ? wireRows(build, wire, live) : deviceRows(build, device!, live)
  return (
    <section aria-labelledby="thing">
      <h2 id="thing">{wire ? `Wire ${wire.id}` : device!.name}</h2>
      {device && (
        <p className="soft small">
          {device.spec.kind}, {device.id}
        </p>
      )}
      <table>
        <tbody>
          {rows.map(([what, figure]) => (
            <tr key={what}>
              <th scope="row">{what}</th>
              <td className="figure">{figure}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {live?.solved.plusMinus !== undefined && (
        <p className="small soft">Each voltage ± {voltsText(live.solved.plusMinus, true)}.</p>
      )}
      {assumed.length > 0 && (
        <p className="small soft">
          Not entered, so taken as {assumed.map((line) => line.slice(id.length + 2)).join('; ')}.
        </p>
      )}
      {item.restricted !== undefined ? (
        <p>
          Part of the {item.restricted} system: never sized, altered or probed here. That is work for a qualified
          person.
        </p>
      ) : (
        <p>
          <button
            type="button"
            onClick={() => {
              const row = document.getElementById(`${collection}-${id}`)
              row?.scrollIntoView({ block: 'center' })
              row?.querySelector<HTMLElement>('input, select')?.focus()
            }}
          >
            Edit it in the table
          </button>{' '}
          <FaultLinks {...{ build, wire, device }} />
        </p>
      )}
      <p className="soft small">
        {findings.length === 0 ? 'Nothing was found on it.' : 'Found in the build as it is stored, over all its cases:'}
      </p>
      {findings.map((finding) => (
        <Found key={finding.key} build={build} finding={finding} />
      ))}
      {namedIn.length > 0 && (
        <>
          <p className="soft small">It has a part in:</p>
          {namedIn.map((finding) => (
            <p key={finding.key} className="thing-finding">
              <VerdictMark verdict={finding.verdict} /> <Link to={findingPlace(finding.key)}>{finding.about}</Link>
              {afterName(finding.about, finding.says)}
            </p>
          ))}
        </>
      )}
    </section>
  )
}

function Found({ build, finding }: { build: Build; finding: Finding }) {
  const job = openJobFor(build, finding.key)
  return (
    <div className="thing-finding" data-finding={finding.key}>
      <p>
        <VerdictMark verdict={finding.verdict} /> <strong>{finding.about}</strong>
        {afterName(finding.about, finding.says)}
      </p>
      {finding.missing !== undefined && (
        <p>
          <strong>Missing:</strong> {finding.missing}
        </p>
      )}
      {finding.verdict !== 'sound' && finding.todo !== '' && (
        <p>
          <strong>Next:</strong> {finding.todo}
        </p>
      )}
      {finding.verdict !== 'sound' && finding.cautions.length > 0 && (
        <p className="small">
          <strong>Take care:</strong> {finding.cautions.join(' ')}
        </p>
      )}
      <p className="row">
        {finding.verdict !== 'sound' && job === undefined && (
          <button type="button" onClick={() => bench.edit(jobEdit(finding))}>
            Make it a job
          </button>
        )}
        {job && (
          <span className="small">
            Job {job.id}, {job.status}.
          </span>
        )}
        <Link to={findingPlace(finding.key)}>Working and source</Link>
      </p>
    </div>
  )
}

const wireRows = (build: Build, wire: Wire, live: Live | undefined): readonly Row[] => {
  const end = (endpoint: string): string => {
    const cut = endpoint.lastIndexOf('.')
    return `${deviceName(build, endpoint.slice(0, cut))}, ${endpoint.slice(cut + 1)}`
  }
  const rows: Row[] = [
    ['From', end(wire.from)],
    ['To', end(wire.to)],
    ['Made of', wireMake(wire) || 'not entered'],
  ]
  if (!live) return rows
  const figures = wireFigures(live, wire)
  rows.push(['Current', figures.missing === undefined ? figures.amps : `unknown: ${figures.missing} not entered`])
  if (figures.current !== null && Math.abs(figures.current) > 5e-5)
    rows.push(['Flows to', end(figures.current > 0 ? wire.to : wire.from)])
  const [a, b] = [live.solved.voltages[wire.from], live.solved.voltages[wire.to]]
  rows.push([
    'Lost on it',
    figures.current === null || a == null || b == null ? 'unknown' : voltsText(Math.abs(a - b), true),
  ])
  rows.push(['Conductor', figures.temperature ?? 'unknown in this case'])
  return rows
}

const deviceRows = (build: Build, device: Device, live: Live | undefined): readonly Row[] => {
  if (!live) return []
  const rows: Row[] = []
  const position = positionOf(device, live)
  if (position !== undefined) rows.push(['Position', position])
  for (const output of Object.values(build.collections.outputs))
    if (output.device === device.id && live.kase.outputs[output.id] !== undefined)
      rows.push([`${output.pin} ${output.name}`, `${Math.round(live.kase.outputs[output.id]! * 100)} %`])
  for (const load of device.loads ?? []) {
    const current = live.solved.elements.get(live.solved.bound.loadElement(device.id, load.id))
    rows.push([
      `${load.name ?? load.id} draws`,
      load.law === undefined
        ? 'unknown: not entered'
        : current === undefined
          ? 'nothing in this case'
          : ampsText(current),
    ])
  }
  for (const [pin, { name }] of Object.entries(device.pins)) {
    const volts = live.solved.voltages[`${device.id}.${pin}`]
    // A controller has dozens of pins; those that nothing reaches tell nothing.
    if (volts === undefined || (volts === null && device.spec.kind === 'controller')) continue
    const standIns = standInsTo(live, `${device.id}.${pin}`).map((element) => element.replace('wire:', ''))
    const why = standIns.length === 0 ? '' : `: figures of ${standIns.slice(0, 3).join(', ')} not entered`
    rows.push([name ? `${pin}, ${name}` : `Pin ${pin}`, `${voltsAtText(live, `${device.id}.${pin}`)}${why}`])
  }
  return rows
}
