/** Rules `clutch-torque`, `gearbox-torque`, `mount-load`, `propshaft-torque` and `axle-torque`: each part against what it sees. */
import { combine, type Datum, entered, isKnown, type Known, known } from '../chain/chain.ts'
import { type Judged, linesOfWorking, unknownFor } from '../chain/judged.ts'
import type { Verdict } from '../finding.ts'
import { finding, list } from '../make.ts'
import type { DrivelineChain } from './chain.ts'
import { torquesOf } from './torques.ts'
import { against, BASE, gearName, HOLDS, newtonMetres, newtons } from './words.ts'

interface Held {
  readonly station: string
  readonly rule: string
  readonly about: string
  /** `Whether the clutch holds` … is not known. */
  readonly whether: string
  /** Steady load, no more than the tyres pass, and what is stood. */
  readonly seen: Datum
  readonly stood: Datum
  /** For a moment: at worst marginal. */
  readonly shock?: Datum
  readonly part?: string
  readonly says: (seen: Known, stood: Known, verdict: Verdict) => string
  readonly remedy: (seen: Known, stood: Known) => string
  /** Where only a dropped clutch is too much. */
  readonly gently?: string
}

/** The torque at greatest power is the least that the greatest can be: it can show a part too weak, never strong enough. */
const PEAK = 'greatest torque of the engine'

const hold = ({ facts }: DrivelineChain, held: Held): Judged => {
  const base = { ...BASE, rule: held.rule, about: held.about, ...(held.part ? { part: held.part } : {}) }
  const made = (draft: Omit<Parameters<typeof finding>[0], keyof typeof base>): Judged => ({
    station: held.station,
    finding: finding({ ...base, ...draft }),
  })
  const { seen, stood, shock } = held
  if (!isKnown(seen) || !isKnown(stood)) return made(unknownFor(`Whether ${held.whether}`, seen, stood))
  const steady = against(seen, stood)
  const momentary = shock && isKnown(shock) ? against(shock, stood) : 'sound'
  const verdict: Verdict = steady === 'sound' && momentary !== 'sound' ? 'marginal' : steady
  if (facts.torqueIsLeast && verdict !== 'no-go')
    return made({
      verdict: 'unknown',
      says: `${held.says(seen, stood, 'unknown')} That is with the torque at greatest power; the greatest torque is more and is not entered.`,
      todo: `Enter the ${PEAK}, or its torque curve.`,
      missing: PEAK,
      working: linesOfWorking(seen, stood),
    })
  const jolt =
    shock && isKnown(shock) && momentary !== 'sound' && steady === 'sound'
      ? ` A dropped clutch puts ${newtonMetres(shock)} on it for a moment.`
      : ''
  return made({
    verdict,
    says: `${held.says(seen, stood, verdict)}${jolt}${verdict === 'sound' ? ` ${HOLDS}` : ''}`,
    todo:
      verdict === 'sound'
        ? 'Have a qualified person inspect it.'
        : steady === 'sound' && held.gently
          ? held.gently
          : held.remedy(seen, stood),
    working: linesOfWorking(seen, stood, ...(shock ? [shock] : [])),
  })
}

const times = (stood: Known, seen: Known): string => `${(stood.value / seen.value).toFixed(2)} times it`

const clutchFinding = (chain: DrivelineChain): Judged =>
  hold(chain, {
    station: 'clutch',
    rule: 'clutch-torque',
    about: 'Clutch against the engine’s torque',
    whether: 'the clutch holds',
    seen: chain.facts.torque,
    stood: chain.worst.clutch,
    says: (seen, stood) =>
      `The clutch passes ${newtonMetres(stood)} of the engine’s ${newtonMetres(seen)}, ${times(stood, seen)}; makers give 1.25 to 1.5 times.`,
    remedy: (seen, stood) =>
      `A cover of ${((1.25 * (seen.value + seen.plusMinus)) / stood.value).toFixed(2)} times the clamping force, a larger plate or a lining of more friction; the release gear and the pedal must suit it. Until then hold the engine’s torque to ${Math.max(0, stood.value - stood.plusMinus).toFixed(0)} N·m.`,
  })

const gearboxFinding = (chain: DrivelineChain): Judged =>
  hold(chain, {
    station: 'gearbox',
    rule: 'gearbox-torque',
    about: 'Gearbox against the engine’s torque',
    whether: 'the gearbox stands the torque',
    seen: chain.facts.torque,
    stood: chain.worst.capacities.gearbox,
    says: (seen, stood) =>
      `The gearbox is rated for ${newtonMetres(stood)} at its input and gets ${newtonMetres(seen)} in the gears in which the tyres pass it.`,
    remedy: (_seen, stood) =>
      `A stronger gearbox, or the controller’s torque held to ${(stood.value - stood.plusMinus).toFixed(0)} N·m gear by gear.`,
  })

/** Gears in which the axle gets more than its rating, by their names. */
const gearsOver = (chain: DrivelineChain, rated: Known): readonly string[] =>
  chain.facts.now.ratios.flatMap((_ratio, at) => {
    const { atAxle } = torquesOf(chain.facts, at, chain.worst.load)
    return isKnown(atAxle) && against(atAxle, rated) !== 'sound' ? [gearName(at)] : []
  })

