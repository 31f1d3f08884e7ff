import { refuse } from '../../units/problem.ts'
import { BATTERY_CAUTION, HOT_CAUTION } from '../make.ts'
import { coilFuse, drivenCoil, dropLimit, load, motorLaw, NEEDS, relayed } from './parts.ts'
import { ask, box, controller, drop, earth, feed, insulation, pins, running, stall } from './questions.ts'
import type { Pattern } from './types.ts'

export const electricFans: Pattern = {
  id: 'electric-fans',
  name: 'Electric fans by controller',
  purpose: 'One or two radiator fans, each with its own fuse, relay and controller output.',
  questions: [
    ask(
      'fans',
      { type: 'branch points', least: 1, most: 2 },
      'Where each fan sits',
      'a branch point for each, with commas between',
    ),
    running,
    stall,
    feed('permanent'),
    feed('engine', 'coils'),
    controller,
    pins('outputs', 'Outputs of the controller, one a fan', 1, 2),
    earth(),
    box,
    drop('5 %'),
    insulation,
  ],
  cautions: [
    BATTERY_CAUTION,
    HOT_CAUTION,
    'A fan may start by itself with the engine stopped: unplug it before hands go near the blades.',
  ],
  draw: (pen, answers) => {
    const places = answers.texts('fans')
    const outputs = answers.texts('outputs')
    if (places.length !== outputs.length)
      throw refuse(
        'no-answer',
        `${places.length} fans and ${outputs.length} outputs were named.`,
        'Name one output for each fan.',
        'outputs',
      )
    pen.circuit('fans', 'Radiator fans')
    const law = { ...motorLaw(answers), loading: 'fan' as const }
    const made = places.map((place, index) => {
      const id = places.length === 1 ? 'fan' : `fan-${index + 1}`
      const name = places.length === 1 ? 'Radiator fan' : `Radiator fan ${index + 1}`
      const fan = pen.device(
        id,
        name,
        place,
        { kind: 'motor' },
        { '+': '', '-': '' },
        { loads: [load('motor', '+', '-', law, NEEDS.motor)] },
      )
      return {
        id,
        name,
        ...relayed(pen, {
          id,
          name,
          feed: answers.text('feed'),
          box: answers.has('box') ? answers.text('box') : undefined,
          law,
          plus: `${fan}.+`,
          minus: `${fan}.-`,
          earth: pen.stud(answers.text('earth')),
          limit: dropLimit(answers),
          colours: 'RD/BU',
        }),
      }
    })
    const at = pen.at(`${made[0]!.relay}.86`)
    const fuse = coilFuse(pen, 'fan-coils', 'Fan relay coils', answers.text('coils'), at, made.length)
    made.forEach(({ id, name, relay }, index) => {
      drivenCoil(pen, {
        relay,
        name,
        id: `out-${id}`,
        from: `${fuse}.2`,
        behind: fuse,
        controller: answers.text('controller'),
        pin: outputs[index]!,
      })
    })
    pen.say(
      'The coils hang on the engine feed, not on the battery: a sleeping controller can then neither be fed backwards through a coil nor leave a fan on. For a fan that runs on, let the controller hold its main relay.',
    )
  },
}
