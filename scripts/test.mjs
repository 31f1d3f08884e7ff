// npm test: install, check types, lint, arrows and unused code, then every test, the browser's included.
import { spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { installed, must, root } from './lib.mjs'

installed()
const node = process.execPath
const bin = (path) => join(root, 'node_modules', path)
must('formatting and lint', node, [bin('@biomejs/biome/bin/biome'), 'check', '.'])
must('types', node, [bin('ts7/bin/tsc'), '--noEmit', '-p', 'tsconfig.json'])
must('arrows', node, ['scripts/arrows.mjs'])
must('unused code', node, [bin('knip/bin/knip.js'), '--no-progress'])
must('building', node, ['scripts/build.mjs'])

/** The browser comes as a package; it needs three system libraries that a bare machine lacks. */
const missing = spawnSync('ldconfig', ['-p'], { encoding: 'utf8' }).stdout ?? ''
if (existsSync('/usr/bin/apt-get') && !/libnss3\.so/.test(missing)) {
  if (process.getuid?.() !== 0) {
    console.error(
      'The browser tests need the system libraries libnss3, libnspr4 and libexpat1. Install them with: sudo apt-get install -y libnss3 libnspr4 libexpat1',
    )
    process.exit(3)
  }
  must('system libraries for the browser', 'apt-get', ['update', '-q'])
  must('system libraries for the browser', 'apt-get', [
    'install',
    '-y',
    '-q',
    '--no-install-recommends',
    'libnss3',
    'libnspr4',
    'libexpat1',
  ])
}

const report = join(mkdtempSync(join(tmpdir(), 'swapwright-test-')), 'report.json')
const { status } = spawnSync(
  node,
  [bin('vitest/vitest.mjs'), 'run', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`],
  {
    cwd: root,
    stdio: 'inherit',
  },
)
const { numPassedTests, numFailedTests, numPendingTests } = JSON.parse(readFileSync(report, 'utf8'))
console.log(`${numPassedTests} passed, ${numFailedTests} failed, ${numPendingTests} skipped`)
process.exit(status !== 0 || numPassedTests === 0 ? status || 1 : 0)
