/** Pressure lost on the way as functions of flow, so that the pump can be set against them. */
import { lossByPoint } from '../../engineering/fluids/lossByPoint.ts'
import { pipeLoss } from '../../engineering/fluids/pipeLoss.ts'
import { type Datum, entered, isKnown, known, lacking, lackOf, step } from '../chain/chain.ts'
import type { FuelFacts } from './facts.ts'

/** Drawn tube and rubber hose: 1.5 µm, White, Fluid Mechanics, table 6.1 [from memory]. */
export const SMOOTH = 1.5e-6
type Line = NonNullable<FuelFacts['fuel']['lines']>[number]
export type LineDuty = Line['duty']

export interface Loss {
  /** At a flow; lacking names the data. */
  at(flow: Datum): Datum
  readonly velocity: (flow: Datum) => Datum
  /** The same as a plain figure for solvers, Pa at m³/s; only where `gaps` is empty. */
  readonly pressure: (flow: number) => number
  /** The names of what is not entered; empty when it can be worked out. */
  readonly gaps: readonly string[]
}

const sum = (data: readonly Datum[], lines: string): Datum => {
  const lack = lackOf(data)
  if (lack) return lack
  const terms = data.filter(isKnown)
  return Object.defineProperty(
    {
      value: terms.reduce((total, { value }) => total + value, 0),
      plusMinus: Math.hypot(...terms.map(({ plusMinus }) => plusMinus)),
    },
    'working',
    { get: () => [lines, ...terms.flatMap(({ working }) => working)], enumerable: true },
  ) as unknown as Datum
}

const lineLoss = (line: Line, facts: FuelFacts, gas?: Gas) => {
  const given = {
    bore: entered(line.bore, `bore of ${line.name}`),
    length: entered(line.length, `length of ${line.name}`),
    roughness: known(line.roughness?.value ?? SMOOTH),
    fittings: known(line.fittings?.value ?? 0, line.fittings?.plusMinus ?? 0),
    density: gas ? known(gas.density) : facts.density,
    viscosity: gas ? known(gas.viscosity) : facts.viscosity,
  }
  const value = (datum: Datum): number => (isKnown(datum) ? datum.value : Number.NaN)
  const plain = {
    bore: value(given.bore),
    length: value(given.length),
    roughness: value(given.roughness),
    fittings: value(given.fittings),
    density: value(given.density),
    viscosity: value(given.viscosity),
  }
  return {
    at: (flow: Datum) => step(pipeLoss, { ...given, flow }),
    pressure: (flow: number): number => pipeLoss.compute({ ...plain, flow }).loss,
  }
}
const nothing = (none: Datum, gaps: readonly string[]): Loss => ({
  at: () => none,
  velocity: () => none,
  pressure: () => Number.NaN,
  gaps,
})

/** Dry air at 20 °C, 101 325 Pa: 1.204 kg/m³ (ideal gas), 1.5e-5 m²/s (Çengel & Cimbala, table A-9 [from memory]). */
export const AIR = { density: 1.204, viscosity: 1.5e-5 }

interface Gas {
  readonly density: number
  readonly viscosity: number
}
/** kg/mol of the vapour of a petrol of 10 psi Reid: AP-42 chapter 7.1 worksheets, 66 lb/lbmol [read]. */
export const VAPOUR_MOLAR = 0.066
const AIR_MOLAR = 0.0289645
export const GAS_CONSTANT = 8.314462618
/** Pa·s, air full of petrol vapour: between that of air, 1.8e-5, and of pentane vapour, 0.7e-5 at 40 °C [from memory]. */
const MIXED_VISCOSITY = 1.1e-5
/** What leaves a tank is no air: full of vapour it weighs up to twice as much, and loses as much more. */
export const gasOver = (vapourPressure: number, temperature: number, pressure: number): Gas => {
  const vapour = Math.min(vapourPressure, pressure)
  const density = (vapour * VAPOUR_MOLAR + (pressure - vapour) * AIR_MOLAR) / (GAS_CONSTANT * temperature)
  return { density, viscosity: MIXED_VISCOSITY / density }
}

