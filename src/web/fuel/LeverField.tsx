/** One thing to try, at its station. */
import { useId } from 'react'
import type { Problem } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { measureText } from '../parts/quantityText.ts'
import type { Lever } from './levers.ts'

interface LeverFieldProps {
  readonly lever: Lever
  readonly text: string | undefined
  readonly problems: readonly Problem[]
  readonly onType: (text: string) => void
}

export function LeverField({ lever, text, problems, onType }: LeverFieldProps) {
  const id = useId()
  return (
    <div className="try">
      <label htmlFor={id}>{lever.label}</label>
      {'options' in lever ? (
        <select id={id} value={text ?? lever.stored} onChange={(event) => onType(event.target.value)}>
          {lever.options.map((option) => (
            <option key={option}>{option}</option>
          ))}
        </select>
      ) : (
        <input
          id={id}
          value={text ?? ('words' in lever ? lever.words : measureText(lever.kind, lever.stored))}
          placeholder={'words' in lever ? 'none' : 'not known'}
          autoComplete="off"
          aria-invalid={problems.length > 0}
          aria-describedby={problems.length > 0 ? `${id}-wrong` : undefined}
          onChange={(event) => onType(event.target.value)}
        />
      )}
      <Problems list={problems} id={`${id}-wrong`} />
    </div>
  )
}
