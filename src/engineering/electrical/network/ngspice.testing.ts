import { Simulation } from 'eecircuit-engine'
import type { Network, NetworkElement } from './network.ts'

/**
 * A network as a deck for ngspice 45.2 (npm eecircuit-engine 1.8.0), for tests only. Laws other than a resistor's are
 * behavioural current sources with the same formula. Nodes are renamed n0, n1…; the reference is 0.
 */
export const ngspiceDeck = (network: Network, guess: ReadonlyMap<string, number | null>): string => {
  const names = new Map<string, string>([[network.reference, '0']])
  const node = (name: string): string => {
    const known = names.get(name)
    if (known) return known
    const made = `n${names.size - 1}`
    names.set(name, made)
    return made
  }
  const coilOf = (id: string): { a: string; b: string } => {
    const coil = network.elements.find((element) => element.id === id)
    if (!coil) throw new Error(`no coil ${id}`)
    return { a: node(coil.a), b: node(coil.b) }
  }
  // All nodes get their names in the order of the elements, before a coil is asked for.
  for (const { a, b } of network.elements) [a, b].map(node)
  const lines = network.elements.map((element, i) => line(element, i, node(element.a), node(element.b), coilOf))
  const nodeset = [...names]
    .filter(([, short]) => short !== '0')
    .map(([name, short]) => `v(${short})=${guess.get(name) ?? 0}`)
  return [
    'network under test',
    ...lines,
    `.nodeset ${nodeset.join(' ')}`,
    '.options reltol=1e-10 abstol=1e-13 vntol=1e-10 gmin=1e-15 itl1=2000',
    '.op',
    '.end',
  ].join('\n')
}

const line = (
  element: NetworkElement,
  i: number,
  a: string,
  b: string,
  coilOf: (id: string) => { a: string; b: string },
): string => {
  const v = `v(${a},${b})`
  const current = (law: string): string => `b${i} ${a} ${b} i = ${law}`
  switch (element.type) {
    case 'resistor':
      return `r${i} ${a} ${b} ${element.ohm}`
    case 'switch':
      return element.closed ? `r${i} ${a} ${b} ${element.ohm}` : `* ${element.id} open`
    case 'battery': {
      const free = `(${v}-(${element.emf}))/${element.internalResistance}`
      return current(element.acceptance === undefined ? free : `min(${free},${element.acceptance})`)
    }
    case 'alternator':
      return current(`-min(max((${element.setpoint}-${v})/${element.internalResistance},0),${element.limit})`)
    case 'lamp': {
      const { ratedPower: w, ratedVoltage: r, exponent: x, coldResistance: cold } = element
      const hot = `${w / r}*pow(abs(${v})/${r},${x})`
      return current(`min(${hot},abs(${v})/${cold})*sgn(${v})`)
    }
    case 'constantCurrent':
      return current(`${element.current}*min(1,${v}/${element.minimumVoltage})`)
    case 'constantPower':
      return current(
        `${v} > ${element.minimumVoltage} ? ${element.power}/${v} : ${element.power}*${v}/${element.minimumVoltage ** 2}`,
      )
    case 'diode':
      return current(
        `max(0,(${v}-${element.forwardVoltage})/${element.onResistance})+${v}*${element.reverseLeak || 1e-9}`,
      )
    case 'motor': {
      const { runningCurrent: amperes, stallResistance: r, ratedVoltage, loading } = element
      if (loading === 'constant') return current(`max(min(${v}/${r},${amperes}),-${amperes})`)
      const c = amperes / (ratedVoltage - amperes * r) ** 2
      return current(`${c}*pow((sqrt(1+${4 * r * c}*abs(${v}))-1)/${2 * r * c},2)*sgn(${v})+${v}/${1000 * r}`)
    }
    case 'relayContact': {
      // ngspice's own voltage-controlled switch with hysteresis: on above vt + vh, off below vt − vh, off at the start.
      if (element.normally === 'closed') throw new Error('ngspice has no contact that opens; put a switch in its place')
      const coil = coilOf(element.operatedBy)
      const middle = (element.pullIn + element.dropOut) / 2
      const half = (element.pullIn - element.dropOut) / 2
      return `s${i} ${a} ${b} ${coil.a} ${coil.b} m${i} off\n.model m${i} sw(vt=${middle} vh=${half} ron=${element.ohm} roff=1e12)`
    }
  }
}

/** Node voltages by ngspice, keyed by the network's own node names. */
export const ngspiceVoltages = async (
  network: Network,
  guess: ReadonlyMap<string, number | null> = new Map(),
): Promise<Map<string, number>> => {
  const simulation = new Simulation()
  await simulation.start()
  simulation.setNetList(ngspiceDeck(network, guess))
  const result = await simulation.runSim()
  const short = new Map<string, number>()
  result.data.forEach(({ name, values }) => {
    const first = values[0]
    if (typeof first === 'number') short.set(name.toLowerCase(), first)
  })
  const order = new Set<string>([network.reference])
  for (const { a, b } of network.elements) {
    order.add(a)
    order.add(b)
  }
  const found = new Map<string, number>()
  let index = 0
  for (const name of order) {
    if (name === network.reference) found.set(name, 0)
    else {
      const value = short.get(`v(n${index})`)
      if (value === undefined) throw new Error(`ngspice gave no voltage for ${name}`)
      found.set(name, value)
      index++
    }
  }
  return found
}
