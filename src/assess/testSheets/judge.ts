/**
 * A stored reading held against what the model expects there: in tolerance, out, or doubtful and asked about. Nothing
 * doubtful is used in silence.
 */
import type { Build, Device, Entity, Wire } from '../../model/build.ts'
import { atRest } from '../faults/atRest.ts'
import { carNetwork, wireElement } from '../faults/carNetwork.ts'
import { carTolerances } from '../faults/start.ts'
import { typedText, UNIT } from '../faults/typed.ts'
import { pointEndpoint, pointSays, pointWire } from '../faults/words.ts'
import { deviceIdOf, own, restrictedDevice, restrictedWire } from '../make.ts'
import { solveCase } from '../solveCases.ts'
import { shouldBeDead } from './alive.ts'
import { circuitSheet } from './circuitSheet.ts'
import { expecter, expectOhms, METER } from './expect.ts'
import { firstPowerSheet } from './firstPower.ts'
import type { Expectation, ReadingVerdict, SheetQuantity, SheetTest } from './types.ts'

type Reading = Entity<'readings'>

export const QUANTITY: Readonly<Record<string, SheetQuantity>> = {
  voltage: 'volts',
  resistance: 'ohms',
  current: 'amps',
}
/** Readings of one point further apart in time than this (s) need not agree. */
const SOON = 3600
/** Ω below which a voltmeter's own loading is reckoned with. */
const LOADS = 1e6
const SLIGHT = 0.1
/** Times the greatest source: nothing in the car gives more. */
const OVER = 1.3
/** V or A from which a sign is no slip of the meter’s last digits. */
const CLEARLY = 0.5

const asked = (code: string, question: string, value?: number, unit?: string): ReadingVerdict => ({
  kind: 'asked about',
  code,
  question,
  ...(value === undefined ? {} : { value }),
  ...(unit === undefined ? {} : { unit }),
})

const inside = (value: number, { least, most }: Expectation): boolean => value >= least && value <= most

/** `line`: of the sheet that it answers, where that is at hand; else it is looked up. */
export const judgeReading = (build: Build, reading: Reading, line?: SheetTest): ReadingVerdict => {
  const quantity = QUANTITY[reading.quantity]
  if (!quantity)
    return { kind: 'unknown', missing: `a test for ${reading.quantity}: sheets know volts, ohms and amperes` }
  if (!Number.isFinite(reading.value)) return asked('no-number', 'The value is no number: read it again.')
  const points = [reading.at, reading.against].filter((point): point is string => point !== undefined)
  if (reading.at === undefined) return { kind: 'unknown', missing: 'the point where it was taken' }
  for (const point of points) {
    const problem = pointProblem(build, point)
    if (problem !== undefined) return asked('unknown-point', problem)
  }
  const expect = line ? onLine(line, reading, quantity) : expectationOf(build, reading, quantity)
  if ('missing' in expect) return { kind: 'unknown', missing: expect.missing }
  const verdict = judgeValue(build, reading, quantity, expect)
  if (reading.confirmed && verdict.kind === 'asked about') return asItStands(reading, expect, quantity)
  const clash = reading.confirmed ? undefined : contradicts(build, reading, quantity)
  return clash === undefined ? verdict : asked('contradicts', clash)
}

/** A doubtful reading that somebody stands by. */
const asItStands = (reading: Reading, found: Found, quantity: SheetQuantity): ReadingVerdict => {
  const value = quantity === 'ohms' ? reading.value - (reading.leadResistance?.value ?? 0) : reading.value
  return inside(value, found.expect) ? { kind: 'in tolerance', expect: found.expect } : outOf(value, found)
}

const pointProblem = (build: Build, point: string): string | undefined => {
  const endpoint = pointEndpoint(point)
  const wire = pointWire(point)
  const device = own(build.collections.devices, deviceIdOf(endpoint))
  if (!device || !Object.hasOwn(device.pins, endpoint.slice(endpoint.lastIndexOf('.') + 1)))
    return `There is no point ${point} in this car. Which device and pin was it?`
  if (wire !== undefined && !own(build.collections.wires, wire)) return `There is no wire ${wire} at ${endpoint}.`
  if (restrictedDevice(build, device.id) || (wire !== undefined && restrictedWire(build, wire)))
    return `${point} belongs to an airbag or anti-lock circuit, which is never probed.`
  return undefined
}

type Found = Pick<SheetTest, 'low' | 'high' | 'dead'> & { readonly expect: Expectation }

const onLine = (line: SheetTest, reading: Reading, quantity: SheetQuantity): Found | { readonly missing: string } =>
  line.expect
    ? { ...line, expect: withAccuracy(line.expect, reading, quantity) }
    : { missing: line.missing ?? 'what to expect there' }

