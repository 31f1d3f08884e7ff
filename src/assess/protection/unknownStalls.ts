/** Rule `stalled-current`: a motor entered by its running draw alone cannot be judged held fast. */
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import { deviceZone, finding, restrictedDevice } from '../make.ts'

export const unknownStallFindings = ({ build }: Context): Finding[] =>
  Object.values(build.collections.devices).flatMap((device): Finding[] => {
    if ((device.spec.kind !== 'motor' && device.spec.kind !== 'pump') || restrictedDevice(build, device.id)) return []
    // A resistance is a winding that never turns: it draws its stalled current already.
    if (!device.loads?.some(({ law }) => law?.type === 'current' || law?.type === 'power')) return []
    const missing = `stalled current of ${device.name}`
    return [
      finding({
        rule: 'stalled-current',
        verdict: 'unknown',
        system: 'electrical',
        subject: `devices/${device.id}`,
        about: device.name,
        zone: deviceZone(build, device.id),
        says: `${device.name} is entered by what it draws while running: whether its fuse and wires stand it held fast is not known.`,
        todo: `Enter the ${missing}: 12 V over the resistance of its winding, or its sheet; its load is then one of a motor.`,
        missing,
      }),
    ]
  })
