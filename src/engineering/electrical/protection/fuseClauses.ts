/** The clauses that concern the fuse alone: what it must break, what it carries in service, what it meets at switch-on. */
import { BREAKING, fastestTime } from '../fuseGates.ts'
import { amperes, type Clause, degrees, type JudgedFuse, type Pulse, percentOf, seconds } from './clauses.ts'
import { ambientShare, CONTINUOUS } from './fuseDerating.ts'

export const breakingClause = ({ type, breakingCapacity }: JudgedFuse, highest: number): Clause => {
  const allowed = breakingCapacity ?? BREAKING[type].current
  return {
    id: 'breaking',
    verdict: highest <= allowed ? 'passed' : 'failed',
    current: highest,
    allowed,
    says: `Highest short-circuit current at its load side, strong battery and cold copper: ${amperes(highest)}; it breaks ${amperes(allowed)} (${breakingCapacity === undefined ? BREAKING[type].source.title : 'maker’s sheet, entered'}).`,
  }
}

export const serviceClause = ({ rating, ambient }: JudgedFuse, load: number): Clause => {
  if (ambient === undefined)
    return {
      id: 'service',
      verdict: 'unknown',
      current: load,
      says: `Carries ${amperes(load)} in service; how warm it gets round the fuse is not known.`,
      missing: 'ambient temperature of the fuse’s zone',
    }
  const share = ambientShare(ambient)
  const rerated = rating * (share ?? 0)
  const allowed = CONTINUOUS * rerated
  return {
    id: 'service',
    verdict: share === undefined || load > rerated ? 'failed' : load > allowed ? 'doubtful' : 'passed',
    current: load,
    allowed,
    says:
      share === undefined
        ? `Stands in ${degrees(ambient)}, hotter than the 125 °C up to which fuses are rated.`
        : `Carries ${amperes(load)} in service; in ${degrees(ambient)} its rating reads ${amperes(rerated)}, of which 75 % may last: ${amperes(allowed)}.`,
  }
}

/**
 * An inrush that falls off in exponential form heats as its peak would in half its time constant. Held against the
 * quickest good fuse, whose Joule integral is about a third of what makers' sheets print for melting (25 A blade: 306
 * against 1 000 A²s; 40 A MAXI: 2 300 against 8 500): the share that sheets allow for 10 000 pulses (29 %).
 */
export const inrushClause = ({ type, rating }: JudgedFuse, pulse: Pulse): Clause => {
  const multiple = pulse.peak / rating
  const time = fastestTime(type, multiple)
  const lasts = pulse.decay / 2
  return {
    id: 'inrush',
    verdict: time === undefined || lasts <= time ? 'passed' : 'doubtful',
    current: pulse.peak,
    multiple,
    ...(time === undefined ? {} : { time }),
    says: `${pulse.name} switched on: ${amperes(pulse.peak)} at first, ${percentOf(multiple)}, as good as ${seconds(lasts)} of it; ${time === undefined ? 'below 135 % the fuse does not open' : `the quickest good fuse opens in ${seconds(time)}`}.`,
  }
}
