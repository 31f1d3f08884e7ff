/** Rules on what wires and joints are made of and where they sit: `material`, `solder-in-vibration`, `unsealed-in-wet`. */
import type { Context } from './context.ts'
import type { Finding } from './finding.ts'
import {
  BATTERY_CAUTION,
  deviceIdOf,
  deviceZone,
  finding,
  own,
  pinName,
  restrictedWire,
  squareMillimetres,
  wireName,
} from './make.ts'
import { wireZones } from './wireData.ts'

export const materialFindings = ({ build }: Context): Finding[] => {
  const { wires, zones, devices } = build.collections
  const findings: Finding[] = []
  for (const wire of Object.values(wires)) {
    if (restrictedWire(build, wire.id)) continue
    const about = wireName(build, wire.id)
    const subject = `wires/${wire.id}`
    if (wire.material === 'copper-clad aluminium')
      findings.push(
        finding({
          rule: 'material',
          verdict: 'marginal',
          system: 'electrical',
          subject,
          about,
          zone: wireZones(build, wire)[0],
          says: `${about} is copper-clad aluminium: about 1.5 times the resistance of copper, it creeps in crimps and breaks where it flexes.`,
          todo: `Fit copper${wire.area ? ` of ${squareMillimetres(wire.area.value)}` : ''} in place of it on ${wire.id}, with new crimps.`,
          working: [
            'Vehicle cable of ISO 6722 is copper; the resistance 0.02676 Ω·mm²/m, ASTM B566 class 15A [from memory].',
          ],
          cautions: [BATTERY_CAUTION],
        }),
      )
    for (const end of ['from', 'to'] as const) {
      const joint = wire.ends?.[end]
      if (!joint) continue
      const device = deviceIdOf(wire[end])
      const zone = own(zones, deviceZone(build, device) ?? '')
      const place = {
        about,
        zone: zone?.id,
        system: 'electrical',
        subject,
        part: end,
        cautions: [BATTERY_CAUTION],
      } as const
      if (joint.method === 'soldered') {
        if (zone?.vibration === undefined)
          findings.push(
            finding({
              ...place,
              rule: 'solder-in-vibration',
              verdict: 'unknown',
              says: `${about} is soldered at ${pinName(build, wire[end])}, and how much its place shakes is not entered.`,
              todo: 'Enter the vibration class of that zone.',
              missing: `vibration class of ${zone?.name ?? `the zone of ${device}`}`,
            }),
          )
        else if (zone.vibration !== 'body')
          findings.push(
            finding({
              ...place,
              rule: 'solder-in-vibration',
              verdict: 'marginal',
              says: `${about} is soldered at ${pinName(build, wire[end])}, in ${zone.name}, which shakes with the ${zone.vibration}: solder wicks into the strands and they break at its edge.`,
              todo: `Crimp ${wire.id} at ${pinName(build, wire[end])} in place of the solder, and clip it within 0.1 m.`,
              working: [
                'Solder stiffens strands and moves the point of fatigue to its edge. Common practice, no published source.',
              ],
            }),
          )
      }
      if (joint.sealed === false && zone?.wet === 'wet')
        findings.push(
          finding({
            ...place,
            rule: 'unsealed-in-wet',
            verdict: 'marginal',
            says: `${about} ends unsealed at ${wire[end]} in ${zone.name}, which is wet.`,
            todo: `Seal that end of ${wire.id} with a lined sleeve or a sealed terminal.`,
          }),
        )
    }
  }
  for (const device of Object.values(devices)) {
    if (device.spec.kind !== 'connector' || device.restricted) continue
    const zone = own(zones, deviceZone(build, device.id) ?? '')
    if (!zone || zone.wet === 'dry' || device.spec.sealed === true) continue
    const base = {
      rule: 'unsealed-in-wet',
      system: 'electrical',
      subject: `devices/${device.id}`,
      about: device.name,
      zone: zone.id,
    } as const
    if (zone.wet === undefined || device.spec.sealed === undefined) {
      const missing = zone.wet === undefined ? `how wet ${zone.name} gets` : `whether ${device.name} is sealed`
      findings.push(
        finding({
          ...base,
          verdict: 'unknown',
          says: `${device.name} in ${zone.name} cannot be judged: ${missing} is not entered.`,
          todo: `Enter ${missing}.`,
          missing,
        }),
      )
    } else
      findings.push(
        finding({
          ...base,
          verdict: 'marginal',
          says: `${device.name} is not sealed and sits in ${zone.name}, which is ${zone.wet === 'wet' ? 'wet' : 'splashed'}.`,
          todo: `Fit a sealed connector in place of ${device.name}, or move it to a dry place.`,
          working: [
            'Water between unsealed contacts corrodes them and leaks current. Common practice, no published source.',
          ],
          cautions: [BATTERY_CAUTION],
        }),
      )
  }
  return findings
}
