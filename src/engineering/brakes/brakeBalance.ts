/**
 * Brake forces against wheel loads.   pr = p up to ps, then ps + s·(p − ps); z = (Gf·p + Gr·pr)/(g·m); N = g·(m1 ± m·z·h/L); f = B/N
 *   p   line pressure           Pa    0 … 3e7
 *   Gf  gain, front             m²    0 … 0.05
 *   Gr  gain, rear              m²    0 … 0.05
 *   ps  valve begins            Pa    0 … 3e7
 *   s   valve’s slope           1     0 … 1
 *   m1  mass on the front axle  kg    50 … 2e4
 *   m2  mass on the rear axle   kg    50 … 2e4
 *   h   centre of gravity       m     0.1 … 2.5
 *   L   wheelbase               m     0.8 … 8
 *   pr  pressure at the rear    Pa
 *   z   braking rate            1
 *   dm  deceleration            m/s²
 *   Bf  force, front            N
 *   Br  force, rear             N
 *   Nf  load, front             N
 *   Nr  load, rear              N
 *   ff  adhesion used, front    1
 *   fr  adhesion used, rear     1
 * Errors: `out-of-range`, `inconsistent-inputs` where the rear wheels lift. Limits: no wheel locks; level road; no air drag.
 * Source: Gillespie, chapter 3, example with valve 290/0.30 [from memory]; load transfer, machinecalcs.com [read].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { G, GRAVITY, INCH, POUND, POUND_FORCE, PSI } from '../exactUnits.ts'
import { gillespie, limpert } from './sources.ts'

const pressure = (symbol: string, about: string) => quantity('pressureGauge', { symbol, min: 0, max: 3e7, about })
const gain = (symbol: string, about: string) => quantity('area', { symbol, min: 0, max: 0.05, about })
const mass = (symbol: string, about: string) =>
  quantity('mass', { symbol, min: 50, max: 2e4, plausible: [150, 2500], about })

/** Rear pressure behind a valve that begins at `split` and passes on `slope` of what comes beyond. */
export const behindValve = (line: number, split: number, slope: number): number =>
  line <= split ? line : split + slope * (line - split)

const CAR = {
  frontGain: (40 / 12.11) * INCH * INCH,
  rearGain: (28 / 12.11) * INCH * INCH,
  split: 290 * PSI,
  slope: 0.3,
  frontMass: 2210 * POUND,
  rearMass: 1864 * POUND,
  height: 20.5 * INCH,
  wheelbase: 108.5 * INCH,
}
const example = (psi: number) => ({
  ...gillespie,
  where: `chapter 3, example of a car in steps of 100 lbf/in², valve 290/0.30: row ${psi} lbf/in²`,
})
const row = (psi: number, output: string, expected: number, abs: number) => ({
  inputs: { line: psi * PSI, ...CAR },
  output,
  expected,
  tolerance: { abs },
  because: 'last digit printed',
  source: example(psi),
  evidence: 'published' as const,
})
const grip = (forces: { readonly line: number } & typeof CAR) => {
  const rearPressure = behindValve(forces.line, forces.split, forces.slope)
  const frontForce = forces.frontGain * forces.line
  const rearForce = forces.rearGain * rearPressure
  const total = forces.frontMass + forces.rearMass
  const rate = (frontForce + rearForce) / (G * total)
  const moved = (G * total * rate * forces.height) / forces.wheelbase
  return { rearPressure, frontForce, rearForce, rate, moved, rearLoad: G * forces.rearMass - moved }
}

