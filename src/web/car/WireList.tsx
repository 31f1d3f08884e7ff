/** A wire list from a spreadsheet: looked at first, stored when the builder says so. */
import { useState } from 'react'
import { useLocation } from 'wouter'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { ask } from '../workbench/api.ts'
import { type BuildAnswer, bench } from '../workbench/bench.ts'

interface Proposal {
  readonly headers: readonly string[]
  readonly columns: Readonly<Record<string, number>>
  readonly wires: number
  readonly newDevices: readonly string[]
  readonly aside: readonly Problem[]
}

export function WireList() {
  const [file, setFile] = useState<File>()
  const [proposal, setProposal] = useState<Proposal>()
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const [, go] = useLocation()
  const post = async (act: 'preview' | 'import', chosen: File): Promise<void> => {
    try {
      const answer = await ask<BuildAnswer & { readonly proposal: Proposal }>(
        `/api/wires/${act}?name=${encodeURIComponent(chosen.name)}`,
        { method: 'POST', body: chosen },
      )
      setProblems([])
      setProposal(answer.proposal)
      if (act === 'preview') return
      bench.took(answer, `${answer.proposal.wires} wires taken`)
      go('/circuits')
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProposal(undefined)
      setProblems(error.problems)
    }
  }
  return (
    <>
      <label className="field">
        Wire list, CSV or XLSX, with a heading to each column
        <input
          type="file"
          accept=".csv,.tsv,.txt,.xlsx"
          onChange={(event) => {
            const chosen = event.target.files?.[0]
            setFile(chosen)
            if (chosen) void post('preview', chosen)
          }}
        />
      </label>
      <Problems list={problems} />
      {proposal && file && (
        <>
          <p>
            {proposal.wires} wires can be taken
            {proposal.newDevices.length > 0 && `, with ${proposal.newDevices.length} devices they name`};{' '}
            {proposal.aside.length === 0 ? 'no row is set aside.' : `${proposal.aside.length} faults keep rows aside.`}
          </p>
          <p className="soft small">
            Columns:{' '}
            {Object.entries(proposal.columns)
              .map(([field, index]) => `${field} from “${proposal.headers[index] ?? index + 1}”`)
              .join(', ')}
          </p>
          <Problems list={proposal.aside.slice(0, 20)} />
          <button type="button" className="first" onClick={() => void post('import', file)}>
            Take these wires
          </button>
        </>
      )}
    </>
  )
}
