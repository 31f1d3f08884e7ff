import { BATTERY_CAUTION, FUEL_CAUTION, QUALIFIED_FUEL } from '../make.ts'
import { dropLimit, load, NEEDS, output, resistanceLaw, total } from './parts.ts'
import { fuseOhm } from './pen.ts'
import { ask, box, controller, drop, feed, insulation, orElse, pins, place } from './questions.ts'
import type { Pattern } from './types.ts'

export const injectorBank: Pattern = {
  id: 'injector-bank',
  name: 'Injector bank',
  purpose: 'One fuse and one feed for all injectors, a controller output for each.',
  questions: [
    place('at', 'Where the injectors sit'),
    orElse(
      ask(
        'resistance',
        { type: 'quantity', kind: 'resistance' },
        'Resistance of an injector',
        'measured, such as 12 Ω',
      ),
      '12 Ω',
    ),
    feed('engine'),
    controller,
    pins('outputs', 'Outputs of the controller, one an injector, in cylinder order', 1, 12),
    box,
    drop('5 %'),
    insulation,
  ],
  cautions: [BATTERY_CAUTION, FUEL_CAUTION, QUALIFIED_FUEL],
  draw: (pen, answers) => {
    pen.circuit('injectors', 'Injectors')
    const ohm = answers.quantity('resistance', 'resistance').value
    const law = resistanceLaw(ohm)
    const outputs = answers.texts('outputs')
    const at = answers.text('at')
    const ecu = answers.text('controller')
    const all = total(
      pen,
      outputs.map(() => law),
    ).current
    const one = all / outputs.length
    const fuse = pen.fuse(
      'fuse-injectors',
      'Injectors',
      answers.text('feed'),
      answers.has('box') ? answers.text('box') : undefined,
      { current: all },
    )
    const joint = pen.splice('splice-injectors', 'Splice, injectors', at)
    const trunk = pen.wire(`${fuse}.2`, `${joint}.1`, 'RD/GY', all, { behind: fuse })
    outputs.forEach((pin, index) => {
      const n = index + 1
      const injector = pen.device(
        `injector-${n}`,
        `Injector, cylinder ${n}`,
        at,
        { kind: 'injector' },
        { 1: 'supply', 2: 'driver' },
        {
          loads: [load('winding', '1', '2', law, NEEDS.coil)],
        },
      )
      const feedWire = pen.wire(pen.tap(`${joint}.1`), `${injector}.1`, 'RD/GY', one, { behind: fuse })
      const driven = pen.wire(`${injector}.2`, `${ecu}.${pin}`, 'GY', one)
      pen.way(dropLimit(answers), [trunk, feedWire, driven], all, fuseOhm(pen, fuse))
      output(pen, { id: `out-injector-${n}`, name: `Injector ${n}`, controller: ecu, pin, drives: injector })
    })
    pen.say(
      `Fuse and wires are made for all ${outputs.length} injectors open at once, ${all.toFixed(1)} A. ${
        ohm < 5
          ? `At ${ohm} Ω they need a driver that limits its current, or series resistors: ask the controller’s sheet before you connect them.`
          : `At ${ohm} Ω each output switches ${one.toFixed(1)} A; the controller’s sheet says whether it may.`
      }`,
    )
  },
}
