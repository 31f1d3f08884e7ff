/** The network solution against Debian's ngspice: one solution, and all single-fault signatures of a 300-node car. */
import { bareToNetwork } from '../src/engineering/electrical/network/bareSolution.ts'
import {
  type Network,
  type NetworkElement,
  type Overrides,
  prepare,
} from '../src/engineering/electrical/network/network.ts'
import { carNetwork } from './carNetwork.ts'
import { deckNodes, ngspiceVersion, OPEN_OHM, runNgspice } from './ngspice.ts'
import { type Row, seconds } from './rows.ts'

/** Ohms of the short where a wire is chafed through, half way along. */
const SHORT_OHM = 0.01
const ALTERED = 60

/** For each wire in question two open switches to the body: with the wire they make up the star of a short half way. */
const withChafes = (network: Network, wires: readonly NetworkElement[]): Network => ({
  ...network,
  elements: [
    ...network.elements,
    ...wires.flatMap(({ id, a, b }) =>
      [a, b].map((node, k) => ({
        type: 'switch' as const,
        id: `${id}~${k}`,
        a: node,
        b: 'chassis',
        closed: false,
        ohm: 1,
      })),
    ),
  ],
})

/** Star to delta (Kennelly 1899, from memory): half wire, half wire, short. */
const chafed = (id: string, ohm: number): Overrides => {
  const half = 2 / ohm
  const short = 1 / SHORT_OHM
  const all = 2 * half + short
  const toBody = all / (half * short)
  return {
    set: {
      [id]: { ohm: all / (half * half) },
      [`${id}~0`]: { closed: true, ohm: toBody },
      [`${id}~1`]: { closed: true, ohm: toBody },
    },
  }
}

const printed = (text: string): Map<string, number>[] => {
  const solutions: Map<string, number>[] = []
  let current = new Map<string, number>()
  for (const [, name, value] of text.matchAll(/^(n\d+) = (\S+)$/gm)) {
    if (current.has(name!)) {
      solutions.push(current)
      current = new Map()
    }
    current.set(name!, Number(value))
  }
  return [...solutions, current]
}

