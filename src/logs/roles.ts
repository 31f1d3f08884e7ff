/**
 * Channel roles: what a channel means, guessed from its name, unit and values, confirmed by the builder and remembered
 * by the source's signature (the names of its channels). The table of meanings is `roleTable.ts`.
 */
import { createHash } from 'node:crypto'
import type { Kind } from '../units/kinds.ts'
import { refuse } from '../units/problem.ts'
import { ROLES, type Role, type RoleSpec } from './roleTable.ts'
import { type LogUnit, logUnit, sameDimension } from './unitSymbols.ts'

export { ROLES, type Role } from './roleTable.ts'

export interface RoleGuess {
  readonly role: Role
  readonly channel: string
  /** 0 … 1: how sure the guess is, not a probability. */
  readonly confidence: number
  readonly reason: string
}

export interface BoundRole {
  readonly role: Role
  readonly channel: string
  /** SI = factor · logged + offset. */
  readonly factor: number
  readonly offset: number
  readonly confirmed: boolean
}

export interface RoleChannel {
  readonly name: string
  readonly unit: string
  readonly min: number | null
  readonly mean: number | null
  readonly max: number | null
  readonly states?: readonly string[]
}

const words = (name: string): string =>
  name
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .replace(/[_\-./:]+/g, ' ')
    .replace(/\s+/g, ' ')
    .trim()
    .toLowerCase()

/** How well one channel fits one role; undefined when nothing in its name says so. */
export function judge(channel: RoleChannel, role: Role): RoleGuess | undefined {
  const wanted: RoleSpec = ROLES[role]
  const name = words(channel.name)
  const exact = wanted.names.some((pattern) => pattern.exec(name)?.[0] === name)
  const part = exact || wanted.names.some((pattern) => pattern.test(name))
  if (!part || wanted.not?.test(name)) return undefined
  const reasons = [exact ? 'the name says so' : 'the name holds it']
  let confidence = exact ? 0.7 : 0.5
  const unit = unitFor(role, channel.unit)
  if (unit !== undefined) {
    if (!sameDimension(unit.kind, wanted.kind)) return undefined
    confidence += 0.15
    reasons.push(channel.unit === '' ? 'it needs no unit' : `the unit ${channel.unit} fits`)
  } else reasons.push(channel.unit === '' ? 'it names no unit' : `the unit ${channel.unit} is not known`)
  if (channel.states !== undefined && role !== 'fanState') return undefined
  if (unit !== undefined && channel.min !== null && channel.max !== null) {
    const [low, high] = [channel.min * unit.factor + unit.offset, channel.max * unit.factor + unit.offset]
    const inside = low >= wanted.range[0] && high <= wanted.range[1]
    confidence += inside ? 0.1 : -0.25
    reasons.push(inside ? 'the values are usual' : 'some values are unusual')
    if (low === high) {
      confidence -= 0.1
      reasons.push('it never changes')
    }
  } else confidence -= 0.15
  return {
    role,
    channel: channel.name,
    confidence: Math.round(Math.max(0.05, Math.min(0.95, confidence)) * 100) / 100,
    reason: `${reasons.join('; ')}.`,
  }
}

/** The best role for each channel and the best channel for each role; others are left for the builder. */
export function guessRoles(channels: readonly RoleChannel[]): RoleGuess[] {
  const all = channels.flatMap((channel) =>
    (Object.keys(ROLES) as Role[]).map((role) => judge(channel, role)).filter((guess) => guess !== undefined),
  )
  all.sort((a, b) => b.confidence - a.confidence)
  const roles = new Set<Role>()
  const taken = new Set<string>()
  return all.filter(({ role, channel }) => {
    if (roles.has(role) || taken.has(channel)) return false
    roles.add(role)
    taken.add(channel)
    return true
  })
}

/**
 * Ties a channel to a role with the factors that make it SI. Undefined when its unit is unknown or of another kind and
 * no unit is given: the builder then has to say which.
 */
