/**
 * Ready circuits that size themselves for this car. `patterns` lists them with what each asks for; `applyPattern` gives
 * the edit that adds one, the reasons for every wire and fuse, and what the assessment then says against it.
 */
import type { Build } from '../../model/build.ts'
import { refuse } from '../../units/problem.ts'
import { assess } from '../assess.ts'
import { list } from '../make.ts'
import { readAnswers } from './answers.ts'
import { blower } from './blower.ts'
import { canPair } from './canPair.ts'
import { controllerSupply } from './controllerSupply.ts'
import { coolerPump } from './coolerPump.ts'
import { crankAndCam } from './crankAndCam.ts'
import { diagnosticSocket } from './diagnosticSocket.ts'
import { electricFans } from './electricFans.ts'
import { fuelPump } from './fuelPump.ts'
import { headlamps } from './headlamps.ts'
import { heatedScreen } from './heatedScreen.ts'
import { horn } from './horn.ts'
import { ignitionCoils } from './ignitionCoils.ts'
import { indicators } from './indicators.ts'
import { injectorBank } from './injectorBank.ts'
import { lambdaHeater } from './lambdaHeater.ts'
import { lampGroup } from './lampGroup.ts'
import { levelSender } from './levelSender.ts'
import { pedalAndThrottle } from './pedalAndThrottle.ts'
import { makePen } from './pen.ts'
import { relayFedLoad } from './relayFedLoad.ts'
import { resistanceSwitch } from './resistanceSwitch.ts'
import { reversingLamp } from './reversingLamp.ts'
import { threeWireSensor, twoWireSensor } from './sensors.ts'
import type { InsulationClass } from './sizeWishes.ts'
import { starterAlternator } from './starterAlternator.ts'
import { stopLamps } from './stopLamps.ts'
import type { Applied, Pattern } from './types.ts'
import { wiper } from './wiper.ts'

export type { Asks, Question } from './asks.ts'
export type { Applied, Pattern } from './types.ts'

export const patterns: readonly Pattern[] = [
  relayFedLoad,
  lampGroup,
  headlamps,
  stopLamps,
  indicators,
  reversingLamp,
  heatedScreen,
  blower,
  wiper,
  horn,
  electricFans,
  coolerPump,
  fuelPump,
  starterAlternator,
  controllerSupply,
  injectorBank,
  ignitionCoils,
  crankAndCam,
  pedalAndThrottle,
  lambdaHeater,
  twoWireSensor,
  threeWireSensor,
  resistanceSwitch,
  levelSender,
  diagnosticSocket,
  canPair,
]

/**
 * Answers by the question's name, as a person types them (`"19 A"`, `"nose-left, nose-right"`). Refuses with every
 * answer that is missing or unusable, and with every datum of the build that a wire or fuse could not be sized without.
 */
export const applyPattern = (build: Build, id: string, given: Readonly<Record<string, string>>): Applied => {
  const pattern = patterns.find((each) => each.id === id)
  if (!pattern)
    throw refuse(
      'no-pattern',
      `There is no circuit pattern “${id}”.`,
      `Choose ${list(patterns.map((each) => each.id))}.`,
    )
  const answers = readAnswers(build, pattern, given)
  const pen = makePen(build)
  pattern.draw(pen, answers)
  const { changes, explains } = pen.finish(
    answers.has('insulation') ? (answers.text('insulation') as InsulationClass) : undefined,
  )
  const before = new Set(assess(build).findings.map(({ key, verdict }) => `${key} ${verdict}`))
  const problems = assess(pen.build)
    .findings.filter(
      ({ verdict, key }) => (verdict === 'no-go' || verdict === 'marginal') && !before.has(`${key} ${verdict}`),
    )
    .map(({ rule, subject, says, todo, verdict }) => ({ code: rule, path: subject, says, todo, verdict }))
  return {
    edit: { label: `Circuit: ${pattern.name}`, changes },
    explains: [...answers.taken, ...explains],
    cautions: pattern.cautions,
    problems,
    build: pen.build,
  }
}
