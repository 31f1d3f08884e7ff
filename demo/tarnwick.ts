/** The full demo: an invented van of 1972 with an invented engine, some twenty faults put in on purpose (faults.ts). */
import type { Build } from '../src/model/build.ts'
import { body } from './body.ts'
import { cabin } from './cabin.ts'
import { cases } from './cases.ts'
import { controller } from './controller.ts'
import { draft } from './draft.ts'
import { lighting } from './lighting.ts'
import { lists } from './lists.ts'
import { power } from './power.ts'
import { proofs } from './proofs.ts'
import { register } from './register.ts'
import { runningGear } from './runningGear.ts'
import { services } from './services.ts'
import { sheets } from './sheets.ts'
import { signals } from './signals.ts'
import { work } from './work.ts'

/** A fresh copy each time, so that whoever edits it spoils nobody else's. */
export const demoBuild = (): Build => {
  const pen = draft('Tarnwick 8 with a Halvard 21T')
  const rooms = [
    body,
    power,
    lighting,
    cabin,
    services,
    controller,
    signals,
    cases,
    sheets,
    runningGear,
    work,
    proofs,
    lists,
    register,
  ]
  for (const room of rooms) room(pen)
  return pen.finish()
}
