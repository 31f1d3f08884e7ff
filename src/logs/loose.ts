/** A question to a file that is in no build: read into a folder of its own, asked, and gone again. */
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import { refuse } from '../units/problem.ts'
import { importLog } from './import.ts'
import { type BoundRole, bindRole, guessRoles, ROLES, type Role } from './roles.ts'

export interface AskedLog {
  readonly name: string
  readonly parquet: string
  readonly roles: readonly BoundRole[]
}

/** `binds`: `channel=role`, said by the person; the rest is guessed. */
export async function withLooseLog<T>(
  file: string,
  binds: readonly string[],
  use: (log: AskedLog) => Promise<T>,
): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), 'swapwright-ask-'))
  try {
    const parquet = join(folder, 'log.parquet')
    const report = await importLog(file, parquet)
    const said = new Map<string, Role>()
    for (const bind of binds) {
      const at = bind.lastIndexOf('=')
      const [name, role] = [bind.slice(0, at).trim(), bind.slice(at + 1).trim()]
      if (!Object.hasOwn(ROLES, role))
        throw refuse('no-role', `“${role}” is no role.`, `Choose from: ${Object.keys(ROLES).join(', ')}.`)
      if (report.channels.some((channel) => channel.name === name)) said.set(name, role as Role)
    }
    const taken = new Set(said.values())
    const guesses = guessRoles(report.channels.filter(({ name }) => !said.has(name))).filter(
      ({ role }) => !taken.has(role),
    )
    const roles = [...[...said].map(([channel, role]) => ({ channel, role })), ...guesses].flatMap(
      ({ channel, role }) => {
        const bound = bindRole(role, report.channels.find(({ name }) => name === channel)!, said.has(channel))
        return bound ? [bound] : []
      },
    )
    return await use({ name: basename(file), parquet, roles })
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}
