/**
 * First power, in the order in which it hurts nothing: earths proved with the battery off, everything clever unplugged;
 * the battery on through a lamp; fuses one at a time, the volts behind each expected with the lamp in series; the lamp
 * out; supply and earth proved at each controller's plug before it goes on; coils, injectors and pump last.
 */

import type { NetworkElement } from '../../engineering/electrical/network/network.ts'
import type { Build, Device, OperatingCase } from '../../model/build.ts'
import {
  AT_THE_BATTERY,
  DEAD_CIRCUIT,
  LIVE_BATTERY,
  MOVING,
  NO_AIRBAG,
  NO_NEW_FUSE,
  NO_SPARKS,
  PROBING,
  UNPLUGGED,
} from '../electricalCautions.ts'
import { foundCase } from '../faults/found.ts'
import { carTolerances } from '../faults/start.ts'
import { pointSays } from '../faults/words.ts'
import { endpointOf, list, own } from '../make.ts'
import { batteryPins, controllerPins, twoPins } from '../pins.ts'
import { solveCase } from '../solveCases.ts'
import { expecter, expectOhms } from './expect.ts'
import { LIMITING_LAMP, lampElement, lampLooks } from './lamp.ts'
import type { SheetSection, SheetStep, SheetTest, TestSheet } from './types.ts'

const step = (id: string, says: string): SheetStep => ({ id, kind: 'do', says })
const named = (devices: readonly Device[]): string => list(devices.map(({ name }) => name))
/** Behind the lamp the battery's own post is another node than the car's. */
const POST = '#post'

const quietest = (build: Build): OperatingCase | undefined => {
  const standing = Object.values(build.collections.cases).filter(
    ({ engine, battery, supply }) => engine === 'off' && battery === 'connected' && supply === undefined,
  )
  const busy = ({ switches, outputs }: OperatingCase): number =>
    Object.keys(switches).length + Object.keys(outputs).length
  return standing.length === 0 ? undefined : standing.reduce((p, q) => (busy(q) < busy(p) ? q : p))
}

const ignitionOn = (build: Build): OperatingCase | undefined =>
  Object.values(build.collections.cases).find(
    ({ id, name, engine, battery }) =>
      engine === 'off' && battery === 'connected' && /ignition[ -]on/i.test(`${id} ${name}`),
  )

export const firstPowerSheet = (build: Build, caseId?: string): TestSheet => {
  const devices = Object.values(build.collections.devices)
  const of = (...kinds: Device['spec']['kind'][]): Device[] =>
    devices.filter(({ spec, restricted }) => restricted === undefined && kinds.includes(spec.kind))
  const restricted = devices.filter((device) => device.restricted !== undefined)
  const notes: string[] = []
  if (restricted.length > 0)
    notes.push(`Left to those whose work it is: ${named(restricted)}. Their plugs stay as that person leaves them.`)
  const battery = of('battery')[0]
  const { positive, negative } = battery ? batteryPins(battery) : { positive: undefined, negative: undefined }
  const parked = caseId === undefined ? quietest(build) : foundCase(build, { case: caseId })
  const missing = [
    ...(battery && positive !== undefined && negative !== undefined ? [] : ['a battery with its two posts']),
    ...(parked ? [] : ['an operating case with the engine off and the battery connected, as parked']),
  ]
  if (!battery || positive === undefined || negative === undefined || !parked)
    return {
      id: 'first-power',
      title: 'First power',
      sections: [],
      notes: [...notes, `Not entered: ${missing.join(' and ')}.`],
    }
  const context = makeContext(build, parked, battery, positive, negative)
  const sections = [
    unplugSection(of('controller'), [...of('coil'), ...of('injector')], fuelPumps(build, of('pump')), of('fuse')),
    earthSection(context, of('earth-stud'), of('controller')),
    lampSection(context, of('fuse'), fuelPumps(build, of('pump'))),
    plugSection(context, of('controller')),
    outputSection(build),
  ].filter(({ lines }) => lines.length > 0)
  return { id: 'first-power', title: 'First power', case: parked.id, sections, notes: [...notes, ...context.notes] }
}