const expectationOf = (
  build: Build,
  reading: Reading,
  quantity: SheetQuantity,
): Found | { readonly missing: string } => {
  if (reading.test !== undefined) {
    const line = lineOf(build, reading.test, reading.case)
    if (line) return onLine(line, reading, quantity)
  }
  const kase = own(build.collections.cases, reading.case ?? '')
  if (quantity !== 'ohms' && !kase) return { missing: 'the operating case in which it was taken' }
  const some = kase ?? Object.values(build.collections.cases).find(({ battery }) => battery === 'connected')
  if (!some) return { missing: 'an operating case' }
  const solved = solveCase(build, some)
  if (!solved.solved)
    return {
      missing: solved.missing[0]
        ? `${solved.missing[0].datum} of ${solved.missing[0].subject}`
        : 'a battery with its figures',
    }
  const devices = new Set(
    [reading.at, reading.against].flatMap((point) => (point === undefined ? [] : [deviceIdOf(pointEndpoint(point))])),
  )
  const touches = (wire: Wire): boolean => [wire.from, wire.to].some((end) => devices.has(deviceIdOf(end)))
  const car = carNetwork(build, solved, touches)
  const tolerances = carTolerances(build, solved, car.network.elements)
  const a = car.nodeOf(reading.at!)
  const b = reading.against === undefined ? car.reference : car.nodeOf(reading.against)
  if (a === undefined || b === undefined)
    return { missing: `a wire that reaches ${a === undefined ? reading.at : reading.against}` }
  if (quantity === 'ohms') {
    if (a === b) return { missing: 'a second point for the ohms' }
    const dead = { ...car.network, elements: atRest(build, solved, car.network.elements) }
    return { expect: withAccuracy(expectOhms(dead, tolerances, a, b), reading, quantity) }
  }
  if (quantity === 'amps') {
    const wire = pointWire(reading.at!)
    const element = wire === undefined ? undefined : car.elements.get(wireElement(wire))
    if (!element) return { missing: `the wire: give the point as ${reading.at}/W-…` }
    const found = expecter(car.network, tolerances).amps(element.id)
    const turned = found.value !== null && found.value < 0
    return {
      expect: withAccuracy(
        turned ? { ...found, value: -found.value!, least: -found.most, most: -found.least } : found,
        reading,
        quantity,
      ),
    }
  }
  const input = reading.inputResistance?.value
  const network =
    input !== undefined && input < LOADS && a !== b
      ? {
          ...car.network,
          elements: [...car.network.elements, { type: 'resistor' as const, id: 'meter:', a, b, ohm: input }],
        }
      : car.network
  const expect = withAccuracy(expecter(network, tolerances).volts(a, b), reading, quantity)
  return { expect, ...(shouldBeDead(solved, expect, reading.at!, reading.against) ? { dead: true as const } : {}) }
}

/** `sheet/line`, as a sheet's line is called in a reading. */
const lineOf = (build: Build, test: string, caseId: string | undefined): SheetTest | undefined => {
  const slash = test.indexOf('/')
  const [sheetId, lineId] = [test.slice(0, slash), test.slice(slash + 1)]
  if (sheetId !== 'first-power' && !own(build.collections.circuits, sheetId)) return undefined
  const known = caseId !== undefined && own(build.collections.cases, caseId) ? caseId : undefined
  const sheet = sheetId === 'first-power' ? firstPowerSheet(build, known) : circuitSheet(build, sheetId, known)
  return sheet.sections
    .flatMap(({ lines }) => lines)
    .find((line): line is SheetTest => line.kind === 'test' && line.id === lineId)
}

/** The instrument's own limits in place of those of a hand meter. */
const withAccuracy = (expect: Expectation, { accuracy }: Reading, quantity: SheetQuantity): Expectation => {
  if (!accuracy || expect.value === null) return expect
  const usual = METER[quantity]
  const of = ({ relative, absolute }: { relative: number; absolute: number }): number =>
    relative * Math.abs(expect.value!) + absolute
  const more = of(accuracy) - of(usual)
  return {
    ...expect,
    least: expect.least - more,
    most: expect.most + more,
    working: [
      ...expect.working,
      `instrument as entered: ± (${accuracy.relative * 100} % + ${accuracy.absolute} ${UNIT[quantity]})`,
    ],
  }
}

/** Taken for a search that has found its fault since: after the repair it may well read otherwise. */
const settled = (build: Build, { search }: Reading): boolean =>
  search !== undefined && own(build.collections.faultSearches, search)?.found !== undefined

