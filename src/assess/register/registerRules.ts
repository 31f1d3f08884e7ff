/** Rules `fixing-value`, `fixing-preload` and `fixing-recheck`: the register of torques and clearances. */
import type { Build } from '../../model/build.ts'
import type { Context } from '../context.ts'
import type { Finding, Verdict } from '../finding.ts'
import { finding } from '../make.ts'
import { preloadOf } from './preload.ts'
import { type Fixing, fixingStanding, type Part } from './standing.ts'

export const QUALIFIED_FIXING =
  'At best the arithmetic holds; a qualified person must inspect brakes, steering, wheels, fuel and structure.'
const MAKER = 'The vehicle maker’s figure comes first; a bolt that was stretched once, or is made to be, is replaced.'

/** The newest day that the build knows of: the rules have no clock. Empty where nothing in it has a day. */
const newestDay = ({ collections: { readings, evidence, fixings } }: Build): string =>
  [
    ...Object.values(readings).map(({ when }) => when),
    ...Object.values(evidence).map(({ when }) => when),
    ...Object.values(fixings).flatMap(({ entries }) => entries.map(({ when }) => when)),
  ]
    .reduce<string>((newest, when) => ((when ?? '') > newest ? when! : newest), '')
    .slice(0, 10)

const VALUE: Readonly<Record<Verdict, string>> = {
  'no-go': 'Undo it, look at thread, bolt and seat, tighten or set it anew, mark it, and keep the figure.',
  marginal: 'Undo it, tighten or set it anew, mark it, and keep the figure.',
  unknown: 'Enter what it is to have and what it has, in the register of torques and clearances.',
  sound: 'Nothing more than the next look.',
}
const PRELOAD: Readonly<Record<Verdict, string>> = {
  'no-go': '',
  marginal: 'Look at the maker’s figure again: less torque, or a stronger class; and say whether the thread was oiled.',
  unknown: 'Enter the bolt’s nut factor with its range in the register of torques and clearances.',
  sound: 'Nothing more than the next look.',
}
const RECHECK: Readonly<Record<Verdict, string>> = {
  'no-go': '',
  marginal: 'Look whether the mark has moved, put the wrench or gauge on it, and keep the figure.',
  unknown: 'Read the counter, or enter the day, then it is known.',
  sound: 'Nothing more than the next look.',
}

const findingsOf = (build: Build, fixing: Fixing, now: string): Finding[] => {
  const { value, due, newest, qualified } = fixingStanding(build, fixing, now)
  const preload = preloadOf(fixing, newest)
  const made = (rule: string, part: Part, todo: Readonly<Record<Verdict, string>>, working: readonly string[] = []) =>
    finding({
      rule,
      verdict: part.verdict,
      system: 'fixings',
      subject: `fixings/${fixing.id}`,
      about: fixing.name,
      zone: fixing.zone,
      says: part.says,
      todo: part.verdict === 'sound' && qualified ? 'Have a qualified person inspect it.' : todo[part.verdict],
      working,
      ...(part.missing === undefined ? {} : { missing: part.missing }),
      cautions: [...(qualified ? [QUALIFIED_FIXING] : []), ...(fixing.of === 'clearance' ? [] : [MAKER])],
    })
  return [
    made('fixing-value', value, VALUE),
    ...(preload ? [made('fixing-preload', preload, PRELOAD, preload.working)] : []),
    ...(due ? [made('fixing-recheck', due, RECHECK)] : []),
  ]
}

export const registerFindings = ({ build }: Context): Finding[] => {
  const fixings = Object.values(build.collections.fixings)
  if (fixings.length === 0) return []
  const now = newestDay(build)
  return fixings.flatMap((fixing) => findingsOf(build, fixing, now))
}
