/** Debian's ngspice as the peer: decks with the same laws, run as a whole process or as one that stays loaded. */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Network, NetworkElement } from '../src/engineering/electrical/network/network.ts'
import { ngspiceDeck } from '../src/engineering/electrical/network/ngspice.testing.ts'

/** An open switch has to be there to be altered: so many ohms, which pass 13 pA at 13 V. */
export const OPEN_OHM = 1e12

export const ngspiceVersion = (): string | undefined => {
  const { stdout, error } = spawnSync('ngspice', ['--version'], { encoding: 'utf8' })
  return error ? undefined : /ngspice-\d+/.exec(stdout)?.[0]
}

/** A deck without analysis or end; open switches stand as resistors of `OPEN_OHM`. */
const body = (network: Network): string => {
  const elements = network.elements.map(
    (element): NetworkElement =>
      element.type === 'switch' && !element.closed
        ? { type: 'resistor', id: element.id, a: element.a, b: element.b, ohm: OPEN_OHM }
        : element,
  )
  return ngspiceDeck({ ...network, elements }, new Map())
    .split('\n')
    .filter((line) => !/^\.(nodeset|op|end)/.test(line))
    .join('\n')
}

/** Runs control commands on the deck in one process. Returns its wall time (s) and, when asked, the file it wrote. */
export const runNgspice = (network: Network, commands: readonly string[], output?: string) => {
  const folder = mkdtempSync(join(tmpdir(), 'bench-ngspice-'))
  try {
    const deck = join(folder, 'deck.cir')
    writeFileSync(deck, [body(network), '.control', ...commands, 'quit', '.endc', '.end', ''].join('\n'))
    const from = process.hrtime.bigint()
    const { status, stderr, error } = spawnSync('ngspice', ['-b', deck], {
      cwd: folder,
      encoding: 'utf8',
      maxBuffer: 1 << 28,
    })
    const seconds = Number(process.hrtime.bigint() - from) / 1e9
    if (error) throw error
    const text = output === undefined ? '' : readFileSync(join(folder, output), 'utf8')
    return { seconds, status, text, stderr }
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** Names of the deck's nodes, in the deck's own numbering. */
export const deckNodes = (network: Network): string[] => {
  const seen = new Set<string>([network.reference])
  for (const { a, b } of network.elements) for (const node of [a, b]) seen.add(node)
  seen.delete(network.reference)
  return [...seen]
}
