/** Questions that many patterns share, worded once. */
import type { Asks, Question } from './asks.ts'

export const ask = (name: string, asks: Asks, title: string, hint: string): Question => ({ name, asks, title, hint })
export const optional = (question: Question): Question => ({ ...question, optional: true })
export const orElse = (question: Question, otherwise: string): Question => ({ ...question, otherwise })

/** Terminal 30 or 15, as the pattern says. */
export const feed = (which: 'permanent' | 'ignition' | 'engine', name = 'feed'): Question =>
  ask(
    name,
    { type: 'terminal' },
    which === 'permanent' ? 'Permanent feed (30)' : which === 'ignition' ? 'Ignition feed (15)' : 'Engine feed (87)',
    which === 'permanent'
      ? 'a rail behind a fuse, such as bus-30, or the battery itself'
      : which === 'ignition'
        ? 'a rail that is live with the ignition, such as bus-15'
        : 'a rail behind the main relay, such as bus-engine',
  )
export const earth = (name = 'earth', title = 'Earth stud'): Question =>
  ask(name, { type: 'device', of: ['earth-stud'] }, title, 'an earth stud near the load')
export const place = (name: string, title: string, hint = 'a branch point of the loom'): Question =>
  ask(name, { type: 'branch point' }, title, hint)
export const box = optional(place('box', 'Where fuse and relay sit', 'a branch point; else beside the feed'))
export const called = (otherwise: string): Question =>
  orElse(ask('name', { type: 'text' }, 'What it is called', 'a short name'), otherwise)
export const power = (name: string, title: string, otherwise?: string): Question => {
  const question = ask(name, { type: 'quantity', kind: 'power' }, title, 'as stamped on it, such as 55 W')
  return otherwise === undefined ? question : orElse(question, otherwise)
}
export const current = (name: string, title: string, hint: string): Question =>
  ask(name, { type: 'quantity', kind: 'current' }, title, hint)
export const running = current('running', 'Running current', 'measured or from its sheet, such as 8 A')
export const stall = current(
  'stall',
  'Stalled current',
  'held fast: from its sheet, or 12 V over its winding, such as 30 A',
)
/** ABYC E-11 as supplier charts print it (read): 3 % for what matters, 10 % for what does not. */
export const drop = (otherwise: '3 %' | '5 %' | '10 %'): Question =>
  orElse(
    ask(
      'drop',
      { type: 'quantity', kind: 'ratio' },
      'Drop allowed, out and back, of 12 V',
      'such as 3 % (feeds, lamps that matter), 10 % (the rest)',
    ),
    otherwise,
  )
export const insulation: Question = optional(
  ask(
    'insulation',
    { type: 'choice', options: ['A', 'B', 'C', 'D', 'E', 'F', 'G', 'H'] },
    'Insulation class of the wire',
    'ISO 6722 letter on the reel: B 100 °C, C 125 °C, D 150 °C',
  ),
)
export const controller = ask(
  'controller',
  { type: 'device', of: ['controller'] },
  'Controller',
  'the device that drives it, such as ecu',
)
export const pins = (name: string, title: string, least: number, most = least): Question =>
  ask(
    name,
    { type: 'controller pins', controller: 'controller', least, most },
    title,
    most === 1 ? 'a free pin of the controller, such as A12' : 'free pins of the controller with commas between',
  )
export const lampPlaces = (title: string, least = 1, most = 8): Question =>
  ask('lamps', { type: 'branch points', least, most }, title, 'a branch point for each lamp, with commas between')
