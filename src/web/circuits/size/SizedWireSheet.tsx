/** One wire sized: what it was sized for, what is smallest, and each smaller one with the reason that it fails. */
import { amps } from '../../../assess/make.ts'
import type { SizedWire } from '../../../assess/sizing/wireInBuild.ts'
import { sizeName } from '../../../assess/wireData.ts'
import { formatQuantity } from '../../../units/index.ts'
import { ampsText, voltsText } from '../drawing/live.ts'

interface Props {
  readonly one: SizedWire
  /** Sized for the smallest fuse that carries the load, in place of the one that is fitted. */
  readonly smaller: boolean
  readonly setSmaller: (smaller: boolean) => void
}
const temperature = (kelvin: number): string => formatQuantity('temperature', kelvin, { unit: '°C', digits: 3 })

export function SizedWireSheet({ one, smaller, setSmaller }: Props) {
  const { wire, current, because, length, ambient, zone, bundleShare, fuse, choice } = one
  const { chosen, rejected } = choice
  return (
    <section className="sized" aria-label={`Size of ${wire.id}`}>
      <h3>
        {wire.id}, {wire.from} to {wire.to}
        {wire.area === undefined ? ', no size entered' : `, now ${sizeName(wire.area.value)}`}
      </h3>
      <p className="small">
        {ampsText(current)} ({because}); {formatQuantity('length', length, { digits: 3 })} of conductor; class{' '}
        {wire.insulation}; hottest {zone}, {temperature(ambient)}
        {bundleShare < 1 ? `; keeps ${(bundleShare * 100).toFixed(0)} % of its current in its bundle` : ''}.
      </p>
      <p className="size-answer">
        {chosen === undefined
          ? 'No standard conductor will do.'
          : `${chosen.candidate.size} copper: loses ${voltsText(chosen.drop, true)}, warms to ${temperature(chosen.temperature)}, may carry ${ampsText(chosen.carries)}.`}
      </p>
      {fuse === undefined ? (
        <p>No fuse stands above it.</p>
      ) : (
        <FuseLine fuse={fuse} smaller={smaller} setSmaller={setSmaller} />
      )}
      {rejected.length + (fuse?.smallest?.rejected.length ?? 0) > 0 && (
        <table className="why-not">
          <caption>Why nothing smaller</caption>
          <tbody>
            {rejected.map(({ what, because: why }) => (
              <tr key={what}>
                <th scope="row">{what}</th>
                <td>{why}</td>
              </tr>
            ))}
            {(fuse?.smallest?.rejected ?? []).slice(-2).map(({ what, because: why }) => (
              <tr key={what}>
                <th scope="row">{what}</th>
                <td>{why}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  )
}

interface FuseProps extends Pick<Props, 'smaller' | 'setSmaller'> {
  readonly fuse: NonNullable<SizedWire['fuse']>
}
function FuseLine({ fuse, smaller, setSmaller }: FuseProps) {
  const { name, fitted, load, smallest } = fuse
  const rating = smallest?.rating
  return (
    <>
      <p>
        {name}: {ampsText(load)} pass it.{' '}
        {smallest === undefined
          ? 'How hot it gets where it stands is not entered, so the smallest fuse is not known.'
          : rating === undefined
            ? 'No fuse of its kind carries that.'
            : `The smallest that carries it for good is ${amps(rating)}.`}
      </p>
      {rating !== undefined && rating !== fitted && (
        <label className="choice">
          <input type="checkbox" checked={smaller} onChange={(event) => setSmaller(event.target.checked)} />
          Take {amps(rating)} in place of {amps(fitted)}, and size the wire behind that
        </label>
      )}
    </>
  )
}
