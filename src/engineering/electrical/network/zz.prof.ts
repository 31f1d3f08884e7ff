import { type NetworkElement, prepare } from './network.ts'
/** A car of 300 nodes: feeds from a bus, each with fuse, wires, joint, load and its own earth path. */
const largeCar = (): NetworkElement[] => {
  const elements: NetworkElement[] = [
    { type: 'battery', id: 'bat', a: 'bus', b: 'gnd', emf: 12.7, internalResistance: 0.008, acceptance: 4 },
    { type: 'alternator', id: 'alt', a: 'b+', b: 'engine', setpoint: 14.3, internalResistance: 0.006, limit: 110 },
    { type: 'resistor', id: 'b-cable', a: 'b+', b: 'bus', ohm: 0.002 },
    { type: 'resistor', id: 'strap', a: 'engine', b: 'gnd', ohm: 0.0005 },
    { type: 'resistor', id: 'body', a: 'chassis', b: 'gnd', ohm: 0.0006 },
  ]
  for (let i = 0; i < 49; i++) {
    const n = (part: string): string => `${part}${i}`
    const r = (part: string, a: string, b: string, ohm: number): NetworkElement => ({
      type: 'resistor',
      id: n(part),
      a,
      b,
      ohm,
    })
    elements.push(
      r('fuse', 'bus', n('f'), 0.003 + i * 1e-5),
      r('wire', n('f'), n('w'), 0.02 + i * 1e-3),
      r('joint', n('w'), n('j'), 0.002),
      r('feed', n('j'), n('p'), 0.01),
      r('return', n('e'), n('g'), 0.01),
      r('stud', n('g'), i % 3 === 0 ? 'engine' : 'chassis', 0.001),
      r('tie', n('g'), `g${(i + 1) % 49}`, 0.02),
    )
    const ends = { id: n('load'), a: n('p'), b: n('e') }
    elements.push(
      i % 5 === 0
        ? { ...ends, type: 'constantPower', power: 20, minimumVoltage: 7 }
        : i % 5 === 1
          ? { ...ends, type: 'constantCurrent', current: 0.8, minimumVoltage: 7 }
          : i % 5 === 2
            ? { ...ends, type: 'resistor', ohm: 12 }
            : { ...ends, type: 'lamp', ratedVoltage: 12, ratedPower: 10, exponent: 0.55, coldResistance: 1.2 },
      { type: 'switch', id: n('short'), a: n('w'), b: 'chassis', closed: false, ohm: 0.01 },
    )
  }
  return elements
}


const elements = largeCar()
const p = prepare({ reference: 'gnd', elements }); p.solve()
for (const what of (process.argv[2] ?? 'base,open,50,short').split(',')) {
 for (let rep = 0; rep < 6; rep++) {
  const t = performance.now(); let n = 0
  for (const e of elements) {
    if (what === 'short' ? e.type !== 'switch' : e.type !== 'resistor') continue
    p.solve(what === 'base' ? {} : what === 'open' ? { remove: [e.id] } : what === 'short' ? { set: { [e.id]: { closed: true } } } : { set: { [e.id]: { ohm: +what } } })
    n++
  }
  if (rep > 3) console.log(what, (performance.now() - t) / n)
 }
}
