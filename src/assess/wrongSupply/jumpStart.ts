/**
 * Rule `over-voltage`: what stands above its rating in a case with a jump source: lamps, motors, controllers and modules.
 * A lamp's life falls with the twelfth power of its voltage (Lamp rerating, citing Fink & Beaty, page 22-8, read).
 */
import { prepare } from '../../engineering/electrical/network/network.ts'
import type { Device } from '../../model/build.ts'
import { Refusal } from '../../units/problem.ts'
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import { BATTERY_CAUTION, deviceZone, endpointOf, finding, restrictedDevice, volts } from '../make.ts'
import { tired } from '../protection/tired.ts'
import type { Solved } from '../solveCases.ts'
import { supplyVolts } from './supplyVolts.ts'

/** V. The charging system of a 12 V car reaches about 15 V cold; electronics are made for 16 V (ISO 16750-2, code C [from memory]). */
const USUAL = 16
/** Of rated voltage. A lamp is short-lived above it; a motor is made for the 15 V of a charging system. */
const LAMP_OVER = 1.2
const MOTOR_OVER = 1.35
const LIFE_EXPONENT = -12
const LOAD_DUMP =
  'Load dump: a lead that comes off while the alternator charges leaves 79 to 101 V behind, 35 V with a suppressor inside (ISO 16750-2, tests A and B [from memory]). Take the leads off at idle, big consumers on.'

export const overVoltageFindings = (context: Context): Finding[] =>
  context.cases
    .filter(({ kase, solved }) => solved && kase.supply !== undefined && kase.battery !== 'reversed')
    .flatMap((solved) => {
      const voltage = withFlatBattery(context, solved)
      return Object.values(context.build.collections.devices).flatMap((device) =>
        restrictedDevice(context.build, device.id) ? [] : ofDevice(context, solved, device, voltage),
      )
    })

/** A battery that needs a jump is flat and tired, and holds the source down less than a good one would. */
const withFlatBattery = (context: Context, { bound, nodes }: Solved): ((endpoint: string) => number | null) => {
  const set: Record<string, { emf: number; internalResistance: number }> = {}
  for (const { id, spec } of Object.values(context.build.collections.devices)) {
    if (spec.kind !== 'battery' || !spec.restedVoltage || !spec.internalResistance) continue
    if (bound.network.elements.some((element) => element.id === id && element.type === 'battery'))
      set[id] = tired(spec.restedVoltage.value, spec.internalResistance.value)
  }
  try {
    const solution = Object.keys(set).length === 0 ? undefined : prepare(bound.network).solve({ set })
    const found = solution?.converged ? solution.voltages : nodes
    return (endpoint) => found.get(bound.nodeOf(endpoint)) ?? null
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return (endpoint) => nodes.get(bound.nodeOf(endpoint)) ?? null
  }
}

const ofDevice = (
  context: Context,
  solved: Solved,
  device: Device,
  voltage: (endpoint: string) => number | null,
): Finding[] => {
  const base = {
    rule: 'over-voltage',
    system: 'electrical',
    subject: `devices/${device.id}`,
    case: solved.kase.id,
    about: device.name,
    zone: deviceZone(context.build, device.id),
    cautions: [BATTERY_CAUTION, LOAD_DUMP],
  } as const
  const worst = { lamp: { ratio: LAMP_OVER, at: 0, rated: 0 }, motor: { ratio: MOTOR_OVER, at: 0, rated: 0 } }
  for (const { law, from, to, onlyIn } of device.loads ?? []) {
    if ((law?.type !== 'lamp' && law?.type !== 'motor') || (onlyIn && !onlyIn.includes(solved.kase.id))) continue
    const [a, b] = [voltage(endpointOf(device.id, from)), voltage(endpointOf(device.id, to))]
    if (a === null || b === null) continue
    const ratio = Math.abs(a - b) / law.ratedVoltage.value
    if (ratio > worst[law.type].ratio) worst[law.type] = { ratio, at: Math.abs(a - b), rated: law.ratedVoltage.value }
  }
  const { lamp, motor } = worst
  if (lamp.rated > 0) {
    const life = lamp.ratio ** LIFE_EXPONENT
    return [
      finding({
        ...base,
        verdict: 'marginal',
        says: `${device.name} burns at ${volts(lamp.at)} in “${solved.kase.name}”, rated ${volts(lamp.rated)}: its life runs ${Number((1 / life).toPrecision(2))} times as fast, and it may go at once.`,
        todo: `Leave ${device.name} switched off while the jump source is connected, or use a 12 V source.`,
        working: [
          `(${lamp.ratio.toFixed(2)})^${LIFE_EXPONENT} = ${life.toPrecision(2)} of its life. Source: “Lamp rerating”, citing Fink & Beaty, page 22-8 [read].`,
        ],
      }),
    ]
  }
  if (motor.rated > 0)
    return [
      finding({
        ...base,
        verdict: 'marginal',
        says: `${device.name} runs at ${volts(motor.at)} in “${solved.kase.name}”, rated ${volts(motor.rated)}: brushes, bearings and what it drives take ${motor.ratio.toFixed(1)} times their voltage.`,
        todo: `Keep ${device.name} off while the jump source is connected (its fuse out), or use a 12 V source.`,
        working: [
          `Solved: ${volts(motor.at)} at its terminals; above ${MOTOR_OVER * 100} % of rating it is told (common practice, no published source).`,
        ],
      }),
    ]
  if (!['controller', 'module', 'gauge'].includes(device.spec.kind) && device.withstands === undefined) return []
  const across = supplyVolts(device, voltage)
  if (across === null || across <= USUAL) return []
  if (device.withstands === undefined) {
    const missing = `highest supply voltage that ${device.name} survives for a minute`
    return [
      finding({
        ...base,
        verdict: 'unknown',
        says: `${device.name} stands at ${volts(across)} in “${solved.kase.name}”; what it survives is not entered.`,
        todo: `Enter the ${missing}, from its sheet.`,
        missing,
        working: [
          'Electronics of 12 V cars are usually tested with 24 V for 60 s (ISO 16750-2 [from memory]); its own sheet decides.',
        ],
      }),
    ]
  }
  return across <= device.withstands.value
    ? []
    : [
        finding({
          ...base,
          verdict: 'marginal',
          says: `${device.name} stands at ${volts(across)} in “${solved.kase.name}”, above the ${volts(device.withstands.value)} that it survives for a minute.`,
          todo: `Never jump-start this car from ${volts(solved.kase.supply?.value ?? across)}; unplug ${device.name}, or use a 12 V source.`,
          working: [`Solved: ${volts(across)} from its supply to its earth.`],
        }),
      ]
}
