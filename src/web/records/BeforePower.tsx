/** On the car's page: which gate stands between the builder and first power or first start, and what locks it. */
import { Link } from 'wouter'
// Not by the door: the test sheets behind it are no part of the first screen.
import { againstPower } from '../../assess/commissioning/firstPower.ts'
import { closingOf, gatesOf } from '../../assess/commissioning/row.ts'
import type { Finding } from '../../assess/finding.ts'
import type { Build } from '../../model/build.ts'
import { gatePlace } from './gatePlaces.ts'

export function BeforePower({ build, findings }: { build: Build; findings: readonly Finding[] }) {
  const gates = gatesOf(build)
  const at = gates.findIndex(({ id }) => closingOf(build, id) === undefined)
  const gate = gates[at]
  if (!gate) return null
  const same = gates.filter(({ sequence }) => sequence === gate.sequence)
  const noGo = findings.filter((finding) => finding.verdict === 'no-go' && againstPower(finding))
  return (
    <>
      <h2>Commissioning</h2>
      <p>
        {gate.sequence === 'first power' ? 'First power' : 'First start'}, gate {same.indexOf(gate) + 1} of{' '}
        {same.length}: <Link to={gatePlace(gate.id)}>{gate.title}</Link>.
        {gate.sequence === 'first power' &&
          noGo.length > 0 &&
          ` ${noGo.length} ${noGo.length === 1 ? 'finding says' : 'findings say'} not to put the battery on.`}
      </p>
    </>
  )
}
