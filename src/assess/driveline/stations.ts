/** The stations that torque passes, from the crankshaft to the tyres, in one gear and load. */
import { entered, type Figure, figure, type Station } from '../chain/chain.ts'
import { supersede } from '../chain/readings.ts'
import { type DrivelineFacts, inOneCase, type LoadName } from './facts.ts'
import type { BothGearings } from './gearing.ts'
import type { Shaft } from './shaft.ts'
import type { Part, Torques } from './torques.ts'
import type { Weights } from './weights.ts'
import { gearName, UNDER } from './words.ts'

export interface Shown {
  readonly facts: DrivelineFacts
  readonly torques: Torques
  readonly shaft: Shaft
  readonly gearing: BothGearings
  readonly weights: Weights
  /** Place in the gears, first 0. */
  readonly gear: number
  readonly load: LoadName
  readonly propshaft: boolean
}

/** Written in this unit where nobody has typed another. */
export const withUnit = (unit: string, made: Figure): Figure => ({ ...made, unit })

export const driveStations = ({ facts, torques, shaft, gear, load, propshaft }: Shown): readonly Station[] => {
  const { sheet, now, readings } = facts
  const inOne = inOneCase(facts)
  const inGear = `${gearName(gear)}, ${load}`
  const capacity = (part: Part): Figure =>
    figure(`${part}-capacity`, 'engine torque that it stands in this gear', 'Tc', 'torque', torques.capacities[part])
  return [
    {
      id: 'crank',
      name: 'Crankshaft',
      about: facts.torqueIsLeast
        ? 'only the torque at greatest power is known: the greatest is more'
        : 'greatest torque of the engine',
      sensor: 'A roller or hub tester; the torque that the controller reckons is a guess.',
      figures: [
        supersede(
          'engine-torque',
          facts.torqueIsLeast ? 'torque at greatest power' : 'greatest torque',
          'T',
          'torque',
          facts.torqueOnSheet,
          readings['engine-torque'],
          facts.torqueIsLeast ? 'computed' : 'entered',
        ),
        ...(sheet.before?.torque
          ? [
              figure(
                'old-torque',
                'greatest torque of the old engine',
                'To',
                'torque',
                entered(sheet.before.torque, 'greatest torque of the old engine'),
                'entered',
              ),
            ]
          : []),
        figure('through', `no more than the tyres pass, ${inGear}`, 'Te', 'torque', torques.intoGearbox),
      ],
    },
    {
      id: 'clutch',
      name: 'Clutch',
      about:
        sheet.clutchTorque || readings['clutch-torque']
          ? 'by its rating'
          : sheet.clutch
            ? 'from clamp and lining, worn in'
            : 'not entered',
      sensor: 'Engine and road speed logged together in top gear at full torque: where their ratio moves, it slips.',
      figures: [
        supersede(
          'clutch-torque',
          'torque that it passes',
          'Tk',
          'torque',
          torques.clutchOnSheet,
          readings['clutch-torque'],
        ),
        ...(sheet.clutch
          ? [
              figure('clutch-worn', 'from clamp and lining, worn in', 'Tw', 'torque', torques.clutchWorn),
              figure('clutch-fresh', 'the same, new lining', 'Tn', 'torque', torques.clutchFresh),
            ]
          : []),
        figure(
          'shock',
          'dropped, over what it passes',
          'k',
          'ratio',
          facts.shock,
          sheet.shock ? 'entered' : 'computed',
        ),
      ],
    },
    {
      id: 'gearbox',
      name: 'Gearbox',
      about: now.ratios.length === 0 ? 'ratios not entered' : `${now.ratios.length} gears; shown: ${gearName(gear)}`,
      figures: [
        figure('gear', 'ratio', 'i', 'ratio', torques.gear, 'entered'),
        figure('gearbox-rated', 'rated input', 'Tg', 'torque', torques.capacities.gearbox, 'entered'),
        figure('at-shaft', 'torque at its output', 'Ts', 'torque', torques.atShaft),
      ],
    },
    {
      id: 'mounts',
      name: 'Engine mounts',
      about:
        inOne === undefined
          ? 'how the engine stands is not entered'
          : inOne
            ? 'with the axle in the gearbox’s case they hold the torque of the wheels'
            : 'an engine in line holds the torque at the gearbox’s output',
      figures: [
        figure('mount-torque', 'torque that they hold', 'Tm', 'torque', torques.mountTorque),
        figure('mount-change', 'force by it on each', 'ΔN', 'force', torques.mountChange),
        figure('mount-heavy', 'on the side pressed down', 'Nh', 'force', torques.mountHeavy),
        figure('mount-light', 'on the side lifted; below 0 it is pulled', 'Nl', 'force', torques.mountLight),
        capacity('mounts'),
      ],
    },
    ...(propshaft
      ? ([
          {
            id: 'shaft',
            name: 'Propeller shaft',
            about: `${sheet.propshaftTube ?? 'metal not entered'}; turns with the road speed`,
            sensor:
              'A pick-up on the flange’s bolts gives its speed; a vibration sensor on the gearbox’s tail shows once a turn what is out of balance.',
            figures: [
              figure('shaft-cruise', 'speed on long journeys', 'ωs', 'angularSpeed', shaft.atCruise),
              figure('shaft-top', 'speed at the greatest road speed', 'ωt', 'angularSpeed', shaft.atTop),
              figure('critical', 'speed at which it whirls', 'ωc', 'angularSpeed', shaft.critical),
              figure('whirl-share', 'greatest over critical speed', 'ωt/ωc', 'ratio', shaft.shareAtTop),
              figure('half-critical', 'half of it, where joints shake it', 'ωh', 'angularSpeed', shaft.half),
              figure('shock-at-shaft', 'torque, clutch dropped', 'Tx', 'torque', torques.shockAtShaft),
              figure('shear', 'shear in its tube then', 'τ', 'stress', torques.shear),
              figure('yield-torque', 'torque at which its tube yields', 'Ty', 'torque', torques.yieldTorque),
              capacity('shaft'),
            ],
          },
          {
            id: 'joints',
            name: 'Joints',
            about: 'crosses in yokes; twice up and down in each turn',
            sensor: 'A vibration sensor on the gearbox’s tail shows twice a turn what the joints leave over.',
            cautions: [UNDER],
            figures: [
              figure('joint-1', 'angle of the first', 'β1', 'angle', shaft.first.angle),
              figure('joint-2', 'angle of the second', 'β2', 'angle', shaft.second.angle),
              figure('joint-limit', 'greatest angle at the greatest speed', 'βl', 'angle', shaft.first.limitAtTop),
              figure('joint-share', 'fluctuation behind the first', 'u', 'ratio', shaft.first.share),
              figure('phase', 'out of phase', 'φ', 'angle', shaft.phase),
              figure('angle-left', 'angle left behind both', 'βr', 'angle', shaft.left),
              figure('angle-allowed', 'angle left that is allowed', 'βa', 'angle', shaft.allowed),
              capacity('joints'),
            ],
          },
        ] satisfies Station[])
      : []),
    {
      id: 'axle',
      name: 'Axle',
      about: inOne ? 'final drive in the gearbox’s case' : 'final drive and its shafts',
      figures: [
        figure('final-drive', 'final drive', 'f', 'ratio', now.finalDrive, 'entered'),
        figure('at-axle', 'torque at the wheels, no more than they pass', 'Ta', 'torque', torques.atAxle),
        figure('shock-at-axle', 'the same, clutch dropped', 'Tx', 'torque', torques.shockAtAxle),
        figure(
          'axle-rated',
          'rated output',
          'Tr',
          'torque',
          entered(sheet.axleTorque, 'rated output of the axle'),
          'entered',
        ),
        capacity('axle'),
      ],
    },
    {
      id: 'tyres',
      name: 'Tyres',
      about: `${facts.driven === undefined ? 'driven wheels not entered' : `driven: ${facts.driven}`}, ${load}: beyond their torque they spin`,
      figures: [
        figure('grip', 'grip on a dry road', 'μ', 'ratio', facts.grip, sheet.tyreGrip ? 'entered' : 'computed'),
        figure('grip-torque', 'torque that they pass', 'Tp', 'torque', torques.grip),
        figure('grip-as-engine', 'the same as engine torque in this gear', 'Tc', 'torque', torques.gripAsEngine),
        figure('grip-force', 'drive force', 'F', 'force', torques.gripForce),
      ],
    },
  ]
}
