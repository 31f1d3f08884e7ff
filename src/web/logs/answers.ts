/** What the server answers to a question, as far as this screen shows it. */
import type { InjectorCard } from '../../model/injectorCard.ts'
import { send } from '../workbench/api.ts'
import type { BuildAnswer } from '../workbench/bench.ts'
import type { Question } from './questions.ts'
import type { Span } from './TimeStrip.tsx'

interface Ranged {
  readonly value: number
  readonly plusMinus: number
}
export interface Answer {
  readonly answer: 'told' | 'cannot-tell'
  readonly sentence: string
  readonly next?: string | readonly string[]
  readonly cautions?: readonly string[]
  readonly assumptions?: readonly string[]
  readonly notIdentified?: readonly { readonly what: string; readonly why: string }[]
  readonly unchecked?: readonly string[]
  /** Meanings that no channel has yet; of the injectors, with the log that lacks them. */
  readonly missing?: readonly (string | { readonly log: 'known' | 'unknown'; readonly role: string })[]
  readonly remarks?: readonly {
    readonly channel: string
    readonly trouble: string
    readonly sentence: string
    readonly todo: string
    readonly at: number | null
  }[]
  readonly againstAirFlow?: readonly {
    readonly airFlow: number
    readonly value: number
    readonly low: number
    readonly high: number
  }[]
  readonly curves?: readonly {
    readonly pressure: number
    readonly points: readonly {
      readonly speed: number
      readonly duty: number
      readonly low: number
      readonly high: number
    }[]
  }[]
  readonly target?: {
    readonly speed: number
    readonly pressure: number
    readonly duty: number
    readonly low: number
    readonly high: number
  }
  /** Of a characterisation the windows; of a comparison how many of each log. */
  readonly windows?: readonly (Readonly<Record<string, number | string | null>> | number)[]
  /** Windows of the log before and of that after. */
  readonly pair?: readonly (readonly Readonly<Record<string, number>>[])[]
  readonly provenance?: {
    readonly windows?: readonly Readonly<Record<string, number | null>>[]
    readonly limit?: number
  }
  readonly deadTime?: readonly (Ranged & { readonly voltage: number; readonly support: 'driven' | 'extrapolated' })[]
  readonly slope?: Ranged
  readonly card?: InjectorCard
}
export interface Answered extends BuildAnswer {
  readonly result: Answer
  readonly reading: string | null
}

const path = (log: string, rest: string): string => `/api/logs/${encodeURIComponent(log)}/${rest}`

export const askLog = (
  question: Question['id'],
  log: string,
  details: {
    readonly other?: string
    readonly headroom?: object
    readonly injectors?: object
    readonly bench?: object
  },
): Promise<Answered> => {
  if (question === 'compare') return send(path(details.other ?? '', `compare/${encodeURIComponent(log)}`))
  if (question === 'headroom') return send(path(log, 'headroom'), details.headroom ?? {})
  if (details.bench) return send(path(log, 'bench'), details.bench)
  if (question === 'injectors')
    return send('/api/injectors', { ...details.injectors, known: details.other, unknown: log })
  return send(path(log, question === 'sensors' ? 'sanity' : question))
}

/** Windows of this log that the answer rests on, for the strips. */
export const steadyOf = (answer: Answer | undefined): readonly Span[] => {
  const listed = answer?.provenance?.windows ?? answer?.windows ?? []
  return listed.flatMap((each) =>
    typeof each !== 'number' &&
    each.from !== each.to &&
    typeof each.from === 'number' &&
    typeof each.to === 'number' &&
    each.log !== 'known'
      ? [{ from: each.from, to: each.to }]
      : [],
  )
}
