// What the set-up scripts share. Plain Node, since nothing may be installed yet when they run.
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { dirname, join, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'

export const root = resolve(dirname(fileURLToPath(import.meta.url)), '..')

/** Runs a command in the checkout with its output shown; ends the script with its status when it fails. */
export const must = (title, command, args, env = {}) => {
  console.log(`\n— ${title}`)
  const { status, error } = spawnSync(command, args, { cwd: root, stdio: 'inherit', env: { ...process.env, ...env } })
  if (error) console.error(`${title}: ${command} did not start (${error.message}).`)
  if (error || status !== 0) process.exit(status || 3)
}

const stamp = join(root, 'node_modules', '.swapwright-lock')
const lockHash = () =>
  createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .digest('hex')

/** Installs what package-lock.json names, unless that very lock was installed before. */
export const installed = () => {
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === lockHash()) return
  must('installing (the first time takes a minute or two)', 'npm', ['ci', '--no-audit', '--no-fund'])
  writeFileSync(stamp, lockHash())
}

/** Newest change below some paths of the checkout, in ms. */
export const newest = (paths) =>
  Math.max(
    0,
    ...paths.map((path) => {
      const full = join(root, path)
      if (!existsSync(full)) return 0
      const stats = statSync(full)
      if (!stats.isDirectory()) return stats.mtimeMs
      return newest(readdirSync(full).map((name) => join(path, name)))
    }),
  )
