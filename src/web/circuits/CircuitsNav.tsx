/** The views of the circuits that are not one circuit's. */
import { Link, useLocation } from 'wouter'
import { patternPlace } from './patterns/groups.ts'

export const EARTHS_PLACE = '/circuits/car/earths'
export const ENERGY_PLACE = '/circuits/car/energy'

const VIEWS = [
  ['/circuits', 'One circuit'],
  [EARTHS_PLACE, 'Earths'],
  [ENERGY_PLACE, 'Energy'],
  [patternPlace(), 'Add from a pattern'],
] as const

export function CircuitsNav() {
  const [place] = useLocation()
  const isHere = (to: string): boolean =>
    to === '/circuits' ? !VIEWS.some(([other]) => other !== to && place.startsWith(other)) : place.startsWith(to)
  return (
    <nav aria-label="Views of the circuits" className="circuits-nav">
      <ul className="plain row">
        {VIEWS.map(([to, name]) => (
          <li key={to}>
            <Link to={to} aria-current={isHere(to) ? 'page' : undefined}>
              {name}
            </Link>
          </li>
        ))}
      </ul>
    </nav>
  )
}
