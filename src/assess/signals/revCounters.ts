/** Rule `rev-counter`: whether an old rev counter shows the true speed from the output of the controller that drives it. */
import { formatQuantity } from '../../units/index.ts'
import type { Finding } from '../finding.ts'
import { BATTERY_CAUTION, deviceZone, finding, list, restrictedDevice } from '../make.ts'
import type { Known } from './known.ts'

/** V of a pulse on a pull-up to the battery, engine off, which is the least: common practice, no published source. */
const PLAIN_PULSE = 12
/** V of a logic output, where its controller's reference is that of its sensors: common practice, no published source. */
const LOGIC_PULSE = 5
const volts = (value: number): string => formatQuantity('voltage', value, { digits: 3 })

export const revCounterFindings = ({ build }: Known): Finding[] =>
  Object.values(build.collections.gauges).flatMap((gauge): Finding[] => {
    const { device, pulses, threshold, name, shows } = gauge
    if (shows !== 'engine speed' || (device !== undefined && restrictedDevice(build, device))) return []
    const output = Object.values(build.collections.outputs).find(
      ({ drives }) => device !== undefined && drives === device,
    )
    const base = {
      rule: 'rev-counter',
      system: 'signals',
      subject: `gauges/${gauge.id}`,
      about: name,
      zone: device === undefined ? undefined : deviceZone(build, device),
      cautions: [
        BATTERY_CAUTION,
        'A coil’s flyback is 300 V or more: never join a counter’s old coil wire to the controller.',
      ],
    } as const
    const plain = output?.driver === 'logic' ? LOGIC_PULSE : PLAIN_PULSE
    const missing = [
      ...(output ? [] : [`controller output that drives ${name}`]),
      ...(pulses === undefined ? [`pulses a revolution that ${name} was made for`] : []),
      ...(output && output.pulses === undefined ? [`pulses a revolution that ${output.name} gives`] : []),
      ...(threshold ? [] : [`height of pulse that ${name} follows`]),
    ]
    const given = output?.pulses
    // What is known to be wrong is told though something else is missing.
    if (pulses !== undefined && given !== undefined && Math.abs(given / pulses - 1) > 1e-6)
      return [
        finding({
          ...base,
          verdict: 'marginal',
          says: `${name} shows ${Number((given / pulses).toPrecision(3))} times the engine’s speed: it was made for ${pulses} pulses a revolution and gets ${given}.`,
          todo: `Set ${output!.name} to ${pulses} pulses a revolution, or have the counter recalibrated.`,
          working: [`shown / true = ${given} / ${pulses}`],
        }),
      ]
    if (output && threshold && threshold.value > plain) {
      const reach = output.clamp?.value
      const kick = output.driver !== 'logic' && (reach === undefined || reach >= threshold.value)
      return [
        finding({
          ...base,
          verdict: 'marginal',
          says: `${name} follows pulses from ${volts(threshold.value)} on, and ${output.name} gives ${volts(plain)} on a plain pull-up.`,
          todo: kick
            ? `Use the coil of a small relay as pull-up: its kick reaches ${reach === undefined ? 'the output’s clamp, which must be above that' : `the output’s clamp, ${volts(reach)}`}.`
            : 'Put a pulse amplifier made for coil-triggered counters between them.',
          working: [
            'A relay’s coil as pull-up, and the heights of plain pulses: common practice, no published source.',
          ],
        }),
      ]
    }
    if (missing.length > 0)
      return [
        finding({
          ...base,
          verdict: 'unknown',
          says: `Whether ${name} shows the engine’s speed cannot be told without the ${list(missing)}.`,
          todo: `Enter the ${list(missing)}; with a signal on the bench the needle tells from which height it follows.`,
          missing: list(missing),
        }),
      ]
    return [
      finding({
        ...base,
        verdict: 'sound',
        says: `${name} gets the ${pulses} pulses a revolution that it was made for, ${volts(plain)} high, and follows from ${volts(threshold!.value)} on.`,
        todo: 'Hold it against the controller’s figure once the engine runs.',
      }),
    ]
  })
