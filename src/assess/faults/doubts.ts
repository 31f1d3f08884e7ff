/**
 * Doubts about a reading, before it is used: a point that is not in the circuit, leads the wrong way round, millivolts
 * typed as volts, a figure off every scale, a floating point, two readings that contradict each other. A doubted reading
 * waits until somebody has said what is right; `confirmed` uses it as it stands.
 */
import { readingVariance } from '../../engineering/electrical/faults/belief.ts'
import { pointId } from '../../engineering/electrical/faults/hypothesis.ts'
import { deviceIdOf, own, pinName, restrictedDevice, restrictedWire } from '../make.ts'
import { testId } from './drops.ts'
import { foreseenVolts } from './otherReadings.ts'
import type { ReadySearch } from './start.ts'
import { stepOf, typedText } from './typed.ts'
import type { Evidence, Question, ReadingEvidence } from './types.ts'
import { pointEndpoint, pointSays, pointWire } from './words.ts'

/** Times its standard deviation, and V, within which a reading counts as foretold by a fault. */
const WITHIN = 4
const NEAR = 0.06
/** Over the greatest source: nothing in the car can give more. */
const OVER = 1.25
/** V over which something feeds a point (the bare format's own limit of what is on). */
const ALIVE = 1.5
/** V below which a wrong sign says nothing. */
const SLIGHT = 0.1

/** Why a point cannot be read in this search; undefined: it can. */
const pointProblem = (ready: ReadySearch, point: string): string | undefined => {
  const { build, car, search } = ready
  const { devices } = build.collections
  const endpoint = pointEndpoint(point)
  const device = own(devices, deviceIdOf(endpoint))
  const wire = pointWire(point)
  if ((device && restrictedDevice(build, device.id)) || (wire !== undefined && restrictedWire(build, wire)))
    return `${point} belongs to an airbag or anti-lock circuit, which is never probed.`
  if (!device || !Object.hasOwn(device.pins, endpoint.slice(endpoint.lastIndexOf('.') + 1)))
    return `There is no point ${point} in this car.`
  const node = car.nodeOf(point)
  const nodes = new Set(search.problem.network.elements.flatMap(({ a, b }) => [a, b]))
  if (node === undefined || !nodes.has(node)) {
    const near = [...ready.points.keys()].filter((id) => deviceIdOf(pointEndpoint(id)) === device.id)
    return `${pinName(build, endpoint)} is not in the circuit of this complaint.${near.length > 0 ? ` Was it ${near.slice(0, 3).join(' or ')}?` : ''}`
  }
  return undefined
}

/** Whether some fault, or the healthy car, foretells this value there. */
const foretold = (ready: ReadySearch, entry: ReadingEvidence): ((value: number) => boolean) => {
  const { problem, forecasts, healthy } = ready.search
  const id = testId(entry.at, entry.against)
  const t = problem.testPoints.findIndex((point) => pointId(point) === id)
  if (t >= 0)
    return (value) =>
      [...forecasts, healthy].some(({ mean, variance }) => {
        const sigma = Math.sqrt(variance[t]! + readingVariance(problem.meter, mean[t]!, problem.meter.step))
        return Math.abs(value - mean[t]!) < WITHIN * sigma + NEAR
      })
  const means = foreseenVolts(ready, [{ effects: [] }, ...ready.search.hypotheses], entry.at, entry.against)
  return (value) =>
    means.some((mean) => Math.abs(value - (mean || 0)) < NEAR + 0.1 * Math.abs(mean || 0) + WITHIN * 0.01)
}

/** Whether the point floats under every fault that is left of the list. */
const floats = (ready: ReadySearch, entry: ReadingEvidence): boolean =>
  foreseenVolts(ready, [{ effects: [] }, ...ready.search.hypotheses], entry.at, entry.against).some((value) =>
    Number.isNaN(value),
  )

