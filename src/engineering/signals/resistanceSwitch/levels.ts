/**
 * The resistance to earth that each state of a several-button switch shows at the controller's wire, worst case.
 *
 * Branches: every button has a resistor of its own to earth. Chain: one string of resistors from the wire on, and every
 * button takes the string to earth at its tap, so that a button shows the sum of all resistors before it.
 * Short and open circuit are states like the buttons; an end-of-line resistor makes “no button” differ from “wire open”.
 */
import { type Problem, Refusal } from '../../../units/problem.ts'
import { type Interval, sideBySide } from '../interval.ts'

export type LevelKind = 'short' | 'button' | 'idle' | 'open'
export interface Level {
  readonly name: string
  readonly kind: LevelKind
  /** Ω from the wire to the switch's earth. */
  readonly resistance: Interval
}

export interface Surroundings {
  /** Ω that a closed contact may show when old; new it shows 0. */
  readonly contact: number
  /** Ω, the most that still counts as a short of the wire to earth. */
  readonly short: number
  /** Ω, least resistance of wet insulation from the wire to earth; `Infinity` for a dry one. */
  readonly insulation: number
}

export interface SwitchButton {
  readonly name: string
  /** Ω: a branch's own resistor, or the chain's resistor just before this tap. */
  readonly resistor: Interval
}

export interface Switch {
  readonly topology: 'branches' | 'chain'
  /** Of a chain in the order along the string, beginning at the wire. */
  readonly buttons: readonly SwitchButton[]
  /** Ω: end-of-line resistor; across the branches, or the last of the chain. Left out: “no button” is an open wire. */
  readonly idle?: Interval
}

export const SHORT = 'short to earth'
export const OPEN = 'open circuit'
export const IDLE = 'no button'

export function switchProblems(made: Switch, around: Surroundings): Problem[] {
  const found: Problem[] = []
  const say = (code: string, path: string, says: string, todo: string): void => {
    found.push({ code, path, says, todo })
  }
  if (made.buttons.length === 0) say('missing-input', 'buttons', 'The switch has no button.', 'Name at least one.')
  const names = new Map<string, number>()
  for (const { name, resistor } of made.buttons) {
    if (names.has(name))
      say('doubled-name', `buttons/${name}`, `Two buttons are called ${name}.`, 'Give each its own name.')
    names.set(name, 1)
    if (!(resistor.low >= 0) || !(resistor.high >= resistor.low) || !Number.isFinite(resistor.high))
      say(
        'out-of-range',
        `buttons/${name}`,
        `The resistance of ${name} is ${resistor.low} … ${resistor.high} Ω.`,
        'Hold the button and measure between the wire and the switch’s earth, connector unplugged.',
      )
  }
  if (made.topology === 'branches') {
    const sorted = [...made.buttons].sort((a, b) => a.resistor.low - b.resistor.low)
    for (let i = 1; i < sorted.length; i += 1) {
      const [one, two] = [sorted[i - 1]!, sorted[i]!]
      if (one.resistor.low + one.resistor.high === two.resistor.low + two.resistor.high)
        say(
          'equal-resistances',
          `buttons/${two.name}`,
          `${one.name} and ${two.name} have the same resistance, so no input can tell them apart.`,
          'Measure both again, one held at a time; if they are equal, change one resistor or give it a wire of its own.',
        )
    }
  } else
    for (const { name, resistor } of made.buttons.slice(1))
      if (resistor.high === 0)
        say(
          'equal-resistances',
          `buttons/${name}`,
          `No resistor stands before ${name}, so it reads the same as the button before it.`,
          'Put a resistor between their taps.',
        )
  if (!(around.contact >= 0)) say('out-of-range', 'contact', 'Contact resistance is negative.', 'Enter 0 Ω or more.')
  if (!(around.short >= 0)) say('out-of-range', 'short', 'Resistance of a short is negative.', 'Enter 0 Ω or more.')
  if (!(around.insulation > 0))
    say('out-of-range', 'insulation', 'Insulation resistance is not above 0.', 'Enter Ω, or leave it dry (infinite).')
  return found
}

const atWire = (made: Switch, around: Surroundings, low: number, high: number): Interval => {
  // A chain's end-of-line resistor is shorted away by any button; across branches it stays in parallel.
  const idle = made.topology === 'branches' ? made.idle : undefined
  return {
    low: sideBySide(low, idle?.low ?? Number.POSITIVE_INFINITY, around.insulation),
    high: sideBySide(high, idle?.high ?? Number.POSITIVE_INFINITY),
  }
}

/** Sum of a chain's resistors up to and with tap `index`. */
const before = (made: Switch, index: number): Interval =>
  made.buttons
    .slice(0, index + 1)
    .reduce((sum, { resistor }) => ({ low: sum.low + resistor.low, high: sum.high + resistor.high }), {
      low: 0,
      high: 0,
    })

/** All states, by rising resistance of their kind: short, buttons, no button, open. Throws `Refusal` for a switch that cannot be. */
export function levelsOf(made: Switch, around: Surroundings): Level[] {
  const problems = switchProblems(made, around)
  if (problems.length > 0) throw new Refusal(problems)
  const buttons = made.buttons.map(({ name, resistor }, i): Level => {
    const raw = made.topology === 'chain' ? before(made, i) : resistor
    return { name, kind: 'button', resistance: atWire(made, around, raw.low, raw.high + around.contact) }
  })
  const levels: Level[] = [{ name: SHORT, kind: 'short', resistance: { low: 0, high: around.short } }, ...buttons]
  if (made.idle) {
    const end = made.topology === 'chain' ? before(made, made.buttons.length - 1) : { low: 0, high: 0 }
    levels.push({
      name: IDLE,
      kind: 'idle',
      resistance: {
        low: sideBySide(end.low + made.idle.low, around.insulation),
        high: end.high + made.idle.high,
      },
    })
  }
  levels.push({
    name: made.idle ? OPEN : `${IDLE}, or ${OPEN}`,
    kind: 'open',
    resistance: { low: around.insulation, high: Number.POSITIVE_INFINITY },
  })
  return levels
}

export interface Together {
  readonly names: readonly [string, string]
  readonly resistance: Interval
}

/** What every pair of buttons shows when both are held. Of a chain the one nearer the wire wins, but for its contact's resistance. */
export function pairsOf(made: Switch, around: Surroundings): Together[] {
  const pairs: Together[] = []
  made.buttons.forEach((one, i) => {
    made.buttons.slice(i + 1).forEach((two, k) => {
      const [a, b] = [one.resistor, two.resistor]
      if (made.topology === 'branches') {
        pairs.push({
          names: [one.name, two.name],
          resistance: atWire(
            made,
            around,
            sideBySide(a.low, b.low),
            sideBySide(a.high + around.contact, b.high + around.contact),
          ),
        })
        return
      }
      const [near, far] = [before(made, i), before(made, i + 1 + k)]
      const beyond = far.high - near.high + around.contact
      pairs.push({
        names: [one.name, two.name],
        resistance: atWire(made, around, near.low, near.high + sideBySide(around.contact, beyond)),
      })
    })
  })
  return pairs
}
