import { BATTERY_CAUTION, HOT_CAUTION } from '../make.ts'
import { contact, dropLimit, load, motorLaw, stallOf, total } from './parts.ts'
import { fuseOhm, SWITCH_OHM } from './pen.ts'
import { ask, box, drop, earth, feed, insulation, orElse, place, running, stall } from './questions.ts'
import type { Pattern } from './types.ts'

/** Share of full speed at each position, slowest first. */
const SPEEDS: Readonly<Record<number, readonly number[]>> = { 2: [0.6, 1], 3: [0.5, 0.75, 1], 4: [0.4, 0.6, 0.8, 1] }
/** V at which the motor’s figures hold. */
const RATED = 13

/**
 * Ω between a supply of 13 V and a blower, that it turns at a share of its speed: back-EMF ∝ speed, torque and so current
 * ∝ speed² (direct-current machine with a fan, textbook knowledge [from memory]).
 */
export const blowerResistance = (running: number, stalled: number, speed: number): number => {
  const winding = RATED / stalled
  const backEmf = (RATED - running * winding) * speed
  const current = running * speed ** 2
  return (RATED - backEmf) / current - winding
}

export const blower: Pattern = {
  id: 'blower',
  name: 'Blower with resistor speeds',
  purpose: 'Heater blower with two to four speeds, the lower ones through resistors in its air stream.',
  questions: [
    place('at', 'Where the blower sits'),
    running,
    stall,
    orElse(ask('speeds', { type: 'count', least: 2, most: 4 }, 'How many speeds', '2, 3 or 4'), '3'),
    place('switch', 'Where the switch sits'),
    feed('ignition'),
    earth(),
    box,
    drop('5 %'),
    insulation,
  ],
  cautions: [
    BATTERY_CAUTION,
    HOT_CAUTION,
    'The resistors glow without air: they sit in the duct, with a thermal cut-out of their own.',
  ],
  draw: (pen, answers) => {
    pen.circuit('blower', 'Heater blower')
    const law = { ...motorLaw(answers), loading: 'fan' as const }
    const [run, held] = [answers.quantity('current', 'running').value, answers.quantity('current', 'stall').value]
    const draws = total(pen, [law])
    const stalled = stallOf(law)
    const at = answers.text('at')
    const motor = pen.device(
      'blower',
      'Heater blower',
      at,
      { kind: 'motor' },
      { '+': '', '-': '' },
      {
        loads: [load('motor', '+', '-', law, 4)],
      },
    )
    const fuse = pen.fuse(
      'fuse-blower',
      'Blower',
      answers.text('feed'),
      answers.has('box') ? answers.text('box') : undefined,
      draws,
      'BK',
    )
    const speeds = SPEEDS[answers.count('speeds')]!
    const positions: Record<string, readonly (readonly [string, string])[]> = { off: [] }
    speeds.forEach((_, index) => {
      positions[`${index + 1}`] = [['15', `${index + 1}`]]
    })
    const button = contact(pen, 'blower-switch', 'Blower switch', answers.text('switch'), positions)
    const thick = { behind: fuse, stall: stalled }
    const feedWire = pen.wire(`${fuse}.2`, `${button}.15`, 'BK', draws.current, thick)
    const back = pen.wire(`${motor}.-`, pen.stud(answers.text('earth')), 'BN', draws.current, thick)
    const top = pen.wire(`${button}.${speeds.length}`, `${motor}.+`, 'GN', draws.current, thick)
    pen.way(dropLimit(answers), [feedWire, top, back], draws.current, fuseOhm(pen, fuse) + SWITCH_OHM)
    // A chain: each lower speed has one resistor more between its contact and the motor.
    let next = `${motor}.+`
    let before = 0
    for (let index = speeds.length - 2; index >= 0; index -= 1) {
      const whole = blowerResistance(run, held, speeds[index]!)
      const ohm = Number((whole - before).toPrecision(2))
      before += ohm
      const piece = pen.device(
        `blower-resistor-${index + 1}`,
        `Blower resistor of speed ${index + 1}`,
        at,
        {
          kind: 'resistor',
          resistance: { value: ohm, unit: 'Ω' },
        },
        { 1: '', 2: '' },
      )
      const flows = run * speeds[index]! ** 2
      pen.wire(`${piece}.2`, next, 'GN/BK', flows, thick)
      pen.wire(`${button}.${index + 1}`, `${piece}.1`, 'GN/WH', flows, thick)
      next = `${piece}.1`
      pen.say(
        `${piece}: ${ohm} Ω for ${(speeds[index]! * 100).toFixed(0)} % of full speed at ${flows.toFixed(1)} A; it turns ${(flows ** 2 * ohm).toFixed(0)} W into heat. A bought pack differs: enter its figures.`,
      )
    }
  },
}
