#!/usr/bin/env node
import { existsSync } from 'node:fs'

const main = new URL('../dist/src/cli/main.js', import.meta.url)
if (existsSync(main)) await import(main.href)
else {
  console.error('Swapwright is not built yet. Run "npm start" or "npm run build" first.')
  process.exitCode = 3
}
