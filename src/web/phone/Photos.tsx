/** Photographs of one thing: those stored, those that wait for signal, and a way to take another. */
import { useEffect, useState } from 'react'
import { useBench } from '../workbench/useBench.ts'
import './phone.css'
import { photoQueue, type WaitingPhoto } from './photoQueue.ts'

/** `about`: `collection/id` of the thing; `name`: what a person calls it. */
export function Photos({ about, name }: { about: string; name: string }) {
  const { build } = useBench()
  const [waiting, setWaiting] = useState<readonly (WaitingPhoto & { readonly picture: string })[]>([])
  useEffect(() => {
    let made: string[] = []
    const look = async (): Promise<void> => {
      const found = (await photoQueue.waiting(about)).map((photo) => ({
        ...photo,
        picture: URL.createObjectURL(photo.file),
      }))
      for (const picture of made) URL.revokeObjectURL(picture)
      made = found.map(({ picture }) => picture)
      setWaiting(found)
    }
    void look()
    const stop = photoQueue.listen(() => void look())
    return () => {
      stop()
      for (const picture of made) URL.revokeObjectURL(picture)
    }
  }, [about])
  const stored = Object.values(build?.collections.photos ?? {}).filter((photo) => photo.about === about)
  return (
    <div className="photos">
      {stored.map((photo) => (
        <a key={photo.id} href={`/api/photos/${photo.id}`} target="_blank" rel="noreferrer">
          <img
            src={`/api/photos/${photo.id}`}
            alt={photo.caption ?? `Photograph of ${name}${photo.when ? `, ${photo.when.slice(0, 10)}` : ''}`}
          />
        </a>
      ))}
      {waiting.map((photo) => (
        <figure key={photo.when + photo.name}>
          <img src={photo.picture} alt={`Photograph of ${name}, waiting to be sent`} />
          <figcaption className="small">waits</figcaption>
        </figure>
      ))}
      <label className="button">
        Photograph
        <input
          className="out-of-sight"
          type="file"
          accept="image/*"
          capture="environment"
          multiple
          aria-label={`Photograph ${name}`}
          onChange={(event) => {
            void photoQueue.add([...(event.target.files ?? [])], about)
            event.target.value = ''
          }}
        />
      </label>
    </div>
  )
}
