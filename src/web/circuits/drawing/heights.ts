/**
 * How high each pin stands between supply (1) and body (0) with every contact thought closed: what decides which end of
 * a thing is drawn on top, so that current runs downwards. A ruler for the drawing; no figure a person sees comes of it.
 */

import { BODY, ENGINE } from '../../../assess/circuit.ts'
import { alternatorPins, batteryPins, controllerPins, relayPins, starterPins, twoPins } from '../../../assess/pins.ts'
import { type NetworkElement, solveNetwork } from '../../../engineering/electrical/network/network.ts'
import type { Build, Device } from '../../../model/build.ts'
import { Refusal } from '../../../units/problem.ts'

export type HeightOf = (endpoint: string) => number | null

/** Only their order of size matters: what carries is low, what consumes is high, what merely listens is higher. */
const CARRIES = 0.01
const CONSUMES = 20
const LISTENS = 200
const TRICKLES = 1e5
const MIDDLE = '#middle'

export const heightsOf = (build: Build): HeightOf => {
  const elements: NetworkElement[] = []
  const tie = (a: string | undefined, b: string | undefined, ohm: number): void => {
    if (a !== undefined && b !== undefined && a !== b)
      elements.push({ id: `r${elements.length}`, type: 'resistor', a, b, ohm })
  }
  const source = (a: string, emf: number): void => {
    elements.push({ id: `s${elements.length}`, type: 'battery', a, b: BODY, emf, internalResistance: 1e-3 })
  }
  for (const { from, to } of Object.values(build.collections.wires)) tie(from, to, CARRIES)
  for (const device of Object.values(build.collections.devices)) {
    inside(build, device, tie, source)
    // What hangs loose still hangs from somewhere: a trickle to the middle makes it run away from there.
    for (const pin of Object.keys(device.pins)) tie(`${device.id}.${pin}`, MIDDLE, TRICKLES)
  }
  source(MIDDLE, 0.5)
  // The straps between engine and body, whatever their number.
  tie(ENGINE, BODY, 2e-3)
  try {
    const { voltages } = solveNetwork({ reference: BODY, elements })
    return (endpoint) => voltages.get(endpoint) ?? null
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    // Then nothing is known of the direction, and wires run as they were entered.
    return () => null
  }
}

type Tie = (a: string | undefined, b: string | undefined, ohm: number) => void

const inside = (build: Build, device: Device, tie: Tie, source: (a: string, emf: number) => void): void => {
  const at = (pin: string | undefined): string | undefined => (pin === undefined ? undefined : `${device.id}.${pin}`)
  const pins = Object.keys(device.pins)
  const { spec } = device
  switch (spec.kind) {
    case 'battery': {
      const { positive, negative } = batteryPins(device)
      if (positive !== undefined) source(`${device.id}.${positive}`, 1)
      tie(at(negative), BODY, 1e-3)
      return
    }
    case 'alternator': {
      const { output, lamp, case: frame } = alternatorPins(device)
      if (output !== undefined) source(`${device.id}.${output}`, 1.05)
      tie(at(lamp), ENGINE, CONSUMES)
      tie(at(frame), ENGINE, 1e-3)
      return
    }
    case 'starter': {
      const { supply, solenoid, case: frame } = starterPins(device)
      tie(at(supply), ENGINE, CONSUMES)
      tie(at(solenoid), ENGINE, CONSUMES)
      tie(at(frame), ENGINE, 1e-3)
      return
    }
    case 'earth-stud': {
      const place = spec.on === 'body' ? BODY : spec.on === 'engine' ? ENGINE : `${device.id}.#stud`
      for (const pin of pins) tie(at(pin), place, 1e-3)
      return
    }
    case 'splice':
      for (const pin of pins.slice(1)) tie(at(pins[0]), at(pin), 1e-3)
      return
    case 'switch': {
      const pairs = new Set(
        Object.values(spec.positions)
          .flat()
          .map(([a, b]) => `${a} ${b}`),
      )
      for (const pair of pairs) {
        const [a, b] = pair.split(' ')
        tie(at(a), at(b), CARRIES)
      }
      return
    }
    case 'relay': {
      const { common, make, break: rest, coil } = relayPins(device)
      tie(at(coil[0]), at(coil[1]), CONSUMES)
      tie(at(common), at(make), CARRIES)
      tie(at(common), at(rest), CARRIES)
      return
    }
    case 'fuse':
    case 'diode':
    case 'resistor': {
      const two = twoPins(device)
      if (two) tie(at(two[0]), at(two[1]), spec.kind === 'resistor' ? CONSUMES : CARRIES)
      return
    }
    case 'connector':
      return
    case 'controller':
      insideController(build, device, tie)
      return
    default: {
      const joined = new Set<string>()
      for (const load of device.loads ?? []) {
        tie(at(load.from), at(load.to), CONSUMES)
        joined.add(load.from).add(load.to)
      }
      const loose = pins.filter((pin) => !joined.has(pin))
      if (loose.length > 0 && pins.length > 1)
        for (const pin of pins) tie(at(pin), `${device.id}.#middle`, 3 * CONSUMES)
    }
  }
}

const insideController = (build: Build, device: Device, tie: Tie): void => {
  const at = (pin: string): string => `${device.id}.${pin}`
  const { supply, earths, sensorEarth } = controllerPins(device)
  const earth = `${device.id}.#earth`
  const done = new Set([...earths, ...sensorEarth, ...(supply === undefined ? [] : [supply])])
  for (const pin of [...earths, ...sensorEarth]) tie(at(pin), earth, 1e-3)
  if (earths.length === 0) tie(earth, BODY, CARRIES)
  if (supply !== undefined) tie(at(supply), earth, CONSUMES)
  const fed = supply === undefined ? undefined : at(supply)
  const bridged = new Set<string>()
  for (const output of Object.values(build.collections.outputs).filter((one) => one.device === device.id)) {
    // A logic output commands what it goes to, so it is drawn above it.
    if (output.driver === 'high side') tie(fed, at(output.pin), CARRIES)
    else if (output.driver === 'low side') tie(at(output.pin), earth, 5)
    else if (output.driver === 'logic') tie(fed, at(output.pin), CONSUMES)
    else {
      // The halves of a bridge take turns; one of the two that drive a thing has to be drawn as its feed.
      const isFeed = !bridged.delete(output.drives ?? '')
      if (isFeed) bridged.add(output.drives ?? '')
      tie(isFeed ? fed : earth, at(output.pin), CARRIES)
    }
    done.add(output.pin)
  }
  for (const input of Object.values(build.collections.inputs).filter((one) => one.device === device.id)) {
    if (done.has(input.pin)) continue
    done.add(input.pin)
    // A pull-up feeds the sensor or switch it listens to.
    if (input.signal === 'switch' || input.signal === 'resistance') tie(fed, at(input.pin), LISTENS / 4)
    tie(at(input.pin), earth, LISTENS)
  }
  for (const [pin, { name }] of Object.entries(device.pins)) {
    if (done.has(pin)) continue
    if (/5 ?V|reference/i.test(name ?? '')) tie(fed, at(pin), CARRIES)
    else tie(at(pin), earth, 2 * LISTENS)
  }
}
