/** Book: everything that can be printed, what is still missing from each, and the whole of it as one page. */
import { useEffect, useMemo, useRef, useState } from 'react'
import { Link } from 'wouter'
import { CHAPTERS, type Document, documentsOf } from '../../book/documents.ts'
import { boundIn, wholeBook } from '../../book/whole.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { today } from '../jobs/today.ts'
import { Problems } from '../parts/Problems.tsx'
import { openPage } from '../records/openPage.ts'
import { useBench } from '../workbench/useBench.ts'
import './book.css'

/** So much of what is missing is shown before more is asked for. */
const SHOWN = 2
/** Lets the screen be drawn before the next page is made. */
const breathe = (): Promise<void> => new Promise((go) => setTimeout(go))

export function Book() {
  const { build, assessment } = useBench()
  const findings = assessment?.findings
  const documents = useMemo(
    () => (build === undefined ? [] : documentsOf(build, findings ?? [], today())),
    [build, findings],
  )
  const [making, setMaking] = useState<string>()
  const [made, setMade] = useState<{ readonly documents: typeof documents; readonly html: string }>()
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const stopped = useRef(false)
  useEffect(
    () => () => {
      stopped.current = true
    },
    [],
  )
  if (!build) return null
  const lacking = documents.filter(({ empty, missing }) => empty !== undefined || missing.length > 0).length
  const makeWhole = async (): Promise<void> => {
    const bound = boundIn(documents)
    const pages = new Map<string, string>()
    stopped.current = false
    setProblems([])
    try {
      for (const [at, { id, title, page }] of bound.entries()) {
        setMaking(`Page ${at + 1} of ${bound.length}: ${title}`)
        await breathe()
        if (stopped.current) return
        pages.set(id, page())
      }
      setMade({ documents, html: wholeBook(build, documents, pages, today()) })
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProblems(error.problems)
    } finally {
      setMaking(undefined)
    }
  }
  // A build that has changed meanwhile asks for another Book.
  const ready = made?.documents === documents ? made.html : undefined
  return (
    <div className="book">
      <h1>{build.name}: the Book</h1>
      <p>
        For whoever tunes, inspects, mends or owns this car next. Of brakes, fuel and structure it says at best that the
        arithmetic holds; a qualified person must inspect them.
      </p>
      <p className="row on-screen">
        {making !== undefined ? (
          <button
            type="button"
            onClick={() => {
              stopped.current = true
            }}
          >
            Stop
          </button>
        ) : ready === undefined ? (
          <button type="button" className="first" onClick={() => void makeWhole()}>
            Make the whole Book
          </button>
        ) : (
          // Opened by a press of its own: a browser lets no page open a window long after one.
          <button type="button" className="first" onClick={() => openPage(ready)}>
            Open the whole Book to print
          </button>
        )}
        <span className="soft" role="status">
          {making ??
            (lacking === 0
              ? `${documents.length} documents; nothing is known to be missing.`
              : `${lacking} of ${documents.length} lack something; each says what.`)}
        </span>
      </p>
      <Problems list={problems} />
      {CHAPTERS.map((chapter) => (
        <section key={chapter} aria-labelledby={`chapter-${chapter}`}>
          <h2 id={`chapter-${chapter}`}>{chapter}</h2>
          {documents
            .filter((each) => each.chapter === chapter)
            .map((each) => (
              <DocumentRow key={each.id} {...each} />
            ))}
        </section>
      ))}
    </div>
  )
}

function DocumentRow({ title, says, missing, empty, place, page }: Document) {
  const more = missing.slice(SHOWN)
  return (
    <article className="document">
      <div>
        <h3>
          <Link to={place}>{title}</Link>
        </h3>
        <p className="small">{says}</p>
        {empty !== undefined ? (
          <p className="soft">{empty}</p>
        ) : (
          missing.length > 0 && (
            <ul className="missing small">
              {missing.slice(0, SHOWN).map((each) => (
                <li key={each}>Missing: {each}</li>
              ))}
              {more.length > 0 && (
                <li>
                  <details>
                    <summary>
                      and {more.length} more<span className="out-of-sight">: {title}</span>
                    </summary>
                    <ul>
                      {more.map((each) => (
                        <li key={each}>{each}</li>
                      ))}
                    </ul>
                  </details>
                </li>
              )}
            </ul>
          )
        )}
      </div>
      {page && empty === undefined ? (
        <button type="button" className="on-screen" onClick={() => openPage(page())}>
          Open to print<span className="out-of-sight">: {title}</span>
        </button>
      ) : null}
    </article>
  )
}