interface Context {
  readonly build: Build
  readonly parked: OperatingCase
  readonly battery: Device
  readonly car: (kase: OperatingCase) => {
    elements: NetworkElement[]
    nodeOf: (endpoint: string) => string
    tolerances: ReturnType<typeof carTolerances>
    solved: boolean
  }
  readonly negative: string
  readonly positive: string
  readonly unpluggedElements: (id: string) => boolean
  readonly notes: string[]
}

const makeContext = (
  build: Build,
  parked: OperatingCase,
  battery: Device,
  positive: string,
  negative: string,
): Context => {
  const { devices } = build.collections
  const away = (id: string): boolean => {
    if (id.startsWith('output:')) return true
    const device = own(devices, id.split('#')[0]!)
    return (
      device !== undefined &&
      (device.restricted !== undefined || ['controller', 'coil', 'injector'].includes(device.spec.kind))
    )
  }
  return {
    build,
    parked,
    battery,
    positive,
    negative,
    unpluggedElements: away,
    notes: [],
    car: (kase) => {
      const solved = solveCase(build, kase)
      return {
        elements: solved.bound.network.elements.filter(({ id }) => !away(id)),
        nodeOf: solved.bound.nodeOf,
        tolerances: carTolerances(build, solved, solved.bound.network.elements),
        solved: solved.solved,
      }
    },
  }
}

const unplugSection = (
  controllers: readonly Device[],
  wetParts: readonly Device[],
  pumps: readonly Device[],
  fuses: readonly Device[],
): SheetSection => ({
  id: 'unplug',
  title: 'Before anything else',
  state: 'battery negative off and insulated; key out',
  cautions: [LIVE_BATTERY, UNPLUGGED, NO_AIRBAG],
  lines: [
    step('battery-off', 'Battery negative off, its clamp insulated and tied away from the post.'),
    ...(controllers.length > 0
      ? [
          step(
            'controllers',
            `Unplug ${named(controllers)}; the plugs stay off until their supply and earth are proved.`,
          ),
        ]
      : []),
    step(
      'airbag',
      'See that airbag and anti-lock units are unplugged by somebody qualified for them, before any resistance is measured.',
    ),
    ...(wetParts.length > 0
      ? [
          step(
            'coils-injectors',
            `Unplug ${named(wetParts)}, until it is known what the controller’s outputs do while it starts.`,
          ),
        ]
      : []),
    ...(pumps.length > 0 ? [step('pump-fuse', `Leave the fuses of ${named(pumps)} out for the same reason.`)] : []),
    ...(fuses.length > 0 ? [step('fuses', 'Take every fuse out and lay it beside its place.')] : []),
  ],
})

const earthSection = (
  { build, car, parked, battery, negative, positive }: Context,
  studs: readonly Device[],
  controllers: readonly Device[],
): SheetSection => {
  const { elements, nodeOf, tolerances } = car(parked)
  const post = endpointOf(battery.id, negative)
  const reference = nodeOf(post)
  const fuses = new Set(
    Object.values(build.collections.devices)
      .filter(({ spec }) => spec.kind === 'fuse')
      .map(({ id }) => id),
  )
  const network = { reference, elements }
  const nodes = new Set(elements.flatMap(({ a, b }) => [a, b]))
  const lines: SheetTest[] = []
  const ohms = (at: string, low: string, high: string, says = pointSays(build, at)): void => {
    const node = nodeOf(at)
    const base = {
      id: `ohms:${at}`,
      kind: 'test' as const,
      quantity: 'ohms' as const,
      at,
      against: post,
      says: `${says}, to the negative cable’s clamp`,
      low,
      high,
    }
    if (node === reference) return
    if (!nodes.has(node)) {
      lines.push({ ...base, missing: `a wire at ${at}` })
      return
    }
    lines.push({ ...base, expect: expectOhms(network, tolerances, node, reference, fuses) })
  }
  for (const stud of studs) {
    const pin = Object.keys(stud.pins)[0]
    if (pin !== undefined && stud.spec.kind === 'earth-stud' && stud.spec.on !== 'isolated')
      ohms(
        endpointOf(stud.id, pin),
        'The leads touch, or were not zeroed.',
        'A strap, ring or stud on the way has resistance: bright metal, tighten, measure again. Do not go on.',
      )
  }
  for (const controller of controllers)
    for (const pin of controllerPins(controller).earths)
      ohms(
        endpointOf(controller.id, pin),
        'The leads touch, or were not zeroed.',
        'The plug’s earth is open or poor: the controller would find another way to earth, through its sensors.',
      )
  ohms(
    endpointOf(battery.id, positive),
    'A short, or something that is still plugged in: find it before the battery goes on.',
    'Nothing is joined that should not be.',
    'The positive cable, off the battery',
  )
  return {
    id: 'earths',
    title: 'Earths, with the battery off',
    state: 'battery off, all fuses out, controllers, airbag and anti-lock units unplugged',
    cautions: [DEAD_CIRCUIT, UNPLUGGED, NO_AIRBAG],
    lines,
  }
}

