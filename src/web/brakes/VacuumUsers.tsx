/** What hangs on the engine's vacuum, port by port; kept as it is entered, and undone like any edit. */
import { useId, useState } from 'react'
import type { Sheet } from '../../model/build.ts'
import { idFrom } from '../../model/newId.ts'
import { bench } from '../workbench/bench.ts'

type Vacuum = Sheet<'vacuum'>
type User = NonNullable<Vacuum['users']>[number]
const KINDS = [
  'servo',
  'pressure regulator',
  'bypass valve',
  'boost control',
  'sensor or gauge',
  'purge',
  'other',
] as const satisfies readonly NonNullable<User['kind']>[]
const YES_NO = { yes: true, no: false } as const

const store = (label: string, vacuum: Vacuum): boolean =>
  bench.edit({ label, changes: [{ sheet: 'vacuum', value: vacuum }] })

const without = <K extends keyof User>(user: User, key: K): Omit<User, K> => {
  const { [key]: _gone, ...rest } = user
  return rest
}

function UserRow({ user, vacuum }: { user: User; vacuum: Vacuum }) {
  const put = (next: User): boolean =>
    store(`Vacuum: ${user.name}`, {
      ...vacuum,
      users: (vacuum.users ?? []).map((each) => (each.id === user.id ? next : each)),
    })
  const check = user.checkValve === undefined ? '' : user.checkValve ? 'yes' : 'no'
  return (
    <tr>
      <th scope="row">{user.name}</th>
      <td data-label="Kind">
        <select
          aria-label={`Kind of ${user.name}`}
          value={user.kind ?? ''}
          onChange={({ target: { value } }) =>
            put(value === '' ? without(user, 'kind') : { ...user, kind: value as NonNullable<User['kind']> })
          }
        >
          <option value="">not known</option>
          {KINDS.map((kind) => (
            <option key={kind}>{kind}</option>
          ))}
        </select>
      </td>
      <td data-label="Port">
        <input
          aria-label={`Port of ${user.name}`}
          key={user.port ?? ''}
          defaultValue={user.port ?? ''}
          placeholder="not known"
          autoComplete="off"
          onBlur={({ target: { value } }) => {
            const port = value.trim()
            if (port !== (user.port ?? '')) put(port === '' ? without(user, 'port') : { ...user, port })
          }}
        />
      </td>
      <td data-label="Check valve">
        <select
          aria-label={`Check valve of ${user.name}`}
          value={check}
          onChange={({ target: { value } }) =>
            put(value === '' ? without(user, 'checkValve') : { ...user, checkValve: YES_NO[value as 'yes' | 'no'] })
          }
        >
          <option value="">not known</option>
          <option>yes</option>
          <option>no</option>
        </select>
      </td>
    </tr>
  )
}

export function VacuumUsers({ vacuum }: { vacuum: Vacuum | undefined }) {
  const [name, setName] = useState('')
  const [adding, blanked] = [useId(), useId()]
  const users = vacuum?.users ?? []
  const ports = (vacuum?.blankedPorts ?? []).join(', ')
  const add = (): void => {
    const entered = name.trim()
    if (entered === '') return
    const user: User = {
      id: idFrom(entered, Object.fromEntries(users.map((each) => [each.id, each])), 'user'),
      name: entered,
      ...(/servo/i.test(entered) && !users.some(({ kind }) => kind === 'servo') ? { kind: 'servo' as const } : {}),
    }
    if (store(`Vacuum: ${entered} added`, { ...vacuum, users: [...users, user] })) setName('')
  }
  return (
    <details className="vacuum-users" open={users.length === 0 || undefined}>
      <summary>
        <h2>Vacuum users and blanked ports</h2>{' '}
        <span className="soft small">
          {users.length === 1 ? '1 user' : `${users.length} users`}, {vacuum?.blankedPorts?.length ?? 0} blanked
        </span>
      </summary>
      {users.length === 0 ? (
        <p className="soft">None entered yet. Begin with the brake servo.</p>
      ) : (
        <table>
          <thead>
            <tr>
              <th scope="col">User</th>
              <th scope="col">Kind</th>
              <th scope="col">Port</th>
              <th scope="col">Check valve</th>
            </tr>
          </thead>
          <tbody>
            {users.map((user) => (
              <UserRow key={user.id} user={user} vacuum={vacuum ?? {}} />
            ))}
          </tbody>
        </table>
      )}
      <form
        className="row"
        onSubmit={(event) => {
          event.preventDefault()
          add()
        }}
      >
        <label htmlFor={adding}>Another user</label>
        <input
          id={adding}
          value={name}
          placeholder={users.length === 0 ? 'Brake servo' : ''}
          autoComplete="off"
          onChange={(event) => setName(event.target.value)}
        />
        <button type="submit" disabled={name.trim() === ''}>
          Add
        </button>
      </form>
      <div className="row">
        <label htmlFor={blanked}>Blanked ports, by commas</label>
        <input
          id={blanked}
          key={ports}
          defaultValue={ports}
          autoComplete="off"
          onBlur={({ target: { value } }) => {
            const list = value
              .split(',')
              .map((port) => port.trim())
              .filter((port) => port !== '')
            if (list.join(', ') !== ports) store('Vacuum: blanked ports', { ...vacuum, blankedPorts: list })
          }}
        />
      </div>
    </details>
  )
}
