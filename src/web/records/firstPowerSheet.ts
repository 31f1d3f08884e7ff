/** The first-power sheet of the open build: reckoned once for what it is made from, in a worker where there is one. */
import { useEffect, useState } from 'react'
import { FIRST_POWER, type TestSheet, testSheet } from '../../assess/testSheets/testSheet.ts'
import type { Build } from '../../model/build.ts'
import { madeFrom } from '../testSheets/madeFrom.ts'

let last: { readonly from: readonly unknown[]; readonly sheet: Promise<TestSheet>; ready?: TestSheet } | undefined
let asked = 0

const inWorker = (build: Build): Promise<TestSheet> =>
  new Promise((take, fail) => {
    const id = ++asked
    const worker = new Worker(new URL('./sheet.worker.ts', import.meta.url), { type: 'module' })
    worker.onmessage = ({ data }: MessageEvent<{ readonly id: number; readonly sheet: TestSheet }>) => {
      if (data.id !== id) return
      worker.terminate()
      take(data.sheet)
    }
    worker.onerror = () => {
      worker.terminate()
      fail(new Error('no worker'))
    }
    worker.postMessage({ id, build })
  })

const sheetOf = (build: Build): NonNullable<typeof last> => {
  const from = madeFrom(build)
  if (last?.from.every((each, i) => each === from[i])) return last
  const made: NonNullable<typeof last> = {
    from,
    // Where no worker can be had the page does it itself.
    sheet: inWorker(build).catch(() => testSheet(build, FIRST_POWER)),
  }
  last = made
  return made
}

/** Undefined while it is being reckoned. */
export const useFirstPowerSheet = (build: Build): TestSheet | undefined => {
  const made = sheetOf(build)
  const [ready, setReady] = useState<TestSheet | undefined>(made.ready)
  useEffect(() => {
    let gone = false
    void made.sheet.then((sheet) => {
      made.ready = sheet
      if (!gone) setReady(sheet)
    })
    return () => {
      gone = true
    }
  }, [made])
  return made.ready ?? ready
}
