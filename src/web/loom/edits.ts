/** What the loom's fields and forms store. Each returns the problems that kept it from being stored. */

import type { Build, Entity, Wire } from '../../model/build.ts'
import type { Measure } from '../../model/measure.ts'
import { nextId } from '../../model/newId.ts'
import type { Kind } from '../../units/index.ts'
import { type Problem, refuse } from '../../units/problem.ts'
import { write } from '../circuits/edits.ts'
import { readMeasure } from '../parts/quantityText.ts'
import { withField } from './withField.ts'

type Problems = readonly Problem[]
type Run = Entity<'runs'>
type Passage = Entity<'passages'>

export const setRunMeasure = (
  build: Build,
  run: Run,
  field: 'length' | 'sleeveBore' | 'bend',
  text: string,
): Problems =>
  write(build, `Run ${run.id}: ${RUN_WORDS[field]}`, () => [
    { collection: 'runs', id: run.id, value: withField(run, field, readMeasure('length', text, run[field])) },
  ])
export const RUN_WORDS = { length: 'length', sleeveBore: 'sleeve, inside', bend: 'bent to, on the inside' } as const

export const setRunText = (build: Build, run: Run, field: 'name' | 'sleeve', text: string): Problems =>
  write(build, `Run ${run.id}: ${field}`, () => [
    { collection: 'runs', id: run.id, value: withField(run, field, text === '' ? undefined : text) },
  ])

export const setPassage = (build: Build, passage: Passage, field: 'hole' | 'bore', text: string): Problems =>
  write(build, `${passage.name}: ${field}`, () => [
    {
      collection: 'passages',
      id: passage.id,
      value: withField(passage, field, readMeasure('length', text, passage[field])),
    },
  ])
export const setPassageChoice = (
  build: Build,
  passage: Passage,
  field: 'grommet' | 'through',
  text: string,
): Problems =>
  write(build, `${passage.name}: ${field}`, () => [
    {
      collection: 'passages',
      id: passage.id,
      value: withField(passage, field, text === '' ? undefined : field === 'grommet' ? text === 'yes' : text),
    },
  ])

export type LoomField = 'handLaid' | 'tape' | 'tail' | 'service' | 'waste'
export const LOOM_KINDS: Readonly<Record<LoomField, Kind>> = {
  handLaid: 'ratio',
  tape: 'length',
  tail: 'length',
  service: 'length',
  waste: 'ratio',
}
export const setLoom = (build: Build, field: LoomField, word: string, text: string): Problems =>
  write(build, `Loom: ${word}`, () => {
    const before = build.sheets.loom ?? {}
    const value = readMeasure(LOOM_KINDS[field], text, before[field] as Measure | undefined)
    if (field === 'handLaid' && value && value.value < 1)
      throw refuse(
        'out-of-range',
        'A bundle laid by hand is never thinner than its tightest packing.',
        'Enter 1 or more, such as 1.1.',
      )
    return [{ sheet: 'loom', value: withField(before, field, value) }]
  })
export const setWall = (build: Build, text: string): Problems =>
  write(build, 'Loom: insulation wall', () => [
    { sheet: 'loom', value: withField(build.sheets.loom ?? {}, 'wall', text === '' ? undefined : text) },
  ])

export const takePath = (build: Build, wire: Wire, path: readonly string[]): Problems =>
  write(build, `Path of wire ${wire.id}`, () => [
    { collection: 'wires', id: wire.id, value: { ...wire, path: [...path] } },
  ])

/** `x`, `y`: lengths as typed, or nothing. */
export const addPoint = (
  build: Build,
  typed: { readonly name: string; readonly zone: string; readonly x: string; readonly y: string },
): Problems =>
  write(build, `New branch point: ${typed.name}`, () => {
    const id = nextId(build.collections.branchPoints, 'P')
    const [x, y] = [readMeasure('length', typed.x), readMeasure('length', typed.y)]
    return [
      {
        collection: 'branchPoints',
        id,
        value: {
          id,
          name: typed.name,
          zone: typed.zone,
          ...(x ? { x: x.value } : {}),
          ...(y ? { y: y.value } : {}),
        },
      },
    ]
  })

export const addRun = (
  build: Build,
  typed: { readonly from: string; readonly to: string; readonly length: string; readonly sleeve: string },
): Problems =>
  write(build, 'New run', () => {
    if (typed.from === typed.to)
      throw refuse('same-ends', 'A run joins two different branch points.', 'Choose another point for one end.')
    const id = nextId(build.collections.runs, 'R')
    const length = readMeasure('length', typed.length)
    return [
      {
        collection: 'runs',
        id,
        value: {
          id,
          from: typed.from,
          to: typed.to,
          zone: build.collections.branchPoints[typed.from]!.zone,
          ...(length ? { length } : {}),
          ...(typed.sleeve === '' ? {} : { sleeve: typed.sleeve }),
        },
      },
    ]
  })
