/**
 * The jobs that the loom asks for: for every circuit with wires that nobody has said are fitted, cut and label, terminate,
 * lay in, test. A ready circuit that was taken into the build is such a circuit too. Calculations propose by way of their
 * findings (`jobs.ts`).
 */
import type { Build, Job, Wire } from '../model/build.ts'
import { shortHash } from './jobs.ts'
import { own, pinName, restrictedWire } from './make.ts'
import { wireLength } from './wireData.ts'

export interface Proposal {
  /** Id of the circuit. */
  readonly circuit: string
  readonly name: string
  readonly wires: readonly string[]
  /** In the order of the work, each needing the one before it. */
  readonly jobs: readonly Job[]
}

/** Minutes, least, likely and most: once, and for each wire or end. Common practice, no published source. */
const TIMES = {
  cut: { once: [5, 5, 10], each: [2, 3, 5] },
  terminate: { once: [5, 5, 10], each: [1, 2, 5] },
  lay: { once: [10, 15, 30], each: [3, 5, 10] },
  test: { once: [5, 10, 20], each: [1, 2, 5] },
} as const

const timeFor = (kind: keyof typeof TIMES, count: number): NonNullable<Job['time']> => {
  const { once, each } = TIMES[kind]
  const at = (place: 0 | 1 | 2) => ({ value: (once[place] + each[place] * count) * 60, unit: 'min' })
  return { least: at(0), likely: at(1), most: at(2) }
}

const colourOf = ({ colour, tracer }: Wire): string =>
  colour === undefined ? 'colour not chosen' : tracer === undefined ? colour : `${colour}/${tracer}`

const sizeOf = ({ area }: Wire): string =>
  area === undefined ? 'size not chosen' : `${Number((area.value * 1e6).toFixed(2))} mm²`

const lengthOf = (build: Build, wire: Wire): string => {
  const length = wireLength(build, wire)
  return length === undefined ? 'length unknown: measure it along its path' : `${length.toFixed(2)} m`
}

/** Most wires of the circuit lie in it; the job is then counted in that corner of the car. */
const zoneOf = (build: Build, wires: readonly Wire[]): string | undefined => {
  const count = new Map<string, number>()
  for (const wire of wires)
    for (const id of wire.path ?? []) {
      const zone = own(build.collections.runs, id)?.zone
      if (zone !== undefined) count.set(zone, (count.get(zone) ?? 0) + 1)
    }
  return [...count].sort((a, b) => b[1] - a[1])[0]?.[0]
}

/** Steps of a job have a limit in the model; what is longer is told by its count. */
const MOST_STEPS = 60

export const proposeJobs = (build: Build): readonly Proposal[] => {
  const { circuits, wires, jobs } = build.collections
  const open = new Map<string, Wire[]>()
  for (const wire of Object.values(wires)) {
    // Wires of airbags and anti-lock units are somebody else's work; a body path is no wire to cut.
    if (wire.fitted === true || wire.circuit === undefined || wire.notForCurrent || restrictedWire(build, wire.id))
      continue
    open.set(wire.circuit, [...(open.get(wire.circuit) ?? []), wire])
  }
  return [...open].flatMap(([circuit, list]): Proposal[] => {
    const name = own(circuits, circuit)?.name ?? circuit
    // An id of the model has 48 places.
    const stem = circuit.length <= 28 ? circuit : `${circuit.slice(0, 20)}-${shortHash(circuit)}`
    const id = (kind: string): string => `J-loom-${stem}-${kind}`
    const zone = zoneOf(build, list)
    const count = list.length === 1 ? 'one wire' : `${list.length} wires`
    const make = (
      kind: keyof typeof TIMES,
      title: string,
      before: string | undefined,
      each: number,
      steps: readonly string[],
      more: Partial<Job> = {},
    ): Job => ({
      id: id(kind),
      title: `${title}: ${name}`.slice(0, 160),
      status: 'to do',
      time: timeFor(kind, each),
      ...(before === undefined ? {} : { needs: { jobs: [id(before)] } }),
      steps: steps.slice(0, MOST_STEPS),
      ...more,
    })
    const ends = list.flatMap((wire) =>
      (['from', 'to'] as const).map(
        (end) =>
          `${wire.id} at ${pinName(build, wire[end])}: ${wire.ends?.[end]?.method ?? 'how it is terminated is not said'}`,
      ),
    )
    const inCar: Partial<Job> = { ...(zone === undefined ? {} : { zone }), cautions: ['battery'] }
    const made = [
      make(
        'cut',
        `Cut and label ${count}`,
        undefined,
        list.length,
        list.map((wire) => `${wire.id}: ${sizeOf(wire)}, ${colourOf(wire)}, ${lengthOf(build, wire)}`),
      ),
      make('terminate', `Terminate ${ends.length} ends`, 'cut', ends.length, ends),
      make(
        'lay',
        `Lay in ${count}`,
        'terminate',
        list.length,
        ['Battery negative off before any end is landed', ...list.map((wire) => `${wire.id}: ${pathOf(build, wire)}`)],
        inCar,
      ),
      make(
        'test',
        'Test with the meter',
        'lay',
        list.length,
        ['Each wire end to end with the battery off, then as the test sheet of the circuit says'],
        inCar,
      ),
    ]
    // Once any of its jobs is in the build the proposal was taken; what became of it is the builder's.
    return made.some((job) => Object.hasOwn(jobs, job.id))
      ? []
      : [{ circuit, name, wires: list.map((wire) => wire.id), jobs: made }]
  })
}

const pathOf = (build: Build, { path = [] }: Wire): string =>
  path.length === 0
    ? 'no path is entered'
    : `through ${path.map((id) => own(build.collections.runs, id)?.name ?? id).join(', ')}`
