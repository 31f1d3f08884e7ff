/** The sitting that is being worked through: kept in this browser, so that a closed page or a lost signal loses nothing. */
import type { Sitting } from '../../plan/sitting.ts'

/** Times in ms of this machine's clock; durations in s. */
export interface RunningSitting {
  readonly began: number
  readonly sitting: Sitting
  /** Steps of opening and closing that are ticked, by their place. */
  readonly ticked: readonly number[]
  /** Since when a job's timer runs. */
  readonly since: Readonly<Record<string, number>>
  /** What its timer has counted before. */
  readonly counted: Readonly<Record<string, number>>
  /** Jobs ticked or left unfinished here, with the time that was booked; `null`: none was known. */
  readonly booked: Readonly<Record<string, number | null>>
  /** Jobs added while being there. */
  readonly added: readonly string[]
}

const keyOf = (build: string): string => `swapwright-sitting/${build}`

export const readRunning = (build: string): RunningSitting | undefined => {
  try {
    const text = localStorage.getItem(keyOf(build))
    return text === null ? undefined : (JSON.parse(text) as RunningSitting)
  } catch {
    return undefined
  }
}
export const keepRunning = (build: string, running: RunningSitting | undefined): void => {
  try {
    if (running === undefined) localStorage.removeItem(keyOf(build))
    else localStorage.setItem(keyOf(build), JSON.stringify(running))
  } catch {
    // Storage switched off: the open page still has it.
  }
}

/** s that a job's timer shows now. */
export const countOf = (running: RunningSitting, job: string, now: number): number => {
  const since = running.since[job]
  return (running.counted[job] ?? 0) + (since === undefined ? 0 : Math.max(0, (now - since) / 1000))
}
/** m:ss, from an hour on h:mm:ss. */
export const clockText = (seconds: number): string => {
  const whole = Math.floor(seconds)
  const two = (value: number): string => String(value).padStart(2, '0')
  const [h, m, s] = [Math.floor(whole / 3600), Math.floor((whole % 3600) / 60), whole % 60]
  return h === 0 ? `${m}:${two(s)}` : `${h}:${two(m)}:${two(s)}`
}
