/**
 * Internal resistance of a starter battery in the cold.
 *   R25   as entered, at 25 °C       Ω    above 0
 *   Icc   cold-cranking current      A    above 0, where entered
 *   T     temperature                K
 *   s     state of charge            1    0 … 1
 *   R     resistance                 Ω
 * R at −18 °C = (12.6 V − 7.5 V)/Icc (EN 50342: no less than 7.5 V after 10 s, read), else twice the warm one [from
 * memory]; straight between the two, held beyond them, which a battery at 40 °C or −30 °C does not: common practice, no
 * published source. × (2 − s): common practice, no published source.
 */
const COLD = 255.15
const WARM = 298.15
const EN_FULL = 12.6
const EN_LEAST = 7.5

export const coldResistance = (
  warm: number,
  coldCranking: number | undefined,
  temperature: number,
  charge: number,
): number => {
  // A battery is never better in the cold, whatever its label says.
  const cold = Math.max(warm, coldCranking === undefined ? 2 * warm : (EN_FULL - EN_LEAST) / coldCranking)
  const share = Math.min(1, Math.max(0, (WARM - temperature) / (WARM - COLD)))
  return (warm + share * (cold - warm)) * (2 - charge)
}
