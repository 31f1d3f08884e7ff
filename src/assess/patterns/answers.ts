/** Reads what was answered to a pattern's questions: every answer that cannot be used is told at once. */
import type { Build } from '../../model/build.ts'
import type { Kind } from '../../units/kinds.ts'
import { parseQuantity, type Quantity } from '../../units/parse.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { deviceIdOf, list, own, restrictedWire } from '../make.ts'
import { batteryPins } from '../pins.ts'
import type { Asks, Question } from './asks.ts'

export interface Answers {
  readonly has: (name: string) => boolean
  readonly quantity: <K extends Kind>(kind: K, name: string) => Quantity<K>
  /** A device id, `device.pin`, branch point, choice or words, as the question asks. */
  readonly text: (name: string) => string
  readonly texts: (name: string) => readonly string[]
  readonly count: (name: string) => number
  /** What was taken because nothing was said. */
  readonly taken: readonly string[]
}

type Value = Quantity<Kind> | string | readonly string[] | number
class Unusable extends Error {
  readonly todo: string
  constructor(says: string, todo: string) {
    super(says)
    this.todo = todo
  }
}
const unusable = (says: string, todo: string) => new Unusable(says, todo)

const parts = (text: string): string[] =>
  text
    .split(',')
    .map((part) => part.trim())
    .filter((part) => part !== '')

const between = (given: number, { least, most }: { least: number; most: number }, what: string): void => {
  if (given < least || given > most)
    throw unusable(`${given} ${what} were named.`, `Name ${least === most ? least : `${least} to ${most}`}.`)
}

const deviceOf = (build: Build, id: string) => {
  const device = own(build.collections.devices, id)
  if (!device) throw unusable(`There is no device “${id}”.`, 'Enter the device first, or name another.')
  if (device.restricted)
    throw unusable(
      `${device.name} belongs to the ${device.restricted} system, which is never altered here.`,
      'Name another device, and leave that one to a specialist.',
    )
  return device
}
/** A splice or rail from which an airbag or anti-lock unit hangs is left as it is: nothing more is put on it. */
const untouched = (build: Build, id: string): void => {
  const wire = Object.values(build.collections.wires).find(
    ({ id: each, from, to }) => (deviceIdOf(from) === id || deviceIdOf(to) === id) && restrictedWire(build, each),
  )
  if (wire && JOINED.has(build.collections.devices[id]!.spec.kind))
    throw unusable(
      `${wire.id} joins it to an airbag or anti-lock circuit, which is never altered here.`,
      'Name another terminal.',
    )
}
const pointOf = (build: Build, id: string): string => {
  if (own(build.collections.branchPoints, id)) return id
  throw unusable(`There is no branch point “${id}”.`, 'Enter it in the loom first, or name another.')
}

/** The terminal that is meant; a splice, stud or battery is named by its device alone. */
const terminalOf = (build: Build, text: string): string => {
  const id = text.includes('.') ? deviceIdOf(text) : text
  if (deviceOf(build, id)) untouched(build, id)
  if (!text.includes('.')) {
    const device = deviceOf(build, text)
    const pin =
      device.spec.kind === 'battery'
        ? batteryPins(device).positive
        : JOINED.has(device.spec.kind)
          ? Object.keys(device.pins)[0]
          : undefined
    if (pin === undefined)
      throw unusable(
        `${device.name} has several pins.`,
        `Say which: ${Object.keys(device.pins)
          .map((key) => `${text}.${key}`)
          .join(', ')}.`,
      )
    return `${text}.${pin}`
  }
  const device = deviceOf(build, deviceIdOf(text))
  const pin = text.slice(text.lastIndexOf('.') + 1)
  if (!Object.hasOwn(device.pins, pin))
    throw unusable(`${device.name} has no pin ${pin}.`, `Choose from ${list(Object.keys(device.pins))}.`)
  return text
}
const JOINED: ReadonlySet<string> = new Set(['splice', 'earth-stud'])

