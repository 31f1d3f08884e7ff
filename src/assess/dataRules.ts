/** Rules `missing-data`, `unsolved-case` and `relay-restless`: what the cases lack, and cases that come to no answer. */
import type { Context } from './context.ts'
import type { Finding } from './finding.ts'
import {
  BATTERY_CAUTION,
  deviceName,
  deviceZone,
  endpointOf,
  finding,
  list,
  own,
  restrictedDevice,
  restrictedWire,
  wireName,
} from './make.ts'

const CONSUMERS: ReadonlySet<string> = new Set(['lamp', 'motor', 'pump', 'heater', 'solenoid', 'injector', 'coil'])

/** What a case could not be solved without, told once for each subject. */
export const missingFindings = ({ build, circuit, cases }: Context): Finding[] => {
  const bySubject = new Map<string, Set<string>>()
  for (const { missing } of cases)
    for (const { subject, datum } of missing) bySubject.set(subject, (bySubject.get(subject) ?? new Set()).add(datum))
  // A wired consumer without any load draws nothing in every case: a gap, not a fact.
  for (const device of Object.values(build.collections.devices))
    if (
      CONSUMERS.has(device.spec.kind) &&
      (device.loads ?? []).length === 0 &&
      Object.keys(device.pins).some((pin) => circuit.wiresAt.has(endpointOf(device.id, pin)))
    )
      bySubject.set(
        `devices/${device.id}`,
        (bySubject.get(`devices/${device.id}`) ?? new Set()).add('what it draws, and between which pins'),
      )
  return [...bySubject].flatMap(([subject, data]) => {
    const [collection, id = ''] = subject.split('/')
    const restricted = collection === 'devices' ? restrictedDevice(build, id) : restrictedWire(build, id)
    if (restricted) return []
    const about = collection === 'wires' ? wireName(build, id) : deviceName(build, id)
    return [
      finding({
        rule: 'missing-data',
        verdict: 'unknown',
        system: 'electrical',
        subject,
        about,
        zone: collection === 'devices' ? deviceZone(build, id) : undefined,
        says: `${about}: ${list([...data])} ${data.size === 1 ? 'is' : 'are'} not entered, so currents and voltages that hang on it stay unknown.`,
        todo: `Enter the ${list([...data])} of ${about}.`,
        missing: list([...data]),
      }),
    ]
  })
}

export const unsolvedFindings = ({ build, cases }: Context): Finding[] =>
  cases.flatMap((solved) => [
    ...(solved.solved
      ? []
      : [
          finding({
            rule: 'unsolved-case',
            verdict: 'unknown',
            system: 'electrical',
            subject: `cases/${solved.case}`,
            about: solved.kase.name,
            says: `“${solved.kase.name}” cannot be solved: ${solved.notes[0] ?? 'no battery or alternator with its figures is entered.'}`,
            todo:
              solved.notes[0] === undefined
                ? 'Enter a battery with rested voltage and internal resistance, and its wires.'
                : 'Mend what is named there first; the other cases are judged without it.',
            missing:
              solved.notes[0] === undefined
                ? 'a battery with rested voltage and internal resistance'
                : 'a network that can be solved',
          }),
        ]),
    // Make and break contact of one relay move together: one finding.
    ...[...new Set(solved.oscillating.map((element) => element.split('#')[0]!))].map((id) =>
      finding({
        rule: 'relay-restless',
        verdict: 'no-go',
        system: 'electrical',
        subject: `devices/${id}`,
        case: solved.case,
        about: deviceName(build, id),
        zone: deviceZone(build, id),
        ...(own(build.collections.devices, id)?.spec.kind === 'starter'
          ? {
              says: `${deviceName(build, id)} only clicks in “${solved.kase.name}”: once its motor draws, what is left at its solenoid no longer holds it in.`,
              todo: 'Look at the engine strap, the starter cable and the battery first, then at the wire to its solenoid.',
            }
          : {
              says: `${deviceName(build, id)} never comes to rest in “${solved.kase.name}”: its contact changes what its own coil gets.`,
              todo: 'Feed its coil from a point that its own contact does not change.',
            }),
        cautions: [BATTERY_CAUTION],
      }),
    ),
  ])
