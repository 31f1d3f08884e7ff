/** Road speed over engine speed, a line a gear: whole lines as now, broken ones the old engine and gears. */
import { isKnown } from '../../assess/chain/chain.ts'
import { waitsFor } from '../../assess/chain/judged.ts'
import type { DrivelineChain } from '../../assess/driveline/chain.ts'
import type { Gearing } from '../../assess/driveline/gearing.ts'
import { showPreferred, showPreferredOr } from '../parts/units.ts'

interface GearingProps {
  readonly stored: DrivelineChain
  readonly tried: DrivelineChain | undefined
}

const [LEFT, TOP, WIDTH, HEIGHT] = [52, 20, 330, 262]
const RPM = Math.PI / 30
const KMH = 1 / 3.6
const whole = (text: string): string => text.replace(/(\d)\.\d+/, '$1')
const speedText = (speed: number): string => whole(showPreferredOr('speed', 'km/h', Math.round(speed / KMH) * KMH))
const revsText = (revs: number): string => whole(showPreferred('angularSpeed', Math.round(revs / RPM / 10) * 10 * RPM))
const numberOnly = (text: string): string => text.replace(/\s\S+$/, '')
const unitOnly = (text: string): string => /\S+$/.exec(text)?.[0] ?? ''

interface End {
  readonly revs: number
  readonly speed: number
}
/** Where each gear ends; nothing where the engine’s greatest speed or a ratio is not known. */
const endsOf = (gearing: Gearing | undefined): readonly End[] =>
  (gearing?.rows ?? []).flatMap(({ atLimit }) =>
    isKnown(atLimit) && gearing && isKnown(gearing.limit) ? [{ revs: gearing.limit.value, speed: atLimit.value }] : [],
  )

export function GearingDrawing({ stored, tried }: GearingProps) {
  const shown = tried ?? stored
  const { now, before } = shown.gearing
  const [ends, old] = [endsOf(now), endsOf(before)]
  if (ends.length === 0) {
    const { missing } = waitsFor(now.limit, now.cruise, ...now.rows.map(({ per1000 }) => per1000))
    return <p className="soft">The lines of the gears need: {missing.join(', ')}.</p>
  }
  const storedEnds = tried ? endsOf(stored.gearing.now) : []
  const all = [...ends, ...old, ...storedEnds]
  const mostRevs = Math.ceil((1.04 * Math.max(...all.map(({ revs }) => revs))) / (500 * RPM)) * 500 * RPM
  const mostSpeed = Math.ceil(Math.max(...all.map(({ speed }) => speed)) / (20 * KMH)) * 20 * KMH
  const x = (revs: number): number => LEFT + (revs / mostRevs) * WIDTH
  const y = (speed: number): number => TOP + HEIGHT - (speed / mostSpeed) * HEIGHT
  const line = ({ revs, speed }: End): string => `M${x(0)} ${y(0)}L${x(revs).toFixed(1)} ${y(speed).toFixed(1)}`
  const { cruise } = shown.facts
  const ticks = [0.25, 0.5, 0.75, 1]
  const drop = (gearing: Gearing | undefined, className: string, dash?: string) => {
    const revs = gearing?.cruise
    if (!revs || !isKnown(revs) || !isKnown(cruise) || revs.value > mostRevs) return null
    return <path className={className} strokeDasharray={dash} d={`M${x(revs.value)} ${y(cruise.value)}V${y(0)}`} />
  }
  const revsAt = (gearing: Gearing | undefined): string =>
    gearing && isKnown(gearing.cruise) ? revsText(gearing.cruise.value) : 'not known'
  const oldName = shown.facts.sheet.before?.name ?? 'the old engine'
  return (
    <>
      <svg className="line-drawing gearing" viewBox="0 0 410 326" role="img" aria-labelledby="gearing-title">
        <title id="gearing-title">
          Road speed over engine speed in each gear{old.length > 0 ? `, now and with ${oldName}` : ''}
        </title>
        <path className="pen" d={`M${LEFT} ${TOP}V${TOP + HEIGHT}H${LEFT + WIDTH}`} />
        {ticks.map((share) => (
          <g key={share}>
            <path className="fine" d={`M${x(share * mostRevs)} ${y(0)}v5M${LEFT} ${y(share * mostSpeed)}h-5`} />
            <text x={x(share * mostRevs)} y={y(0) + 19} textAnchor="middle" className="soft-text">
              {numberOnly(revsText(share * mostRevs))}
            </text>
            <text x={LEFT - 8} y={y(share * mostSpeed) + 4} textAnchor="end" className="soft-text">
              {numberOnly(speedText(share * mostSpeed))}
            </text>
          </g>
        ))}
        <text x={LEFT + 6} y={TOP - 6} className="soft-text">
          {unitOnly(speedText(mostSpeed))}
        </text>
        <text x={LEFT + WIDTH} y={y(0) - 6} textAnchor="end" className="soft-text">
          {unitOnly(revsText(mostRevs))}
        </text>
        {isKnown(cruise) && cruise.value <= mostSpeed && (
          <path className="fine" strokeDasharray="1 5" d={`M${LEFT} ${y(cruise.value)}H${LEFT + WIDTH}`} />
        )}
        {drop(before, 'fine', '6 4')}
        {drop(now, 'fine')}
        {old.map((each) => (
          <path key={each.speed} className="fine" strokeDasharray="6 4" d={line(each)} />
        ))}
        {storedEnds.map((each) => (
          <path key={each.speed} className="fine" d={line(each)} />
        ))}
        {ends.map((each, at) => (
          <g key={each.speed}>
            <path className={tried ? 'heavy' : 'pen'} d={line(each)} />
            <text x={x(each.revs) + 6} y={y(each.speed) + 4}>
              {at + 1}
            </text>
          </g>
        ))}
      </svg>
      <p>
        {isKnown(cruise) ? (
          <>
            At {speedText(cruise.value)} in top gear: <b>{revsAt(now)}</b>
            {before && (
              <>
                , with {oldName} {revsAt(before)}
              </>
            )}
            .
          </>
        ) : (
          'The speed of long journeys is not entered.'
        )}
      </p>
      <div className="scroll-table">
        <table>
          <thead>
            <tr>
              <th scope="col">Gear</th>
              <th scope="col">Ratio</th>
              <th scope="col">At 1000 rpm</th>
              <th scope="col">Greatest</th>
            </tr>
          </thead>
          <tbody>
            {now.rows.map(({ ratio, per1000, atLimit }, at) => (
              <tr key={ratio}>
                <th scope="row">{at + 1}</th>
                <td>{ratio}</td>
                <td>
                  {isKnown(per1000)
                    ? showPreferredOr('speed', 'km/h', Math.round((per1000.value / KMH) * 10) * 0.1 * KMH)
                    : '?'}
                </td>
                <td>{isKnown(atLimit) ? speedText(atLimit.value) : '?'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  )
}
