/** Add a circuit from a pattern: what there is, by what it is for; each leads to its page. */
import { Link } from 'wouter'
import { patterns } from '../../../assess/patterns/index.ts'
import { Empty } from '../../parts/Empty.tsx'
import { useBench } from '../../workbench/useBench.ts'
import { CircuitsNav } from '../CircuitsNav.tsx'
import { groups, patternPlace } from './groups.ts'
import { PatternPage } from './PatternPage.tsx'
import './patterns.css'

export function Patterns({ chosen }: { chosen?: string | undefined }) {
  const { build } = useBench()
  if (!build) return null
  const pattern = patterns.find(({ id }) => id === chosen)
  if (pattern) return <PatternPage key={pattern.id} build={build} pattern={pattern} />
  return (
    <>
      <h1>Add a circuit from a pattern</h1>
      <CircuitsNav />
      {chosen !== undefined && <Empty says="There is no such pattern. Choose one of these." />}
      <p>Each is sized for this car: its wires for their way, heat and drop, its fuse for its load and its wires.</p>
      <div className="pattern-groups">
        {groups.map((group) => (
          <section key={group.name} aria-label={group.name}>
            <h2>{group.name}</h2>
            <ul className="plain">
              {group.patterns.map(({ id, name, purpose }) => (
                <li key={id}>
                  <Link to={patternPlace(id)}>{name}</Link>
                  <p className="small soft">{purpose}</p>
                </li>
              ))}
            </ul>
          </section>
        ))}
      </div>
    </>
  )
}
