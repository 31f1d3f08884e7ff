/** Rules `heater-bypass`, `heater-heat`, `steering-at-idle`. */
import { isKnown } from '../chain/chain.ts'
import { type Judged, linesOfWorking, unknownFor } from '../chain/judged.ts'
import type { Verdict } from '../finding.ts'
import { finding, HOT_CAUTION } from '../make.ts'
import type { ServicesChain } from './chain.ts'
import { BELT_CAUTION, kilowatt, newtonMetres } from './words.ts'

const NEVER_OPEN = 'Never open the cooling system hot: it is under pressure and scalds.'
const HEATER = { system: 'services', subject: 'sheet/cabin', cautions: [NEVER_OPEN, HOT_CAUTION] } as const
const BYPASS =
  'Coolant must pass the head and the thermostat before it opens: common practice, no published source; the engine’s cooling diagram decides'

const bypassFinding = ({ facts }: ServicesChain): Judged[] => {
  const { state, bypass } = facts.cabin.heater ?? {}
  const base = {
    ...HEATER,
    rule: 'heater-bypass',
    about: 'Heater circuit as the engine’s bypass',
    working: [BYPASS],
  } as const
  const stopped = state === 'connections blanked' || state === 'shut off by a tap'
  const lacks =
    bypass === undefined && state !== 'in the circuit' && state !== 'matrix bridged'
      ? 'whether the engine’s coolant bypass runs through the heater'
      : bypass === true && state === undefined
        ? 'how the heater circuit runs'
        : undefined
  const put = (rest: { verdict: Verdict; says: string; todo: string; missing?: string }): Judged[] => [
    { station: 'heater', finding: finding({ ...base, ...rest }) },
  ]
  if (lacks)
    return put({
      verdict: 'unknown',
      says: `It is not known ${lacks}.`,
      todo: `Look at the engine’s cooling diagram and enter ${lacks}.`,
      missing: lacks,
    })
  if (bypass && stopped)
    return put({
      verdict: 'no-go',
      says: `The engine’s coolant bypass runs through the heater, and that is ${state === 'connections blanked' ? 'blanked' : 'shut off by a tap'}: with the thermostat shut the coolant stands in the head and boils there, and the thermostat does not feel it.`,
      todo: 'Do not start it. Bridge the two connections with a hose of their own bore, or lead them through the heater.',
    })
  return put({
    verdict: 'sound',
    says: bypass
      ? 'The engine’s coolant bypass runs through the heater circuit, which is open.'
      : 'The engine does not need the heater circuit as its bypass, or has it open.',
    todo: 'Nothing.',
  })
}

const heatFinding = ({ heater }: ServicesChain): Judged => {
  const base = { ...HEATER, rule: 'heater-heat', about: 'Heat to the cabin' } as const
  const { heat, wanted, airOut } = heater
  if (!isKnown(heat) || !isKnown(wanted))
    return {
      station: 'heater',
      finding: finding({ ...base, ...unknownFor('Whether the heater warms the cabin', heat, wanted) }),
    }
  const verdict: Verdict = heat.value - heat.plusMinus < wanted.value ? 'marginal' : 'sound'
  return {
    station: 'heater',
    finding: finding({
      ...base,
      verdict,
      says: `Warm, the heater gives ${kilowatt(heat)} of the ${kilowatt(wanted)} that the cabin asks for${isKnown(airOut) ? `; its air leaves at ${(airOut.value - 273.15).toFixed(0)} °C` : ''}.`,
      todo:
        verdict === 'sound'
          ? 'Nothing.'
          : 'More air or a larger matrix; then coolant flow. A screen that does not clear fails an inspection.',
      working: linesOfWorking(heater.effectiveness, heat),
    }),
  }
}

const steeringFinding = ({ steering, facts }: ServicesChain): Judged[] => {
  const { kind } = facts.cabin.steering ?? {}
  const base = {
    system: 'services',
    subject: 'sheet/cabin',
    rule: 'steering-at-idle',
    about: 'Steering pump at idle',
    cautions: [BELT_CAUTION, 'Steering is for a qualified person to inspect: nothing here judges it.'],
  } as const
  if (kind === 'none' || kind === 'electric') return []
  const { torque, spare, power } = steering
  if (kind === undefined)
    return [
      {
        station: 'steering',
        finding: finding({
          ...base,
          verdict: 'unknown',
          says: 'What helps the steering is not entered.',
          todo: 'Enter none, a pump by belt, or electric.',
          missing: 'what helps the steering',
        }),
      },
    ]
  if (!isKnown(torque) || !isKnown(spare))
    return [
      {
        station: 'steering',
        finding: finding({ ...base, ...unknownFor('Whether idle carries the steering pump', torque, spare) }),
      },
    ]
  const verdict: Verdict = torque.value + torque.plusMinus > spare.value - spare.plusMinus ? 'marginal' : 'sound'
  return [
    {
      station: 'steering',
      finding: finding({
        ...base,
        verdict,
        says: `On full lock at idle the pump takes ${isKnown(power) ? `${kilowatt(power)}, ` : ''}${newtonMetres(torque)} at the crankshaft; idle can spare ${newtonMetres(spare)}.`,
        todo:
          verdict === 'sound'
            ? 'Nothing.'
            : 'Wire the steering’s pressure switch to the controller so that idle is raised before the load comes, or raise idle.',
        working: linesOfWorking(power, torque),
      }),
    },
  ]
}

export const cabinFindings = (chain: ServicesChain): Judged[] => {
  const { heater, steering } = chain.facts.cabin
  return [...(heater ? [...bypassFinding(chain), heatFinding(chain)] : []), ...(steering ? steeringFinding(chain) : [])]
}
