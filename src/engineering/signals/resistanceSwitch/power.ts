/** Greatest heat in every resistor of a switch, W, over all states, single buttons and the short to earth. */
import type { Interval } from '../interval.ts'
import type { InputCircuit } from './circuit.ts'
import type { Switch } from './levels.ts'

export interface ResistorPower {
  readonly resistor: string
  readonly power: number
}

/** V²·r/(rest + r)² over r in an interval: greatest at r = rest when that lies inside, else at the end nearest to it. */
const greatest = (voltage: number, r: Interval, rest: number): number => {
  const at = Math.min(Math.max(rest, r.low), r.high)
  return at + rest === 0 ? Number.POSITIVE_INFINITY : (voltage * voltage * at) / (rest + at) ** 2
}

/** Contacts new (0 Ω), supply highest, the switch's earth lowest: every one of them raises the current. */
export function resistorPowers({ pullUp, supply, earthOffset }: InputCircuit, made: Switch): ResistorPower[] {
  const across = supply.high - Math.min(0, earthOffset.low)
  const found: ResistorPower[] = [{ resistor: 'pull-up', power: across ** 2 / pullUp.low }]
  let sum = 0
  for (const { name, resistor } of made.buttons) {
    const rest = pullUp.low + (made.topology === 'chain' ? sum : 0)
    found.push({ resistor: name, power: greatest(across, resistor, rest) })
    sum += resistor.low
  }
  if (made.idle)
    found.push({
      resistor: 'no button',
      power: greatest(across, made.idle, pullUp.low + (made.topology === 'chain' ? sum : 0)),
    })
  return found
}
