import { refuse } from '../../units/problem.ts'
import { BATTERY_CAUTION } from '../make.ts'
import { SIGNAL, sensorEarth, sensorSupply } from './controllerPinsOf.ts'
import { input } from './parts.ts'
import { controller, insulation, optional, pins, place } from './questions.ts'
import type { Pattern } from './types.ts'

export const crankAndCam: Pattern = {
  id: 'crank-and-cam',
  name: 'Screened crank and cam sensors',
  purpose: 'An inductive crank sensor on a screened, twisted pair and, if there is one, a Hall cam sensor.',
  questions: [
    place('crank', 'Where the crank sensor sits'),
    optional(place('cam', 'Where the cam sensor sits')),
    controller,
    pins('signal', 'Crank input, positive and negative', 2),
    optional(pins('camPin', 'Cam input', 1)),
    insulation,
  ],
  cautions: [BATTERY_CAUTION, 'Turn the engine by hand with the coils unplugged while you measure.'],
  draw: (pen, answers) => {
    if (answers.has('cam') !== answers.has('camPin'))
      throw refuse(
        'no-answer',
        'Of the cam sensor only place or pin is known.',
        'Set cam and camPin, or neither.',
        'cam',
      )
    pen.circuit('crank-and-cam', 'Crank and cam sensors')
    const ecu = answers.text('controller')
    const [plus, minus] = answers.texts('signal') as [string, string]
    const screen = sensorEarth(pen, ecu)
    const crank = pen.device(
      'crank-sensor',
      'Crankshaft sensor',
      answers.text('crank'),
      { kind: 'sensor' },
      { S: 'signal +', N: 'signal −' },
    )
    // Two wires that name each other: their ids are the next two.
    const first = pen.wire(`${crank}.S`, `${ecu}.${plus}`, 'WH', SIGNAL, {
      more: { screened: true, screenEarths: [screen] },
    })
    pen.wire(`${crank}.N`, `${ecu}.${minus}`, 'BK', SIGNAL, {
      more: { screened: true, twistedWith: first, screenEarths: [screen] },
    })
    pen.twist(first)
    input(pen, { id: 'in-crank', name: 'Crankshaft', controller: ecu, pin: plus, source: crank, signal: 'frequency' })
    pen.say(
      `The screen is earthed at the controller’s end only (${screen}); at the sensor it is cut back and sleeved. Twisted, apart from coil and injector wires. Plus and minus decide which edge is read: prove the polarity before the first start.`,
    )
    if (!answers.has('cam')) return
    const [pin] = answers.texts('camPin') as [string]
    const cam = pen.device(
      'cam-sensor',
      'Camshaft sensor',
      answers.text('cam'),
      { kind: 'sensor' },
      { '+': 'supply 5 V', S: 'signal', '-': 'return' },
    )
    pen.wire(`${cam}.+`, pen.tap(sensorSupply(pen, ecu)), 'OG', SIGNAL)
    pen.wire(`${cam}.S`, `${ecu}.${pin}`, 'WH/RD', SIGNAL, { more: { screened: true, screenEarths: [screen] } })
    pen.wire(`${cam}.-`, pen.tap(screen), 'BK/WH', SIGNAL)
    input(pen, { id: 'in-cam', name: 'Camshaft', controller: ecu, pin, source: cam, signal: 'frequency' })
  },
}
