/** What somebody says of one thing: one large button where it is as it should be, the other words with their reason. */
import { type ReactNode, useState } from 'react'
import type { Problem } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'

type Shows = 'as it should' | 'not as it should' | 'does not apply' | 'a remark'
const ASKS_FOR: Readonly<Record<Shows, string>> = {
  'as it should': 'Why it may be gone on with',
  'not as it should': 'What is wrong',
  'does not apply': 'Why it does not apply to this car',
  'a remark': 'Remark',
}
const BUTTON: Readonly<Record<Shows, string>> = {
  'as it should': 'Go on with what is not known',
  'not as it should': 'Not as it should be',
  'does not apply': 'Does not apply',
  'a remark': 'Remark',
}

interface Props {
  /** What it is said of, for whoever hears the buttons read out. */
  readonly about: string
  /** The large button; absent where there is nothing to be said so. */
  readonly first?: string
  readonly choices: readonly Shows[]
  readonly say: (shows: Shows, words?: string) => readonly Problem[]
  /** Given: the other words and these are folded away, for a list of many rows. */
  readonly children?: ReactNode
}

export function SayForm({ about, first, choices, say, children }: Props) {
  const [writing, setWriting] = useState<Shows>()
  const [text, setText] = useState('')
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const take = (shows: Shows, words?: string): void => {
    const wrong = say(shows, words)
    setProblems(wrong)
    if (wrong.length > 0) return
    setWriting(undefined)
    setText('')
  }
  const others = (
    <>
      <div className="row">
        {choices.map((shows) => (
          <button
            key={shows}
            type="button"
            className="quiet"
            aria-expanded={writing === shows}
            onClick={() => setWriting(writing === shows ? undefined : shows)}
          >
            {BUTTON[shows]}
            <span className="out-of-sight">: {about}</span>
          </button>
        ))}
        {children}
      </div>
      {writing && (
        <form
          onSubmit={(event) => {
            event.preventDefault()
            take(writing, text)
          }}
        >
          <label>
            {ASKS_FOR[writing]}
            <textarea rows={2} value={text} onChange={(event) => setText(event.target.value)} />
          </label>
          <button type="submit">Keep</button>
        </form>
      )}
    </>
  )
  return (
    <>
      {first !== undefined && (
        <button type="button" className={children ? 'wide' : 'first wide'} onClick={() => take('as it should')}>
          {first}
          <span className="out-of-sight">: {about}</span>
        </button>
      )}
      <Problems list={problems} />
      {children ? (
        <details>
          <summary className="small">
            Other words, photograph<span className="out-of-sight">: {about}</span>
          </summary>
          {others}
        </details>
      ) : (
        others
      )}
    </>
  )
}
