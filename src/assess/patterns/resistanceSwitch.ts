import { exactly, within } from '../../engineering/signals/interval.ts'
import { type Design, designSwitch, type Part } from '../../engineering/signals/resistanceSwitch/design.ts'
import { refuse } from '../../units/problem.ts'
import { BATTERY_CAUTION } from '../make.ts'
import { AROUND, AROUND_WORDS } from '../signals/inputCircuit.ts'
import { partsFrom } from '../signals/partsText.ts'
import type { Answers } from './answers.ts'
import { SIGNAL, sensorEarth, sensorSupply } from './controllerPinsOf.ts'
import { contact, input } from './parts.ts'
import { ask, controller, insulation, optional, orElse, pins, place } from './questions.ts'
import type { Pattern } from './types.ts'

/** V of the controller's reference; only the size of the gaps in volts hangs on it, for pull-up and converter share it. */
const REFERENCE = 5

interface Chosen {
  readonly resistors: readonly Part[]
  readonly idle: Part | undefined
  /** To be soldered outside the controller. */
  readonly outside: Part | undefined
  readonly design: Design | undefined
}

/** Inside the controller a single one, outside what is to be chosen from. */
const pullUpsOf = (answers: Answers, tolerance: number): { inside: Part | undefined; outside: readonly Part[] } => {
  const inside = answers.has('pullUp')
    ? { nominal: answers.quantity('resistance', 'pullUp').value, tolerance }
    : undefined
  const outside = answers.has('pullUpFrom') ? partsFrom(answers.text('pullUpFrom'), tolerance) : []
  if (inside && outside.length > 0)
    throw refuse(
      'out-of-range',
      'A pull-up inside the controller and one outside were given: they would lie side by side.',
      'Keep one: outside only where the controller’s own can be switched off.',
      'pullUpFrom',
    )
  if (!inside && outside.length === 0)
    throw refuse(
      'missing-input',
      'No pull-up is given, so the wire would show nothing.',
      'Enter the one inside the controller from its sheet, or what to choose one outside from, such as E12.',
      'pullUp',
    )
  return { inside, outside }
}

const chosen = (answers: Answers, count: number): Chosen => {
  const tolerance = answers.quantity('ratio', 'tolerance').value
  const { inside, outside } = pullUpsOf(answers, tolerance)
  if (answers.has('resistors')) {
    const resistors = partsFrom(answers.text('resistors'), tolerance)
    if (resistors.length !== count)
      throw refuse(
        'out-of-range',
        `${resistors.length} resistors were given for ${count} buttons.`,
        'Give one a button, in the order of the buttons.',
        'resistors',
      )
    const idle = answers.has('idle') ? { nominal: answers.quantity('resistance', 'idle').value, tolerance } : undefined
    if (outside.length > 1)
      throw refuse(
        'out-of-range',
        'Resistors chosen before go with one pull-up.',
        'Give the pull-up outside as one value, such as 1 kΩ.',
        'pullUpFrom',
      )
    return { resistors, idle, outside: outside[0], design: undefined }
  }
  const offset = answers.quantity('voltage', 'offset').value
  const leakage = answers.quantity('current', 'leakage').value
  const design = designSwitch({
    topology: answers.text('wiring') as 'branches' | 'chain',
    buttons: count,
    parts: partsFrom(answers.text('from'), tolerance),
    pullUps: inside ? [inside] : outside,
    endOfLine: answers.text('endOfLine') === 'yes',
    circuit: {
      supply: exactly(REFERENCE),
      reference: 'supply',
      earthOffset: { low: -offset, high: offset },
      leakage: { low: -leakage, high: leakage },
      bits: answers.count('bits'),
      linearity: 2,
    },
    around: { ...AROUND, contact: answers.quantity('resistance', 'contact').value },
  })
  return { resistors: design.resistors, idle: design.idle, outside: inside ? undefined : design.pullUp, design }
}

/** The span of each resistor must be one that exists; `within` says so for a tolerance that does not. */
const ohm = ({ nominal, tolerance }: Part) => {
  within(nominal, tolerance)
  return { resistance: { value: nominal as never, unit: 'Ω' }, tolerance }
}

