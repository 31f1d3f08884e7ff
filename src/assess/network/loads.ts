/** What the devices draw, each load by its law and averaged over its duty. */
import type { Device } from '../../model/build.ts'
import { endpointOf, own } from '../make.ts'
import { type Binder, loadElement } from './binder.ts'

/** Filament: current ∝ voltage^0.55 (from memory); cold resistance a tenth of hot (lamp-driver note, read). */
const LAMP_EXPONENT = 0.55
const LAMP_COLD = 0.1

/** What each output does to what it drives in this case. */
export interface Driven {
  readonly duty: ReadonlyMap<string, number>
  readonly off: ReadonlySet<string>
}
export const drivenBy = ({ build, kase }: Binder): Driven => {
  const dutyOf = new Map<string, number>()
  const off = new Set<string>()
  for (const output of Object.values(build.collections.outputs)) {
    if (output.drives === undefined) continue
    const duty = own(kase.outputs, output.id)
    if (output.driver === 'logic') {
      if (duty === undefined || duty === 0) off.add(output.drives)
    } else if (output.driver !== 'half bridge' && duty !== undefined && duty > 0)
      dutyOf.set(output.drives, Math.max(duty, dutyOf.get(output.drives) ?? 0))
  }
  return { duty: dutyOf, off }
}

export const bindLoads = (binder: Binder, device: Device, driven: Driven): void => {
  const { build, kase, nodeOf, put, lack } = binder
  if (driven.off.has(device.id)) return
  for (const load of device.loads ?? []) {
    if (load.onlyIn && !load.onlyIn.includes(kase.id)) continue
    const id = loadElement(device.id, load.id)
    const [a, b] = [nodeOf(endpointOf(device.id, load.from)), nodeOf(endpointOf(device.id, load.to))]
    if (!load.law) {
      lack(`devices/${device.id}`, `what ${load.name ?? load.id} draws`, [a, b])
      continue
    }
    // Averages: the load draws its full current for its duty, so its mean is that of a load so much smaller.
    const duty = (load.duty ?? 1) * (driven.duty.get(device.id) ?? 1)
    if (duty === 0) continue
    const { law } = load
    binder.loads.add(id)
    switch (law.type) {
      case 'resistance':
        binder.resistor(id, a, b, law.resistance.value / duty)
        break
      case 'lamp': {
        const [ratedVoltage, ratedPower] = [law.ratedVoltage.value, law.ratedPower.value * duty]
        put({
          id,
          type: 'lamp',
          a,
          b,
          ratedVoltage,
          ratedPower,
          exponent: LAMP_EXPONENT,
          coldResistance: (LAMP_COLD * ratedVoltage ** 2) / ratedPower,
        })
        break
      }
      case 'current':
        put({
          id,
          type: 'constantCurrent',
          a,
          b,
          current: law.current.value * duty,
          minimumVoltage: law.minimumVoltage.value,
        })
        break
      case 'power':
        put({
          id,
          type: 'constantPower',
          a,
          b,
          power: law.power.value * duty,
          minimumVoltage: law.minimumVoltage.value,
        })
        break
      case 'motor': {
        if (law.stallCurrent.value <= law.runningCurrent.value) {
          lack(`devices/${device.id}`, 'a stalled current above the running one', [a, b])
          break
        }
        const ratedVoltage = law.ratedVoltage.value
        put({
          id,
          type: 'motor',
          a,
          b,
          ratedVoltage,
          runningCurrent: law.runningCurrent.value * duty,
          stallResistance: ratedVoltage / (law.stallCurrent.value * duty),
          loading: law.loading ?? (build.sheets.cooling?.fans?.includes(device.id) ? 'fan' : 'constant'),
        })
        break
      }
    }
  }
}