const axleFinding = (chain: DrivelineChain): Judged => {
  const { facts, worst } = chain
  const limitedByTyres =
    isKnown(worst.gripAsEngine) && isKnown(facts.torque) && worst.gripAsEngine.value < facts.torque.value
  return hold(chain, {
    station: 'axle',
    rule: 'axle-torque',
    about: 'Axle against the torque at the wheels',
    whether: 'the axle stands the torque',
    seen: worst.atAxle,
    shock: worst.shockAtAxle,
    stood: entered(facts.sheet.axleTorque, 'rated output of the axle'),
    gently: 'Never drop the clutch; an axle rated for that too, if it must stand it.',
    says: (seen, stood) =>
      `The axle is rated for ${newtonMetres(stood)} at the wheels and gets ${newtonMetres(seen)} in 1st gear, ${worst.load}${limitedByTyres ? ': there the tyres spin' : ''}${facts.driven === 'all' ? '; that is both axles together, which share it' : ''}.`,
    remedy: (_seen, stood) => {
      const over = gearsOver(chain, stood)
      const capacity = worst.capacities.axle
      return `An axle rated for it${isKnown(capacity) ? `, or the controller’s torque held to ${(capacity.value - capacity.plusMinus).toFixed(0)} N·m in 1st gear` : ''}${over.length > 1 ? `; more than its rating comes in ${list(over)}` : ''}. Never drop the clutch.`
    },
  })
}

const shaftFindings = (chain: DrivelineChain): Judged[] => {
  const { worst, facts } = chain
  if (!chain.parts.includes('shaft')) return []
  return [
    hold(chain, {
      station: 'shaft',
      rule: 'propshaft-torque',
      about: 'Propeller shaft against torque',
      whether: 'the propeller shaft’s tube stands the torque',
      seen: worst.atShaft,
      shock: worst.shockAtShaft,
      stood: worst.yieldTorque,
      says: (seen, stood) =>
        `The propeller shaft’s tube yields at ${newtonMetres(stood)}; in 1st gear, ${worst.load}, it gets ${newtonMetres(seen)}${!isKnown(worst.shockAtShaft) ? '' : worst.shockAtShaft.value > seen.value * 1.001 ? `, and ${newtonMetres(worst.shockAtShaft)} with the clutch dropped` : '; a dropped clutch adds nothing, since the tyres spin'}.`,
      gently: 'Never drop the clutch; a tube of larger outside or stronger steel, if it must stand it.',
      remedy: () =>
        'A tube of larger outside or stronger steel, made and balanced by a specialist. Never drop the clutch.',
    }),
    hold(chain, {
      station: 'joints',
      rule: 'propshaft-torque',
      part: 'joints',
      about: 'Joints against torque',
      whether: 'the propeller shaft’s joints stand the torque',
      seen: worst.atShaft,
      shock: worst.shockAtShaft,
      stood: entered(facts.sheet.jointTorque, 'torque that the propeller shaft’s joints are rated for'),
      says: (seen, stood) =>
        `The joints are rated for ${newtonMetres(stood)} and get ${newtonMetres(seen)} in 1st gear, ${worst.load}.`,
      gently: 'Never drop the clutch; joints of the next size, if they must stand it.',
      remedy: () => 'Joints of the next size, with yokes to suit, by a specialist.',
    }),
  ]
}

const mountFinding = (chain: DrivelineChain): Judged => {
  const { worst, facts } = chain
  const rated = entered(facts.sheet.mounts?.rated, 'force that each engine mount stands')
  const { mountHeavy, mountLight, mountTorque } = worst
  const pulled = isKnown(mountLight) && mountLight.value < 0
  // Pulled as hard as pressed: the larger of both counts.
  const seen = combine(
    [mountHeavy, mountLight],
    (down = 0, up = 0) => Math.max(down, -up),
    'The larger of the force that presses one mount and the force that pulls the other',
  )
  const base: Held = {
    station: 'mounts',
    rule: 'mount-load',
    about: 'Engine mounts against torque',
    whether: 'the engine mounts stand the torque',
    seen,
    stood: rated,
    says: (load, stood) =>
      `One mount is pressed with ${newtons(load)} of the ${newtons(stood)} it stands${pulled ? ` and the other pulled with ${newtons(known(-mountLight.value, mountLight.plusMinus))}` : ''}${isKnown(mountTorque) ? `, at ${newtonMetres(mountTorque)} in 1st gear, ${worst.load}` : ''}.${pulled ? ' A mount that is pulled must be of a kind that holds when its rubber tears.' : ''}`,
    remedy: () => 'Mounts of a higher rating, farther apart, or a torque stay; have their brackets looked at.',
  }
  return hold(chain, base)
}

export const torqueFindings = (chain: DrivelineChain): Judged[] => [
  clutchFinding(chain),
  gearboxFinding(chain),
  mountFinding(chain),
  ...shaftFindings(chain),
  axleFinding(chain),
]
