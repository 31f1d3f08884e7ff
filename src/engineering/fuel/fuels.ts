/**
 * Nominal properties of the fuels of a sheet. A fuel at the pump differs: “E85” may hold 51 to 85 % of ethanol.
 * Petrol 745 kg/m³, 43.2 MJ/kg, 14.7 kg/kg; ethanol 794, 26.8, 9.0; methanol 794, 20.1, 6.47: US DOE AFDC fuel property
 * tables [read], Heywood table D.4 [from memory]. Kinematic viscosity at 20 °C: petrol 0.5 to 0.6, ethanol 1.50, methanol
 * 0.74 mm²/s, the same tables [read]; of blends by logarithms over volume (common practice, no published source).
 */
export interface FuelProperties {
  /** kg/m³ at 15 °C. */
  readonly density: number
  /** Lower heating value, J/kg. */
  readonly heatingValue: number
  /** Air to fuel by mass at lambda 1. */
  readonly stoichiometric: number
  /** m²/s at 20 °C. */
  readonly viscosity: number
  /** Share of ethanol by volume; undefined where the fuel is no blend of petrol. */
  readonly ethanol: number | undefined
}
export const PETROL: FuelProperties = {
  density: 745,
  heatingValue: 43.2e6,
  stoichiometric: 14.7,
  viscosity: 5.5e-7,
  ethanol: 0,
}
export const ETHANOL: FuelProperties = {
  density: 794,
  heatingValue: 26.8e6,
  stoichiometric: 9,
  viscosity: 1.5e-6,
  ethanol: 1,
}
const METHANOL: FuelProperties = {
  density: 794,
  heatingValue: 20.1e6,
  stoichiometric: 6.47,
  viscosity: 7.4e-7,
  ethanol: undefined,
}
/** Density mixes by volume, the rest by mass (ideal mixing); EN 228's 3.7 % of oxygen at 10 % of ethanol bears it out. */
export const blend = (ethanol: number): FuelProperties => {
  const density = (1 - ethanol) * PETROL.density + ethanol * ETHANOL.density
  const mass = (ethanol * ETHANOL.density) / density
  const mix = (petrol: number, other: number): number => (1 - mass) * petrol + mass * other
  return {
    density,
    heatingValue: mix(PETROL.heatingValue, ETHANOL.heatingValue),
    stoichiometric: mix(PETROL.stoichiometric, ETHANOL.stoichiometric),
    viscosity: Math.exp((1 - ethanol) * Math.log(PETROL.viscosity) + ethanol * Math.log(ETHANOL.viscosity)),
    ethanol,
  }
}
export const FUELS = {
  E0: PETROL,
  E5: blend(0.05),
  E10: blend(0.1),
  E85: blend(0.85),
  methanol: METHANOL,
} as const
export type FuelName = keyof typeof FUELS
