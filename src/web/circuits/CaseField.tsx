/** Chooses among operating cases. */
import type { OperatingCase } from '../../model/build.ts'

interface Props {
  readonly cases: readonly OperatingCase[]
  readonly kase: OperatingCase
  readonly choose: (id: string) => void
}
export function CaseField({ cases, kase, choose }: Props) {
  return (
    <div className="choose">
      <label>
        Operating case
        <select value={kase.id} onChange={(event) => choose(event.target.value)}>
          {cases.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      </label>
    </div>
  )
}