const lampSection = (context: Context, fuses: readonly Device[], pumps: readonly Device[]): SheetSection => {
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

/** Fuses nearer the battery first: those whose feed needs no other fuse, then those behind them. */
const inOrder = (fuses: readonly Device[], elements: readonly NetworkElement[]): Device[] => {
  const ids = new Set(fuses.map(({ id }) => id))
  const order: Device[] = []
  const source = elements.find(({ type }) => type === 'battery')
  if (!source) return [...fuses]
  const reached = new Set([source.a])
  const spread = (): void => {
    for (let grown = true; grown; ) {
      grown = false
      for (const { id, a, b, type } of elements) {
        if (type !== 'resistor' || (ids.has(id) && !order.some((fuse) => fuse.id === id))) continue
        if (!/^wire:/.test(id) && !ids.has(id)) continue
        if (reached.has(a) !== reached.has(b)) {
          reached.add(a).add(b)
          grown = true
        }
      }
    }
  }
  for (spread(); ; spread()) {
    const next = fuses.find((fuse) => {
      const element = elements.find(({ id }) => id === fuse.id)
      return element && !order.includes(fuse) && (reached.has(element.a) || reached.has(element.b))
    })
    if (!next) break
    order.push(next)
  }
  return [...order, ...fuses.filter((fuse) => !order.includes(fuse))]
}

/** Whether `node` is joined to the source by wires without passing this fuse. */
const feedSide = (elements: readonly NetworkElement[], fuse: string, node: string, source: string): boolean => {
  const seen = new Set([node])
  const queue = [node]
  for (let here = queue.pop(); here !== undefined; here = queue.pop()) {
    if (here === source) return true
    for (const { id, a, b, type } of elements) {
      if (id === fuse || type === 'lamp' || (a !== here && b !== here) || /#/.test(id)) continue
      const other = a === here ? b : a
      if (!seen.has(other)) {
        seen.add(other)
        queue.push(other)
      }
    }
  }
  return false
}

/** Pumps that move petrol: water and washer pumps hurt nobody. */
const fuelPumps = (build: Build, pumps: readonly Device[]): Device[] =>
  pumps.filter(({ id, name }) => id === build.sheets.fuel?.pump?.device || /fuel/i.test(`${id} ${name}`))

/** Fuses at the end of a wire that leads to a pump, or to the relay that feeds one. */
const pumpFuses = (build: Build, pumps: readonly Device[]): Set<string> => {
  const found = new Set<string>()
  const { devices, wires } = build.collections
  const seen = new Set<string>(pumps.map(({ id }) => id))
  const queue = pumps.flatMap((pump) => (pump.loads ?? []).map(({ from }) => endpointOf(pump.id, from)))
  for (let here = queue.pop(); here !== undefined; here = queue.pop())
    for (const wire of Object.values(wires)) {
      const other = wire.from === here ? wire.to : wire.to === here ? wire.from : undefined
      if (other === undefined || seen.has(`${wire.id}`)) continue
      seen.add(wire.id)
      const device = own(devices, other.slice(0, other.lastIndexOf('.')))
      if (!device) continue
      const pin = other.slice(other.lastIndexOf('.') + 1)
      if (device.spec.kind === 'fuse') found.add(device.id)
      else if (device.spec.kind === 'relay' && pin === '87') queue.push(endpointOf(device.id, '30'))
      else if (device.spec.kind === 'connector') queue.push(other)
      else if (device.spec.kind === 'switch')
        for (const each of Object.keys(device.pins)) if (each !== pin) queue.push(endpointOf(device.id, each))
    }
  return found
}

const plugSection = (
  { build, car, battery, negative, parked }: Context,
  controllers: readonly Device[],
): SheetSection => {
  const kase = ignitionOn(build) ?? parked
  const { elements, nodeOf, tolerances, solved } = car(kase)
  const lines: (SheetTest | SheetStep)[] = []
  const reference = nodeOf(endpointOf(battery.id, negative))
  const nodes = new Set(elements.flatMap(({ a, b }) => [a, b]))
  const expect = solved ? expecter({ reference, elements }, tolerances) : undefined
  for (const controller of controllers) {
    const { supply, earths } = controllerPins(controller)
    const supplies = new Set([
      ...(supply === undefined ? [] : [supply]),
      ...(controller.loads ?? []).map(({ from }) => from),
    ])
    const volts = (pin: string, low: string, high: string): void => {
      const at = endpointOf(controller.id, pin)
      const node = nodeOf(at)
      const base = {
        id: `volts:plug:${at}`,
        kind: 'test' as const,
        quantity: 'volts' as const,
        at,
        says: `${pointSays(build, at)}, at the unplugged plug, to battery negative`,
        low,
        high,
      }
      if (!expect || !nodes.has(node))
        lines.push({ ...base, missing: expect ? `a wire at ${at}` : 'a battery with its figures' })
      else lines.push({ ...base, expect: expect.volts(node, reference) })
    }
    for (const pin of supplies)
      volts(
        pin,
        'The supply does not reach the plug. A supply that the controller switches itself through its main relay stays dead until it is plugged in.',
        'Live before its time: see what feeds it.',
      )
    for (const pin of earths)
      volts(pin, 'The leads are the wrong way round.', 'This earth is no earth: the controller stays unplugged.')
    if (supplies.size > 0 && earths.length > 0)
      lines.push(
        step(
          `load:${controller.id}`,
          `A lamp of 5 W between supply ${list([...supplies])} and earth ${list(earths)} in the plug of ${controller.name}: bright where the sheet expects volts. A meter alone proves no contact.`,
        ),
      )
    lines.push(
      step(
        `plug:${controller.id}`,
        `Only now, key off: plug in ${controller.name}. Airbag and anti-lock units are not part of this.`,
      ),
    )
  }
  return {
    id: 'plugs',
    title: 'Controllers: supply and earth at the plug first',
    state: `${kase.name}; lamp out, fuses in but those that stay out`,
    cautions: [PROBING, MOVING, NO_NEW_FUSE, NO_AIRBAG],
    lines,
  }
}

const outputSection = (build: Build): SheetSection => {
  const outputs = Object.values(build.collections.outputs).filter(({ driver }) => driver !== 'logic')
  const unknown = outputs.filter(({ atBoot }) => atBoot === undefined || atBoot === 'unknown')
  const on = outputs.filter(({ atBoot }) => atBoot === 'on')
  return {
    id: 'outputs',
    title: 'What the outputs do while the controller starts',
    state: 'ignition on, coils and injectors unplugged, pump fuse out',
    cautions: [NO_SPARKS, MOVING, PROBING, NO_AIRBAG],
    lines:
      outputs.length === 0
        ? []
        : [
            ...unknown.map(({ id, name }) =>
              step(
                `boot:${id}`,
                `${name}: a test lamp of 5 W in its place, key on and off three times. Enter what it does while the controller starts.`,
              ),
            ),
            ...(on.length > 0
              ? [
                  step(
                    'boot-on',
                    `On while the controller starts: ${list(on.map(({ name }) => name))}. What they drive must bear it, or stays unplugged.`,
                  ),
                ]
              : []),
            step(
              'plug-last',
              'When none of them moves by itself: coils, injectors and pump fuse, one at a time, the key off each time. With the pump’s fuse in it may run at once and the rail stands under pressure: look for leaks before anything else, key off at the first drop.',
            ),
          ],
  }
}
