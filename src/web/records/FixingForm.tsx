/** What a line of the register is of, what it is to have, and when it is to be seen to again. */
import { useState } from 'react'
import type { FixingFields } from '../../assess/register/edit.ts'
import { KINDS_OF } from '../../assess/register/kinds.ts'
import { type Fixing, figureText } from '../../assess/register/standing.ts'
import type { Build } from '../../model/build.ts'
import { parseQuantity } from '../../units/parse.ts'
import { type Problem, Refusal, refuse } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { measureText, readMeasure } from '../parts/quantityText.ts'

interface Props {
  readonly build: Build
  readonly fixing?: Fixing
  readonly save: (fields: FixingFields) => readonly Problem[]
}
type Field =
  | 'name'
  | 'of'
  | 'group'
  | 'zone'
  | 'least'
  | 'most'
  | 'source'
  | 'distance'
  | 'time'
  | 'months'
  | 'day'
  | 'again'
  | 'diameter'
  | 'pitch'
  | 'grade'
  | 'factor'
type Text = Readonly<Record<Field, string>>
const FIELDS = [
  ['least', 'At least'],
  ['most', 'At most'],
  ['source', 'Whose figure it is'],
  ['distance', 'Again after, km'],
  ['time', 'Again after, hours run'],
  ['months', 'Again after, months'],
  ['day', 'Again on the day'],
] as const
const BOLT = [
  ['diameter', 'Thread, mm'],
  ['pitch', 'Pitch, mm'],
  ['factor', 'Nut factor with its ±'],
] as const
const GRADES = ['4.6', '5.6', '5.8', '6.8', '8.8', '9.8', '10.9', '12.9'] as const

const textOf = (fixing: Fixing | undefined): Text => {
  const limit = (value: number | undefined): string =>
    fixing === undefined || value === undefined ? '' : figureText(fixing, value, { unit: fixing.asked?.unit })
  return {
    name: fixing?.name ?? '',
    of: fixing?.of ?? 'torque',
    group: fixing?.group ?? '',
    zone: fixing?.zone ?? '',
    least: limit(fixing?.asked?.least),
    most: limit(fixing?.asked?.most),
    source: fixing?.asked?.source ?? '',
    distance: measureText('length', fixing?.recheck?.distance),
    time: measureText('time', fixing?.recheck?.time),
    months: fixing?.recheck?.months?.toString() ?? '',
    day: fixing?.recheck?.day ?? '',
    again: fixing?.recheck?.again ? 'again' : '',
    diameter: measureText('length', fixing?.bolt?.diameter),
    pitch: measureText('length', fixing?.bolt?.pitch),
    grade: fixing?.bolt?.grade ?? '',
    factor: measureText('ratio', fixing?.bolt?.factor),
  }
}

/** All of a bolt or none of it: a thread without its class says nothing. Its nut factor may come later. */
const boltOf = (text: Text, fixing: Fixing | undefined): Pick<Fixing, 'bolt'> => {
  const before = fixing?.bolt
  const diameter = readMeasure('length', text.diameter, before?.diameter ?? { value: 0, unit: 'mm' })
  const pitch = readMeasure('length', text.pitch, before?.pitch ?? { value: 0, unit: 'mm' })
  const factor = readMeasure('ratio', text.factor, before?.factor)
  const grade = GRADES.find((each) => each === text.grade)
  if (diameter && pitch && grade) return { bolt: { diameter, pitch, grade, ...(factor ? { factor } : {}) } }
  if (diameter || pitch || grade || factor)
    throw refuse('inconsistent-inputs', 'The bolt is only half entered.', 'Enter thread, pitch and class, or none.')
  return {}
}

