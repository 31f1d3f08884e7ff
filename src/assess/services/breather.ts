/** What the crankcase breathes out at target power, and the pressure that its breather leaves inside. */
import { airViscosity } from '../../engineering/air/airViscosity.ts'
import { pipeLoss } from '../../engineering/fluids/pipeLoss.ts'
import { BLOW_BY, blowBy } from '../../engineering/services/blowBy.ts'
import { PIPE_ROUGHNESS } from '../air/facts.ts'
import { type Datum, entered, known, step } from '../chain/chain.ts'
import { enteredOr, type ServiceFacts } from './facts.ts'

/** Velocity heads of a hose’s two ends: 0.5 going in, 1 coming out. White, Fluid Mechanics, chapter 6 [from memory]. */
const ENDS = known(
  1.5,
  0.3,
  'Ends of the hose: 0.5 and 1 velocity heads; White, Fluid Mechanics, chapter 6 [from memory]',
)

export interface Breather {
  readonly share: Datum
  readonly reckonedFlow: Datum
  readonly flow: Datum
  readonly velocity: Datum
  readonly reckonedPressure: Datum
  /** In the crankcase over where the breather ends. */
  readonly pressure: Datum
}

export const breatherOf = (facts: ServiceFacts, temperature: Datum): Breather => {
  const { oil, readings, airFlow, outsidePressure } = facts
  const share = enteredOr(oil.blowByShare, 'share of the air that passes the rings', BLOW_BY)
  const gas = step(blowBy, { air: airFlow, share, temperature, pressure: outsidePressure })
  const flow = readings['blow-by-flow'] ?? gas.volume
  const viscosity = step(airViscosity, { temperature, density: gas.density }).kinematic
  const loss = step(pipeLoss, {
    flow,
    bore: entered(oil.breatherBore, 'bore of the crankcase breather'),
    length: entered(oil.breatherLength, 'length of the crankcase breather'),
    roughness: PIPE_ROUGHNESS,
    fittings: ENDS,
    density: gas.density,
    viscosity,
  })
  return {
    share,
    reckonedFlow: gas.volume,
    flow,
    velocity: loss.velocity,
    reckonedPressure: loss.loss,
    pressure: readings['crankcase-pressure'] ?? loss.loss,
  }
}
