/**
 * Rule `charging-fuse`: the fuse at the battery end of an alternator's cable carries all that the alternator gives when the
 * battery is flat. A smaller one opens while the engine runs, and what is left on the alternator sees its load dump.
 * Gates: from 135 % of rating a fuse must open (ISO 8820 [from memory]); between, no standard says.
 */
import { citation } from '../../engineering/calculation.ts'
import { maxiSheet, OPENS_FROM, RATINGS } from '../../engineering/electrical/fuseGates.ts'
import { ambientShare } from '../../engineering/electrical/protection/fuseDerating.ts'
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import { amps, BATTERY_CAUTION, deviceZone, endpointOf, finding, own } from '../make.ts'
import { alternatorPins } from '../pins.ts'
import { fuseOf, judgedFuse, plainName, ratedName } from './facts.ts'
import { reachOf } from './reach.ts'

export const chargingFuseFindings = (context: Context): Finding[] => {
  const { build } = context
  return Object.values(build.collections.devices).flatMap((device): Finding[] => {
    const { spec } = device
    if (spec.kind !== 'alternator') return []
    const { output } = alternatorPins(device)
    const most = Math.max(spec.hotOutputCruise?.value ?? 0, spec.hotOutputIdle?.value ?? 0)
    if (output === undefined || most <= 0) return []
    const at = endpointOf(device.id, output)
    const above = reachOf(context).filter(({ below }) =>
      below.some(({ wire: id }) => {
        const wire = own(build.collections.wires, id)
        return wire?.from === at || wire?.to === at
      }),
    )
    // Behind several fuses its current splits as the cables let it: nothing simple is true of each.
    const fuse = above.length === 1 ? fuseOf(build, above[0]!.fuse) : undefined
    const judged = fuse && judgedFuse(build, fuse).fuse
    if (!fuse || fuse.restricted || !judged) return []
    const share = judged.ambient === undefined ? 1 : (ambientShare(judged.ambient) ?? 0)
    if (most <= judged.rating * share) return []
    const opens = most >= OPENS_FROM * judged.rating
    const bigger = RATINGS[judged.type].find((rating) => rating * share >= most)
    const warm = share < 1 ? `, ${amps(judged.rating * share)} where it stands` : ''
    return [
      finding({
        rule: 'charging-fuse',
        verdict: opens ? 'no-go' : 'marginal',
        system: 'electrical',
        subject: `devices/${fuse.id}`,
        about: fuse.name,
        zone: deviceZone(build, fuse.id),
        says: `${ratedName(fuse, judged.rating)}${warm}, stands between ${device.name} and the battery, and ${device.name} gives ${amps(most)} hot into a flat battery: it ${opens ? 'opens' : 'may open'} while the engine runs, and what stays on the alternator gets its load dump.`,
        todo:
          bigger === undefined
            ? `Fit a bolt-down fuse above ${amps(most)} in place of ${fuse.name}, and a cable that it protects.`
            : `Fit ${bigger} A in place of ${amps(judged.rating)} at ${plainName(fuse, judged.rating)}, and a cable that it protects.`,
        working: [
          `${amps(most)} ÷ ${amps(judged.rating)} = ${((100 * most) / judged.rating).toFixed(0)} % of rating; a fuse must open from 135 % on (ISO 8820 [from memory]).`,
          `Rating where it stands: ${citation(maxiSheet)}, taken for every type.`,
        ],
        cautions: [BATTERY_CAUTION],
      }),
    ]
  })
}
