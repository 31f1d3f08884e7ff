/** The evidence as it will be printed, each entry with what it still lacks. */
import { Link } from 'wouter'
import { chaptersOf, type Entry } from '../../book/evidence.ts'
import { useBench } from '../workbench/useBench.ts'
import './book.css'

export function Evidence() {
  const { build } = useBench()
  if (!build) return null
  const chapters = chaptersOf(build)
  const lacking = chapters.reduce(
    (sum, { entries, empty }) => sum + (empty ? 1 : entries.filter(({ lacks }) => lacks.length > 0).length),
    0,
  )
  return (
    <div className="book">
      <p className="on-screen">
        <Link to="/book">Book</Link>
      </p>
      <h1>{build.name}: evidence</h1>
      <p>
        What was measured and how, for whoever tunes, inspects or owns this car next. On brakes, fuel and structure a
        figure says at best that the arithmetic holds; a qualified person must inspect them.
      </p>
      <p className="row on-screen">
        <button type="button" className="first" onClick={() => window.print()}>
          Print
        </button>
        <span className="soft" role="status">
          {lacking === 0
            ? 'Nothing is missing from it.'
            : `${lacking} ${lacking === 1 ? 'place lacks' : 'places lack'} something; each says what.`}
        </span>
      </p>
      {chapters.map(({ id, title, entries, empty }) => (
        <section key={id} aria-labelledby={`chapter-${id}`}>
          <h2 id={`chapter-${id}`}>{title}</h2>
          {empty !== undefined && <p className="soft">{empty}</p>}
          {entries.map((entry) => (
            <BookEntry key={entry.subject} entry={entry} />
          ))}
        </section>
      ))}
    </div>
  )
}

function BookEntry({ entry: { subject, title, figure, from, lacks } }: { entry: Entry }) {
  return (
    <article data-subject={subject}>
      <h3>
        {title}
        {figure !== '' && <span className="book-figure"> {figure}</span>}
      </h3>
      {from.length > 0 && <p>{from.join(' ')}</p>}
      {lacks.length > 0 && (
        <p className="soft">
          <em>Not known: {lacks.join('; ')}.</em>
        </p>
      )}
    </article>
  )
}