export function bindRole(
  role: Role,
  channel: { name: string; unit: string },
  confirmed: boolean,
  unit?: string,
): BoundRole | undefined {
  const known = unitFor(role, unit ?? channel.unit)
  if (known === undefined || !sameDimension(known.kind, ROLES[role].kind)) return undefined
  return { role, channel: channel.name, factor: known.factor, offset: known.offset, confirmed }
}

/**
 * "Inj PW [ms]=injectorPulseWidth": a channel, the unit it is really in where its name does not say, its role.
 * Undefined when no such channel is there; refused when the role is none.
 */
export function readBinding(
  text: string,
  channels: readonly { readonly name: string }[],
): { readonly channel: string; readonly role: Role; readonly unit: string | undefined } | undefined {
  const at = text.lastIndexOf('=')
  const [left, role] = [text.slice(0, Math.max(at, 0)).trim(), text.slice(at + 1).trim()]
  if (at < 1 || !Object.hasOwn(ROLES, role))
    throw refuse('no-role', `“${role}” is no role.`, `Choose from: ${Object.keys(ROLES).join(', ')}.`)
  const has = (name: string): boolean => channels.some((channel) => channel.name === name)
  if (has(left)) return { channel: left, role: role as Role, unit: undefined }
  const parts = /^(.*?)\s*\[([^\]]*)\]$/.exec(left)
  return parts && has(parts[1]!) ? { channel: parts[1]!, role: role as Role, unit: parts[2]! } : undefined
}

export const noUnit = (role: Role, channel: string, unit: string | undefined): Error =>
  refuse(
    'no-unit',
    unit === undefined
      ? `“${channel}” cannot be ${ROLES[role].title}: its unit is not known, or of another kind.`
      : `“${channel}” cannot be ${ROLES[role].title} in “${unit}”.`,
    `Say its unit, as in "${channel} [${EXAMPLE[ROLES[role].kind] ?? 'V'}]=${role}".`,
  )
const EXAMPLE: Partial<Record<Kind, string>> = {
  angularSpeed: 'rpm',
  pressureAbsolute: 'kPa',
  pressureDifference: 'kPa',
  temperature: '°C',
  time: 'ms',
  ratio: '%',
  massFlow: 'g/s',
  speed: 'km/h',
  angle: '°',
}

const GRAMS: Readonly<Record<string, number>> = { kg: 1, g: 1e-3, mg: 1e-6 }

/**
 * The unit as this role means it: "g" of a weighed mass is not an acceleration; lambda stands without a unit in most logs,
 * or as an air-fuel ratio of petrol, whose 14.7 cancels where two logs are compared.
 */
function unitFor(role: Role, symbol: string): LogUnit | undefined {
  const plain = symbol.trim().toLowerCase()
  const { kind } = ROLES[role]
  if (kind === 'mass' && Object.hasOwn(GRAMS, plain)) return { kind, factor: GRAMS[plain]!, offset: 0 }
  if (kind !== 'ratio') return logUnit(symbol)
  if (role === 'lambda' && /^(afr|:1|a\/f)$/.test(plain)) return { kind, factor: 1 / 14.7, offset: 0 }
  return /^(|-|λ|lambda|ratio|1)$/.test(plain) ? { kind, factor: 1, offset: 0 } : logUnit(symbol)
}

/** The same logger set up the same way has the same signature: names and units of its channels, in order. */
export const sourceSignature = (channels: readonly { name: string; unit: string }[]): string =>
  createHash('sha256')
    .update(JSON.stringify(channels.map(({ name, unit }) => [name, unit])))
    .digest('hex')
    .slice(0, 32)

/** What the builder confirmed for this source before; channels that are gone are left out. */
export function recallRoles(remembered: readonly BoundRole[], channels: readonly { name: string }[]): BoundRole[] {
  const names = new Set(channels.map(({ name }) => name))
  return remembered.filter(({ channel }) => names.has(channel))
}