/** Throws Refusal for a text that is no figure. What the form does not show stays as it was. */
const fieldsOf = (text: Text, fixing: Fixing | undefined): FixingFields => {
  const of = text.of as Fixing['of']
  const { kind, unit } = KINDS_OF[of]
  const read = (typed: string) => (typed.trim() === '' ? undefined : parseQuantity(kind, typed, { unit }))
  const [least, most] = [read(text.least), read(text.most)]
  const distance = readMeasure('length', text.distance, fixing?.recheck?.distance ?? { value: 0, unit: 'km' })
  const time = readMeasure('time', text.time, fixing?.recheck?.time ?? { value: 0, unit: 'h' })
  const {
    id: _id,
    entries: _entries,
    asked: _asked,
    recheck: _recheck,
    bolt: _bolt,
    group: _group,
    zone: _zone,
    ...rest
  } = fixing ?? {
    id: '',
    entries: [],
  }
  const source = text.source.trim()
  const asked = {
    ...(least ? { least: least.value, unit: least.unit || unit } : {}),
    ...(most ? { most: most.value, unit: most.unit || unit } : {}),
    ...(source ? { source } : {}),
  }
  const months = text.months.trim()
  if (!/^\d*$/.test(months) || Number(months) > 240)
    throw refuse('no-number', `“${months}” is no count of months.`, 'Type a whole number up to 240, or nothing.')
  const recheck = {
    ...(distance ? { distance } : {}),
    ...(time ? { time } : {}),
    ...(Number(months) > 0 ? { months: Number(months) } : {}),
    ...(text.day ? { day: text.day } : {}),
  }
  return {
    ...rest,
    name: text.name.trim().slice(0, 160),
    of,
    ...(text.group.trim() ? { group: text.group.trim() } : {}),
    ...(text.zone ? { zone: text.zone } : {}),
    ...(Object.keys(asked).length > 0 ? { asked } : {}),
    ...(Object.keys(recheck).length > 0
      ? { recheck: { ...recheck, ...(text.again === 'again' ? { again: true } : {}) } }
      : {}),
    ...boltOf(text, fixing),
  }
}

export function FixingForm({ build, fixing, save }: Props) {
  const [text, setText] = useState(() => textOf(fixing))
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const type = (field: keyof Text) => (event: { readonly target: { readonly value: string } }) =>
    setText({ ...text, [field]: event.target.value })
  const submit = (): void => {
    try {
      setProblems(save(fieldsOf(text, fixing)))
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProblems(error.problems)
    }
  }
  return (
    <form
      className="fixing-form"
      onSubmit={(event) => {
        event.preventDefault()
        submit()
      }}
    >
      <label>
        Joint or clearance
        <input value={text.name} placeholder="hub nut, front left" onChange={type('name')} />
      </label>
      <label>
        Figure
        <select value={text.of} onChange={type('of')}>
          {Object.entries(KINDS_OF).map(([id, { title, unit }]) => (
            <option key={id} value={id}>
              {title}, {unit}
            </option>
          ))}
        </select>
      </label>
      {FIELDS.map(([field, label]) => (
        <label key={field}>
          {label}
          <input
            type={field === 'day' ? 'date' : 'text'}
            autoComplete="off"
            value={text[field]}
            onChange={type(field)}
          />
        </label>
      ))}
      <label>
        How often
        <select value={text.again} onChange={type('again')}>
          <option value="">once more</option>
          <option value="again">again and again</option>
        </select>
      </label>
      <label>
        Belongs to
        <input value={text.group} placeholder="brakes, engine …" onChange={type('group')} />
      </label>
      <label>
        Place on the car
        <select value={text.zone} onChange={type('zone')}>
          <option value="">none</option>
          {Object.values(build.collections.zones).map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      </label>
      {text.of === 'torque' && (
        <>
          {BOLT.map(([field, label]) => (
            <label key={field}>
              {label}
              <input autoComplete="off" value={text[field]} onChange={type(field)} />
            </label>
          ))}
          <label>
            Property class
            <select value={text.grade} onChange={type('grade')}>
              <option value="">not entered</option>
              {GRADES.map((grade) => (
                <option key={grade}>{grade}</option>
              ))}
            </select>
          </label>
        </>
      )}
      <button type="submit">{fixing ? 'Mend' : 'Add'}</button>
      <Problems list={problems} />
    </form>
  )
}
