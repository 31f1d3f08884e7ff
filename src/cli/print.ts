/** Text for a terminal. What came from a file is made inert: no control character of it reaches the screen. */
import { type Finding, tallyOf, type Verdict, verdictWord } from '../assess/finding.ts'
import { type Gathered, howMany } from '../assess/gather.ts'
import type { Problem } from '../units/problem.ts'

// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is being taken out
const CONTROL = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/g
export const inert = (text: string): string => text.replace(CONTROL, '·')

export interface Out {
  readonly write: (text: string) => void
  readonly error: (text: string) => void
}

export const wrap = (text: string, width: number, indent = ''): string => {
  const lines: string[] = []
  let line = ''
  for (const word of inert(text).split(/\s+/)) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line)
      line = word
    } else line = line === '' ? word : `${line} ${word}`
  }
  if (line !== '') lines.push(line)
  return lines.map((entry) => indent + entry).join('\n')
}

export const problemText = (problem: Problem): string => inert(`${problem.says} ${problem.todo}`.trim())

/** Each verdict has a line of its own before its word: broken, necked, dotted, whole. */
const MARK: Record<Verdict, string> = { 'no-go': '━╸╺━', marginal: '━╾╼━', unknown: '┅┅┅┅', sound: '━━━━' }

export const tally = (findings: readonly Finding[]): string =>
  tallyOf(findings)
    .map(({ count, word }) => `${count} ${word}`)
    .join(', ')

export const findingText = (finding: Finding, options: { working: boolean; width: number }): string => {
  const lines = [
    `${MARK[finding.verdict]} ${verdictWord(finding).padEnd(8)} ${finding.system} · ${inert(finding.about)}`,
    wrap(finding.says, options.width - 5, '     '),
    wrap(`→ ${finding.todo}`, options.width - 5, '     '),
  ]
  if (options.working) {
    for (const line of finding.working) lines.push(wrap(line, options.width - 9, '       · '))
    lines.push(`       key: ${inert(finding.key)}`)
  }
  if (options.working)
    for (const caution of finding.cautions) lines.push(wrap(`Caution: ${caution}`, options.width - 5, '     '))
  return lines.join('\n')
}

const NAMED = 6
const counted = (count: number): string => `${count} finding${count === 1 ? '' : 's'}`
const settled = ({ settles, asked }: Gathered): string =>
  settles === asked
    ? `settles ${counted(asked)}`
    : settles === 0
      ? `asked by ${counted(asked)}, more is missing there`
      : `asked by ${counted(asked)}, settles ${settles} of what is left`
/** What to enter first: a line for each kind of datum that findings miss. */
export const gatheredText = (gathered: readonly Gathered[]): string => {
  if (gathered.length === 0) return ''
  const lines = gathered.map((one) => {
    const { datum, items } = one
    const names = items.slice(0, NAMED).map(({ name }) => name)
    const which =
      items.length === 1
        ? ''
        : `\n${wrap(`${names.join('; ')}${items.length > NAMED ? `; and ${items.length - NAMED} more` : ''}`, 95, '     ')}`
    return `${wrap(`${MARK.unknown} ${datum}: ${howMany(one)} (${settled(one)})`, 100)}${which}\n`
  })
  return `Not entered, what settles most first ("--all" lists each finding):\n${lines.join('')}\n`
}