const contradicts = (build: Build, reading: Reading, quantity: SheetQuantity): string | undefined => {
  const meter = reading.accuracy ?? METER[quantity]
  const other = Object.values(build.collections.readings).find(
    (each) =>
      each.id !== reading.id &&
      !settled(build, each) &&
      each.quantity === reading.quantity &&
      each.at === reading.at &&
      each.against === reading.against &&
      each.case === reading.case &&
      each.test === reading.test &&
      each.when !== undefined &&
      reading.when !== undefined &&
      Math.abs(Date.parse(each.when) - Date.parse(reading.when)) < SOON * 1000 &&
      Math.abs(each.value - reading.value) >
        2 * (meter.relative * Math.abs(reading.value) + meter.absolute) + 0.02 * Math.abs(reading.value),
  )
  return other
    ? `Reading ${other.id} says ${typedText(other.value, quantity, other.unit)} at the same point within the hour, this one ${typedText(reading.value, quantity, reading.unit)}: which one is right, or does it come and go?`
    : undefined
}

const judgeValue = (build: Build, reading: Reading, quantity: SheetQuantity, found: Found): ReadingVerdict => {
  const { expect } = found
  const value = quantity === 'ohms' ? reading.value - (reading.leadResistance?.value ?? 0) : reading.value
  const show = (each: number): string => typedText(each, quantity, reading.unit)
  // Whoever typed a unit has said which thousand is meant.
  const isBare = reading.unit === undefined || reading.unit === UNIT[quantity]
  const place = `${pointSays(build, reading.at!)}${reading.against === undefined ? '' : ` to ${pointSays(build, reading.against)}`}`
  if (quantity === 'ohms' && value < -METER.ohms.absolute)
    return asked(
      'live-circuit',
      `${typedText(reading.value, quantity, reading.unit)} at ${place}: less than nothing means a live circuit or leads entered too long. Battery off, then read again.`,
    )
  if (inside(value, expect)) return { kind: 'in tolerance', expect }
  if (expect.value === null && quantity === 'volts')
    return Math.abs(value) < SLIGHT
      ? { kind: 'in tolerance', expect }
      : asked(
          'floating',
          `${show(value)} at ${place}, which floats in this case: a meter shows stray volts there. Put a 5 W test lamp across and read again.`,
        )
  const most = Math.max(...Object.values(build.collections.devices).map(sourceVolts), 12)
  const greatest = Math.max(Math.abs(expect.least), Math.abs(expect.most))
  // In a car with one battery a point that should be positive does not stand well below nothing.
  if (
    quantity !== 'ohms' &&
    Math.abs(value) > SLIGHT &&
    (inside(-value, expect) || (value < -CLEARLY && (expect.value ?? 0) > CLEARLY))
  )
    return asked('reversed', `${show(value)} at ${place}: were the leads the wrong way round?`, -value)
  // Fewer thousandths than expected are meant as well, unless volts of that size are what an open earth gives.
  if (
    isBare &&
    !(found.dead && value < OVER * most) &&
    quantity !== 'ohms' &&
    Math.abs(value) >= 1 &&
    Math.abs(value) > 2 * greatest &&
    (inside(value / 1000, expect) || (value / 1000 > expect.least / 2 && value / 1000 < expect.most))
  )
    return asked(
      'thousandth',
      `${show(value)} at ${place}: was it ${typedText(value, quantity).replace(' ', ' m')}, typed without the milli?`,
      value / 1000,
      `m${UNIT[quantity]}`,
    )
  if (isBare && quantity === 'ohms' && greatest >= 10 && value < SLIGHT * greatest && inside(value * 1000, expect))
    return asked(
      'thousandfold',
      `${show(value)} at ${place}: was it ${typedText(value, quantity).replace(' ', ' k')}, typed without the kilo?`,
      value * 1000 + (reading.leadResistance?.value ?? 0),
      'kΩ',
    )
  if (quantity === 'volts' && Math.abs(value) > OVER * most)
    return asked('out-of-scale', `${show(value)} at ${place} is more than any source of this car: read it again.`)
  return outOf(value, found)
}

const outOf = (value: number, { expect, low, high }: Found): ReadingVerdict => {
  const side = value < expect.least ? 'low' : 'high'
  return {
    kind: 'out of tolerance',
    expect,
    side,
    means:
      (side === 'low' ? low : high) ||
      (side === 'low'
        ? 'Less than the model gives: something on the way has resistance or is open.'
        : 'More than the model gives: something draws less, or an earth stands up.'),
  }
}

const sourceVolts = ({ spec }: Device): number =>
  spec.kind === 'battery'
    ? (spec.restedVoltage?.value ?? 0)
    : spec.kind === 'alternator'
      ? (spec.setpoint?.value ?? 0)
      : 0
