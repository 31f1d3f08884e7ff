/** The calculations of heat in the order a person meets them. */
import type { Calculation } from '../calculation.ts'
import { coupledExchangers } from './coupledExchangers.ts'
import { exchangerConductance } from './exchangerConductance.ts'
import { heatExchanger } from './heatExchanger.ts'
import { storedHeat } from './storedHeat.ts'
import { timeToTemperature } from './timeToTemperature.ts'

export const heatCalculations: readonly Calculation[] = [
  heatExchanger,
  exchangerConductance,
  coupledExchangers,
  storedHeat,
  timeToTemperature,
]
