/**
 * A circuit's sheet while it is dead: ohms of coils, fuses and windings, and of earths as far as ohms tell. Where they
 * cannot tell an open earth from a sound one the line is not offered, and the sheet says which line does tell.
 */
import type { Build, Device, Wire } from '../../model/build.ts'
import { DEAD_CIRCUIT, LIVE_BATTERY, NO_AIRBAG, placeCautions, UNPLUGGED, whenDead } from '../electricalCautions.ts'
import { atRest } from '../faults/atRest.ts'
import { carNetwork } from '../faults/carNetwork.ts'
import { testId } from '../faults/drops.ts'
import { carTolerances } from '../faults/start.ts'
import { leadsSay, pointSays } from '../faults/words.ts'
import { endpointOf } from '../make.ts'
import { relayPins } from '../pins.ts'
import type { Solved } from '../solveCases.ts'
import { type BlindEarth, blindSays, ifEarthOpens, isBlind, unseenOhms } from './earthOhms.ts'
import { expectOhms } from './expect.ts'
import { figureOf } from './figures.ts'
import type { SheetSection, SheetTest } from './types.ts'

/** A from which an earth counts as loaded. */
const LOADED = 1
const AMPS_TELL = 'The amperes in its feed do.'
/** Of an earth in ohms. */
export const NO_PROOF =
  'Shows only that it is not open: a joint that loses volts under load is far below what a hand meter and its leads show.'

export const deadSection = (
  build: Build,
  solved: Solved,
  wires: readonly Wire[],
  devices: readonly Device[],
  notes: string[],
): SheetSection => {
  const ids = new Set(wires.map(({ id }) => id))
  const opened = carNetwork(build, solved, ({ id }) => ids.has(id))
  const car = { ...opened, network: { ...opened.network, elements: atRest(build, solved, opened.network.elements) } }
  const tolerances = carTolerances(build, solved, car.network.elements)
  const lines: SheetTest[] = []
  const blind: BlindEarth[] = []
  /** Of a part on its own, its plug or socket empty. */
  const ohms = (at: string, against: string, low: string, high: string, alone: string, shortHides = true): void => {
    const [a, b] = [car.nodeOf(at), car.nodeOf(against)]
    if (a === undefined || b === undefined || a === b) return
    const network = { ...car.network, elements: car.network.elements.filter(({ id }) => id === alone) }
    if (network.elements.length === 0) return
    const expect = expectOhms(network, tolerances, a, b)
    lines.push({
      id: `ohms:${testId(at, against)}`,
      kind: 'test',
      quantity: 'ohms',
      at,
      against,
      says: `${leadsSay(build, at, against, car.referenceSays)}, unplugged`,
      alone: true,
      expect,
      ...(shortHides && expect.least <= 0
        ? {
            limit: `Shows only that it is not open: so few ohms a hand meter does not tell from a short. ${AMPS_TELL}`,
          }
        : {}),
      low,
      high,
    })
  }
  const earth = (stud: Device, pin: string): void => {
    const at = endpointOf(stud.id, pin)
    const a = car.nodeOf(at)
    if (a === undefined || a === car.reference) return
    const expect = expectOhms(car.network, tolerances, a, car.reference)
    const ifOpen = ifEarthOpens(build, car.network, a, car.reference)
    const amps = Math.abs(solved.elements.get(`${stud.id}#${pin}`) ?? 0)
    const tells =
      amps < LOADED
        ? `What tells is the volts left on it under load, and in “${solved.kase.name}” hardly anything returns there: choose a case in which its loads are on, or prove it with a test lamp, as on the sheet of first power.`
        : `What tells is “${leadsSay(build, at, undefined, car.referenceSays)}” in the live part, with ${figureOf(amps, 'amps')} through it.`
    if (isBlind(expect, ifOpen)) {
      blind.push({ says: pointSays(build, at), most: expect.most, ifOpen, tells })
      return
    }
    const unseen = unseenOhms(expect, Math.max(amps, LOADED))
    lines.push({
      id: `ohms:${at}`,
      kind: 'test',
      quantity: 'ohms',
      at,
      says: leadsSay(build, at, undefined, car.referenceSays),
      expect,
      ...(unseen === undefined ? {} : { limit: `${NO_PROOF} ${tells}` }),
      low: 'The meter was not zeroed, or the leads touch.',
      high: 'The stud, its ring or a strap between it and the battery has resistance: clean to bright metal.',
    })
  }
  for (const device of devices) {
    if (device.spec.kind === 'earth-stud') {
      const pin = Object.keys(device.pins)[0]
      if (pin !== undefined) earth(device, pin)
    } else if (device.spec.kind === 'relay') {
      const [c1, c2] = relayPins(device).coil
      if (c1 !== undefined && c2 !== undefined)
        ohms(
          endpointOf(device.id, c1),
          endpointOf(device.id, c2),
          'The coil is shorted in itself, or another relay is fitted.',
          'The coil is open, or the pins are others than thought.',
          `${device.id}#coil`,
        )
    } else if (device.spec.kind === 'fuse') {
      const [one, two] = Object.keys(device.pins)
      if (one !== undefined && two !== undefined)
        ohms(
          endpointOf(device.id, one),
          endpointOf(device.id, two),
          'The meter was not zeroed.',
          'The fuse is blown, or its blades are corroded.',
          device.id,
          false,
        )
    }
    for (const load of device.loads ?? []) {
      const id = `${device.id}#${load.id}`
      if (load.law?.type === 'resistance')
        ohms(
          endpointOf(device.id, load.from),
          endpointOf(device.id, load.to),
          'Shorted inside, or another part than entered.',
          'Open inside, or a poor contact.',
          id,
        )
    }
  }
  notes.push(...blindSays(blind))
  return {
    id: 'dead',
    title: 'Dead circuit: ohms',
    state: 'battery negative off and insulated; key out; relays and plugs as each line says',
    cautions: [
      LIVE_BATTERY,
      DEAD_CIRCUIT,
      UNPLUGGED,
      NO_AIRBAG,
      ...whenDead(
        placeCautions(
          build,
          devices.map(({ id }) => id),
        ),
      ),
    ],
    lines,
  }
}
