/** Operating cases that set what is not a switch, or a position the switch has not got. */
import type { Problem } from '../units/problem.ts'
import type { Build } from './build.ts'
import { named } from './called.ts'

export const checkCases = (build: Build): Problem[] => [...setPositions(build), ...restPositions(build)]

const setPositions = (build: Build): Problem[] =>
  Object.entries(build.collections.cases).flatMap(([id, operating]) =>
    Object.entries(operating.switches).flatMap(([device, position]): Problem[] => {
      const found = Object.hasOwn(build.collections.devices, device) ? build.collections.devices[device] : undefined
      if (found === undefined) return []
      const path = `cases/${id}/switches/${device}`
      if (found.spec.kind !== 'switch')
        return [
          {
            code: 'not-a-switch',
            path,
            says: `${named(build, 'cases', id)} sets ${named(build, 'devices', device)}, which is a ${found.spec.kind} and has no positions.`,
            todo: 'Name a switch, or remove the setting.',
          },
        ]
      if (Object.hasOwn(found.spec.positions, position)) return []
      return [
        {
          code: 'no-such-position',
          path,
          says: `${named(build, 'cases', id)} sets ${named(build, 'devices', device)} to ${position}, which is not one of its positions.`,
          todo: `Choose one of ${Object.keys(found.spec.positions).join(', ') || 'none; give the switch a position first'}.`,
        },
      ]
    }),
  )

const restPositions = (build: Build): Problem[] =>
  Object.entries(build.collections.devices).flatMap(([id, { spec }]): Problem[] =>
    spec.kind !== 'switch' || Object.hasOwn(spec.positions, spec.rest)
      ? []
      : [
          {
            code: 'no-such-position',
            path: `devices/${id}/spec/rest`,
            says: `${named(build, 'devices', id)} rests at ${spec.rest}, which is not one of its positions.`,
            todo: `Choose one of ${Object.keys(spec.positions).join(', ') || 'none; give the switch a position first'}.`,
          },
        ],
  )
