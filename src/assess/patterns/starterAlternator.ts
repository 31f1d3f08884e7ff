import { refuse } from '../../units/problem.ts'
import { BATTERY_CAUTION, HOT_CAUTION } from '../make.ts'
import { batteryPins } from '../pins.ts'
import { COIL_CURRENT, coilFuse, lamp } from './parts.ts'
import { RELAY_OHM } from './pen.ts'
import { ask, current, earth, feed, insulation, place } from './questions.ts'
import type { Pattern } from './types.ts'

/** V on the positive side while cranking: at most 0.5 (a battery tester’s manual, read). */
const CRANKING_DROP = 0.5
/** V from the alternator to the battery: 0.3 at most (a maker’s service figure of 0.3 V at 30 A, read). */
const CHARGING_DROP = 0.3
/** A starter’s solenoid and cable are thick for other reasons than drop. */
const STURDY = { area: 16e-6, because: 'a starter cable is never thinner than 16 mm² (common practice)' }

export const starterAlternator: Pattern = {
  id: 'starter-alternator',
  name: 'Starter and alternator with charge lamp',
  purpose:
    'Starter cable, starter relay, charging cable fused at the battery, and the charge lamp that excites the alternator.',
  questions: [
    ask('battery', { type: 'device', of: ['battery'] }, 'Battery', 'such as battery'),
    place('starter', 'Where the starter sits'),
    place('alternator', 'Where the alternator sits'),
    current('cranking', 'Cranking current', 'measured or from its sheet, such as 180 A'),
    current('solenoid', 'Current of the starter’s solenoid', 'from its sheet, such as 20 A'),
    current('output', 'Hot output of the alternator, cruising', 'from its sheet, such as 80 A'),
    current('idle', 'Hot output of the alternator at idle', 'from its sheet, such as 45 A'),
    ask(
      'start',
      { type: 'terminal' },
      'Start signal (50)',
      'the pin of the ignition switch that is live at start, such as ignition-switch.50',
    ),
    feed('ignition', 'ignition'),
    place('lamp', 'Where the charge lamp sits'),
    earth('engine', 'Earth stud on the engine'),
    earth('earth', 'Earth stud of the relay coil'),
    insulation,
  ],
  cautions: [
    BATTERY_CAUTION,
    HOT_CAUTION,
    'The starter cable has no fuse: a wrench from it to the body welds. Belt and fan turn when it cranks: gear out, hands away.',
  ],
  draw: (pen, answers) => {
    pen.circuit('starting', 'Starting and charging')
    const battery = answers.text('battery')
    const { positive } = batteryPins(pen.build.collections.devices[battery]!)
    const engine = pen.stud(answers.text('engine'))
    const stud = pen.build.collections.devices[answers.text('engine')]
    if (stud?.spec.kind === 'earth-stud' && stud.spec.on !== 'engine')
      throw refuse(
        'unusable-answer',
        `${stud.name} is not on the engine.`,
        'Name a stud on the engine: starter and alternator return through it.',
        'engine',
      )
    if (positive === undefined)
      throw refuse('unusable-answer', `${battery} has no positive pin.`, 'Enter its pins + and −.', 'battery')
    const plus = `${battery}.${positive}`
    const cranking = answers.quantity('current', 'cranking')
    const solenoid = answers.quantity('current', 'solenoid').value
    const output = answers.quantity('current', 'output')
    const starter = pen.device(
      'starter',
      'Starter',
      answers.text('starter'),
      {
        kind: 'starter',
        crankingCurrent: cranking,
        solenoidResistance: { value: Number((12 / solenoid).toPrecision(3)), unit: 'Ω' },
        pullIn: { value: 8, unit: 'V' },
      },
      { 30: 'battery', 50: 'solenoid', 31: 'case' },
    )
    const alternator = pen.device(
      'alternator',
      'Alternator',
      answers.text('alternator'),
      {
        kind: 'alternator',
        setpoint: { value: 14.2, unit: 'V' },
        internalResistance: { value: 0.012, unit: 'Ω' },
        hotOutputIdle: answers.quantity('current', 'idle'),
        hotOutputCruise: output,
      },
      { 'B+': 'output', 'D+': 'charge lamp', 31: 'case' },
    )
    const cable = pen.wire(plus, `${starter}.30`, 'RD', 0, {
      briefly: cranking.value,
      least: STURDY,
      more: {
        unfusedBecause: 'Starter cable: no fuse carries cranking current; sleeved and clipped along its length.',
      },
    })
    pen.way(CRANKING_DROP, [cable], cranking.value)
    pen.wire(`${starter}.31`, engine, 'BK', 0, { briefly: cranking.value, least: STURDY })
    const charge = pen.fuse('fuse-alternator', 'Alternator', plus, undefined, { current: output.value })
    const charging = pen.wire(`${charge}.2`, `${alternator}.B+`, 'RD', output.value, { behind: charge })
    pen.way(CHARGING_DROP, [charging], output.value)
    pen.wire(`${alternator}.31`, engine, 'BK', output.value)
    const fuse = pen.fuse('fuse-starter', 'Starter solenoid', plus, undefined, { current: solenoid })
    const relay = pen.relay('starter-relay', 'Starter relay', pen.at(`${fuse}.2`))
    const first = pen.wire(`${fuse}.2`, `${relay}.30`, 'RD', solenoid, { behind: fuse })
    const second = pen.wire(`${relay}.87`, `${starter}.50`, 'BK/RD', solenoid, { behind: fuse })
    pen.way(CRANKING_DROP, [first, second], solenoid, RELAY_OHM)
    const start = coilFuse(pen, 'start-signal', 'Start signal', answers.text('start'), pen.at(answers.text('start')))
    pen.wire(`${start}.2`, `${relay}.86`, 'BK/YE', COIL_CURRENT, { behind: start })
    pen.wire(`${relay}.85`, pen.stud(answers.text('earth')), 'BN', COIL_CURRENT)
    const lampFuse = coilFuse(
      pen,
      'charge-lamp',
      'Charge lamp',
      answers.text('ignition'),
      pen.at(answers.text('ignition')),
    )
    const lit = lamp(pen, 'charge-lamp', 'Charge lamp', answers.text('lamp'), {
      type: 'lamp',
      ratedVoltage: { value: 12, unit: 'V' },
      ratedPower: { value: 3, unit: 'W' },
    })
    pen.wire(`${lampFuse}.2`, `${lit}.+`, 'BK', 0.3, { behind: lampFuse })
    pen.wire(`${lit}.-`, `${alternator}.D+`, 'BU', 0.3)
    pen.say(
      'The charge lamp lies between ignition and D+: with the engine stopped it burns through the alternator’s field and excites it; once the alternator charges, D+ stands at battery level and it goes out. A 3 W lamp is common practice; an alternator with its own electronics may ask for something else.',
    )
    pen.say(
      'Starter and alternator return through the engine: the strap from the battery to the engine carries their whole current and must be as thick as the starter cable. It is not drawn here; look at what the check says of it.',
    )
    pen.say('Set voltage 14.2 V and 12 mΩ inside the alternator are common practice: enter those of yours.')
  },
}
