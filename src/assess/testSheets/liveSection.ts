/** A circuit's sheet while it is live: volts from source to load and on to its return, then amperes. */
import type { Build, Device, Wire } from '../../model/build.ts'
import { caseCautions, NO_AIRBAG, NO_NEW_FUSE, PROBING, placeCautions } from '../electricalCautions.ts'
import { carNetwork, wireElement } from '../faults/carNetwork.ts'
import { testId } from '../faults/drops.ts'
import { pointsOf, type ReachedPoint } from '../faults/reach.ts'
import { carTolerances } from '../faults/start.ts'
import { leadsSay } from '../faults/words.ts'
import { deviceIdOf, endpointOf } from '../make.ts'
import { batteryPins } from '../pins.ts'
import type { Solved } from '../solveCases.ts'
import { shouldBeDead } from './alive.ts'
import { expecter } from './expect.ts'
import { notKnown } from './notKnown.ts'
import type { Expectation, SheetSection, SheetTest } from './types.ts'

/** A below which an ampere reading on a hand clamp says nothing. */
const WORTH_CLAMPING = 0.5
/** Of a point that should be dead. */
const ALIVE =
  'Something feeds it that should not: contacts or an output that stay closed, a wire chafed through to a neighbour, a way back through a load. Off, and look for it.'

/** V from which a load counts as fed. */
const FED = 1

export const liveSection = (
  build: Build,
  solved: Solved,
  wires: readonly Wire[],
  devices: readonly Device[],
): SheetSection => {
  const ids = new Set(wires.map(({ id }) => id))
  const car = carNetwork(build, solved, ({ id }) => ids.has(id))
  const expect = expecter(car.network, carTolerances(build, solved, car.network.elements))
  const points = pointsOf(build, wires)
  const unknown = notKnown(build, solved, car)
  const known = (missing: string | undefined, expected: Expectation): Pick<SheetTest, 'expect' | 'missing'> =>
    missing === undefined ? { expect: expected } : { missing }
  const lines: SheetTest[] = []
  const unsure = new Set([...solved.bound.unsure].map((id) => id))
  const put = (test: Omit<SheetTest, 'kind'>): void => {
    if (lines.some(({ id }) => id === test.id)) return
    const dead = test.quantity === 'volts' && test.expect && shouldBeDead(solved, test.expect, test.at, test.against)
    lines.push({
      kind: 'test',
      ...test,
      ...(dead ? { dead, high: ALIVE } : {}),
    })
  }
  const battery = Object.values(build.collections.devices).find(({ spec }) => spec.kind === 'battery')
  const plus = battery && batteryPins(battery).positive
  const source = battery && plus !== undefined ? endpointOf(battery.id, plus) : undefined
  const sourceNode = source === undefined ? undefined : car.nodeOf(source)
  /** What the feed loses: two volts that each may lie off by a quarter say little of a drop that is known to a tenth. */
  const dropOnTheWay = (device: Device, load: string, at: string, node: string, isOneOfSeveral: boolean): void => {
    if (source === undefined || sourceNode === undefined || sourceNode === node) return
    const fed = expect.volts(node, car.reference).value
    if (fed === null || Math.abs(fed) < FED) return
    put({
      id: `volts:${testId(source, at)}`,
      quantity: 'volts',
      at: source,
      against: at,
      says: `lost on the way to ${device.name}${isOneOfSeveral ? `, ${load}` : ''}: ${leadsSay(build, source, at, '')}`,
      ...known(unknown.volts(node), expect.volts(sourceNode, node)),
      low: 'The load draws less than it should, or the charge is shared otherwise: compare with the line before.',
      high: 'A joint, fuse, switch or wire on the way has resistance: halve the way with the second lead until the drop is found.',
    })
  }
  // From the source to the load and on to its return: the voltage falls all the way. One point of each joint is enough.
  const order = [...points.values()]
    .flatMap((point) => {
      const node = car.nodeOf(point.id)
      return node === undefined || node === car.reference
        ? []
        : [{ point, node, expect: expect.volts(node, car.reference) }]
    })
    .filter(({ point }) => point.wire === undefined || !points.has(point.endpoint))
    .sort((p, q) => (q.expect.value ?? -1e9) - (p.expect.value ?? -1e9))
  let before: ReachedPoint | undefined
  for (const { point, node, expect: expected } of order) {
    const isReturn = expected.value !== null && Math.abs(expected.value) < FED
    put({
      id: `volts:${point.id}`,
      quantity: 'volts',
      at: point.id,
      says: leadsSay(build, point.id, undefined, car.referenceSays),
      ...known(unknown.volts(node), expected),
      low: isReturn
        ? 'The load before this earth draws less than it should, or nothing.'
        : `Resistance, or a break, on the way here${before ? ` after ${before.says}` : ''}; or the battery is low.`,
      high: isReturn
        ? 'The earth from here to battery negative has resistance: the load stands up from it.'
        : 'The load draws less than it should, or the supply stands higher than the model: read the battery first.',
    })
    before = point
  }
  for (const device of devices)
    for (const load of device.loads ?? []) {
      const [at, against] = [load.from, load.to].map((pin) => endpointOf(device.id, pin)) as [string, string]
      const [a, b] = [car.nodeOf(at), car.nodeOf(against)]
      if (a === undefined || b === undefined || a === b) continue
      put({
        id: `volts:${testId(at, against)}`,
        quantity: 'volts',
        at,
        against,
        says: `across ${device.name}${(device.loads?.length ?? 0) > 1 ? `, ${load.name ?? load.id}` : ''}: ${leadsSay(build, at, against, '')}`,
        ...(load.law
          ? known(unknown.volts(a) ?? unknown.volts(b), expect.volts(a, b))
          : { missing: `what ${load.name ?? load.id} of ${device.name} draws` }),
        low: 'Volts are lost in the supply or in the earth: compare with the lines before.',
        high: 'It draws less than it should: worn, partly open, or another part.',
      })
      dropOnTheWay(device, load.name ?? load.id, at, a, (device.loads?.length ?? 0) > 1)
    }
  for (const device of devices) {
    if (device.spec.kind !== 'fuse') continue
    const wire = wires.find(({ from, to }) => [from, to].some((end) => deviceIdOf(end) === device.id))
    const element = wire && car.elements.get(wireElement(wire.id))
    if (!wire || !element || unsure.has(element.id)) continue
    const hangsOn = unknown.amps(element.id)
    const expected = expect.amps(element.id)
    if (expected.value === null || Math.abs(expected.value) < WORTH_CLAMPING) continue
    const turned = expected.value < 0
    put({
      id: `amps:${wire.id}`,
      quantity: 'amps',
      // The end at the fuse: its other end may be a rail from which half the car is fed.
      at: `${deviceIdOf(wire.from) === device.id ? wire.from : wire.to}/${wire.id}`,
      says: `clamp round wire ${wire.id} at ${device.name}`,
      ...known(
        hangsOn,
        turned ? { ...expected, value: -expected.value, least: -expected.most, most: -expected.least } : expected,
      ),
      low: 'Something behind this fuse is not running.',
      high: 'Something behind this fuse draws too much: a short, a motor that drags, a load that is not entered.',
    })
  }
  return {
    id: 'live',
    title: 'Live: volts and amperes',
    state: solved.kase.name,
    cautions: [
      ...new Set([
        PROBING,
        NO_NEW_FUSE,
        NO_AIRBAG,
        ...caseCautions(solved.kase),
        ...placeCautions(
          build,
          devices.map(({ id }) => id),
        ),
      ]),
    ],
    lines,
  }
}
