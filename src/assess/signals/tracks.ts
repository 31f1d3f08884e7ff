/** Two tracks of one pedal or throttle, from the readings or the sheet of each. */
import { type Track, type TrackAgreement, trackAgreement } from '../../engineering/signals/linear/twoTrack.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import type { Finding } from '../finding.ts'
import { deviceZone, finding, list, own, percent, restrictedDevice } from '../make.ts'
import type { Known } from './known.ts'
import type { Sensor } from './sensors.ts'

export interface TrackPair {
  readonly one: Sensor
  readonly two: Sensor
  readonly limit: number | undefined
  readonly tracks: readonly [Track, Track] | undefined
  readonly agreement: TrackAgreement | undefined
  readonly missing: readonly string[]
  readonly problems: readonly Problem[]
}

const trackOf = (sensor: Sensor): Track | undefined => {
  if (sensor.form !== 'ratio of supply' || sensor.trackTolerance === undefined) return undefined
  // The map is what the controller was taught; readings are what the pedal then shows.
  const points =
    sensor.curve?.map(([share, position]) => ({ share, position })) ??
    sensor.readings?.map(({ value, shows }) => ({ position: value, share: shows }))
  return (
    points && {
      name: sensor.name,
      points: [...points].sort((a, b) => a.position - b.position),
      tolerance: sensor.trackTolerance,
    }
  )
}

/** Both tracks read at one position of the pedal. */
const sweepOf = (one: Sensor, two: Sensor): { readonly one: number; readonly two: number }[] =>
  (one.readings ?? []).flatMap(({ value, shows }) => {
    const beside = two.readings?.find((each) => each.value === value)
    return beside ? [{ one: shows, two: beside.shows }] : []
  })

/** Each pair once, under the sensor that names its twin. */
export const trackPairs = ({ build }: Known): TrackPair[] =>
  Object.values(build.collections.sensors).flatMap((one): TrackPair[] => {
    const two = one.twin === undefined ? undefined : own(build.collections.sensors, one.twin)
    if (!two || two.id === one.id || (two.twin === one.id && two.id < one.id) || restrictedDevice(build, one.device))
      return []
    const limit = one.twinLimit ?? two.twinLimit
    const both = [one, two]
    const missing = [
      ...both.flatMap((sensor) => [
        ...(sensor.form === 'ratio of supply' ? [] : [`share of the supply, not volts, for ${sensor.name}`]),
        ...(sensor.trackTolerance === undefined ? [`tolerance of the track of ${sensor.name}`] : []),
        ...(sensor.readings || sensor.curve ? [] : [`curve or readings of ${sensor.name}`]),
      ]),
      ...(limit === undefined ? [`disagreement at which the controller shuts down for ${one.name}`] : []),
    ]
    const [a, b] = both.map(trackOf)
    const tracks = a && b ? ([a, b] as const) : undefined
    const base = { one, two, limit, tracks, missing }
    if (!tracks) return [{ ...base, agreement: undefined, problems: [] }]
    try {
      return [{ ...base, agreement: trackAgreement(...tracks, sweepOf(one, two)), problems: [] }]
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      return [{ ...base, agreement: undefined, problems: error.problems }]
    }
  })

/** Rule `track-agreement`. */
export const trackFindings = (known: Known): Finding[] =>
  trackPairs(known).map(({ one, two, limit, agreement, missing, problems }) => {
    const base = {
      rule: 'track-agreement',
      system: 'signals',
      subject: `sensors/${one.id}`,
      about: `${one.name} and ${two.name}`,
      zone: deviceZone(known.build, one.device),
      cautions: ['A throttle that opens by itself: wheels chocked, in neutral, fingers out of the throttle body.'],
    } as const
    if (problems[0])
      return finding({
        ...base,
        verdict: 'no-go',
        says: problems.map(({ says }) => says).join(' '),
        todo: problems[0].todo,
      })
    if (!agreement || limit === undefined)
      return finding({
        ...base,
        verdict: 'unknown',
        says: `Whether ${one.name} and ${two.name} agree cannot be told without the ${list(missing)}.`,
        todo: `Enter the ${list(missing)}.`,
        missing: list(missing),
      })
    const working = [
      `Positions by both tracks: ${percent(agreement.measured)} apart as measured, up to ${percent(agreement.largest)} with their tolerances against each other, at ${percent(agreement.at)} open; limit ${percent(limit)}.`,
      `Both signal wires shorted together: ${percent(agreement.shorted)} apart at least.`,
    ]
    if (agreement.measured > limit)
      return finding({
        ...base,
        verdict: 'no-go',
        says: `${one.name} and ${two.name} are ${percent(agreement.measured)} apart, more than the ${percent(limit)} that the controller allows: it shuts the throttle.`,
        todo: 'Measure both tracks again at rest, half and full; then learn them anew in the controller, or replace the sensor.',
        working,
      })
    if (agreement.largest > limit)
      return finding({
        ...base,
        verdict: 'marginal',
        says: `${one.name} and ${two.name} may be ${percent(agreement.largest)} apart within their tolerances; the controller shuts down at ${percent(limit)}.`,
        todo: 'Learn both tracks in the controller from this very pedal, or widen the limit as its maker allows.',
        working,
      })
    if (agreement.shorted < limit)
      return finding({
        ...base,
        verdict: 'marginal',
        says: `Were the wires of ${one.name} and ${two.name} shorted together, the tracks would be only ${percent(agreement.shorted)} apart at one position, below the ${percent(limit)} at which the controller notices.`,
        todo: 'Keep the two wires apart in the loom and each in its own sleeve, or take a sensor whose tracks run in opposite directions with unequal slopes.',
        working,
      })
    return finding({
      ...base,
      verdict: 'sound',
      says: `${one.name} and ${two.name} stay within ${percent(agreement.largest)} of each other; the controller allows ${percent(limit)}, and a short between them shows.`,
      todo: 'Nothing.',
      working,
    })
  })