export const benchNetwork = (): Row[] => {
  const version = ngspiceVersion()
  const network = bareToNetwork(carNetwork())
  const wires = network.elements.filter(({ id }) => /^(feed|tail)\d/.test(id))
  const extended = withChafes(network, wires)
  const nodes = deckNodes(extended)
  const deckName = new Map(extended.elements.map(({ id }, i) => [id, `r${i}`]))
  const ohmOf = new Map(
    extended.elements.flatMap((e) => (e.type === 'resistor' || e.type === 'switch' ? [[e.id, e.ohm] as const] : [])),
  )
  const linear = network.elements.filter(({ type }) => type === 'resistor')
  const prepared = prepare(extended)

  const resistive = linear.map(({ id }): Overrides => ({ set: { [id]: { ohm: 1 } } }))
  const faults: Overrides[] = [
    ...linear.map(({ id }): Overrides => ({ remove: [id] })),
    ...resistive,
    ...wires.map(({ id }) => chafed(id, ohmOf.get(id)!)),
  ]
  // Warm: the code compiled by its machine, the network prepared.
  for (let k = 0; k < 60; k++) prepared.signatures(faults, nodes)
  const ownBefore = seconds(() => prepared.signatures(faults, nodes), 30)
  for (let k = 0; k < 300; k++) prepared.solve(resistive[k % resistive.length])

  const altered = resistive.slice(0, ALTERED)
  const own = seconds(() => altered.map((change) => prepared.signatures([change], nodes)), 9) / ALTERED
  const inFull = seconds(() => altered.map((change) => prepared.solve(change)), 9) / ALTERED

  const found = prepared.signatures(faults, nodes)
  let worst = 0
  let uneven = 0
  faults.forEach((fault, i) => {
    const { voltages } = prepared.solve(fault)
    nodes.forEach((node, k) => {
      const full = voltages.get(node) ?? Number.NaN
      const low = found.volts[i]![k]!
      if (Number.isNaN(full) !== Number.isNaN(low)) uneven++
      else if (!Number.isNaN(full)) worst = Math.max(worst, Math.abs(full - low))
    })
  })
  const size = `${nodes.length + 1} nodes, ${network.elements.length} elements`
  const rowsWith = (ownAll: number): Row[] => [
    { name: `one solution, ${size}, one element altered, warm`, value: `${(own * 1e6).toFixed(0)} µs` },
    { name: 'the same by a full Newton iteration, report included', value: `${(inFull * 1e6).toFixed(0)} µs` },
    {
      name: `all ${faults.length} single-fault signatures (each open, each at 1 Ω, ${wires.length} wires chafed)`,
      value: `${(ownAll * 1e3).toFixed(1)} ms, ${found.full} of them solved in full`,
    },
    {
      name: 'largest difference of a signature from full re-solution',
      value: `${worst.toExponential(1)} V${uneven ? `, ${uneven} nodes floating in one only` : ''}`,
      reach: '≤ 1 mV',
      reached: worst <= 1e-3 && uneven === 0,
    },
  ]
  if (!version)
    return [
      ...rowsWith(ownBefore),
      {
        name: 'against ngspice',
        value: 'not run: there is no ngspice here. Install it with: apt-get install ngspice',
        reach: '≥ 50 ×',
        reached: false,
      },
    ]

  const alter = (fault: Overrides): [string[], string[]] => {
    const there: string[] = []
    const back: string[] = []
    for (const id of fault.remove ?? []) {
      there.push(`alter ${deckName.get(id)} = ${OPEN_OHM}`)
      back.push(`alter ${deckName.get(id)} = ${ohmOf.get(id)}`)
    }
    for (const [id, { ohm }] of Object.entries(fault.set ?? {})) {
      there.push(`alter ${deckName.get(id)} = ${ohm}`)
      back.push(`alter ${deckName.get(id)} = ${id.includes('~') ? OPEN_OHM : ohmOf.get(id)}`)
    }
    return [there, back]
  }
  const script = (list: readonly Overrides[], print: boolean): string[] => [
    'set numdgt=12',
    ...list.flatMap((fault) => {
      const [there, back] = alter(fault)
      return [...there, 'op', ...(print ? ['print all >> out.txt'] : []), ...back, 'destroy all']
    }),
  ]
  const least = (run: () => { seconds: number }, times: number): number =>
    Math.min(...Array.from({ length: times }, () => run().seconds))

  const whole = least(() => runNgspice(network, ['set numdgt=12', 'op', 'print all > out.txt'], 'out.txt'), 7)
  const alone = runNgspice(network, ['set numdgt=12', 'op', 'print all > out.txt'], 'out.txt')
  const base = prepared.solve()
  let apart = 0
  deckNodes(network).forEach((node, i) => {
    const theirs = printed(alone.text)[0]!.get(`n${i}`)!
    apart = Math.max(apart, Math.abs(base.voltages.get(node)! - theirs) / Math.max(1, Math.abs(theirs)))
  })
  const start = least(() => runNgspice(network, []), 7)
  const loadedSilent = (least(() => runNgspice(network, script(altered, false)), 3) - start) / ALTERED
  const loaded = (least(() => runNgspice(network, script(altered, true), 'out.txt'), 3) - start) / ALTERED
  const allSilent = least(() => runNgspice(extended, script(faults, false)), 4)
  const all = least(() => runNgspice(extended, script(faults, true), 'out.txt'), 4)
  // Once more after the peer's runs: what else the machine does comes and goes.
  const ownAll = Math.min(
    ownBefore,
    seconds(() => prepared.signatures(faults, nodes), 9),
  )
  const theirs = printed(runNgspice(extended, script(faults, true), 'out.txt').text)
  let signaturesApart = 0
  let compared = 0
  faults.forEach((_, i) => {
    nodes.forEach((_, k) => {
      const volts = theirs[i]?.get(`n${k}`)
      const low = found.volts[i]![k]!
      // Their opened element still leaks through 10¹² Ω, so a floating node has some voltage there.
      if (volts === undefined || Number.isNaN(low)) return
      compared++
      signaturesApart = Math.max(signaturesApart, Math.abs(low - volts))
    })
  })
  const ratio = (peer: number, mine: number): string => `${(peer / mine).toFixed(0)} ×`
  return [
    ...rowsWith(ownAll),
    {
      name: 'largest difference from ngspice, V or relative',
      value: apart.toExponential(1),
      reach: '≤ 1e-6',
      reached: apart <= 1e-6,
    },
    {
      name: `against ${version} as a whole process (${(whole * 1e3).toFixed(1)} ms)`,
      value: ratio(whole, own),
      reach: '≥ 50 ×',
      reached: whole / own >= 50,
    },
    {
      name: `against ${version} already loaded, altered and run again, voltages printed (${(loaded * 1e6).toFixed(0)} µs)`,
      value: ratio(loaded, own),
      reach: '≥ 20 ×',
      reached: loaded / own >= 20,
    },
    {
      name: `the same, its voltages left unprinted (${(loadedSilent * 1e6).toFixed(0)} µs)`,
      value: ratio(loadedSilent, own),
    },
    {
      name: `signatures against one ${version} process, altered and run again (${all.toFixed(2)} s)`,
      value: ratio(all, ownAll),
      reach: '≥ 50 ×',
      reached: all / ownAll >= 50,
    },
    { name: `the same, its voltages left unprinted (${allSilent.toFixed(2)} s)`, value: ratio(allSilent, ownAll) },
    {
      name: `largest difference of a signature from ngspice, ${compared} voltages`,
      value: `${signaturesApart.toExponential(1)} V`,
      reach: '≤ 1 mV',
      reached: signaturesApart <= 1e-3 && compared > 0,
    },
  ]
}
