/** A controller’s file taken into the ledger: the file, why it was changed, what belongs to it. */
import { useState } from 'react'
import { belongable } from '../../assess/ledger/ledger.ts'
import type { Build } from '../../model/build.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { ask } from '../workbench/api.ts'
import { type BuildAnswer, bench } from '../workbench/bench.ts'
import { whoHere } from './who.ts'

export function LedgerAdd({ build, first }: { build: Build; first: boolean }) {
  const [file, setFile] = useState<File>()
  const [says, setSays] = useState('')
  const [belongs, setBelongs] = useState<readonly string[]>([])
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const things = belongable(build)
  const keep = async (): Promise<void> => {
    if (!file) return
    const query = new URLSearchParams([
      ['name', file.name],
      ['says', says],
      ['by', whoHere()],
      ...belongs.map((ref) => ['belongs', ref]),
    ])
    try {
      bench.took(
        await ask<BuildAnswer>(`/api/controller-files?${query}`, { method: 'POST', body: file }),
        `Kept ${file.name}`,
      )
      setProblems([])
      setFile(undefined)
      setSays('')
      setBelongs([])
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProblems(error.problems)
    }
  }
  return (
    <details className="ledger-add no-print" open={first}>
      <summary>Keep a file of the controller</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault()
          void keep()
        }}
      >
        <label className="field">
          File
          <input key={String(file === undefined)} type="file" onChange={(event) => setFile(event.target.files?.[0])} />
        </label>
        <label className="field">
          What was changed, and why
          <input value={says} onChange={(event) => setSays(event.target.value)} />
        </label>
        {things.length > 0 && (
          <fieldset>
            <legend>Belongs to</legend>
            <div className="belongs">
              {things.map(({ ref, name }) => (
                <label key={ref} className="choice">
                  <input
                    type="checkbox"
                    checked={belongs.includes(ref)}
                    onChange={({ target }) =>
                      setBelongs(target.checked ? [...belongs, ref] : belongs.filter((each) => each !== ref))
                    }
                  />
                  {name}
                </label>
              ))}
            </div>
          </fieldset>
        )}
        <Problems list={problems} />
        <button type="submit" className="first" disabled={!file}>
          Keep it
        </button>
        <p className="small soft">It goes to the laptop at once: without signal it cannot be kept.</p>
      </form>
    </details>
  )
}
