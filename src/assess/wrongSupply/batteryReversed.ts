/**
 * Rule `battery-reversed`: what the wrong polarity hurts in a case that has it, and which fuse, if any, ends it. The case is
 * solved again with what conducts only then: the alternator's rectifier, and diodes across relay coils.
 */

import { OPENS_FROM, slowestTime } from '../../engineering/electrical/fuseGates.ts'
import type { NetworkElement } from '../../engineering/electrical/network/network.ts'
import { prepare } from '../../engineering/electrical/network/network.ts'
import { Refusal } from '../../units/problem.ts'
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import { amps, BATTERY_CAUTION, deviceZone, endpointOf, finding, list, restrictedDevice } from '../make.ts'
import { alternatorPins, relayPins } from '../pins.ts'
import { fuseOf, judgedFuse } from '../protection/facts.ts'
import type { Solved } from '../solveCases.ts'
import { supplyVolts } from './supplyVolts.ts'

/** Two junctions of a rectifier leg in series, V; three legs side by side, Ω. Common practice, no published source. */
const LEG_VOLTS = 1.6
const LEGS_OHM = 2e-3
/** Small silicon diode across a coil. Common practice, no published source. */
const COIL_DIODE_VOLTS = 0.7
const COIL_DIODE_OHM = 20e-3
/** A. A coil's diode is good for about its coil's current many times over, never for tens of amperes (common practice, no published source). */
const DIODE_STANDS = 3
/** V. */
const REVERSED = -1

export const batteryReversedFindings = (context: Context): Finding[] =>
  context.cases
    .filter(({ kase, solved }) => kase.battery === 'reversed' && solved)
    .flatMap((solved) => ofCase(context, solved))

const ofCase = (context: Context, solved: Solved): Finding[] => {
  const { devices } = context.build.collections
  const { network, nodeOf } = solved.bound
  const nodes = new Set(network.elements.flatMap(({ a, b }) => [a, b]))
  const added: NetworkElement[] = []
  const add = (id: string, a: string, b: string, forwardVoltage: number, onResistance: number) => {
    if (nodes.has(a) && nodes.has(b) && a !== b) added.push({ id, type: 'diode', a, b, forwardVoltage, onResistance })
  }
  for (const device of Object.values(devices)) {
    if (device.spec.kind === 'alternator') {
      const { output, case: pin } = alternatorPins(device)
      if (output !== undefined)
        add(
          `${device.id}#rectifier`,
          pin === undefined ? `${device.id}.#case` : nodeOf(endpointOf(device.id, pin)),
          nodeOf(endpointOf(device.id, output)),
          LEG_VOLTS,
          LEGS_OHM,
        )
    }
    if (device.spec.kind === 'relay' && device.spec.suppression === 'diode') {
      const [plus, minus] = relayPins(device).coil
      if (plus !== undefined && minus !== undefined)
        add(
          `${device.id}#suppressor`,
          nodeOf(endpointOf(device.id, minus)),
          nodeOf(endpointOf(device.id, plus)),
          COIL_DIODE_VOLTS,
          COIL_DIODE_OHM,
        )
    }
  }
  const solution = solve({ ...network, elements: [...network.elements, ...added] })
  if (!solution) return []
  const current = (id: string) => Math.abs(solution.currents.get(id) ?? 0)
  const about = (id: string) =>
    ({
      rule: 'battery-reversed',
      system: 'electrical',
      subject: `devices/${id}`,
      case: solved.kase.id,
      about: devices[id]!.name,
      zone: deviceZone(context.build, id),
      cautions: [BATTERY_CAUTION],
    }) as const
  /** What ends it: fuses that carry most of what the diode carries. */
  const endedBy = (amperes: number): string => {
    const opening = Object.keys(devices).flatMap((id): string[] => {
      const fuse = fuseOf(context.build, id)
      const judged = fuse && judgedFuse(context.build, fuse).fuse
      const through = current(id)
      if (!fuse || !judged || through < 0.5 * amperes || through < OPENS_FROM * judged.rating) return []
      const time = slowestTime(judged.type, through / judged.rating)
      return time === undefined ? [] : [`${fuse.name} opens within ${Number(time.toPrecision(2))} s`]
    })
    return opening.length === 0 ? 'no fuse on its way opens' : list(opening)
  }
  const findings: Finding[] = []
  for (const { id } of added) {
    const device = id.slice(0, id.indexOf('#'))
    const through = current(id)
    const rectifier = id.endsWith('#rectifier')
    if (restrictedDevice(context.build, device) || through < DIODE_STANDS) continue
    const ended = endedBy(through)
    findings.push(
      finding({
        ...about(device),
        verdict: 'marginal',
        says: rectifier
          ? `With the battery reversed the rectifier of ${devices[device]!.name} conducts ${amps(through)} straight from earth to B+: its diodes are lost; ${ended}.`
          : `With the battery reversed the diode across the coil of ${devices[device]!.name} conducts ${amps(through)} and burns; ${ended}.`,
        todo: rectifier
          ? 'Mark both battery cables and prove the polarity with a meter before the second clamp goes on; keep the alternator’s fuse at the battery end.'
          : `Mark both battery cables; a relay with a resistor across its coil in place of ${devices[device]!.name} stands either polarity.`,
        working: [
          `“${solved.kase.name}” solved again with two junctions a leg (${LEG_VOLTS} V, three legs of together ${LEGS_OHM * 1e3} mΩ) and coil diodes (${COIL_DIODE_VOLTS} V): common practice, no published source.`,
          `${id}: ${amps(through)}.`,
        ],
      }),
    )
  }
  for (const device of Object.values(devices)) {
    if (restrictedDevice(context.build, device.id) || device.reverseProtected) continue
    const electronic = ['controller', 'module', 'gauge'].includes(device.spec.kind) || device.reverseProtected === false
    const across = electronic ? supplyVolts(device, (node) => solution.voltages.get(nodeOf(node)) ?? null) : null
    if (across === null || across > REVERSED) continue
    if (device.reverseProtected === false)
      findings.push(
        finding({
          ...about(device.id),
          verdict: 'marginal',
          says: `With the battery reversed ${device.name} stands at ${across.toFixed(1)} V and is not protected: its clamp diode conducts and its electrolytic capacitors are destroyed.`,
          todo: `Unplug ${device.name} while a battery is being fitted, or fit a protective diode or relay before its supply pin.`,
          working: [`Solved in “${solved.kase.name}”: ${across.toFixed(2)} V from its supply to its earth.`],
        }),
      )
    else
      findings.push(
        finding({
          ...about(device.id),
          verdict: 'unknown',
          says: `With the battery reversed ${device.name} stands at ${across.toFixed(1)} V; whether it survives is not entered.`,
          todo: `Enter from its sheet whether ${device.name} survives a reversed battery.`,
          missing: `reverse-polarity protection of ${device.name}`,
        }),
      )
  }
  return findings
}

const solve = (network: Parameters<typeof prepare>[0]) => {
  try {
    const solution = prepare(network).solve()
    return solution.converged ? solution : undefined
  } catch (error) {
    if (error instanceof Refusal) return undefined
    throw error
  }
}
