/** Heater and steering: what the matrix gives the cabin, and what the pump takes from an idling engine. */
import { AIR_CONSTANT, AIR_HEAT } from '../../engineering/air/sources.ts'
import { coolantProperties } from '../../engineering/cooling/coolantProperties.ts'
import { heatExchanger } from '../../engineering/heat/heatExchanger.ts'
import { pumpDrive, VANE_EFFICIENCY } from '../../engineering/services/pumpDrive.ts'
import { streamHeat } from '../../engineering/services/streamHeat.ts'
import { combine, type Datum, entered, step } from '../chain/chain.ts'
import { enteredOr, type ServiceFacts } from './facts.ts'

export interface Heater {
  readonly flowOnSheet: Datum
  readonly flow: Datum
  readonly coolantIn: Datum
  readonly airFlow: Datum
  readonly airIn: Datum
  readonly effectiveness: Datum
  readonly heat: Datum
  readonly airOut: Datum
  readonly coolantFall: Datum
  /** At idle, the flow in proportion to speed. */
  readonly idleFlow: Datum
  readonly wanted: Datum
}

export const heaterOf = ({ cabin, build, readings, outsidePressure, idleSpeed }: ServiceFacts): Heater => {
  const { heater } = cabin
  const { cooling } = build.sheets
  const flowOnSheet = entered(heater?.coolantFlow, 'coolant flow through the heater')
  const flow = readings['heater-coolant-flow'] ?? flowOnSheet
  const coolantIn = entered(cooling?.thermostat, 'opening temperature of the thermostat')
  const liquid = step(coolantProperties, {
    glycol: entered(cooling?.glycolFraction, 'glycol in the coolant'),
    temperature: coolantIn,
  })
  const airFlow = entered(heater?.airFlow, 'air flow through the heater')
  const airIn = entered(heater?.outside, 'temperature of the air into the heater')
  const hotRate = combine(
    [flow, liquid.density, liquid.specificHeat],
    (q = 0, rho = 0, c = 0) => q * rho * c,
    'Heat capacity rate of the coolant: flow × density × specific heat',
  )
  const coldRate = combine(
    [airFlow, outsidePressure, airIn],
    (q = 0, p = 0, t = 1) => ((q * p) / (AIR_CONSTANT.value * t)) * AIR_HEAT.value,
    `Heat capacity rate of the air: flow × p/(R·T) × ${AIR_HEAT.value} J/(kg·K)`,
  )
  const matrix = step(heatExchanger, {
    arrangement: 'crossflow, both unmixed',
    conductance: entered(heater?.conductance, 'conductance of the heater’s matrix'),
    hotRate,
    coldRate,
    hotIn: coolantIn,
    coldIn: airIn,
  })
  return {
    flowOnSheet,
    flow,
    coolantIn,
    airFlow,
    airIn,
    effectiveness: matrix.effectiveness,
    heat: matrix.heat,
    airOut: matrix.coldOut,
    coolantFall: step(streamHeat, {
      heat: matrix.heat,
      flow,
      density: liquid.density,
      specificHeat: liquid.specificHeat,
    }).change,
    idleFlow: combine(
      [flow, idleSpeed, entered(heater?.flowSpeed, 'engine speed at which the heater’s flow is known')],
      (q = 0, idle = 0, at = 1) => (q * idle) / at,
      'Flow at idle = known flow × idle speed / its engine speed (affinity laws)',
    ),
    wanted: entered(heater?.wanted, 'heat that the cabin asks for'),
  }
}

export interface Steering {
  readonly flow: Datum
  readonly relief: Datum
  readonly efficiency: Datum
  readonly power: Datum
  readonly torque: Datum
  readonly spare: Datum
  readonly pull: Datum
}

export const steeringOf = ({ cabin, idleSpeed }: ServiceFacts): Steering => {
  const { steering } = cabin
  const flow = entered(steering?.pumpFlow, 'flow of the steering pump at idle')
  const relief = entered(steering?.relief, 'pressure of the steering pump’s relief valve')
  const efficiency = enteredOr(steering?.efficiency, 'efficiency of the steering pump', VANE_EFFICIENCY)
  const drive = step(pumpDrive, { flow, pressure: relief, efficiency, speed: idleSpeed })
  return {
    flow,
    relief,
    efficiency,
    power: drive.power,
    torque: drive.torque,
    spare: entered(cabin.idleTorque, 'torque that the engine can spare at idle'),
    pull: combine(
      [drive.torque, entered(steering?.crankPulley, 'diameter of the crankshaft’s pulley')],
      (torque = 0, across = 1) => (2 * torque) / across,
      'Pull of the belt = torque / radius of the crankshaft’s pulley, over its tension at rest',
    ),
  }
}
