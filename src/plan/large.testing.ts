/**
 * A build of many jobs and accesses, made by rule from a seed: chains of jobs through the corners of a car, with wheels
 * or stands, battery on or off, engine running or things drained. Nothing in it knows the plan.
 */
import { type Build, emptyBuild } from '../model/build.ts'
import { seeded } from './random.ts'

type Row = readonly [
  id: string,
  open: number,
  close: number,
  requires?: readonly string[],
  excludes?: readonly string[],
]
const ACCESSES: readonly Row[] = [
  ['bonnet-up', 1, 1],
  ['battery-off', 5, 10, ['bonnet-up']],
  ['battery-on', 5, 5, ['bonnet-up'], ['battery-off']],
  ['on-stands', 30, 25],
  ['on-wheels', 2, 2, [], ['on-stands']],
  ['wheels-front-off', 10, 15, ['on-stands']],
  ['wheels-rear-off', 10, 15, ['on-stands']],
  ['tank-empty', 50, 20, ['battery-off']],
  ['tank-out', 45, 70, ['tank-empty', 'on-stands']],
  ['coolant-out', 30, 50],
  ['oil-out', 20, 25],
  ['engine-running', 3, 2, ['battery-on'], ['coolant-out', 'oil-out', 'tank-empty']],
  ['inlet-off', 60, 90, ['battery-off']],
  ['rail-off', 25, 35, ['inlet-off']],
  ['exhaust-off', 50, 60, ['on-stands']],
  ['shield-off', 15, 20],
  ['grille-off', 25, 40],
  ['radiator-out', 30, 40, ['grille-off', 'coolant-out']],
  ['bumper-off', 20, 30, ['grille-off']],
  ['dash-off', 35, 55],
  ['column-down', 20, 30, ['dash-off']],
  ['heater-out', 60, 90, ['dash-off', 'coolant-out']],
  ['left-seat-out', 10, 15],
  ['right-seat-out', 10, 15],
  ['carpet-out', 15, 25, ['left-seat-out', 'right-seat-out']],
  ['lining-off', 30, 45],
  ['lamps-off', 15, 20],
  ['gearbox-down', 45, 60, ['on-stands']],
  ['propshaft-out', 25, 30, ['on-stands']],
  ['calipers-off', 20, 30, ['wheels-front-off']],
]

export const largeBuild = (jobs = 200, seed = 1, chain = 0.6): Build => {
  const random = seeded(seed)
  const build = emptyBuild(`Large ${seed}`)
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!
  build.collections.milestones.end = { id: 'end', name: 'The end', order: 1 }
  for (const [id, open, close, requires, excludes] of ACCESSES)
    build.collections.accesses[id] = {
      id,
      name: id,
      open: { value: open * 60 },
      close: { value: close * 60 },
      ...(requires === undefined ? {} : { requires: [...requires] }),
      ...(excludes === undefined ? {} : { excludes: [...excludes] }),
    }
  // Most work is found taking the car apart, some with it whole again: the later the job, the likelier it is a test.
  const whole = ['battery-on', 'engine-running', 'on-wheels']
  const apart = ACCESSES.map(([id]) => id).filter((id) => !whole.includes(id))
  for (let i = 1; i <= jobs; i++) {
    const id = `J-${i}`
    const test = random() < 0.08 + (0.25 * i) / jobs
    const first = test ? pick(whole) : pick(apart)
    const accesses = [first]
    if (!test && random() < 0.35) accesses.push(pick(apart))
    if (test && random() < 0.2 && first !== 'on-wheels') accesses.push('on-wheels')
    const needs = new Set<string>()
    while (i > 3 && random() < chain && needs.size < 3) needs.add(`J-${1 + Math.floor(random() * (i - 1))}`)
    const likely = 900 + Math.floor(random() * 20) * 360
    build.collections.jobs[id] = {
      id,
      title: `Job ${i}`,
      status: 'to do',
      milestone: 'end',
      accesses: [...new Set(accesses)],
      time: { least: { value: likely * 0.6 }, likely: { value: likely }, most: { value: likely * 2 } },
      ...(needs.size === 0 ? {} : { needs: { jobs: [...needs] } }),
    }
  }
  return build
}
