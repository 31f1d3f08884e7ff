/** Heat of a row of stops at the mass and speed of this build: stored in the iron, cooled only where cooling is measured. */
import { brakeHeat } from '../../engineering/brakes/brakeHeat.ts'
import { combine, type Datum, entered, known, lacking, step } from '../chain/chain.ts'
import type { Axle } from './axles.ts'
import type { BrakeFacts } from './facts.ts'
import type { PedalRow } from './pedalSheet.ts'

export interface AxleHeat {
  readonly rise: Datum
  readonly end: Datum
  readonly share: Datum
}
/** K: the iron as the row of stops begins, warm from driving. UN R13-H, annex 3: Type-0 begins below 100 °C [from memory]. */
const WARM = 373.15
const AIR = 293.15
/** J/(kg·K): grey iron between 100 and 400 °C. Common handbook figure, from memory. */
const IRON = { value: 530, plusMinus: 30 } as const
/** Wheels and shafts, declutched: 1.03 to 1.08. Limpert [from memory]. */
const TURNING = { value: 1.05, plusMinus: 0.03 } as const

export const axleHeat = (facts: BrakeFacts, row: PedalRow, axle: Axle): AxleHeat => {
  const { stops, frontIron, rearIron } = facts.brakes
  const share = combine(
    [row.frontForce, row.rearForce],
    (front = 0, rear = 0) => (axle === 'front' ? front : rear) / (front + rear),
    'Share of the heat = share of the brake force at that deceleration',
  )
  const { interval, cooling } = stops ?? {}
  const cooled = interval !== undefined && interval.value > 0
  const found = step(brakeHeat, {
    mass: facts.loads[row.load].total,
    turning: known(TURNING.value, TURNING.plusMinus, 'Turning parts, declutched: 1.05 ± 0.03 [Limpert, from memory]'),
    from: entered(stops?.from, 'speed that the row of stops begins each from'),
    to: stops?.to ? entered(stops.to, 'speed after each stop') : known(0, 0, 'Down to standing'),
    axle: share,
    intoIron: known(1, 0, 'All heat into the iron: the safe side'),
    iron: entered(
      axle === 'front' ? frontIron : rearIron,
      `iron of one ${axle} ${facts.brakes[axle === 'front' ? 'frontKind' : 'rearKind'] ?? 'brake'}`,
    ),
    specificHeat: known(IRON.value, IRON.plusMinus, 'Grey iron, 100 to 400 °C: 530 ± 30 J/(kg·K) [from memory]'),
    stops: stops?.count === undefined ? lacking('number of stops in a row') : known(stops.count),
    interval: cooled ? entered(interval, 'time between stops') : known(0, 0, 'No cooling: the safe side'),
    cooling: cooled ? entered(cooling, 'cooling time, as measured') : known(300, 0, 'Of no matter without cooling'),
    start: known(WARM, 0, 'Iron at 100 °C as the row begins'),
    air: known(AIR, 0, 'Air at 20 °C'),
  })
  return { rise: found.rise, end: found.end, share }
}
