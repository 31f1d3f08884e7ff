/**
 * Rule `brake-fluid`: a measured temperature against the boiling point of the fluid. How hot the fluid gets cannot be
 * reckoned from the iron: pads, pistons and air lie between. So without a measurement the verdict is `unknown`.
 */
import { isKnown } from '../chain/chain.ts'
import { type Judged, linesOfWorking, unknownFor } from '../chain/judged.ts'
import type { Verdict } from '../finding.ts'
import { celsius, finding } from '../make.ts'
import type { BrakeChain } from './chain.ts'
import { BASE, HOLDS, kelvins } from './words.ts'

/** Where heat comes to the fluid first: the axle with the hotter iron, and whether that is above the boiling point. */
const ironWords = ({ heat, fluid: { boiling } }: BrakeChain): string => {
  const { front, rear } = { front: heat.front.end, rear: heat.rear.end }
  if (!isKnown(front) || !isKnown(rear)) return ''
  const [axle, hot] = front.value >= rear.value ? (['front', front] as const) : (['rear', rear] as const)
  const more = isKnown(boiling)
    ? hot.value > boiling.value
      ? `, ${kelvins(hot.value - boiling.value)} above that boiling point`
      : ', below that boiling point'
    : ''
  return ` After the row of stops the ${axle} iron is the hotter, ${celsius(hot.value)}${more}: if any fluid boils it is that axle’s first. How much of it reaches the fluid is not reckoned.`
}

const boilsWords = ({ facts, fluid }: BrakeChain): string => {
  const { kind, age } = facts.brakes.fluid ?? {}
  if (!isKnown(fluid.boiling)) return ''
  return fluid.tested
    ? ` The fluid boils at ${celsius(fluid.boiling.value)} by the tester.`
    : ` ${kind}, ${age}: it boils at ${celsius(fluid.boiling.value)} or above, the least for it ${age === 'just filled' ? 'dry' : 'wet'} (FMVSS 116).`
}

export const fluidFindings = (chain: BrakeChain): Judged[] => {
  const { facts, fluid } = chain
  const { boiling, margin, temperature, old } = fluid
  const draft = { ...BASE, rule: 'brake-fluid', about: 'Boiling of the brake fluid' } as const
  const aged = old
    ? ' Fluid that old may have taken up more water than the standard’s wet fluid holds, and boil lower.'
    : facts.brakes.fluid?.age === 'just filled' && !fluid.tested
      ? ' That is dry fluid: it takes up water from the first day, judge it wet for the years to come.'
      : ''
  if (!isKnown(margin) || !isKnown(boiling) || !isKnown(temperature)) {
    const lack = unknownFor('Whether the brake fluid boils', boiling, temperature)
    return [
      {
        station: 'fluid',
        finding: finding({
          ...draft,
          ...lack,
          says: `${lack.says}${boilsWords(chain)}${ironWords(chain)}${aged}`,
          todo: isKnown(temperature)
            ? lack.todo
            : `${lack.todo} For the temperature: a spot of temperature paint or a thermocouple on the caliper by the piston, read after the row of stops and ten minutes later, when the heat has soaked in.`,
        }),
      },
    ]
  }
  const judged: Verdict =
    margin.value + margin.plusMinus < 0 ? 'no-go' : margin.value - margin.plusMinus <= 0 ? 'marginal' : 'sound'
  const verdict: Verdict = judged === 'sound' && old ? 'marginal' : judged
  return [
    {
      station: 'fluid',
      finding: finding({
        ...draft,
        verdict,
        says: `The hottest fluid, as measured, is ${celsius(temperature.value)}: ${
          margin.value < 0
            ? `${kelvins(-margin.value)} above the boiling point.`
            : `${kelvins(margin.value)}${margin.plusMinus > 0 ? ` ± ${kelvins(margin.plusMinus)}` : ''} below the boiling point.`
        }${boilsWords(chain)}${aged} That holds for a row of stops like the measured one, near sea level.${verdict === 'sound' ? ` ${HOLDS}` : ''}`,
        todo:
          verdict === 'sound'
            ? 'Have a qualified person inspect it; change the fluid as its maker says.'
            : 'Fresh fluid from a sealed tin, of the kind that the car’s seals stand: DOT 5 is silicone and never mixes with the others. Have the old tested. Then, if still too hot: more iron, cooling air, or shims that keep the heat from the pistons.',
        working: linesOfWorking(boiling, temperature, margin),
      }),
    },
  ]
}
