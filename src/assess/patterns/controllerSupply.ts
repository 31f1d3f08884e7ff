import { BATTERY_CAUTION } from '../make.ts'
import { COIL_CURRENT, coilFuse, dropLimit, input, load, NEEDS, output } from './parts.ts'
import { fuseOhm, RELAY_OHM } from './pen.ts'
import { box, controller, current, drop, earth, feed, insulation, pins } from './questions.ts'
import type { Pattern } from './types.ts'

export const controllerSupply: Pattern = {
  id: 'controller-supply',
  name: 'Controller supply with main relay and after-run',
  purpose:
    'A main relay that the controller itself holds, so that it can run on after the key is off; a rail behind it for the engine’s loads.',
  questions: [
    controller,
    pins('supply', 'Supply pin', 1),
    pins('permanent', 'Pin that stays live for memory and for pulling the relay in', 1),
    pins('wake', 'Input that hears the ignition', 1),
    pins('relay', 'Output that pulls the main relay', 1),
    pins('earths', 'Power earth pins', 1, 6),
    current('draws', 'Current of the controller itself', 'such as 1 A'),
    current(
      'engine',
      'Current of all that hangs on the engine rail',
      'injectors, coils, pump, heaters together, such as 35 A',
    ),
    feed('permanent'),
    feed('ignition', 'ignition'),
    earth('earth', 'Earth stud of the controller, on the engine'),
    box,
    drop('3 %'),
    insulation,
  ],
  cautions: [BATTERY_CAUTION, 'Leave the controller’s plug off until supply and earth are proved at it with a meter.'],
  draw: (pen, answers) => {
    pen.circuit('controller-supply', 'Controller supply')
    const ecu = answers.text('controller')
    const pin = (name: string) => answers.texts(name)[0]!
    const rail = answers.quantity('current', 'engine').value
    const own = answers.quantity('current', 'draws')
    const at = pen.at(`${ecu}.${pin('supply')}`)
    // Which pin plays which part is read from its name, so the pins are named.
    pen.name(ecu, {
      [pin('supply')]: 'switched supply',
      [pin('permanent')]: 'permanent supply',
      [pin('wake')]: 'ignition sense',
      ...Object.fromEntries(answers.texts('earths').map((each) => [each, 'power earth'])),
    })
    const device = pen.build.collections.devices[ecu]!
    if ((device.loads ?? []).length === 0)
      pen.change({
        ...device,
        loads: [
          load('electronics', pin('supply'), pin('earths'), {
            type: 'current',
            current: own,
            minimumVoltage: { value: NEEDS.electronics, unit: 'V' },
          }),
        ],
      })
    const main = pen.fuse(
      'fuse-main-relay',
      'Main relay',
      answers.text('feed'),
      answers.has('box') ? answers.text('box') : undefined,
      { current: rail + own.value },
    )
    const relay = pen.relay('main-relay', 'Main relay', pen.at(`${main}.2`))
    const bus = pen.splice('engine-rail', 'Engine rail, terminal 87', at)
    const wires = [
      pen.wire(`${main}.2`, `${relay}.30`, 'RD', rail, { behind: main }),
      pen.wire(`${relay}.87`, `${bus}.1`, 'RD/YE', rail, { behind: main }),
    ]
    pen.way(dropLimit(answers), wires, rail, fuseOhm(pen, main) + RELAY_OHM)
    const supply = pen.fuse('fuse-controller', 'Controller', `${bus}.2`, at, { current: own.value }, 'RD/YE')
    const feedWire = pen.wire(`${supply}.2`, `${ecu}.${pin('supply')}`, 'RD/GN', own.value, { behind: supply })
    // An engine stud raised by other currents raises the controller with it: every earth pin has a wire of its own.
    const backs = answers
      .texts('earths')
      .map((each) =>
        pen.wire(
          `${ecu}.${each}`,
          pen.stud(answers.text('earth')),
          'BN',
          (rail + own.value) / answers.texts('earths').length,
        ),
      )
    pen.way(dropLimit(answers), [feedWire, backs[0]!], own.value, fuseOhm(pen, supply))
    const memory = coilFuse(pen, 'controller-memory', 'Controller memory and main relay coil', answers.text('feed'), at)
    pen.wire(`${memory}.2`, `${ecu}.${pin('permanent')}`, 'RD/BU', COIL_CURRENT, { behind: memory })
    pen.wire(`${memory}.2`, `${relay}.86`, 'RD/BU', COIL_CURRENT, { behind: memory })
    pen.wire(`${relay}.85`, `${ecu}.${pin('relay')}`, 'BN/RD', COIL_CURRENT)
    output(pen, { id: 'out-main-relay', name: 'Main relay', controller: ecu, pin: pin('relay'), drives: relay })
    const wake = coilFuse(pen, 'controller-wake', 'Controller wake', answers.text('ignition'), at)
    pen.wire(`${wake}.2`, `${ecu}.${pin('wake')}`, 'BK/WH', COIL_CURRENT, { behind: wake })
    input(pen, { id: 'in-ignition', name: 'Ignition on', controller: ecu, pin: pin('wake'), signal: 'switch' })
    pen.say(
      `The ignition only tells the controller (${pin('wake')}); the controller pulls ${relay} in by its own output (${pin('relay')}) and lets it go when its after-run is over. The coil hangs on the battery, so a controller that pulls ${pin('relay')} to earth while asleep would empty it: measure the current with the key off.`,
    )
    pen.say(`Loads of the engine go to ${bus}, each behind a fuse of its own.`)
  },
}
