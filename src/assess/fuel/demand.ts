/** What the engine is to give and what fuel that takes: all that the air asks of the fuel sheet. */
import { FUELS } from '../../engineering/fuel/fuels.ts'
import { otherFuel } from '../../engineering/fuel/otherFuel.ts'
import type { Build } from '../../model/build.ts'
import { type Datum, entered, lacking, step } from '../chain/chain.ts'

export interface Demand {
  readonly target: Datum
  /** Of the fuel in use. */
  readonly consumption: Datum
}

export const demandOf = ({ sheets }: Build): Demand => ({
  target: entered(sheets.engine?.targetPower, 'target power'),
  consumption: consumptionOf(sheets.fuel ?? {}),
})

const consumptionOf = (fuel: NonNullable<Build['sheets']['fuel']>): Datum => {
  const own = entered(fuel.specificConsumption, 'specific fuel consumption')
  if (fuel.consumptionFuel === undefined || fuel.consumptionFuel === fuel.fuel) return own
  if (fuel.fuel === undefined) return lacking('fuel')
  const [before, after] = [FUELS[fuel.consumptionFuel], FUELS[fuel.fuel]]
  return step(otherFuel, {
    consumption: own,
    heat: before.heatingValue,
    density: before.density,
    otherHeat: after.heatingValue,
    otherDensity: after.density,
  }).otherConsumption
}
