import type { Problem } from '../../../units/problem.ts'
import type { NetworkElement } from './elements.ts'

/** An element of a `car-dc-network/1` file as written there, its fields checked. */
export interface BareElement {
  readonly id: string
  readonly type: string
  readonly a: string
  readonly b: string
  readonly [field: string]: unknown
}

interface FieldRule {
  readonly above?: number
  readonly from?: number
  readonly below?: number
}
const POSITIVE: FieldRule = { above: 0 }
const NOT_NEGATIVE: FieldRule = { from: 0 }

/** Number fields of each element type, as the format's table has them. */
const FIELDS: Readonly<Record<string, Readonly<Record<string, FieldRule>>>> = {
  resistor: { ohm: POSITIVE },
  joint: { ohm: POSITIVE },
  earth_strap: { ohm: POSITIVE },
  load_resistance: { ohm: POSITIVE },
  wire: { length_m: POSITIVE, area_mm2: POSITIVE, temp_C: { from: -100, below: 1000 } },
  fuse: { rating_A: POSITIVE, cold_ohm: POSITIVE },
  switch: { closed_ohm: POSITIVE },
  battery: { emf_V: {}, internal_ohm: POSITIVE },
  alternator: { setpoint_V: POSITIVE, internal_ohm: POSITIVE, limit_A: NOT_NEGATIVE },
  lamp: { rated_V: POSITIVE, rated_W: POSITIVE, exponent: { above: 0, below: 1 }, cold_ohm: POSITIVE },
  load_current: { current_A: NOT_NEGATIVE, v_min_V: POSITIVE },
  load_power: { power_W: NOT_NEGATIVE, v_min_V: POSITIVE },
}

const JOINTS = ['bulb_holder', 'exposed', 'connector', 'crimp', 'solder']

/** IEC 60028 as quoted by the format: 1.7241e-8 Ω·m at 20 °C, 0.00393 /K. */
const wireResistance = (length: number, areaMm2: number, celsius: number): number =>
  (1.7241e-8 * (1 + 0.00393 * (celsius - 20)) * length) / (areaMm2 * 1e-6)