export const brakeBalance = calculation({
  id: 'brake-balance',
  title: 'Deceleration, axle loads and the adhesion each axle uses',
  inputs: {
    line: pressure('p', 'line pressure'),
    frontGain: gain('Gf', 'brake force of the front axle for each unit of its pressure; 0 with that circuit failed'),
    rearGain: gain('Gr', 'brake force of the rear axle for each unit of its pressure; 0 with that circuit failed'),
    split: pressure('ps', 'line pressure at which the rear valve begins; without a valve any, with slope 1'),
    slope: quantity('ratio', { symbol: 's', min: 0, max: 1, about: 'share passed on beyond it; 1 without a valve' }),
    frontMass: mass('m1', 'mass on the front axle, standing'),
    rearMass: mass('m2', 'mass on the rear axle, standing'),
    height: quantity('length', {
      symbol: 'h',
      min: 0.1,
      max: 2.5,
      plausible: [0.35, 1],
      about: 'height of the centre of gravity',
    }),
    wheelbase: quantity('length', { symbol: 'L', min: 0.8, max: 8, plausible: [1.8, 3.8], about: 'wheelbase' }),
  },
  outputs: {
    rearPressure: result('pressureGauge', { symbol: 'pr', about: 'pressure at the rear brakes' }),
    rate: result('ratio', { symbol: 'z', about: 'braking rate: deceleration over gravity' }),
    deceleration: result('acceleration', { symbol: 'dm', about: 'deceleration' }),
    frontForce: result('force', { symbol: 'Bf', about: 'brake force of the front axle' }),
    rearForce: result('force', { symbol: 'Br', about: 'brake force of the rear axle' }),
    frontLoad: result('force', { symbol: 'Nf', about: 'load on the front axle while braking' }),
    rearLoad: result('force', { symbol: 'Nr', about: 'load on the rear axle while braking' }),
    frontUsed: result('ratio', { symbol: 'ff', about: 'adhesion that the front tyres use' }),
    rearUsed: result('ratio', { symbol: 'fr', about: 'adhesion that the rear tyres use' }),
  },
  constants: { gravity: { symbol: 'g', value: G, unit: 'm/s²', source: GRAVITY } },
  conditions: [
    {
      at: 'line',
      holds: (inputs) => grip(inputs).rearLoad > 0,
      says: 'At this pressure the rear wheels would leave the road.',
      todo: 'Look at the height of the centre of gravity and at pressure and gains; the tyres lock long before.',
    },
  ],
  formula:
    '{rearPressure} = {line} up to {split}, then {split} + {slope} × ({line} − {split})\n{frontForce} = {frontGain} × {line}\n{rearForce} = {rearGain} × {rearPressure}\n{rate} = ({frontForce} + {rearForce}) / ({gravity} × ({frontMass} + {rearMass}))\n{deceleration} = {rate} × {gravity}\n{frontLoad} = {gravity} × ({frontMass} + ({frontMass} + {rearMass}) × {rate} × {height} / {wheelbase})\n{rearLoad} = {gravity} × ({frontMass} + {rearMass}) − {frontLoad}\n{frontUsed} = {frontForce} / {frontLoad}\n{rearUsed} = {rearForce} / {rearLoad}',
  sources: [gillespie, limpert],
  cautions: ['Rear wheels that lock first turn the car round. The figures are no test: prove them on a brake tester.'],
  limits: [
    'Holds until a wheel locks. Left and right alike, level road, no air drag, no engine braking, no help of anti-lock.',
  ],
  checks: [
    row(100, 'rate', 0.138, 5e-4),
    row(300, 'rearUsed', 0.437, 1e-3),
    row(700, 'frontUsed', 0.818, 1e-3),
    row(700, 'rearPressure', 413 * PSI, 0.6 * PSI),
    {
      // Weight moved is what the front gains over standing: 1500 kg, 55 % front, 0.9 g.
      inputs: {
        line: 1e7,
        frontGain: (0.9 * G * 1500) / 1e7,
        rearGain: 0,
        split: 3e7,
        slope: 1,
        frontMass: 825,
        rearMass: 675,
        height: 0.52,
        wheelbase: 2.7,
      },
      output: 'frontLoad',
      expected: G * (825 + 260),
      tolerance: { rel: 1e-3 },
      because: 'printed as about 260 kg',
      source: {
        title: 'Weight transfer, machinecalcs.com',
        where: '1500 kg, 55 % front, 520 mm, 2700 mm, 0.9 g: 260 kg',
        how: 'read',
      },
      evidence: 'published',
    },
    {
      inputs: { line: 100 * PSI, ...CAR },
      output: 'frontForce',
      expected: 330 * POUND_FORCE,
      tolerance: { rel: 2e-3 },
      because: 'last digit printed',
      source: example(100),
      evidence: 'published',
    },
  ],
  compute: (inputs) => {
    const { rearPressure, frontForce, rearForce, rate, moved, rearLoad } = grip(inputs)
    const frontLoad = G * inputs.frontMass + moved
    return {
      rearPressure,
      rate,
      deceleration: rate * G,
      frontForce,
      rearForce,
      frontLoad,
      rearLoad,
      frontUsed: frontForce / frontLoad,
      rearUsed: rearForce / rearLoad,
    }
  },
})
