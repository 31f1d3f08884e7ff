/** A meaning that no channel has: the builder says which channel it is, and the log remembers it as confirmed. */
import { bench } from '../workbench/bench.ts'
import type { Log } from './strips.ts'

/** `ambientTemperature` as people write it. */
const words = (role: string): string => role.replace(/([A-Z])/g, ' $1').toLowerCase()

export function SayChannel({ log, role, then }: { log: Log; role: string; then: () => void }) {
  const say = (name: string): void => {
    const channels = log.channels.map((channel) => {
      if (channel.name === name) return { ...channel, role, confirmed: true }
      if (channel.role !== role) return channel
      const { role: _role, confirmed: _confirmed, ...rest } = channel
      return rest
    })
    const kept = bench.edit({
      label: `Channel ${name} is ${words(role)}`.slice(0, 200),
      changes: [{ collection: 'logs', id: log.id, value: { ...log, channels } }],
    })
    if (kept) void bench.sent().then(then)
  }
  return (
    <label className="field">
      Which channel is {words(role)}?
      <select value="" onChange={(event) => say(event.target.value)}>
        <option value="">none of them, or not known</option>
        {log.channels.map(({ name, unit }) => (
          <option key={name} value={name}>
            {unit === undefined ? name : `${name}, ${unit}`}
          </option>
        ))}
      </select>
    </label>
  )
}
