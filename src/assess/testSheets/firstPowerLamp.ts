/** First power: the battery on through a lamp, and the fuses one at a time. */
import type { NetworkElement } from '../../engineering/electrical/network/network.ts'
import type { Device } from '../../model/build.ts'
import { AT_THE_BATTERY, MOVING, NO_AIRBAG, NO_NEW_FUSE, NO_SPARKS, PROBING } from '../electricalCautions.ts'
import { endpointOf } from '../make.ts'
import { twoPins } from '../pins.ts'
import { expecter } from './expect.ts'
import { type Context, step } from './firstPowerContext.ts'
import { feedSide, inOrder, pumpFuses } from './firstPowerFuses.ts'
import { LIMITING_LAMP, lampElement, lampLooks, TEST_LAMP } from './lamp.ts'
import type { SheetSection, SheetStep, SheetTest } from './types.ts'

/** Behind the lamp the battery's own post is another node than the car's. */
const POST = '#post'

export const lampSection = (
  context: Context,
  fuses: readonly Device[],
  pumps: readonly Device[],
  studs: readonly Device[],
): SheetSection => {
  const { build, car, parked, battery, positive, negative, notes } = context
  const { elements, nodeOf, tolerances, solved } = car(parked)
  const section = (lines: SheetSection['lines']): SheetSection => ({
    id: 'lamp',
    title: 'Battery on, through a lamp',
    state: `${parked.name}; a lamp of 12 V, ${LIMITING_LAMP.ratedPower} W between battery negative and its cable`,
    cautions: [AT_THE_BATTERY, NO_SPARKS, PROBING, MOVING, NO_NEW_FUSE, NO_AIRBAG],
    lines,
  })
  const source = elements.find(({ id }) => id === battery.id)
  if (!solved || source?.type !== 'battery') {
    notes.push(
      `Not entered: rested voltage and internal resistance of ${battery.name}; the volts behind the lamp are not known.`,
    )
    return section([])
  }
  const clamp = nodeOf(endpointOf(battery.id, negative))
  const withLamp: NetworkElement[] = [
    ...elements.map((element) => (element.id === battery.id ? { ...element, b: POST } : element)),
    lampElement('series-lamp', clamp, POST),
  ]
  const isPump = pumpFuses(build, pumps)
  const out = new Set(fuses.map(({ id }) => id))
  const lines: (SheetTest | SheetStep)[] = [
    step(
      'lamp-in',
      `Lamp of 12 V, ${LIMITING_LAMP.ratedPower} W between the battery’s negative post and the clamp of its cable. It must stay dark; bright means a short: off at once, find it.`,
    ),
  ]
  const put = (id: string, at: string, says: string, low: string): void => {
    const node = nodeOf(at)
    const network = { reference: clamp, elements: withLamp.filter((element) => !out.has(element.id)) }
    const nodes = new Set(network.elements.flatMap(({ a, b }) => [a, b]))
    if (!nodes.has(node)) {
      lines.push({ id, kind: 'test', quantity: 'volts', at, says, missing: `a wire at ${at}` })
      return
    }
    const expect = expecter(network, tolerances)
    const lamp = expect.volts(clamp, POST).value ?? 0
    lines.push({
      id,
      kind: 'test',
      quantity: 'volts',
      at,
      says: `${says}; the lamp is ${lampLooks(Math.abs(lamp))} (${Math.abs(lamp).toFixed(2)} V)`,
      expect: expect.volts(node, clamp),
      low,
      high: 'The battery stands higher than entered: read it by itself.',
    })
  }
  put(
    'volts:lamp-bare',
    endpointOf(battery.id, positive),
    'Positive cable to the clamp of the negative cable, no fuse in',
    'Something draws with every fuse out: an unfused wire goes where it should not.',
  )
  for (const stud of studs) {
    const pin = Object.keys(stud.pins)[0]
    if (pin === undefined || stud.spec.kind !== 'earth-stud' || stud.spec.on === 'isolated') continue
    const at = endpointOf(stud.id, pin)
    const node = nodeOf(at)
    const plus = nodeOf(endpointOf(battery.id, positive))
    const bare = withLamp.filter((element) => !out.has(element.id))
    if (node === clamp || !bare.some(({ a, b }) => a === node || b === node)) continue
    const loaded = expecter(
      { reference: clamp, elements: [...bare, lampElement('test-lamp', plus, node, TEST_LAMP)] },
      tolerances,
    )
    const across = loaded.volts(plus, node).value ?? 0
    lines.push({
      id: `volts:earth:${at}`,
      kind: 'test',
      quantity: 'volts',
      at,
      says: `${stud.name} to the clamp of the negative cable, while a test lamp of 12 V, ${TEST_LAMP.ratedPower} W burns from the positive cable to the stud (${across.toFixed(1)} V across it; the other lamp glows)`,
      expect: loaded.volts(node, clamp),
      limit:
        'Counts only while the test lamp burns: its clip on bright metal of the stud, the meter’s probe beside it.',
      low: 'The leads are the wrong way round.',
      high: 'This earth has resistance, or is open: bright metal under the ring, tighten, read again. Do not go on.',
    })
  }
  for (const fuse of inOrder(fuses, withLamp)) {
    if (isPump.has(fuse.id)) {
      lines.push(step(`stays-out:${fuse.id}`, `${fuse.name} stays out.`))
      continue
    }
    const two = twoPins(fuse)
    if (!two || fuse.spec.kind !== 'fuse') continue
    const [p, q] = two.map((pin) => nodeOf(endpointOf(fuse.id, pin))) as [string, string]
    out.delete(fuse.id)
    lines.push(step(`in:${fuse.id}`, `Put in ${fuse.name}.`))
    // The side away from the battery: the one that is fed through the fuse.
    const far = feedSide(withLamp, fuse.id, p, nodeOf(endpointOf(battery.id, positive))) ? two[1] : two[0]
    put(
      `volts:in:${fuse.id}`,
      endpointOf(fuse.id, far),
      `${fuse.name}, pin ${far}, to the clamp of the negative cable`,
      q === p
        ? ''
        : 'The lamp lights and the volts fall: what hangs on this fuse draws too much. Fuse out again, find it.',
    )
  }
  lines.push(step('lamp-out', 'All in and the lamp as expected: battery off, lamp out, battery negative on its post.'))
  return section(lines)
}
