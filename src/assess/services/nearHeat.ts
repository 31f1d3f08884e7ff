/** What runs near hot metal: how hot it becomes, between a mean and the side that faces, and what it stands. */
import { radiantHeat } from '../../engineering/services/radiantHeat.ts'
import type { Sheet } from '../../model/build.ts'
import { combine, type Datum, entered, isKnown, known, lacking, step } from '../chain/chain.ts'
import { own } from '../make.ts'
import { CLASS_SOURCE, CLASS_TEMPERATURE } from '../wireData.ts'
import type { ServiceFacts } from './facts.ts'

type Near = NonNullable<Sheet<'exhaust'>['near']>[number]

/** Scaled steel. Incropera & DeWitt, table A.11: oxidised steel 0.78 to 0.82 [from memory]; polished stainless far less. */
const SCALED = known(
  0.8,
  0.1,
  'Emissivity of scaled steel: about 0.8, Incropera & DeWitt, table A.11 [from memory]; none entered',
)
/** Of plastic and rubber, as for wires. */
const ABSORBS = known(0.9, 0.05, 'Emissivity of plastic and rubber: about 0.9 [from memory]')
/** m to wires, fuel and brakes. One code of many: yours may differ. */
export const CLEARANCE = {
  value: 0.05,
  source: {
    title:
      'Quebec, C-24.2 r. 32, section 92: no part of an exhaust within 50 mm of an electric wire, the fuel system or the brakes',
    where: 'legisquebec.gouv.qc.ca',
    how: 'read',
  },
} as const

export interface NearHot {
  readonly at: number
  readonly near: Near
  readonly surface: Datum
  readonly air: Datum
  readonly heat: Datum
  readonly mean: Datum
  readonly facing: Datum
  readonly limit: Datum
  readonly distance: Datum
}

const limitOf = ({ build }: ServiceFacts, { run, limit }: Near): Datum => {
  if (limit) return entered(limit, 'temperature that it stands')
  if (run === undefined) return lacking('temperature that it stands')
  const wires = Object.values(build.collections.wires).filter(({ path }) => path?.includes(run))
  const classes = wires.flatMap(({ id, insulation }) =>
    insulation ? [{ id, kelvin: CLASS_TEMPERATURE[insulation], insulation }] : [],
  )
  const [lowest] = classes.sort((a, b) => a.kelvin - b.kelvin)
  const without = wires.find(({ insulation }) => insulation === undefined)
  if (without) return lacking(`insulation class of ${without.id}`)
  return lowest
    ? known(lowest.kelvin, 0, `Least class on that run: ${lowest.insulation}, ${lowest.id} and others; ${CLASS_SOURCE}`)
    : lacking(`wires on ${run}`)
}

export const nearHotOf = (facts: ServiceFacts): readonly NearHot[] => {
  const { exhaust, build, readings } = facts
  return (exhaust.near ?? []).map((near, at): NearHot => {
    const surface = near.surface
      ? entered(near.surface, 'temperature of the hot metal beside it')
      : (readings['exhaust-surface'] ?? entered(exhaust.surface, 'temperature of the hot metal beside it'))
    const zone = near.zone ?? (near.run === undefined ? undefined : own(build.collections.runs, near.run)?.zone)
    const air =
      zone === undefined
        ? lacking('zone that it runs in')
        : entered(
            own(build.collections.zones, zone)?.ambient,
            `ambient temperature of ${own(build.collections.zones, zone)?.name ?? zone}`,
          )
    const outside = entered(near.outside ?? exhaust.outside, 'diameter of the hot pipe beside it')
    const distance = entered(near.distance, 'gap to the hot metal')
    const heat = step(radiantHeat, {
      radius: combine([outside], (across = 0) => across / 2, 'Radius = half of the diameter of the hot pipe'),
      distance: combine(
        [distance, outside],
        (gap = 0, across = 0) => gap + across / 2,
        'From the axis = gap + radius of the hot pipe',
      ),
      pipe: surface,
      emissivity: exhaust.emissivity ? entered(exhaust.emissivity, 'emissivity of the exhaust') : SCALED,
      shields:
        near.shielded === undefined ? lacking('whether a shield stands before it') : known(near.shielded ? 1 : 0, 0),
      diameter: entered(near.diameter, 'its outside diameter'),
      absorbs: ABSORBS,
      surroundings: air,
    })
    return {
      at,
      near,
      surface,
      air,
      heat: heat.heat,
      mean: heat.mean,
      facing: heat.facing,
      limit: limitOf(facts, near),
      distance,
    }
  })
}

/** K; undefined where either end is not known. */
export const heatRange = ({ mean, facing }: NearHot): readonly [number, number] | undefined =>
  isKnown(mean) && isKnown(facing) ? [mean.value - mean.plusMinus, facing.value + facing.plusMinus] : undefined
