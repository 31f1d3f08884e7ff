/** The runs of the loom: how long, how thick, in what sleeve, through what hole, how tight they may be bent. */
import { dressed, loomRuns } from '../../assess/loom/loom.ts'
import { loomSettings } from '../../assess/loom/settings.ts'
import { own } from '../../assess/make.ts'
import type { Build } from '../../model/build.ts'
import { LIST_NAMES, type List, once } from './list.ts'

const MILLI = 1e3

export const runTable = (build: Build): List => {
  const { handLaid, wall, wallFrom } = loomSettings(build)
  const runs = loomRuns(build)
  return {
    id: 'runs',
    title: LIST_NAMES.runs,
    says: 'Each run of the loom between two branch points, with its bundle.',
    tables: [
      {
        columns: [
          { name: 'Run' },
          { name: 'From' },
          { name: 'To' },
          { name: 'Zone' },
          { name: 'Length, m', digits: 2 },
          { name: 'Wires' },
          { name: 'Tightest, mm', digits: 1 },
          { name: 'As laid, mm', digits: 1 },
          { name: 'Sleeve' },
          { name: 'Least bend, mm' },
          { name: 'Through' },
        ],
        rows: runs.map((run) => {
          const { bundle, over, tubing, bend } = dressed(build, run)
          const isBare = run.wires.length === 0
          const size =
            tubing === undefined
              ? ''
              : tubing === 'none'
                ? ' (larger than the table goes)'
                : ` (size ${tubing.size}, ${(tubing.bore * MILLI).toFixed(1)} mm)`
          return [
            run.run.name === undefined ? run.run.id : `${run.run.id}, ${run.run.name}`,
            run.fromName,
            run.toName,
            run.zoneName,
            run.run.length?.value,
            run.wires.length,
            isBare ? '' : bundle && bundle.floor * MILLI,
            isBare ? '' : over === undefined ? undefined : over * MILLI,
            run.run.sleeve === undefined
              ? 'none'
              : `${run.run.sleeve}${run.run.sleeveBore ? `, ${(run.run.sleeveBore.value * MILLI).toFixed(0)} mm inside` : size}`,
            isBare ? '' : bend && Math.ceil(bend.free * MILLI - 1e-9),
            run.run.passage === undefined
              ? ''
              : (own(build.collections.passages, run.run.passage)?.name ?? run.run.passage),
          ]
        }),
      },
    ],
    notes: [
      `Tightest: the best packing found of the wires’ outer diameters (${wall} wall, ${wallFrom}). As laid: × ${handLaid.value} (${handLaid.from}), over tape where it is taped.`,
      'Least bend: ten times the outer diameter of the largest wire; three times where the bundle is held on both sides of the bend (SAE AS50881).',
    ],
    missing: once([
      ...runs.flatMap(({ run, wires }) =>
        run.length === undefined && wires.length > 0 ? [`length of run ${run.id}`] : [],
      ),
      ...runs.flatMap(({ missing }) => missing),
    ]),
    ...(runs.length === 0 ? { empty: 'The loom has no run yet. Enter branch points and the runs between them.' } : {}),
  }
}
