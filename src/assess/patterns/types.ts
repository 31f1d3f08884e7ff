/** What a circuit pattern is: what it asks for, and how it draws itself with a pen. */
import type { Build, Edit } from '../../model/build.ts'
import type { Problem } from '../../units/problem.ts'
import type { Verdict } from '../finding.ts'
import type { Answers } from './answers.ts'
import type { Question } from './asks.ts'
import type { Pen } from './pen.ts'

export interface Pattern {
  readonly id: string
  readonly name: string
  readonly purpose: string
  readonly questions: readonly Question[]
  readonly cautions: readonly string[]
  readonly draw: (pen: Pen, answers: Answers) => void
}

export interface Applied {
  readonly edit: Edit
  /** Why that wire, that fuse, that relay; then what is assumed and what to do next. */
  readonly explains: readonly string[]
  readonly cautions: readonly string[]
  /** What the assessment says against the new circuit once it is in the build. */
  readonly problems: readonly (Problem & { readonly verdict: Verdict })[]
  /** The build with the circuit in it. */
  readonly build: Build
}
