/** Darcy friction factor of a round pipe, 1. Laminar below Re 2300, Colebrook above 4000, the greater of both between. */

const LAMINAR_TO = 2300
const TURBULENT_FROM = 4000

/** Haaland's explicit form, within 2 % of Colebrook: where Newton's iteration starts. White, Fluid Mechanics [from memory]. */
export const haaland = (reynolds: number, roughness: number): number =>
  (-1.8 * Math.log10((roughness / 3.7) ** 1.11 + 6.9 / reynolds)) ** -2

/** Colebrook's equation solved for f by Newton on x = 1/√f; three steps reach rounding. */
export const colebrook = (reynolds: number, roughness: number): number => {
  let x = haaland(reynolds, roughness) ** -0.5
  for (let step = 0; step < 6; step += 1) {
    const inside = roughness / 3.7 + (2.51 * x) / reynolds
    const error = x + 2 * Math.log10(inside)
    const slope = 1 + (2 / Math.LN10) * (2.51 / reynolds / inside)
    x -= error / slope
  }
  return x ** -2
}

/**
 * `roughness` is ε/d. Between Re 2300 and 4000 a pipe may run either way: the greater factor stands, so that a loss is
 * not called small because the flow might be laminar.
 */
export const frictionFactor = (reynolds: number, roughness: number): number => {
  const laminar = 64 / reynolds
  if (reynolds < LAMINAR_TO) return laminar
  const turbulent = colebrook(Math.max(reynolds, LAMINAR_TO), roughness)
  return reynolds < TURBULENT_FROM ? Math.max(laminar, turbulent) : turbulent
}
