/** Calculations: each from its declaration, with its working, its ±, what it rests on and where it holds. */
import { Link } from 'wouter'
import { calculationOf, calculations } from '../../engineering/registry.ts'
import { Empty } from '../parts/Empty.tsx'
import { CalculationForm } from './CalculationForm.tsx'
import './calculations.css'

export function Calculations({ chosen }: { chosen?: string }) {
  const calc = chosen === undefined ? undefined : calculationOf(chosen)
  return (
    <div className="calculations">
      <nav aria-label="Calculations" className={chosen === undefined ? undefined : 'chosen'}>
        <h1>Calculations</h1>
        <ul className="plain">
          {calculations.map(({ id, title }) => (
            <li key={id}>
              <Link to={`/calculations/${id}`} aria-current={id === chosen ? 'page' : undefined}>
                {title}
              </Link>
            </li>
          ))}
        </ul>
      </nav>
      {calc && <CalculationForm key={calc.id} calc={calc} />}
      {!calc && <Empty says={chosen === undefined ? 'Choose what to work out.' : 'There is no such calculation.'} />}
    </div>
  )
}
