/** Exhaust gas part by part, and the pressure that all of them hold against the engine. */
import { pipeLoss } from '../../engineering/fluids/pipeLoss.ts'
import { exhaustGas } from '../../engineering/services/exhaustGas.ts'
import type { Sheet } from '../../model/build.ts'
import { combine, type Datum, entered, isKnown, known, lacking, step } from '../chain/chain.ts'
import type { ServiceFacts } from './facts.ts'

/** m: commercial steel 45 µm. White, Fluid Mechanics, table 6.1 [from memory]. */
const ROUGHNESS = known(
  4.5e-5,
  2e-5,
  'Wall of commercial steel: 45 µm; White, Fluid Mechanics, table 6.1 [from memory]',
)

export interface ExhaustPart {
  readonly id: string
  readonly name: string
  /** Its loss is stated and scaled, not reckoned from bore and length. */
  readonly stated: boolean
  readonly gasTemperature: Datum
  readonly velocity: Datum
  readonly mach: Datum
  readonly loss: Datum
}
export interface BackPressure {
  readonly gas: Datum
  readonly parts: readonly ExhaustPart[]
  /** One velocity head of the last bore, lost into the open. */
  readonly reckoned: Datum
  readonly measured: Datum
  /** The measured one where there is one. */
  readonly pressure: Datum
  readonly limit: Datum
}

type Part = NonNullable<Sheet<'exhaust'>['parts']>[number]

export const backPressureOf = (facts: ServiceFacts): BackPressure => {
  const { exhaust, airFlow, fuelFlow, outsidePressure, readings } = facts
  const gas = combine([airFlow, fuelFlow], (a = 0, f = 0) => a + f, 'Exhaust gas = air + fuel at target power')
  // A pipe entered as one is a chain of one.
  const listed: readonly Part[] = exhaust.parts?.length
    ? exhaust.parts
    : [
        {
          id: 'pipe',
          name: 'Exhaust pipe',
          ...(exhaust.bore ? { bore: exhaust.bore } : {}),
          ...(exhaust.length ? { length: exhaust.length } : {}),
          ...(exhaust.fittings ? { fittings: exhaust.fittings } : {}),
        },
      ]
  const parts = listed.map((part, index): ExhaustPart => {
    const { name } = part
    const gasTemperature = entered(
      part.gasTemperature ?? exhaust.gasTemperature,
      `temperature of the exhaust gas in ${name}`,
    )
    const bore = entered(part.bore, `bore of ${name}`)
    const at = step(exhaustGas, {
      air: airFlow,
      fuel: fuelFlow,
      temperature: gasTemperature,
      pressure: outsidePressure,
      bore,
    })
    const stated = part.loss !== undefined
    const out = index === listed.length - 1 ? 1 : 0
    const bends = entered(part.fittings, `losses of the bends of ${name}`)
    const fittings = out
      ? combine([bends], (k = 0) => k + 1, 'Bends of this part, and one velocity head lost into the open')
      : bends
    const loss = stated
      ? combine(
          [
            entered(part.loss, `loss of ${name}`),
            entered(part.lossFlow, `gas flow at which the loss of ${name} is known`),
            gas,
          ],
          (known = 0, at1 = 1, now = 0) => known * (now / at1) ** 2,
          'Loss = known loss × (gas flow / its gas flow)²; the gas as hot as then',
        )
      : step(pipeLoss, {
          flow: at.volume,
          bore,
          length: entered(part.length, `length of ${name}`),
          roughness: ROUGHNESS,
          fittings,
          density: at.density,
          viscosity: at.viscosity,
        }).loss
    return { id: part.id, name, stated, gasTemperature, velocity: at.velocity, mach: at.mach, loss }
  })
  const reckoned = combine(
    parts.map(({ loss }) => loss),
    (...losses) => losses.reduce((sum, loss) => sum + loss, 0),
    'Back-pressure reckoned = losses of all parts, the gas as thin as at outside pressure and without its pulses',
  )
  const measured =
    readings['exhaust-back-pressure'] ??
    (exhaust.backPressure
      ? entered(exhaust.backPressure, 'back-pressure at full load, measured')
      : lacking('measured back-pressure'))
  return {
    gas,
    parts,
    reckoned,
    measured,
    pressure: isKnown(measured) ? measured : reckoned,
    limit: entered(exhaust.backPressureLimit, 'greatest back-pressure by the maker of engine or turbocharger'),
  }
}
