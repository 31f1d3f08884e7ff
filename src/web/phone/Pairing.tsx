/** Where the scanned code leads: the phone gives itself a name and is paired. */
import { useState } from 'react'
import { useLocation } from 'wouter'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { send } from '../workbench/api.ts'
import { bench } from '../workbench/bench.ts'

export function Pairing({ code }: { code: string }) {
  const [name, setName] = useState('Phone')
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const [, go] = useLocation()
  const pair = async (): Promise<void> => {
    try {
      await send('/api/pair', { code: decodeURIComponent(code), name })
      await bench.open()
      go('/')
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProblems(error.problems)
    }
  }
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault()
        void pair()
      }}
    >
      <h1>Pair this phone</h1>
      <p>It will show the build that is open on the laptop, for ninety days or until the laptop sends it away.</p>
      <Problems list={problems} />
      <p>
        <label>
          Name of this phone{' '}
          <input value={name} maxLength={60} required onChange={(event) => setName(event.target.value)} />
        </label>
      </p>
      <button type="submit" className="first">
        Pair
      </button>
    </form>
  )
}
