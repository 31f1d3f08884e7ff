// npm start: install what is missing, build what is stale, report the findings, serve the workbench.
import { spawnSync } from 'node:child_process'
import { existsSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { installed, must, newest, root } from './lib.mjs'

installed()
const built = join(root, 'dist', '.built')
const sources = newest(['src', 'demo', 'package-lock.json', 'tsconfig.build.json', 'vite.config.ts'])
if (!existsSync(built) || statSync(built).mtimeMs < sources) must('building', process.execPath, ['scripts/build.mjs'])
const command = join(root, 'bin', 'swapwright.mjs')
const check = spawnSync(process.execPath, [command, 'check'], { cwd: root, stdio: 'inherit' })
// 1 is "there is a no-go", which is an answer, not a failure.
if (check.status !== 0 && check.status !== 1) process.exit(check.status ?? 3)
if (!process.argv.includes('--once')) {
  const args = process.argv.slice(2)
  const { status } = spawnSync(process.execPath, [command, 'serve', ...args], { cwd: root, stdio: 'inherit' })
  process.exit(status ?? 0)
}
