// Builds the command, the server and the pages into dist/, and links the command so that npx finds it.
import { chmodSync, existsSync, mkdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { installed, must, root } from './lib.mjs'

installed()
const dist = join(root, 'dist')
rmSync(join(dist, 'src'), { recursive: true, force: true })
must('building the command and the server', process.execPath, ['node_modules/ts7/bin/tsc', '-p', 'tsconfig.build.json'])
must('building the pages', process.execPath, ['node_modules/vite/bin/vite.js', 'build', '--logLevel', 'warn'])
const link = join(root, 'node_modules', '.bin', 'swapwright')
if (!existsSync(link)) {
  mkdirSync(join(root, 'node_modules', '.bin'), { recursive: true })
  rmSync(link, { force: true })
  symlinkSync(join('..', '..', 'bin', 'swapwright.mjs'), link)
}
chmodSync(join(root, 'bin', 'swapwright.mjs'), 0o755)
writeFileSync(join(dist, '.built'), '')
