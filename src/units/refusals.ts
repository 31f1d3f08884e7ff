/** The sentences with which a typed quantity is turned down: what was read, what was asked for, what to write. */
import { EXAMPLES } from './examples.ts'
import { kindsOfSymbol } from './find.ts'
import { KINDS, type Kind } from './kinds.ts'
import { type Refusal, refuse } from './problem.ts'

const listed = (words: readonly string[], last: string): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`

const suchAs = (kind: Kind): string => `such as ${listed(EXAMPLES[kind], 'or')}`

export const noNumber = (kind: Kind, text: string): Refusal =>
  text.trim() === ''
    ? refuse('no-number', `No ${KINDS[kind].title} was given.`, `Write a number with its unit, ${suchAs(kind)}.`)
    : refuse('no-number', `"${text}" does not start with a number.`, `Write the ${KINDS[kind].title} ${suchAs(kind)}.`)

export const noUnit = (kind: Kind, text: string): Refusal =>
  refuse('no-unit', `"${text}" has no unit.`, `Write the ${KINDS[kind].title} with its unit, ${suchAs(kind)}.`)

/** Units that would be a guess: two or more meanings in the trade. */
const TWO_MEANINGS: readonly (readonly [RegExp, string, string])[] = [
  [
    /^(gal|gals|gallons?)(\/.*)?$/i,
    'may be the US gallon (3.785 l) or the imperial gallon (4.546 l)',
    'Write US gal or imp gal.',
  ],
  [/^(gph|gpm)$/i, 'may count US or imperial gallons', 'Write US gal/h, US gal/min or imp gal/h.'],
  [/^mils?$/i, 'is 0.001 in to some and a millimetre to others', 'Write thou or mm.'],
  [/^tons?$/i, 'may be 907, 1000 or 1016 kg', 'Write t for 1000 kg, or give kg or lb.'],
]

const BRIDGED: ReadonlySet<Kind> = new Set(['massFlow', 'volumeFlow'])

export const wrongUnit = (kind: Kind, symbol: string): Refusal => {
  for (const [pattern, says, todo] of TWO_MEANINGS)
    if (pattern.test(symbol)) return refuse('ambiguous-unit', `"${symbol}" ${says}.`, todo)
  const measured = kindsOfSymbol(symbol)
  const asked = KINDS[kind].title
  if (measured.length === 0)
    return refuse(
      'unknown-unit',
      `"${symbol}" is not a unit of ${asked} that is known here.`,
      `Write it ${suchAs(kind)}.`,
    )
  const bridge =
    BRIDGED.has(kind) && measured.some((other) => BRIDGED.has(other))
      ? ' Mass flow and volume flow are bridged only through a stated fluid density.'
      : ''
  const names = listed(
    measured.map((other) => KINDS[other].title),
    'or',
  )
  return refuse(
    'wrong-unit',
    `"${symbol}" measures ${names}; here ${asked} is asked for.${bridge}`,
    `Write the ${asked} ${suchAs(kind)}.`,
  )
}

export const unreadableRest = (kind: Kind, text: string, rest: string): Refusal =>
  refuse('unreadable-quantity', `In "${text}" the part "${rest}" could not be read.`, `Write it ${suchAs(kind)}.`)