export const resistanceSwitch: Pattern = {
  id: 'resistance-switch',
  name: 'Resistance switch',
  purpose:
    'Several buttons on one wire, told apart by their resistors: the set that keeps all states furthest apart in the worst case, proven.',
  questions: [
    place('at', 'Where the buttons sit'),
    ask('buttons', { type: 'count', least: 2, most: 8 }, 'How many buttons', '2 to 8'),
    optional(ask('names', { type: 'text' }, 'Names of the buttons', 'with commas between: Louder, Softer')),
    optional(
      ask(
        'pullUp',
        { type: 'quantity', kind: 'resistance' },
        'Pull-up inside the controller',
        'from its sheet, such as 1 kΩ',
      ),
    ),
    optional(
      ask(
        'pullUpFrom',
        { type: 'text' },
        'Else a pull-up outside, chosen from',
        'E12 470 Ω … 4.7 kΩ, or one value; soldered to the 5 V of the sensors',
      ),
    ),
    controller,
    pins('pin', 'Input of the controller', 1),
    orElse(
      ask(
        'wiring',
        { type: 'choice', options: ['branches', 'chain'] },
        'A resistor a button, or one string with taps',
        'a chain tells two buttons at once as the first of them',
      ),
      'branches',
    ),
    orElse(
      ask(
        'from',
        { type: 'text' },
        'What resistors to choose from',
        'a series, E24 47 Ω … 10 kΩ, or the drawer: 100 Ω, 220 Ω ×2',
      ),
      'E24',
    ),
    orElse(
      ask('tolerance', { type: 'quantity', kind: 'ratio' }, 'Tolerance of resistors and pull-up', 'such as 1 %'),
      '1 %',
    ),
    orElse(
      ask(
        'endOfLine',
        { type: 'choice', options: ['no', 'yes'] },
        'Resistor by which no button differs from a broken wire',
        'yes or no',
      ),
      'no',
    ),
    orElse(
      ask('contact', { type: 'quantity', kind: 'resistance' }, 'Most that a worn contact shows', 'such as 20 Ω'),
      '20 Ω',
    ),
    orElse(
      ask('offset', { type: 'quantity', kind: 'voltage' }, '± of the sensor earth at the buttons', 'such as 20 mV'),
      '20 mV',
    ),
    orElse(ask('leakage', { type: 'quantity', kind: 'current' }, '± leakage into the input', 'such as 1 µA'), '1 µA'),
    orElse(ask('bits', { type: 'count', least: 8, most: 16 }, 'Bits of the converter', '8 to 16'), '12'),
    optional(
      ask('resistors', { type: 'text' }, 'Resistors chosen before', 'one a button, in their order: 270 Ω, 820 Ω'),
    ),
    optional(
      ask('idle', { type: 'quantity', kind: 'resistance' }, 'With them: the resistor of no button', 'such as 10 kΩ'),
    ),
    insulation,
  ],
  cautions: [
    BATTERY_CAUTION,
    'A steering wheel with an airbag is opened by a specialist only: put the buttons elsewhere.',
  ],
  draw: (pen, answers) => {
    pen.circuit('buttons', 'Buttons on one wire')
    const ecu = answers.text('controller')
    const [pin] = answers.texts('pin') as [string]
    const count = answers.count('buttons')
    const at = answers.text('at')
    const wiring = answers.text('wiring') as 'branches' | 'chain'
    const typed = answers.has('names')
      ? answers
          .text('names')
          .split(',')
          .map((name) => name.trim())
          .filter(Boolean)
      : Array.from({ length: count }, (_, index) => `Button ${index + 1}`)
    if (typed.length !== count || new Set(typed).size !== count)
      throw refuse(
        'out-of-range',
        `${new Set(typed).size} different names were given for ${count} buttons.`,
        'Give each its own, with commas between.',
        'names',
      )
    const { resistors, idle, outside, design } = chosen(answers, count)
    const pullUp = outside ? undefined : answers.quantity('resistance', 'pullUp').value

    const positions: Record<string, readonly (readonly [string, string])[]> = { none: [] }
    resistors.forEach((_, index) => {
      positions[`${index + 1}`] = [['C', `${index + 1}`]]
    })
    const buttons = contact(pen, 'buttons', 'Buttons', at, positions)
    const part = (id: string, name: string, nominal: number): string =>
      pen.device(
        id,
        name,
        at,
        { kind: 'resistor', resistance: { value: nominal as never, unit: 'Ω' } },
        { 1: '', 2: '' },
      )
    // Both wirings: the contacts' common pin returns to the sensor earth, where the input's zero is.
    const joint = pen.splice('splice-buttons', 'Splice, button resistors', at)
    pen.wire(`${joint}.1`, `${ecu}.${pin}`, 'PK', SIGNAL)
    let before = `${joint}.1`
    resistors.forEach(({ nominal }, index) => {
      const resistor = part(`button-resistor-${index + 1}`, `Resistor of ${typed[index]!}`, nominal)
      pen.wire(pen.tap(before), `${resistor}.1`, 'PK', SIGNAL)
      if (wiring === 'branches') pen.wire(`${resistor}.2`, `${buttons}.${index + 1}`, 'PK', SIGNAL)
      else {
        const tap = pen.splice(`splice-tap-${index + 1}`, `Splice, tap of ${typed[index]!}`, at)
        pen.wire(`${resistor}.2`, `${tap}.1`, 'PK', SIGNAL)
        pen.wire(pen.tap(`${tap}.1`), `${buttons}.${index + 1}`, 'PK', SIGNAL)
        before = `${tap}.1`
      }
    })
    const earth = pen.splice('splice-buttons-return', 'Splice, return of the buttons', at)
    pen.wire(`${buttons}.C`, `${earth}.1`, 'BK/WH', SIGNAL)
    pen.wire(pen.tap(`${earth}.1`), pen.tap(sensorEarth(pen, ecu)), 'BK/WH', SIGNAL)
    if (idle) {
      const end = part('button-resistor-end', 'Resistor of no button', idle.nominal)
      pen.wire(pen.tap(before), `${end}.1`, 'PK', SIGNAL)
      pen.wire(`${end}.2`, pen.tap(`${earth}.1`), 'BK/WH', SIGNAL)
    }
    if (outside) {
      const up = part('button-pull-up', 'Pull-up of the buttons', outside.nominal)
      pen.wire(pen.tap(sensorSupply(pen, ecu)), `${up}.1`, 'OG', SIGNAL)
      pen.wire(`${up}.2`, pen.tap(`${joint}.1`), 'PK', SIGNAL)
    }
    const read = input(pen, {
      id: 'in-buttons',
      name: 'Buttons',
      controller: ecu,
      pin,
      source: buttons,
      signal: 'resistance',
      ...(pullUp === undefined ? {} : { pullUp }),
    })
    const tolerance = answers.quantity('ratio', 'tolerance').value
    const taken = pen.build.collections.inputs[read]!
    pen.replace('inputs', {
      ...taken,
      // Figures that the builder has entered stay.
      ...(pullUp === undefined
        ? {}
        : { pullUp: taken.pullUp ?? { value: pullUp as never }, pullUpTolerance: taken.pullUpTolerance ?? tolerance }),
      bits: taken.bits ?? answers.count('bits'),
      reference: taken.reference ?? { value: REFERENCE as never, unit: 'V' },
      leakage: taken.leakage ?? { value: answers.quantity('current', 'leakage').value, unit: 'A' },
      linearity: taken.linearity ?? 2,
    })
    pen.put('resistanceSwitches', {
      id: 'buttons',
      name: 'Buttons',
      device: buttons,
      input: read,
      returnPin: 'C',
      topology: wiring,
      buttons: resistors.map((each, index) => ({ name: typed[index]!, ...ohm(each) })),
      ...(idle ? { idle: ohm(idle) } : {}),
      ...(outside ? { pullUp: ohm(outside) } : {}),
      contact: answers.quantity('resistance', 'contact'),
      ratiometric: true,
    })
    pen.say(
      `Resistors: ${resistors.map(({ nominal }, index) => `${typed[index]} ${nominal} Ω`).join('; ')}${idle ? `; no button ${idle.nominal} Ω` : ''}${outside ? `; pull-up ${outside.nominal} Ω` : ''}.`,
    )
    if (design)
      pen.say(
        `The narrowest gap between two states is ${(design.smallestGap * 1000).toFixed(0)} mV of a ${REFERENCE} V reference, and no other choice of these parts has a wider one; converter non-linearity of 2 steps taken. ${AROUND_WORDS}`,
      )
  },
}
