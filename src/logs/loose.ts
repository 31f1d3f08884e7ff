/** A question to a file that is in no build: read into a folder of its own, asked, and gone again. */
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import { importLog } from './import.ts'
import type { Overrides } from './plan.ts'
import { type BoundRole, bindRole, guessRoles, noUnit, type Role, readBinding } from './roles.ts'

export interface AskedLog {
  readonly name: string
  readonly parquet: string
  readonly roles: readonly BoundRole[]
}

/** `binds`: `channel=role` or `channel [unit]=role`, said by the person; the rest is guessed. */
export async function withLooseLog<T>(
  file: string,
  binds: readonly string[],
  use: (log: AskedLog) => Promise<T>,
  overrides: Overrides = {},
): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), 'swapwright-ask-'))
  try {
    const parquet = join(folder, 'log.parquet')
    const report = await importLog(file, parquet, { overrides })
    // Two files share one list, so a channel that this one lacks is no mistake.
    const said = binds.flatMap((bind) => readBinding(bind, report.channels) ?? [])
    const named = new Set(said.map(({ channel }) => channel))
    const taken = new Set<Role>(said.map(({ role }) => role))
    const guesses = guessRoles(report.channels.filter(({ name }) => !named.has(name))).filter(
      ({ role }) => !taken.has(role),
    )
    const roles = [
      ...said.map((each) => ({ ...each, confirmed: true })),
      ...guesses.map(({ channel, role }) => ({ channel, role, unit: undefined, confirmed: false })),
    ].flatMap(({ channel, role, unit, confirmed }) => {
      const bound = bindRole(role, report.channels.find(({ name }) => name === channel)!, confirmed, unit)
      if (bound === undefined && confirmed) throw noUnit(role, channel, unit)
      return bound ? [bound] : []
    })
    return await use({ name: basename(file), parquet, roles })
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}
