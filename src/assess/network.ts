/**
 * Binds a build in one operating case to the network solver. What the build does not say is never made up in silence:
 * a datum that a figure needs goes to `missing` and its element is left out or marked `unsure`; a resistance taken from
 * common practice goes to `assumed`.
 */
import type { Network, NetworkElement } from '../engineering/electrical/network/network.ts'
import type { Build, Device, OperatingCase, Wire } from '../model/build.ts'
import { BODY, ENGINE } from './circuit.ts'
import { deviceIdOf, endpointOf, own } from './make.ts'
import { alternatorPins, batteryPins, controllerPins, relayPins, starterPins, twoPins } from './pins.ts'
import { conductorFacts, hottestZone, jointResistance, warmed, wireLength, zonesOfUnknownHeat } from './wireData.ts'

export interface Missing {
  /** `collection/id`. */
  readonly subject: string
  readonly datum: string
  /** Nodes between which it would stand: with volts across them, current that it would draw or switch is hidden. */
  readonly across?: readonly [string, string]
}
export interface Bound {
  readonly network: Network
  readonly missing: readonly Missing[]
  readonly assumed: readonly string[]
  /** Elements that stand in for something whose figure is missing. */
  readonly unsure: ReadonlySet<string>
  /** Node of an endpoint: all pins of a splice are one. */
  readonly nodeOf: (endpoint: string) => string
  /** Element ids of the loads. */
  readonly loads: ReadonlySet<string>
  /** Element id of each load: `device#load`. */
  readonly loadElement: (device: string, load: string) => string
}

/** Common practice, no published source, unless another is named. */
const CONTACT = 10e-3
const BOLTED_CASE = 0.2e-3
const STUD = 0.5e-3
const OUTPUT = 0.1
const INSIDE_CONTROLLER = 1e-3
const JUMP_SOURCE = 10e-3
/** Stands in for a wire of unknown resistance, so that the rest can be solved; whatever it feeds is judged unknown. */
const STAND_IN = 1e-3
/** Cold resistance of a blade fuse falls about as 1/rating: 7.7 mΩ at 10 A and 1.44 mΩ at 40 A (measured and data sheet, read). */
const FUSE_OHM_AMPERES = 77e-3
/** Filament: current ∝ voltage^0.55 (from memory); cold resistance a tenth of hot (lamp-driver note, read). */
const LAMP_EXPONENT = 0.55
const LAMP_COLD = 0.1
const SILICON = 0.7
/** Rotor of an unexcited alternator seen from D+ (from memory). */
const ROTOR = 4
const SOLENOID_STARTER_MINIMUM = 6
const T20 = 293.15

type Part = NetworkElement
const runs = (kase: OperatingCase): boolean => kase.engine !== 'off' && kase.engine !== 'cranking'