const numberProblem = (element: BareElement, field: string, rule: FieldRule): Problem | undefined => {
  const path = `elements/${element.id}/${field}`
  const value = element[field]
  const todo = `Enter ${field} of ${element.id}.`
  if (value === undefined)
    return { code: 'missing-field', path, says: `${element.type} ${element.id} has no ${field}.`, todo }
  if (typeof value !== 'number' || !Number.isFinite(value))
    return { code: 'not-a-number', path, says: `${field} of ${element.id} is not a number.`, todo }
  const limits = [
    ...(rule.above !== undefined && !(value > rule.above) ? [`above ${rule.above}`] : []),
    ...(rule.from !== undefined && !(value >= rule.from) ? [`${rule.from} or above`] : []),
    ...(rule.below !== undefined && !(value < rule.below) ? [`below ${rule.below}`] : []),
  ]
  if (limits.length === 0) return undefined
  const says = `${field} of ${element.type} ${element.id} is ${value}; it must be ${limits.join(' and ')}.`
  if (value === 0 && /ohm$/.test(field))
    return {
      code: 'zero-resistance',
      path,
      says,
      todo: 'Enter the resistance of the real piece, however small, or join the two nodes into one.',
    }
  return { code: 'out-of-range', path, says, todo }
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

const operatedByProblems = (element: BareElement): Problem[] => {
  const by = element.operated_by
  if (by === undefined || by === null) return []
  const path = `elements/${element.id}/operated_by`
  if (!isRecord(by) || typeof by.coil !== 'string')
    return [
      {
        code: 'missing-field',
        path,
        says: `operated_by of switch ${element.id} names no coil.`,
        todo: 'Give { "coil", "pull_in_V", "drop_out_V" }.',
      },
    ]
  if (by.coil === element.id)
    return [
      {
        code: 'contact-is-its-own-coil',
        path,
        says: `Switch ${element.id} is entered as its own coil.`,
        todo: 'Name the element that is its coil.',
      },
    ]
  const { pull_in_V: pullIn, drop_out_V: dropOut } = by
  if (typeof pullIn === 'number' && typeof dropOut === 'number' && dropOut > 0 && pullIn >= dropOut) return []
  return [
    {
      code: 'out-of-range',
      path,
      says: `Switch ${element.id} pulls in at ${String(pullIn)} V and drops out at ${String(dropOut)} V.`,
      todo: 'Give both as numbers above 0, drop-out not above pull-in.',
    },
  ]
}

/** Every problem within one element. */
export const bareElementProblems = (element: BareElement): Problem[] => {
  const path = `elements/${element.id}`
  const fields = FIELDS[element.type]
  if (!fields || !Object.hasOwn(FIELDS, element.type))
    return [
      {
        code: 'unknown-type',
        path: `${path}/type`,
        says: `${element.id} is of type ${element.type}, which the format does not have.`,
        todo: `Use one of: ${Object.keys(FIELDS).join(', ')}.`,
      },
    ]
  const problems = Object.entries(fields).flatMap(([field, rule]) => numberProblem(element, field, rule) ?? [])
  if (element.a === element.b)
    problems.push({
      code: 'both-ends-one-node',
      path,
      says: `Both ends of ${element.id} are on node ${element.a}.`,
      todo: 'Give its ends two different nodes, or leave it out.',
    })
  if (element.type === 'switch') {
    if (element.state !== 'open' && element.state !== 'closed')
      problems.push({
        code: 'unknown-state',
        path: `${path}/state`,
        says: `Switch ${element.id} is neither "open" nor "closed".`,
        todo: 'Give its state.',
      })
    problems.push(...operatedByProblems(element))
  }
  if (element.type === 'joint' && element.kind !== undefined && !JOINTS.includes(String(element.kind)))
    problems.push({
      code: 'unknown-kind',
      path: `${path}/kind`,
      says: `Joint ${element.id} is of kind ${String(element.kind)}, which the format does not have.`,
      todo: `Use one of: ${JOINTS.join(', ')}.`,
    })
  return problems
}

/** `as given`: a switch stands as its `state` says. `follow coils`: one with a coil starts open and follows it. */
export type ContactMode = 'as given' | 'follow coils'

/** The solver's element for a checked element of the file. */
export const toNetworkElement = (element: BareElement, mode: ContactMode): NetworkElement => {
  const { id, a, b } = element
  const n = (field: string): number => element[field] as number
  switch (element.type) {
    case 'wire':
      return { type: 'resistor', id, a, b, ohm: wireResistance(n('length_m'), n('area_mm2'), n('temp_C')) }
    case 'fuse':
      return { type: 'resistor', id, a, b, ohm: n('cold_ohm') }
    case 'switch': {
      const ohm = n('closed_ohm')
      const by = element.operated_by
      if (mode === 'as given' || !isRecord(by))
        return { type: 'switch', id, a, b, closed: element.state === 'closed', ohm }
      const pullIn = by.pull_in_V as number
      const dropOut = by.drop_out_V as number
      return { type: 'relayContact', id, a, b, operatedBy: String(by.coil), pullIn, dropOut, ohm, normally: 'open' }
    }
    case 'battery':
      return { type: 'battery', id, a, b, emf: n('emf_V'), internalResistance: n('internal_ohm') }
    case 'alternator': {
      const internalResistance = n('internal_ohm')
      return { type: 'alternator', id, a, b, setpoint: n('setpoint_V'), internalResistance, limit: n('limit_A') }
    }
    case 'lamp': {
      const ratedVoltage = n('rated_V')
      const coldResistance = n('cold_ohm')
      return { type: 'lamp', id, a, b, ratedVoltage, ratedPower: n('rated_W'), exponent: n('exponent'), coldResistance }
    }
    case 'load_current':
      return { type: 'constantCurrent', id, a, b, current: n('current_A'), minimumVoltage: n('v_min_V') }
    case 'load_power':
      return { type: 'constantPower', id, a, b, power: n('power_W'), minimumVoltage: n('v_min_V') }
    default:
      return { type: 'resistor', id, a, b, ohm: n('ohm') }
  }
}
