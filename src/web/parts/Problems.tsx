/** Problems as sentences: what happened, to which item, what to do. */
import type { Problem } from '../../units/problem.ts'

export function Problems({ list, id }: { list: readonly Problem[]; id?: string }) {
  if (list.length === 0) return null
  return (
    <div role="alert" id={id}>
      <ul
        className="plain problems"
        style={{ borderLeft: '3px solid var(--no-go)', paddingLeft: '0.8rem', marginBottom: '1rem' }}
      >
        {list.map((problem) => (
          <li key={`${problem.code}${problem.path ?? ''}${problem.line ?? ''}${problem.says}`}>
            {problem.says} <span className="soft">{problem.todo}</span>
          </li>
        ))}
      </ul>
    </div>
  )
}
