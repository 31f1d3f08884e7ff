/** The hours a week, said where too few sittings are recorded to know them, or to try another pace. */
import { useState } from 'react'
import { hoursText, readWorkTime } from '../../plan/workTime.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { TextField } from './Fields.tsx'
import { saidHours, sayHours } from './today.ts'

/** s, or undefined where nothing readable was said. */
export const readSaid = (text: string): number | undefined => {
  try {
    return text === '' ? undefined : readWorkTime(text).value
  } catch (error) {
    if (error instanceof Refusal) return undefined
    throw error
  }
}

export const useWeekHours = () => {
  const [text, setText] = useState(saidHours)
  return {
    text,
    time: readSaid(text),
    say: (typed: string): readonly Problem[] => {
      try {
        if (typed !== '') readWorkTime(typed)
      } catch (error) {
        if (error instanceof Refusal) return error.problems
        throw error
      }
      sayHours(typed)
      setText(typed)
      return []
    },
  }
}

export function WeekHours({
  text,
  say,
  mean,
}: {
  readonly text: string
  readonly say: (typed: string) => readonly Problem[]
  /** Pace of the recorded sittings, s a week. */
  readonly mean: number | undefined
}) {
  return (
    <TextField
      label="Hours a week"
      text={text}
      keep={say}
      hint={mean === undefined ? 'such as 6 h' : hoursText(mean)}
      note={
        mean === undefined
          ? 'Until three weeks of sittings are recorded, say it: a date needs it. Kept in this browser.'
          : `Your sittings say ${hoursText(mean)}; type another to try it. Kept in this browser.`
      }
    />
  )
}