export const bindCase = (build: Build, kase: OperatingCase): Bound => {
  const { devices, wires, outputs } = build.collections
  const elements: Part[] = []
  const missing: Missing[] = []
  const assumed: string[] = []
  const unsure = new Set<string>()
  const loads = new Set<string>()
  const lack = (subject: string, datum: string, across?: readonly [string, string]): void => {
    missing.push(across === undefined ? { subject, datum } : { subject, datum, across })
  }
  const assume = (id: string, what: string) => assumed.push(`${id}: ${what} (common practice, no published source)`)
  const nodeOf = (endpoint: string): string => {
    const id = deviceIdOf(endpoint)
    return own(devices, id)?.spec.kind === 'splice' ? id : endpoint
  }
  const put = (element: Part) => {
    if (element.a !== element.b) elements.push(element)
  }
  const resistor = (id: string, a: string, b: string, ohm: number) => put({ id, type: 'resistor', a, b, ohm })
  const loadElement = (device: string, load: string) => `${device}#${load}`

  // What each output does in this case, so that its load can be averaged over its duty.
  const dutyOf = new Map<string, number>()
  const off = new Set<string>()
  for (const output of Object.values(outputs)) {
    if (output.drives === undefined) continue
    const duty = own(kase.outputs, output.id)
    if (output.driver === 'logic') {
      if (duty === undefined || duty === 0) off.add(output.drives)
    } else if (output.driver !== 'half bridge' && duty !== undefined && duty > 0)
      dutyOf.set(output.drives, Math.max(duty, dutyOf.get(output.drives) ?? 0))
  }

  for (const wire of Object.values(wires)) bindWire(wire)
  for (const device of Object.values(devices)) {
    bindDevice(device)
    bindLoads(device)
  }
  return { network: { reference: reference(), elements }, missing, assumed, unsure, loads, nodeOf, loadElement }

  function reference(): string {
    const touched = elements.some(({ a, b }) => a === BODY || b === BODY)
    if (touched) return BODY
    for (const device of Object.values(devices)) {
      const negative = device.spec.kind === 'battery' ? batteryPins(device).negative : undefined
      if (negative) return endpointOf(device.id, negative)
    }
    return elements[0]?.b ?? BODY
  }

  function bindWire(wire: Wire): void {
    const facts = conductorFacts(wire)
    const length = wireLength(build, wire)
    const id = `wire:${wire.id}`
    const joints = (['from', 'to'] as const).reduce((sum, end) => {
      const joint = wire.ends?.[end]
      if (joint) return sum + jointResistance(joint)
      return sum + 1e-3
    }, 0)
    const cold = runs(kase) ? zonesOfUnknownHeat(build, wire) : []
    if (cold.length > 0) assume(wire.id, `no warmer in ${cold.join(', ')} than elsewhere on its way`)
    else if (runs(kase) && !hottestZone(build, wire)) assume(wire.id, 'conductor at 20 °C, no zone entered')
    const temperature = runs(kase) ? (hottestZone(build, wire)?.ambient ?? T20) : (kase.ambient?.value ?? T20)
    if (!wire.ends?.from || !wire.ends.to) assume(wire.id, 'crimps of 1 mΩ')
    if (!facts || length === undefined) {
      if (!wire.area) lack(`wires/${wire.id}`, 'cross-section')
      if (!wire.material) lack(`wires/${wire.id}`, 'material')
      if (length === undefined) lack(`wires/${wire.id}`, 'length, or a path whose runs have lengths')
      unsure.add(id)
      resistor(id, nodeOf(wire.from), nodeOf(wire.to), STAND_IN)
      return
    }
    resistor(id, nodeOf(wire.from), nodeOf(wire.to), warmed(facts, temperature) * length + joints)
  }

  function bindDevice(device: Device): void {
    const { spec, id } = device
    const subject = `devices/${id}`
    const at = (pin: string) => nodeOf(endpointOf(id, pin))
    const contact = (ohm: { value: number } | undefined): number => {
      if (ohm) return ohm.value
      assume(id, 'contact of 10 mΩ')
      return CONTACT
    }
    switch (spec.kind) {
      case 'battery': {
        const { positive, negative } = batteryPins(device)
        if (positive === undefined || negative === undefined) {
          lack(subject, 'pins for positive and negative')
          return
        }
        if (kase.supply !== undefined) {
          put({
            id: `${id}#supply`,
            type: 'battery',
            a: at(positive),
            b: at(negative),
            emf: kase.supply.value,
            internalResistance: JUMP_SOURCE,
          })
          assume(id, 'jump source of 10 mΩ with its cables')
        }
        if (kase.battery === 'disconnected') return
        if (!spec.restedVoltage) {
          lack(subject, 'rested voltage')
          return
        }
        if (!spec.internalResistance) {
          lack(subject, 'internal resistance')
          return
        }
        const reversed = kase.battery === 'reversed'
        const charging = runs(kase) && kase.alternator !== 'off'
        if (charging && !spec.acceptance) lack(subject, 'charging current taken after twenty minutes')
        put({
          id,
          type: 'battery',
          a: at(reversed ? negative : positive),
          b: at(reversed ? positive : negative),
          emf: spec.restedVoltage.value,
          internalResistance: spec.internalResistance.value,
          // Without its figure the battery is left to neither take nor mask any current; the case is then unsure.
          ...(charging ? { acceptance: spec.acceptance?.value ?? 0 } : {}),
        })
        return
      }
      case 'alternator': {
        const { output, lamp, case: pin } = alternatorPins(device)
        if (output === undefined) {
          lack(subject, 'an output pin B+')
          return
        }
        const frame = pin === undefined ? `${id}.#case` : at(pin)
        resistor(`${id}#frame`, frame, ENGINE, BOLTED_CASE)
        if (kase.alternator === 'off') {
          if (lamp !== undefined) resistor(`${id}#rotor`, at(lamp), frame, ROTOR)
          return
        }
        const limit = kase.alternator === 'idle' ? spec.hotOutputIdle : spec.hotOutputCruise
        if (!spec.setpoint) lack(subject, 'set voltage')
        if (!spec.internalResistance) lack(subject, 'internal resistance')
        if (!limit) lack(subject, kase.alternator === 'idle' ? 'hot output at idle' : 'hot output at cruise')
        if (lamp !== undefined) resistor(`${id}#lamp`, at(lamp), at(output), 0.1)
        if (!spec.setpoint || !spec.internalResistance || !limit) return
        put({
          id,
          type: 'alternator',
          a: at(output),
          b: frame,
          setpoint: spec.setpoint.value,
          internalResistance: spec.internalResistance.value,
          limit: limit.value,
        })
        return
      }
      case 'starter': {
        const { supply, solenoid, case: pin } = starterPins(device)
        const frame = pin === undefined ? `${id}.#case` : at(pin)
        resistor(`${id}#frame`, frame, ENGINE, BOLTED_CASE)
        if (solenoid === undefined || supply === undefined) {
          lack(subject, 'pins 30 and 50')
          return
        }
        if (!spec.solenoidResistance) {
          lack(subject, 'resistance of the solenoid', [at(solenoid), frame])
          return
        }
        resistor(`${id}#solenoid`, at(solenoid), frame, spec.solenoidResistance.value)
        if (kase.engine !== 'cranking') return
        if (!spec.pullIn) {
          lack(subject, 'pull-in voltage of the solenoid', [at(solenoid), frame])
          return
        }
        if (!spec.crankingCurrent) {
          lack(subject, 'cranking current', [at(solenoid), frame])
          return
        }
        put({
          id: `${id}#contact`,
          type: 'relayContact',
          a: at(supply),
          b: `${id}.#motor`,
          operatedBy: `${id}#solenoid`,
          pullIn: spec.pullIn.value,
          dropOut: spec.pullIn.value / 2,
          ohm: 0.5e-3,
          normally: 'open',
        })
        put({
          id: `${id}#motor`,
          type: 'constantCurrent',
          a: `${id}.#motor`,
          b: frame,
          current: spec.crankingCurrent.value,
          minimumVoltage: SOLENOID_STARTER_MINIMUM,
        })
        return
      }
      case 'earth-stud':
        if (spec.on === 'isolated') return
        if (!spec.contactResistance) assume(id, 'stud of 0.5 mΩ')
        for (const pin of Object.keys(device.pins))
          resistor(`${id}#${pin}`, at(pin), spec.on === 'body' ? BODY : ENGINE, spec.contactResistance?.value ?? STUD)
        return
      case 'fuse': {
        const two = twoPins(device)
        if (!two) {
          lack(subject, 'two pins')
          return
        }
        const ohm = spec.coldResistance?.value ?? (spec.rating ? FUSE_OHM_AMPERES / spec.rating.value : undefined)
        if (ohm === undefined) {
          lack(subject, 'rating')
          unsure.add(id)
        }
        resistor(id, at(two[0]), at(two[1]), ohm ?? STAND_IN)
        return
      }
      case 'relay': {
        const { common, make, break: rest, coil } = relayPins(device)
        const [c1, c2] = coil
        if (c1 === undefined || c2 === undefined || common === undefined) {
          lack(subject, 'pins 30, 85 and 86')
          return
        }
        if (!spec.coilResistance) {
          lack(subject, 'resistance of the coil', [at(c1), at(c2)])
          return
        }
        resistor(`${id}#coil`, at(c1), at(c2), spec.coilResistance.value)
        if (!spec.pullIn) {
          lack(subject, 'pull-in voltage', [at(c1), at(c2)])
          return
        }
        if (!spec.dropOut) assume(id, 'drop-out at 30 % of pull-in')
        const dropOut = Math.min(spec.dropOut?.value ?? 0.3 * spec.pullIn.value, spec.pullIn.value)
        for (const [pin, normally] of [
          [make, 'open'],
          [rest, 'closed'],
        ] as const)
          if (pin !== undefined)
            put({
              id: `${id}#${pin}`,
              type: 'relayContact',
              a: at(common),
              b: at(pin),
              operatedBy: `${id}#coil`,
              pullIn: spec.pullIn.value,
              dropOut,
              ohm: contact(spec.contactResistance),
              normally,
            })
        return
      }
      case 'switch': {
        const position = own(kase.switches, id) ?? spec.rest
        for (const [index, [a, b]] of (own(spec.positions, position) ?? []).entries())
          resistor(`${id}#${index}`, at(a), at(b), contact(spec.contactResistance))
        return
      }
      case 'diode': {
        const two = twoPins(device)
        if (!two) {
          lack(subject, 'two pins')
          return
        }
        if (!spec.forwardVoltage) assume(id, 'forward voltage 0.7 V')
        put({
          id,
          type: 'diode',
          a: at(two[0]),
          b: at(two[1]),
          forwardVoltage: spec.forwardVoltage?.value ?? SILICON,
          onResistance: CONTACT,
        })
        return
      }
      case 'resistor': {
        const two = twoPins(device)
        if (!two || !spec.resistance) {
          lack(subject, 'resistance', two && [at(two[0]), at(two[1])])
          return
        }
        resistor(id, at(two[0]), at(two[1]), spec.resistance.value)
        return
      }
      case 'controller':
        bindController(device, at)
        return
      default:
    }
  }

  function bindController(device: Device, at: (pin: string) => string): void {
    const { supply, earths, sensorEarth } = controllerPins(device)
    const ground = `${device.id}.#earth`
    for (const pin of [...earths, ...sensorEarth])
      resistor(`${device.id}#earth-${pin}`, at(pin), ground, INSIDE_CONTROLLER)
    const mine = Object.values(outputs).filter((output) => output.device === device.id && output.driver !== 'logic')
    if (mine.length > 0 && earths.length === 0) lack(`devices/${device.id}`, 'which pins are power earths')
    for (const output of mine) {
      const duty = own(kase.outputs, output.id)
      if (duty === undefined || (duty === 0 && output.driver !== 'half bridge')) continue
      if (!output.onResistance) assume(output.id, 'output of 0.1 Ω when on')
      const high = output.driver === 'high side' || (output.driver === 'half bridge' && duty >= 0.5)
      if (high && supply === undefined) {
        lack(`devices/${device.id}`, 'which pin supplies its high-side outputs')
        continue
      }
      resistor(`output:${output.id}`, at(output.pin), high ? at(supply!) : ground, output.onResistance?.value ?? OUTPUT)
    }
  }

  function bindLoads(device: Device): void {
    if (off.has(device.id)) return
    for (const load of device.loads ?? []) {
      if (load.onlyIn && !load.onlyIn.includes(kase.id)) continue
      const id = loadElement(device.id, load.id)
      const [a, b] = [nodeOf(endpointOf(device.id, load.from)), nodeOf(endpointOf(device.id, load.to))]
      if (!load.law) {
        lack(`devices/${device.id}`, `what ${load.name ?? load.id} draws`, [a, b])
        continue
      }
      // Averages: the load draws its full current for its duty, so its mean is that of a load so much smaller.
      const duty = (load.duty ?? 1) * (dutyOf.get(device.id) ?? 1)
      if (duty === 0) continue
      const { law } = load
      loads.add(id)
      switch (law.type) {
        case 'resistance':
          resistor(id, a, b, law.resistance.value / duty)
          break
        case 'lamp': {
          const [ratedVoltage, ratedPower] = [law.ratedVoltage.value, law.ratedPower.value * duty]
          put({
            id,
            type: 'lamp',
            a,
            b,
            ratedVoltage,
            ratedPower,
            exponent: LAMP_EXPONENT,
            coldResistance: (LAMP_COLD * ratedVoltage ** 2) / ratedPower,
          })
          break
        }
        case 'current':
          put({
            id,
            type: 'constantCurrent',
            a,
            b,
            current: law.current.value * duty,
            minimumVoltage: law.minimumVoltage.value,
          })
          break
        case 'power':
          put({
            id,
            type: 'constantPower',
            a,
            b,
            power: law.power.value * duty,
            minimumVoltage: law.minimumVoltage.value,
          })
          break
        case 'motor': {
          const running = law.runningCurrent.value * duty
          const ratedVoltage = law.ratedVoltage.value
          const stallResistance = ratedVoltage / (law.stallCurrent.value * duty)
          if (law.stallCurrent.value <= law.runningCurrent.value) {
            lack(`devices/${device.id}`, 'a stalled current above the running one', [a, b])
            break
          }
          put({
            id,
            type: 'motor',
            a,
            b,
            ratedVoltage,
            runningCurrent: running,
            stallResistance,
            loading: build.sheets.cooling?.fans?.includes(device.id) ? 'fan' : 'constant',
          })
          break
        }
      }
    }
  }
}
