/** A run of the loom: how long, how thick, in what, and every wire in it by name. */
import { Link } from 'wouter'
import type { Finding } from '../../assess/finding.ts'
import { cutOf } from '../../assess/loom/cut.ts'
import { type Dressed, type LoomRun, strandsThrough } from '../../assess/loom/loom.ts'
import { deviceIdOf, deviceName, own, restrictedWire } from '../../assess/make.ts'
import { colourText, sizeText } from '../../book/loom/list.ts'
import type { Build } from '../../model/build.ts'
import { Cell } from '../circuits/tables/Cell.tsx'
import { measureText } from '../parts/quantityText.ts'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { findingPlace } from '../search/placeOf.ts'
import { RUN_WORDS, setRunMeasure, setRunText } from './edits.ts'
import { Section } from './Section.tsx'
import { millimetres } from './words.ts'

interface Props {
  readonly build: Build
  readonly lying: LoomRun
  readonly dressed: Dressed
  readonly findings: readonly Finding[]
  readonly runs: readonly LoomRun[]
}

export function RunPanel({ build, lying, dressed, findings, runs }: Props) {
  const { run } = lying
  const { bundle, over, tubing, bend } = dressed
  const zone = own(build.collections.zones, run.zone)
  const passage = run.passage === undefined ? undefined : own(build.collections.passages, run.passage)
  const others = passage ? runs.filter((each) => each.run.passage === passage.id && each.run.id !== run.id) : []
  const here = findings.filter(
    ({ subject }) => subject === `runs/${run.id}` || (passage && subject === `passages/${passage.id}`),
  )
  return (
    <section aria-labelledby="run-name" className="run-panel">
      <h2 id="run-name">
        {run.name === undefined ? `Run ${run.id}` : `${run.id}, ${run.name}`}: {lying.fromName} to {lying.toName}
      </h2>
      {here.map((finding) => (
        <p key={finding.key}>
          <VerdictMark verdict={finding.verdict} /> <Link to={findingPlace(finding.key)}>{finding.says}</Link>
        </p>
      ))}
      <div className="two">
        <dl className="run-facts">
          <dt>Length along its way</dt>
          <dd>
            <Cell
              label={`Length of run ${run.id}`}
              text={measureText('length', run.length)}
              hint="not known"
              row={0}
              column={0}
              keep={(text) => setRunMeasure(build, run, 'length', text)}
            />
          </dd>
          <dt>Zone</dt>
          <dd>
            {lying.zoneName}
            {zone?.ambient && `, up to ${measureText('temperature', zone.ambient)}`}
          </dd>
          <dt>Bundle as laid</dt>
          <dd>
            {lying.wires.length === 0 ? (
              'no wire lies in it'
            ) : bundle && over !== undefined ? (
              <>
                <strong>{millimetres(over)}</strong>
                {lying.sleeve === 'tape' && ' over its tape'}; at the very tightest {millimetres(bundle.floor)}
              </>
            ) : (
              <>
                unknown: {lying.missing[0]}
                {lying.missing.length > 1 && ` and ${lying.missing.length - 1} more`}. More than{' '}
                {millimetres(lying.least)}.
              </>
            )}
          </dd>
          <dt>Sleeve</dt>
          <dd>
            <Cell
              label={`Sleeve of run ${run.id}`}
              text={run.sleeve ?? ''}
              hint="none"
              row={1}
              column={0}
              keep={(text) => setRunText(build, run, 'sleeve', text)}
            />
          </dd>
          <dt>Its inner diameter</dt>
          <dd>
            <Cell
              label={`${RUN_WORDS.sleeveBore}, run ${run.id}`}
              text={measureText('length', run.sleeveBore)}
              hint={
                typeof tubing === 'object'
                  ? `size ${tubing.size}, ${millimetres(tubing.bore)}, would do`
                  : tubing === 'none'
                    ? 'larger than the table of tubing goes'
                    : 'not entered'
              }
              row={2}
              column={0}
              keep={(text) => setRunMeasure(build, run, 'sleeveBore', text)}
            />
          </dd>
          <dt>Bent to</dt>
          <dd>
            <Cell
              label={`Run ${run.id}, ${RUN_WORDS.bend}`}
              text={measureText('length', run.bend)}
              hint={bend ? `not below ${millimetres(bend.free)}` : 'not entered'}
              row={3}
              column={0}
              keep={(text) => setRunMeasure(build, run, 'bend', text)}
            />
            {bend && (
              <span className="soft small">
                Least radius {millimetres(bend.free)}, {millimetres(bend.held)} where it is held on both sides.
              </span>
            )}
          </dd>
          <dt>Goes through</dt>
          <dd>
            {passage === undefined
              ? 'no hole'
              : `${passage.name}${passage.bore ? `, ${measureText('length', passage.bore)} clear` : ''}${
                  others.length > 0
                    ? `, with ${others.map((each) => each.run.id).join(', ')}: ${strandsThrough(passage.id, runs).length} strands`
                    : ''
                }`}
          </dd>
        </dl>
        {bundle && <Section bundle={bundle} strands={lying.strands} />}
      </div>
      {lying.wires.length > 0 && (
        <table className="folds wires-in-run">
          <caption>
            {lying.wires.length === 1 ? 'The wire' : `The ${lying.wires.length} wires`} in {run.id}
          </caption>
          <thead>
            <tr>
              {['Wire', 'From', 'To', 'Size', 'Colour', 'Across', 'Cut'].map((name) => (
                <th key={name} scope="col" className={name === 'Across' || name === 'Cut' ? 'figure' : undefined}>
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {lying.strands.flatMap(({ wires, diameter, from }) =>
              wires.map((id) => {
                const wire = build.collections.wires[id]!
                const { cut, missing } = cutOf(build, wire)
                const isLeft = restrictedWire(build, id)
                return (
                  <tr key={id}>
                    <th scope="row" data-label="Wire">
                      <Link to={`/circuits/of/wires/${id}`}>{id}</Link>
                    </th>
                    <td data-label="From">{deviceName(build, deviceIdOf(wire.from))}</td>
                    <td data-label="To">{deviceName(build, deviceIdOf(wire.to))}</td>
                    <td data-label="Size">{sizeText(wire) ?? 'unknown'}</td>
                    <td data-label="Colour">{colourText(wire) ?? 'unknown'}</td>
                    <td data-label="Across" className="figure" title={from}>
                      {diameter === undefined
                        ? 'unknown'
                        : `${millimetres(diameter)}${wires.length > 1 ? ' together' : ''}`}
                    </td>
                    <td data-label="Cut" className="figure" title={missing}>
                      {isLeft ? 'left alone' : cut === undefined ? 'unknown' : `${cut.toFixed(2)} m`}
                    </td>
                  </tr>
                )
              }),
            )}
          </tbody>
        </table>
      )}
    </section>
  )
}
