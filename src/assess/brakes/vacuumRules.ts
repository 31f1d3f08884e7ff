/** Rules of the vacuum circuit: `vacuum-servo`, `vacuum-users`, `vacuum-blanked`. The servo's port of a boosted engine sees boost. */
import { isKnown } from '../chain/chain.ts'
import { type Judged, linesOfWorking } from '../chain/judged.ts'
import { MOVING } from '../electricalCautions.ts'
import type { Verdict } from '../finding.ts'
import { finding, list, QUALIFIED_BRAKES } from '../make.ts'
import type { BrakeChain } from './chain.ts'
import { hasServo } from './facts.ts'
import { BASE, HOLDS, kilopascals } from './words.ts'

const VACUUM = { ...BASE, subject: 'sheet/vacuum', cautions: [QUALIFIED_BRAKES, MOVING] } as const

interface Said {
  readonly verdict: Verdict
  readonly says: string
  readonly todo: string
  readonly missing?: string
}

const servoFinding = (chain: BrakeChain): Judged[] => {
  const { facts, sheet } = chain
  const { vacuum, brakes } = facts
  const users = vacuum.users ?? []
  const servo = users.find(({ kind }) => kind === 'servo')
  if (!servo && !(hasServo(facts) || brakes.servo)) return []
  const row = sheet.find(({ load, state }) => load === 'laden' && state === 'all working')
  const said = ((): Said => {
    if (!servo)
      return {
        verdict: 'unknown',
        says: 'The brakes have a servo, and none of the vacuum users is said to be it.',
        todo: 'Enter the servo among the vacuum users, with its port and its check valve.',
        missing: 'which vacuum user is the servo',
      }
    const beside = users.filter(({ id, port }) => id !== servo.id && port !== undefined && port === servo.port)
    if (servo.port !== undefined && vacuum.blankedPorts?.includes(servo.port))
      return {
        verdict: 'no-go',
        says: `${servo.name} is entered at ${servo.port}, which is also entered as blanked: then it has no vacuum at all.`,
        todo: 'Look at the port on the car, and mend the entry that is wrong.',
      }
    if (servo.checkValve === false && !vacuum.pump)
      return facts.boosted
        ? {
            verdict: 'no-go',
            says: `${servo.name} has no check valve, and its port sees boost: boost fills the servo, takes its help and can burst or unseat it.`,
            todo: 'Fit a check valve for boost in the servo’s hose, arrow to the engine, hose clamped on both ends; prove it holds before driving.',
          }
        : {
            verdict: 'marginal',
            says: `${servo.name} has no check valve: its help goes with the manifold’s vacuum, at full throttle and when the engine stalls.`,
            todo: 'Fit a check valve in the servo’s hose, arrow to the engine.',
          }
    const gaps = [
      ...(servo.checkValve === undefined ? ['whether the servo has a check valve'] : []),
      ...(servo.port === undefined && !vacuum.pump ? ['the port that feeds the servo'] : []),
    ]
    if (gaps.length > 0)
      return {
        verdict: 'unknown',
        says: `What feeds ${servo.name} is not known: ${list(gaps)} ${gaps.length === 1 ? 'is' : 'are'} missing.`,
        todo: `Look on the car and enter ${list(gaps)}.`,
        missing: list(gaps),
      }
    if (beside.length > 0)
      return {
        verdict: 'marginal',
        says: `${servo.name} shares ${servo.port} with ${list(beside.map(({ name }) => name))}: a leak there takes the brakes’ help, and its air reaches the servo.`,
        todo: 'Give the servo a port of its own, the largest, close to the throttle’s plenum and drawing from the middle of it.',
      }
    const held =
      row && isKnown(row.vacuum)
        ? ` ${kilopascals(row.vacuum)} of vacuum at hot idle${isKnown(row.greatest) ? ` helps with up to ${(row.greatest.value / 1e3).toFixed(1)} kN` : ''}.`
        : ''
    return {
      verdict: 'sound',
      says: `${servo.name} draws from ${vacuum.pump ? 'a vacuum pump' : servo.port} through a check valve${facts.boosted ? ', which also keeps boost out' : ''}.${held} ${HOLDS}`,
      todo: 'Prove the check valve: blow from the engine’s side, nothing may pass. Have a qualified person inspect it.',
    }
  })()
  return [
    {
      station: 'vacuum',
      finding: finding({
        ...VACUUM,
        rule: 'vacuum-servo',
        about: 'Vacuum of the servo',
        ...said,
        working: row ? linesOfWorking(row.vacuum, row.greatest) : [],
      }),
    },
  ]
}

/** What must feel boost, and what must not. Common practice, no published source. */
const FEELS_BOOST = new Set(['pressure regulator', 'bypass valve', 'boost control', 'sensor or gauge'])

const userFindings = ({ facts }: BrakeChain): Judged[] =>
  !facts.boosted
    ? []
    : (facts.vacuum.users ?? []).flatMap((user): Judged[] => {
        if (user.kind === 'servo') return []
        const said = ((): Said | undefined => {
          if (user.kind === undefined)
            return {
              verdict: 'unknown',
              says: `Whether ${user.name} must feel boost is not known: its kind is missing.`,
              todo: `Enter what kind of vacuum user ${user.name} is.`,
              missing: `kind of vacuum user ${user.name}`,
            }
          if (FEELS_BOOST.has(user.kind))
            return user.checkValve
              ? {
                  verdict: 'marginal',
                  says: `${user.name} must feel the manifold’s pressure both ways, and a check valve is in its hose.`,
                  todo: 'Take the check valve out of that hose.',
                }
              : undefined
          return user.checkValve
            ? undefined
            : {
                verdict: 'marginal',
                says: `${user.name} has no check valve: boost blows back through it.`,
                todo: 'Fit a check valve for boost in that hose, arrow to the engine.',
              }
        })()
        return said === undefined
          ? []
          : [
              {
                station: 'vacuum',
                finding: finding({ ...VACUUM, rule: 'vacuum-users', part: user.id, about: user.name, ...said }),
              },
            ]
      })

const blankedFinding = ({ facts }: BrakeChain): Judged[] => {
  const ports = facts.vacuum.blankedPorts ?? []
  if (ports.length === 0) return []
  const { blanking } = facts.vacuum
  const names = list(ports)
  const said: Said =
    blanking === undefined
      ? {
          verdict: 'unknown',
          says: `How ${names} ${ports.length === 1 ? 'is' : 'are'} blanked is not entered${facts.boosted ? ', and boost pushes on it' : ''}.`,
          todo: 'Look at each blanked port and enter how it is closed.',
          missing: 'how the unused ports are blanked',
        }
      : blanking === 'cap pushed on' && facts.boosted
        ? {
            verdict: 'marginal',
            says: `${names}: closed by ${ports.length === 1 ? 'a cap' : 'caps'} only pushed on. Boost blows such caps off: a lean engine at once, and less vacuum for the servo at idle.`,
            todo: 'Close them with a plug or thread, or clamp the caps; look at old rubber for cracks.',
          }
        : {
            verdict: 'sound',
            says: `${names}: closed by ${blanking}. ${HOLDS}`,
            todo: 'Nothing.',
          }
  return [
    {
      station: 'vacuum',
      finding: finding({ ...VACUUM, rule: 'vacuum-blanked', about: 'Blanked ports', ...said }),
    },
  ]
}

export const vacuumFindings = (chain: BrakeChain): Judged[] =>
  Object.keys(chain.facts.vacuum).length === 0 && Object.keys(chain.facts.brakes).length === 0
    ? []
    : [...servoFinding(chain), ...userFindings(chain), ...blankedFinding(chain)]
