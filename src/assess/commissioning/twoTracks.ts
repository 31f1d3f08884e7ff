/** Pedal and throttle by wire: two tracks of one position, read on this car and held against each other. */
import type { Build, Device } from '../../model/build.ts'
import type { Finding } from '../finding.ts'
import { list, own } from '../make.ts'
import type { Judged } from './types.ts'

/** Readings of each track on this car: at rest, half and full. */
const POSITIONS = 3

/** Devices that two voltage inputs read and that are a pedal or a throttle, by name or because their sensors are twins. */
export const twoTrackDevices = (build: Build): Device[] => {
  const { devices, inputs, sensors } = build.collections
  const twins = new Set(Object.values(sensors).flatMap(({ device, twin }) => (twin === undefined ? [] : [device])))
  return Object.values(devices).filter(({ id, name, restricted }) => {
    if (restricted !== undefined) return false
    if (twins.has(id)) return true
    const read = Object.values(inputs).filter(({ source, signal }) => source === id && signal === 'voltage')
    return read.length >= 2 && /pedal|throttle|accelerator/i.test(`${id} ${name}`)
  })
}

export const tracksAgree = (build: Build, findings: readonly Finding[]): Judged => {
  const { sensors } = build.collections
  const missing: string[] = []
  const told: Finding[] = []
  for (const { id, name } of twoTrackDevices(build)) {
    const tracks = Object.values(sensors).filter(({ device }) => device === id)
    const paired = tracks.filter(({ twin }) => twin !== undefined && own(sensors, twin) !== undefined)
    if (paired.length === 0) {
      missing.push(`both tracks of ${name} as twin sensors`)
      continue
    }
    missing.push(
      ...tracks
        .filter(({ readings }) => (readings?.length ?? 0) < POSITIONS)
        .map((track) => `readings of ${track.name} at rest, half and full`),
    )
    told.push(
      ...findings.filter(
        ({ rule, subject }) => rule === 'track-agreement' && tracks.some((track) => subject === `sensors/${track.id}`),
      ),
    )
  }
  const worst =
    told.find(({ verdict }) => verdict === 'no-go') ??
    told.find(({ verdict }) => verdict === 'unknown') ??
    told.find(({ verdict }) => verdict === 'marginal')
  if (worst?.verdict === 'no-go')
    return { verdict: 'no-go', says: worst.says, next: { says: worst.todo, at: { finding: worst.key } } }
  const lacking = [...missing, ...(worst?.verdict === 'unknown' ? [worst.missing ?? worst.says] : [])]
  if (lacking.length > 0)
    return {
      verdict: 'unknown',
      says: 'It cannot be told yet whether the tracks agree on this car.',
      missing: list(lacking),
      next: { says: `Enter ${list(lacking)}.`, at: { bench: 'signals' } },
    }
  return worst
    ? { verdict: 'marginal', says: worst.says, next: { says: worst.todo, at: { finding: worst.key } } }
    : { verdict: 'sound', says: told.map(({ says }) => says).join(' ') }
}
