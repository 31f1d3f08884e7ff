/**
 * Internal resistance of a starter battery in the cold.
 *   R25   as entered, at 25 °C       Ω    above 0
 *   Icc   cold-cranking current      A    above 0, where entered
 *   T     temperature                K
 *   s     state of charge            1    0 … 1
 *   R     resistance                 Ω
 * R at −18 °C = (12.6 V − 7.5 V)/Icc (EN 50342: no less than 7.5 V after 10 s, read), else 2.5 times the warm one: a battery
 * has 100, 65, 40 and 25 % of its power at 27, 0, −18 and −29 °C (80, 32, 0 and −20 °F), mackertautomotive.com [read]; 40 %
 * at 0 °F also modelaclub.com, half at 411answers.com [read]. Straight between warm and −18 °C, which is 0.3 R25 more at
 * 0 °C than 100/65 and so on the safe side; below −18 °C by 40/25 for each 11 K. Warmer than 25 °C as at 25 °C, where it is
 * a little less. × (2 − s): common practice, no published source.
 */
const COLD = 255.15
const WARM = 298.15
const EN_FULL = 12.6
const EN_LEAST = 7.5
/** 100 % of its power at 80 °F over 40 % at 0 °F. */
const COLD_OVER_WARM = 100 / 40
/** 40 % at 0 °F over 25 % at −20 °F. */
const COLDER = 40 / 25
const COLDER_BY = 20 / 1.8

export const coldResistance = (
  warm: number,
  coldCranking: number | undefined,
  temperature: number,
  charge: number,
): number => {
  // A battery is never better in the cold, whatever its label says.
  const cold = Math.max(warm, coldCranking === undefined ? COLD_OVER_WARM * warm : (EN_FULL - EN_LEAST) / coldCranking)
  const share = Math.min(1, Math.max(0, (WARM - temperature) / (WARM - COLD)))
  const deeper = 1 + (COLDER - 1) * Math.max(0, (COLD - temperature) / COLDER_BY)
  return (warm + share * (cold - warm)) * deeper * (2 - charge)
}