const readOne = (build: Build, asks: Asks, text: string, others: Readonly<Record<string, string>>): Value => {
  switch (asks.type) {
    case 'quantity': {
      const read = parseQuantity(asks.kind, text)
      if (asks.kind !== 'temperature' && read.value <= 0)
        throw unusable(`${text} is not above zero.`, 'Enter its size.')
      return read
    }
    case 'device': {
      const device = deviceOf(build, text)
      if (!asks.of.includes(device.spec.kind))
        throw unusable(`${device.name} is a ${device.spec.kind}.`, `Name a ${asks.of.join(' or ')}.`)
      return text
    }
    case 'terminal':
      return terminalOf(build, text)
    case 'branch point':
      return pointOf(build, text)
    case 'branch points': {
      const points = parts(text).map((id) => pointOf(build, id))
      between(points.length, asks, 'branch points')
      return points
    }
    case 'controller pins': {
      const pins = parts(text)
      between(pins.length, asks, 'pins')
      const controller = own(build.collections.devices, others[asks.controller] ?? '')
      if (!controller) throw unusable('The controller that has these pins is not known.', `Answer ${asks.controller}.`)
      const twice = pins.find((pin, index) => pins.indexOf(pin) !== index)
      if (twice !== undefined) throw unusable(`Pin ${twice} was named twice.`, 'Name each pin once.')
      for (const pin of pins) {
        if (!Object.hasOwn(controller.pins, pin))
          throw unusable(`${controller.name} has no pin ${pin}.`, 'Choose a pin that its plug has.')
        const wire = Object.values(build.collections.wires).find(({ from, to }) =>
          [from, to].includes(`${controller.id}.${pin}`),
        )
        if (wire)
          throw unusable(`${controller.name} pin ${pin} already holds ${wire.id}.`, 'Choose a pin that is free.')
      }
      return pins
    }
    case 'choice':
      if (!asks.options.includes(text))
        throw unusable(`“${text}” is not among the answers.`, `Choose ${list(asks.options)}.`)
      return text
    case 'count': {
      const count = Number(text)
      if (!Number.isInteger(count)) throw unusable(`“${text}” is not a whole number.`, 'Enter a whole number.')
      between(count, asks, 'of them')
      return count
    }
    case 'text':
      return text
  }
}

const problemsOf = (error: unknown, question: Question): Problem[] => {
  const path = question.name
  if (error instanceof Unusable)
    return [{ code: 'unusable-answer', path, says: `${question.title}: ${error.message}`, todo: error.todo }]
  if (error instanceof Refusal)
    return error.problems.map((problem) => ({ ...problem, path, says: `${question.title}: ${problem.says}` }))
  throw error
}

interface Sheet {
  readonly id: string
  readonly name: string
  readonly questions: readonly Question[]
}

/** Refuses with every unanswered or unusable answer, and with every answer that nothing asked for. */
export const readAnswers = (build: Build, pattern: Sheet, given: Readonly<Record<string, string>>): Answers => {
  const problems: Problem[] = []
  const values = new Map<string, Value>()
  const taken: string[] = []
  for (const question of pattern.questions) {
    const typed = (Object.hasOwn(given, question.name) ? given[question.name]! : '').trim()
    const text = typed === '' ? question.otherwise : typed
    if (text === undefined) {
      if (!question.optional)
        problems.push({
          code: 'no-answer',
          path: question.name,
          says: `${question.title} is not answered.`,
          todo: `Set ${question.name}: ${question.hint}.`,
        })
      continue
    }
    if (typed === '') taken.push(`${question.title}: ${text} taken, since nothing else was said.`)
    try {
      values.set(question.name, readOne(build, question.asks, text, given))
    } catch (error) {
      problems.push(...problemsOf(error, question))
    }
  }
  for (const name of Object.keys(given))
    if (!pattern.questions.some((question) => question.name === name))
      problems.push({
        code: 'not-asked',
        path: name,
        says: `${pattern.name} does not ask for “${name}”.`,
        todo: `It asks for ${list(pattern.questions.map((question) => question.name))}.`,
      })
  if (problems.length > 0) throw new Refusal(problems)
  const value = (name: string): Value => {
    const found = values.get(name)
    if (found === undefined) throw new Error(`${pattern.id} reads ${name}, which was not answered`)
    return found
  }
  return {
    has: (name) => values.has(name),
    quantity: (_kind, name) => value(name) as never,
    text: (name) => value(name) as string,
    texts: (name) => value(name) as readonly string[],
    count: (name) => value(name) as number,
    taken,
  }
}
