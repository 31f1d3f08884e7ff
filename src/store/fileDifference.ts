/**
 * What differs between two files: bytes counted place by place; of text also the lines taken away and added, by the
 * shortest edit script (E. W. Myers, “An O(ND) difference algorithm and its variations”, Algorithmica 1, 1986, from memory).
 */
import type { FileDifference, LineChange } from '../assess/ledger/difference.ts'

/** Lines changed beyond which only their count is told. */
const LONGEST_SCRIPT = 2000
const MOST_RUNS = 200
/** Bytes that may lie between two runs and still belong to one. */
const GAP = 4

/** Text as a person reads it: UTF-8 without a null byte. */
export const asText = (bytes: Buffer): string | undefined => {
  if (bytes.includes(0)) return undefined
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return undefined
  }
}

const byteRuns = (a: Buffer, b: Buffer): { bytes: number; runs: { at: number; length: number }[] } => {
  const runs: { at: number; length: number }[] = []
  const [shorter, longer] = [Math.min(a.length, b.length), Math.max(a.length, b.length)]
  let bytes = longer - shorter
  let last: { at: number; length: number } | undefined
  const put = (at: number, length: number): void => {
    if (last && at - (last.at + last.length) <= GAP) last.length = at + length - last.at
    else {
      last = { at, length }
      if (runs.length < MOST_RUNS) runs.push(last)
    }
  }
  for (let i = 0; i < shorter; i++)
    if (a[i] !== b[i]) {
      bytes++
      put(i, 1)
    }
  if (longer > shorter) put(shorter, longer - shorter)
  return { bytes, runs }
}

/** How many lines only one of the two has, each as often as it stands there: a floor where the script is too long. */
const countLines = (a: readonly string[], b: readonly string[]): { added: number; taken: number } => {
  const left = new Map<string, number>()
  for (const line of a) left.set(line, (left.get(line) ?? 0) + 1)
  let added = 0
  for (const line of b) {
    const there = left.get(line) ?? 0
    if (there > 0) left.set(line, there - 1)
    else added++
  }
  return { added, taken: a.length - (b.length - added) }
}

/** Shortest edit script; undefined where it is longer than the limit. */
const script = (a: readonly string[], b: readonly string[]): LineChange[] | undefined => {
  let head = 0
  while (head < a.length && head < b.length && a[head] === b[head]) head++
  let tail = 0
  while (tail < a.length - head && tail < b.length - head && a[a.length - 1 - tail] === b[b.length - 1 - tail]) tail++
  const n = a.length - head - tail
  const m = b.length - head - tail
  const most = Math.min(n + m, LONGEST_SCRIPT)
  const furthest = new Map<number, number>([[1, 0]])
  const trace: Map<number, number>[] = []
  for (let d = 0; d <= most; d++) {
    trace.push(new Map(furthest))
    for (let k = -d; k <= d; k += 2) {
      const down = k === -d || (k !== d && (furthest.get(k - 1) ?? 0) < (furthest.get(k + 1) ?? 0))
      let x = down ? (furthest.get(k + 1) ?? 0) : (furthest.get(k - 1) ?? 0) + 1
      while (x < n && x - k < m && a[head + x] === b[head + x - k]) x++
      furthest.set(k, x)
      if (x >= n && x - k >= m) return back(trace, a, b, head, n, m)
    }
  }
  return undefined
}

const back = (
  trace: readonly Map<number, number>[],
  a: readonly string[],
  b: readonly string[],
  head: number,
  n: number,
  m: number,
): LineChange[] => {
  const changes: LineChange[] = []
  let [x, y] = [n, m]
  for (let d = trace.length - 1; d > 0; d--) {
    const before = trace[d]!
    const k = x - y
    const down = k === -d || (k !== d && (before.get(k - 1) ?? 0) < (before.get(k + 1) ?? 0))
    const from = down ? k + 1 : k - 1
    const fromX = before.get(from) ?? 0
    const fromY = fromX - from
    if (down) changes.push({ sign: '+', line: head + fromY + 1, text: b[head + fromY]! })
    else changes.push({ sign: '-', line: head + fromX + 1, text: a[head + fromX]! })
    ;[x, y] = [fromX, fromY]
  }
  return changes.reverse()
}

export const fileDifference = (before: Buffer, after: Buffer): FileDifference => {
  const { bytes, runs } = byteRuns(before, after)
  const [was, is] = [asText(before), asText(after)]
  if (was === undefined || is === undefined) return { bytes, runs }
  const [a, b] = [was.split(/\r\n|\n|\r/), is.split(/\r\n|\n|\r/)]
  const changes = script(a, b)
  if (!changes) return { bytes, lines: countLines(a, b) }
  const added = changes.filter(({ sign }) => sign === '+').length
  return { bytes, lines: { added, taken: changes.length - added }, changes }
}
