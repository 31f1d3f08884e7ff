/** Turns what the schema objects to into problems that name the item, the field, what was given and what is allowed. */
import type { z } from 'zod'
import type { Problem } from '../units/problem.ts'
import { type CollectionName, collections, type SheetName } from './build.ts'
import { called, sheetCalled } from './called.ts'
import { sheets } from './sheets.ts'

type Issue = z.core.$ZodIssue
type Path = readonly PropertyKey[]

export const schemaProblems = (issues: readonly Issue[], root: unknown, prefix: Path = []): Problem[] =>
  issues.flatMap((issue) => problemsOf(issue, root, prefix))

const problemsOf = (issue: Issue, root: unknown, prefix: Path): Problem[] => {
  if (issue.code === 'unrecognized_keys')
    return issue.keys.map((key) => ({
      code: 'unknown-field',
      path: shownPath([...prefix, ...issue.path, key]),
      says: `${itemOf([...prefix, ...issue.path, key]).says(key)} is not a field of this format.`,
      todo: 'Remove it, or check its spelling.',
    }))
  const path = [...prefix, ...issue.path]
  const { says, field } = itemOf(path)
  const given = valueAt(root, issue.path)
  if (given === undefined)
    return [
      {
        code: 'missing-field',
        path: shownPath(path),
        says: `${says(field)} is missing.`,
        todo: `Enter it: ${expected(issue)}.`,
      },
    ]
  return [
    {
      code: 'unfit-value',
      path: shownPath(path),
      says: `${says(field)} is ${shown(given)}, which is refused.`,
      todo: `It must be ${expected(issue)}.`,
    },
  ]
}

/** `wires/W-104/length/value`; a sheet is `sheet/fuel/dutyLimit`. */
const shownPath = (path: Path): string => {
  const [first, ...rest] = path.map(String)
  if (first === 'collections' && rest.length > 0) return rest.join('/')
  if (first === 'sheets' && rest.length > 0) return ['sheet', ...rest].join('/')
  return path.map(String).join('/')
}

const itemOf = (path: Path): { says: (field: string) => string; field: string } => {
  const [first, second, third, ...rest] = path.map(String)
  const of = (name: string, fields: readonly string[]) => ({
    field: fields.join(' '),
    says: (field: string) => (field === '' ? name : `${name}: ${field}`),
  })
  if (first === 'collections' && second !== undefined && third !== undefined && second in collections)
    return of(called(second as CollectionName, third), rest)
  if (first === 'sheets' && second !== undefined && second in sheets)
    return of(sheetCalled(second as SheetName), third === undefined ? [] : [third, ...rest])
  return of('The build', path.map(String))
}

const valueAt = (root: unknown, path: Path): unknown => {
  let value = root
  for (const key of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined
    value = (value as Record<PropertyKey, unknown>)[key]
  }
  return value
}

const shown = (value: unknown): string => {
  if (Array.isArray(value)) return `a list of ${value.length}`
  if (typeof value === 'object' && value !== null) return 'an object'
  const text = typeof value === 'string' ? `“${value}”` : String(value)
  return text.length > 60 ? `${text.slice(0, 57)}…` : text
}

const KIND_OF: Record<string, string> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  object: 'an object',
  array: 'a list',
  tuple: 'a list',
  record: 'an object',
}

const expected = (issue: Issue): string => {
  switch (issue.code) {
    case 'invalid_type':
      return KIND_OF[issue.expected] ?? issue.expected
    case 'too_small':
      return issue.origin === 'number' || issue.origin === 'int'
        ? `${issue.inclusive === false ? 'above' : 'at least'} ${issue.minimum}`
        : `at least ${issue.minimum} long`
    case 'too_big':
      return issue.origin === 'number' || issue.origin === 'int'
        ? `${issue.inclusive === false ? 'below' : 'at most'} ${issue.maximum}`
        : `at most ${issue.maximum} long`
    case 'invalid_value':
      return `one of ${issue.values.map(String).join(', ')}`
    case 'invalid_format':
      return issue.format === 'datetime'
        ? 'an instant such as 2025-03-01T18:30:00Z'
        : `text of the form ${issue.pattern ?? issue.format}`
    case 'invalid_key':
      return 'filed under an id of letters, digits, _, + or -, beginning with a letter or digit'
    case 'invalid_union':
      return issue.discriminator === undefined ? 'one of the known shapes' : `a known ${issue.discriminator}`
    default:
      return issue.message
  }
}
