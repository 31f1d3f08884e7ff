/** Photographs taken without signal wait in this browser's store, each with what it is about and when it was taken. */
import { createStore, del, entries, set } from 'idb-keyval'
import { Refusal } from '../../units/problem.ts'
import { ask, isAway } from '../workbench/api.ts'
import { type BuildAnswer, bench } from '../workbench/bench.ts'

export interface WaitingPhoto {
  readonly name: string
  readonly about: string
  readonly when: string
  readonly file: Blob
}

const store = createStore('swapwright-photos', 'waiting')
let sending: Promise<void> = Promise.resolve()
const listeners = new Set<() => void>()
const tell = (): void => {
  for (const listener of listeners) listener()
}

const sendAll = async (): Promise<void> => {
  for (const [key, photo] of await entries<string, WaitingPhoto>(store)) {
    const query = new URLSearchParams({ name: photo.name, about: photo.about, when: photo.when })
    try {
      bench.took(
        await ask<BuildAnswer>(`/api/photos?${query}`, { method: 'POST', body: photo.file }),
        'Photograph kept',
      )
    } catch (error) {
      if (isAway(error)) return
      // A picture that the server will never take would stop all those behind it.
      await del(key, store)
      tell()
      if (error instanceof Refusal) bench.complain(error.problems)
      continue
    }
    await del(key, store)
    tell()
  }
}
const sendInTurn = (): Promise<void> => {
  sending = sending.then(sendAll)
  return sending
}

export const photoQueue = {
  listen: (listener: () => void): (() => void) => {
    listeners.add(listener)
    return () => listeners.delete(listener)
  },
  waiting: async (about: string): Promise<readonly WaitingPhoto[]> =>
    (await entries<string, WaitingPhoto>(store)).map(([, photo]) => photo).filter((photo) => photo.about === about),
  add: async (files: readonly File[], about: string): Promise<void> => {
    const when = new Date().toISOString()
    for (const file of files)
      await set(
        `${when} ${file.name} ${file.size}`,
        { name: file.name, about, when, file } satisfies WaitingPhoto,
        store,
      )
    tell()
    await sendInTurn()
  },
  sendWaiting: sendInTurn,
}
