/** The plan of the build as it stands, made anew when what it rests on changes; what it had is shown meanwhile. */
import { useEffect, useMemo, useRef, useState } from 'react'
import type { Build } from '../../model/build.ts'
import { paceOf } from '../../plan/history.ts'
import type { Progress } from '../../plan/sequence.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import type { Planned } from './ask.ts'
import { askPlanner } from './planner.ts'
import { today } from './today.ts'

export interface Planning {
  readonly planned: Planned | undefined
  readonly progress: Progress | undefined
  readonly running: boolean
  readonly problems: readonly Problem[]
  readonly stop: () => void
  readonly again: () => void
}

/** `milestone`: as for the planner. `said`: s of work in a week. */
export const usePlan = (build: Build, milestone: string | null | undefined, said: number | undefined): Planning => {
  const [planned, setPlanned] = useState<Planned>()
  const [progress, setProgress] = useState<Progress>()
  const [running, setRunning] = useState(true)
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const [turn, setTurn] = useState(0)
  const stop = useRef<() => void>(() => undefined)
  const { jobs, accesses, parts, milestones, records } = build.collections
  // A wire's colour changes no order: only these make the plan old.
  const rests = useMemo(
    () => JSON.stringify([jobs, accesses, parts, milestones, records]),
    [jobs, accesses, parts, milestones, records],
  )
  const newest = useRef(build)
  newest.current = build
  // biome-ignore lint/correctness/useExhaustiveDependencies: `rests` stands for the build, `turn` for the button.
  useEffect(() => {
    let wanted = true
    const day = today()
    const pace = said ?? paceOf(newest.current, day)
    setRunning(true)
    setProgress(undefined)
    const asked = askPlanner<'plan'>(
      {
        kind: 'plan',
        build: newest.current,
        options: {
          today: day,
          ...(milestone === undefined ? {} : { milestone }),
          ...(pace === undefined ? {} : { pace }),
        },
        ...(said === undefined ? {} : { said }),
      },
      (now) => wanted && setProgress(now),
    )
    stop.current = asked.stop
    asked.answer
      .then((answer) => {
        if (!wanted) return
        setPlanned(answer)
        setProblems([])
        setRunning(false)
      })
      .catch((error: unknown) => {
        if (!wanted) return
        setRunning(false)
        if (!(error instanceof Refusal)) throw error
        setProblems(error.problems)
      })
    return () => {
      wanted = false
      asked.stop()
    }
  }, [rests, milestone, said, turn])
  return {
    planned,
    progress,
    running,
    problems,
    stop: () => stop.current(),
    again: () => setTurn((before) => before + 1),
  }
}