const voltQuestion = (ready: ReadySearch, entry: ReadingEvidence, evidence: number): Question | undefined => {
  const { value } = entry
  const place = `${pointSays(ready.build, entry.at)} to ${entry.against === undefined ? ready.car.referenceSays : pointSays(ready.build, entry.against)}`
  const isForetold = foretold(ready, entry)
  if (isForetold(value)) return undefined
  const volts = (each: number): string => typedText(each, 'volts', entry.unit)
  // Whoever typed a unit has said which thousand is meant.
  const isBare = entry.unit === undefined || entry.unit === 'V'
  const ask = (code: Question['code'], says: string, instead?: number, unit = entry.unit): Question => ({
    evidence,
    code,
    says,
    ...(instead === undefined
      ? {}
      : {
          instead: {
            ...entry,
            value: instead,
            ...stepOf(entry.step, value, instead),
            ...(unit === undefined ? {} : { unit }),
            confirmed: true,
          },
        }),
  })
  if (Math.abs(value) > SLIGHT && isForetold(-value) && value < 0)
    return ask('reversed', `${volts(value)} at ${place}: were the leads the wrong way round?`, -value)
  // Who says that it is alive has volts there.
  const { kind } = ready.start.complaint
  const isAlive = (kind === 'alive when it should be dead' || kind === 'on when it should be off') && value > ALIVE
  if (isBare && !(isAlive && value < OVER * ready.most) && Math.abs(value) >= 1 && isForetold(value / 1000))
    return ask(
      'millivolts',
      `${volts(value)} at ${place} is nothing that this circuit gives: was it millivolts?`,
      value / 1000,
      'mV',
    )
  if (Math.abs(value) > OVER * ready.most + 1)
    return ask('out-of-scale', `${volts(value)} at ${place} is more than any source of this car: read it again.`)
  if (Math.abs(value) < 1 && isForetold(value * 1000))
    return ask(
      'millivolts',
      `${volts(value)} at ${place}: was it ${typedText(value * 1000, 'volts')}, a thousand times as much?`,
      value * 1000,
      'V',
    )
  if (value > 0.05 && floats(ready, entry))
    return ask(
      'floating',
      `${volts(value)} at ${place} fits no fault; the point may float, and a meter shows stray volts there. Put a 5 W test lamp across and read again.`,
    )
  return undefined
}

export const doubtsOf = (ready: ReadySearch, evidence: readonly Evidence[]): Question[] => {
  const questions: Question[] = []
  evidence.forEach((entry, i) => {
    if (entry.kind !== 'reading') return
    const points = [entry.at, ...(entry.against === undefined ? [] : [entry.against])]
    const problem = points.map((point) => pointProblem(ready, point)).find((each) => each !== undefined)
    // A wrong point cannot be confirmed into the circuit.
    if (problem !== undefined) {
      questions.push({ evidence: i, code: 'unknown-point', says: problem })
      return
    }
    if (entry.quantity === 'amps' && pointWire(entry.at) === undefined) {
      questions.push({
        evidence: i,
        code: 'not-this-way',
        says: `Amperes at ${pointSays(ready.build, entry.at)}: in which wire? Give it as ${entry.at}/W-…`,
      })
      return
    }
    if (entry.confirmed) return
    if (entry.quantity === 'ohms') {
      if (entry.value < 0)
        questions.push({
          evidence: i,
          code: 'live-circuit',
          says: 'A negative resistance means that the circuit was live: battery off, then read again.',
        })
      return
    }
    if (entry.quantity !== 'volts') return
    const question = voltQuestion(ready, entry, i)
    if (question) questions.push(question)
  })
  questions.push(...contradictions(ready, evidence, new Set(questions.map(({ evidence: i }) => i))))
  return questions.sort((p, q) => p.evidence - q.evidence)
}

const contradictions = (
  ready: ReadySearch,
  evidence: readonly Evidence[],
  doubted: ReadonlySet<number>,
): Question[] => {
  // What comes and goes may well read two ways.
  if (ready.start.complaint.kind === 'comes and goes') return []
  const found: Question[] = []
  evidence.forEach((second, j) => {
    if (second.kind !== 'reading' || doubted.has(j)) return
    evidence.slice(0, j).forEach((first, i) => {
      if (first.kind !== 'reading' || doubted.has(i) || first.quantity !== second.quantity) return
      const same = first.at === second.at && first.against === second.against
      const turned = first.at === second.against && first.against === second.at
      if (!same && !turned) return
      // The later one that somebody stands by replaces the earlier.
      if (second.confirmed || first.confirmed) return
      const other = turned ? -second.value : second.value
      const { meter } = ready.search.problem
      const sigma = Math.sqrt(2 * readingVariance(meter, first.value, meter.step))
      if (Math.abs(first.value - other) < WITHIN * sigma + NEAR + 0.02 * Math.abs(first.value)) return
      for (const [entry, against] of [
        [i, j],
        [j, i],
      ] as const)
        found.push({
          evidence: entry,
          code: 'contradicts',
          says: `Readings ${i + 1} and ${j + 1} at ${pointSays(ready.build, first.at)} contradict each other: ${typedText(first.value, first.quantity, first.unit)} and ${typedText(other, second.quantity, second.unit)}. Which one is right? Confirm that one or take reading ${against + 1} back; a fault that comes and goes would also do it.`,
        })
    })
  })
  return found
}