/** All lines of one duty in a row; a vent with the gas that passes it. */
export const linesOf = (facts: FuelFacts, duty: LineDuty, gas: Gas = AIR): Loss => {
  const lines = (facts.fuel.lines ?? []).filter((line) => line.duty === duty)
  const name = {
    suction: 'the suction line',
    pressure: 'the pressure line',
    return: 'the return line',
    vent: 'the vent line',
  }[duty]
  if (lines.length === 0) {
    const none = lacking(`${name} (bore and length)`)
    return nothing(none, none.missing)
  }
  const losses = lines.map((line) => lineLoss(line, facts, duty === 'vent' ? gas : undefined))
  const at = (flow: Datum): Datum =>
    sum(
      losses.map((loss) => loss.at(flow).loss),
      lines.map((line) => line.name).join(' + '),
    )
  const still = at(known(1e-5))
  return {
    at,
    // The narrowest is the fastest: what counts for a guide of velocity.
    velocity: (flow) => {
      const all = losses.map((loss) => loss.at(flow).velocity)
      const lack = lackOf(all)
      return lack ?? all.filter(isKnown).reduce((fastest, each) => (each.value > fastest.value ? each : fastest))
    },
    pressure: (flow) => losses.reduce((total, loss) => total + loss.pressure(flow), 0),
    gaps: isKnown(still) ? [] : [...still.missing, ...still.problems.map(({ says }) => says)],
  }
}

export const filterLoss = (facts: FuelFacts): Loss => {
  const { filter } = facts.fuel
  const none = lacking('the filter (loss at a flow)')
  if (!filter) return nothing(none, none.missing)
  const given = {
    knownLoss: entered(filter.loss, 'loss of the filter'),
    knownFlow: entered(filter.lossFlow, 'flow of that loss'),
  }
  const lack = lackOf(Object.values(given))
  return {
    at: (flow) => step(lossByPoint, { ...given, knownDensity: facts.density, density: facts.density, flow }).loss,
    velocity: () => none,
    pressure: (flow) => (filter.loss?.value ?? Number.NaN) * (flow / (filter.lossFlow?.value ?? Number.NaN)) ** 2,
    gaps: lack?.missing ?? [],
  }
}

/** Vent valve and canister by their known point, and the vent line. */
export const ventLoss = (facts: FuelFacts, gas: Gas = AIR): Loss => {
  const { tank } = facts.fuel
  const line = linesOf(facts, 'vent', gas)
  const given = {
    knownLoss: entered(tank?.ventLoss, 'loss of vent valve and canister'),
    knownFlow: entered(tank?.ventLossFlow, 'flow of that loss'),
  }
  const lack = lackOf(Object.values(given))
  return {
    at: (flow) =>
      sum(
        [line.at(flow), step(lossByPoint, { ...given, knownDensity: AIR.density, density: gas.density, flow }).loss],
        'vent line + valve and canister',
      ),
    velocity: line.velocity,
    pressure: (flow) =>
      line.pressure(flow) +
      (tank?.ventLoss?.value ?? Number.NaN) *
        (gas.density / AIR.density) *
        (flow / (tank?.ventLossFlow?.value ?? Number.NaN)) ** 2,
    gaps: [...line.gaps, ...(lack?.missing ?? [])],
  }
}

/** Flow at which a loss that rises with flow reaches a limit, m³/s, by halving; undefined where it does not up to `most`. */
export const flowAtLoss = (pressure: (flow: number) => number, limit: number, most: number): number | undefined => {
  if (!(pressure(most) >= limit)) return undefined
  let [low, high] = [0, most]
  for (let turn = 0; turn < 40; turn += 1) {
    const middle = (low + high) / 2
    if (pressure(middle) < limit) low = middle
    else high = middle
  }
  return (low + high) / 2
}
