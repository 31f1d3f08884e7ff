/** The stations of exhaust, of what runs near it, and of cabin services. */
import { type Datum, entered, figure, type Station } from '../chain/chain.ts'
import { supersede } from '../chain/readings.ts'
import type { BackPressure } from './backPressure.ts'
import type { Heater, Steering } from './cabin.ts'
import type { ServiceFacts } from './facts.ts'
import type { NearHot } from './nearHeat.ts'
import { BELT_CAUTION, FUMES_CAUTION, HOT_CAUTION } from './words.ts'

export const nearStation = ({ at }: NearHot): string => `near-${at}`
export const partStation = (id: string): string => `part-${id}`

export const exhaustStations = ({ exhaust, readings }: ServiceFacts, back: BackPressure): readonly Station[] => [
  {
    id: 'gas',
    name: 'Exhaust gas',
    about: 'air and fuel of the target power, less what nobody measured',
    cautions: [FUMES_CAUTION, HOT_CAUTION],
    figures: [figure('exhaust-gas', 'by mass at target power', 'ṁ', 'massFlow', back.gas)],
  },
  ...back.parts.map(
    ({ id, name, stated, gasTemperature, velocity, mach, loss }): Station => ({
      id: partStation(id),
      name,
      about: stated ? 'its loss is stated' : 'loses by its bore, length and bends',
      figures: [
        figure(`${id}-temperature`, 'gas', 'T', 'temperature', gasTemperature, 'entered'),
        ...(stated
          ? []
          : [
              figure(`${id}-velocity`, 'mean velocity', 'v', 'speed', velocity),
              figure(`${id}-mach`, 'over the speed of sound', 'Ma', 'ratio', mach),
            ]),
        figure(`${id}-loss`, 'pressure lost', 'Δp', 'pressureDifference', loss),
      ],
    }),
  ),
  {
    id: 'back-pressure',
    name: 'Back-pressure',
    about: 'that all of it holds against engine and turbocharger at full load',
    sensor:
      'A steel pipe of half a metre from a boss right behind turbocharger or manifold to the sensor, so that the gas is cold there.',
    cautions: [FUMES_CAUTION, HOT_CAUTION],
    figures: [
      figure('back-reckoned', 'reckoned from the parts', 'pr', 'pressureDifference', back.reckoned),
      supersede(
        'back-measured',
        'as measured',
        'pm',
        'pressureGauge',
        entered(exhaust.backPressure, 'measured back-pressure'),
        readings['exhaust-back-pressure'],
        'entered',
      ),
      figure('back-limit', 'greatest by the maker', 'pg', 'pressureGauge', back.limit, 'entered'),
    ],
  },
]

export const nearStations = ({ exhaust, readings }: ServiceFacts, near: readonly NearHot[]): readonly Station[] => [
  ...(near.length === 0
    ? []
    : [
        {
          id: 'surface',
          name: 'Hot metal',
          about: 'what everything beside it looks at',
          sensor: 'A thermocouple under a hose clip; paint sticks that melt at a stated temperature do for one drive.',
          cautions: [HOT_CAUTION],
          figures: [
            supersede(
              'exhaust-surface',
              'surface of the hottest pipe at full load',
              'Tp',
              'temperature' as const,
              entered(exhaust.surface, 'temperature of the exhaust’s surface'),
              readings['exhaust-surface'],
              'entered' as const,
            ),
          ],
        },
      ]),
  ...near.map(
    (item): Station => ({
      id: nearStation(item),
      name: item.near.name,
      about:
        item.near.shielded === undefined
          ? 'shield not known'
          : item.near.shielded
            ? 'behind a shield'
            : 'no shield between',
      figures: [
        figure(`near-${item.at}-distance`, 'gap to the hot metal', 'd', 'length', item.distance, 'entered'),
        figure(`near-${item.at}-metal`, 'hot metal beside it', 'Tp', 'temperature', item.surface, 'entered'),
        figure(`near-${item.at}-air`, 'air about it', 'T0', 'temperature', item.air, 'entered'),
        figure(`near-${item.at}-mean`, 'its mean, if heat spreads round it', 'Tm', 'temperature', item.mean),
        figure(`near-${item.at}-facing`, 'side that faces, if none spreads', 'Tf', 'temperature', item.facing),
        figure(
          `near-${item.at}-limit`,
          'that it stands for long',
          'Tl',
          'temperature',
          item.limit,
          item.near.limit ? 'entered' : 'computed',
        ),
      ],
    }),
  ),
]

export const cabinStations = (
  { cabin, readings, idleSpeed }: ServiceFacts,
  heater: Heater,
  steering: Steering,
): readonly Station[] => {
  const given = (datum: Datum, id: string, name: string, symbol: string, kind: Parameters<typeof figure>[3]) =>
    figure(id, name, symbol, kind, datum, 'entered')
  return [
    {
      id: 'heater',
      name: 'Heater',
      about: cabin.heater?.state ?? 'how its circuit runs is not entered',
      cautions: ['Never open the cooling system hot: it is under pressure and scalds.'],
      figures: [
        supersede(
          'heater-flow',
          'coolant through the matrix',
          'Qc',
          'volumeFlow',
          heater.flowOnSheet,
          readings['heater-coolant-flow'],
          'entered',
        ),
        figure('heater-idle-flow', 'the same at idle', 'Qi', 'volumeFlow', heater.idleFlow),
        given(heater.coolantIn, 'heater-in', 'coolant into it, at the thermostat’s opening', 'Th', 'temperature'),
        given(heater.airIn, 'heater-air-in', 'air into it', 'Tc', 'temperature'),
        figure('heater-effectiveness', 'effectiveness of the matrix', 'ε', 'ratio', heater.effectiveness),
        figure('heater-heat', 'heat to the cabin', 'P', 'power', heater.heat),
        figure('heater-air-out', 'air out of it', 'To', 'temperature', heater.airOut),
        figure('heater-fall', 'fall of the coolant', 'ΔT', 'temperatureDifference', heater.coolantFall),
        given(heater.wanted, 'heater-wanted', 'heat that the cabin asks for', 'Pw', 'power'),
      ],
    },
    {
      id: 'steering',
      name: 'Steering pump',
      about:
        cabin.steering?.kind === 'electric'
          ? 'electric: the circuits carry it'
          : cabin.steering?.kind === 'none'
            ? 'nothing helps the steering'
            : cabin.steering?.kind === 'by belt'
              ? 'driven by belt; worst at idle on full lock'
              : 'what helps the steering is not entered',
      cautions: [BELT_CAUTION],
      figures:
        cabin.steering?.kind === 'none' || cabin.steering?.kind === 'electric'
          ? []
          : [
              given(idleSpeed, 'idle-speed', 'idle speed', 'ω', 'angularSpeed'),
              figure(
                'steering-efficiency',
                'efficiency of the pump',
                'η',
                'ratio',
                steering.efficiency,
                cabin.steering?.efficiency ? 'entered' : 'computed',
              ),
              figure('steering-power', 'power that it takes at its relief pressure', 'P', 'power', steering.power),
              figure('steering-torque', 'torque at the crankshaft', 'T', 'torque', steering.torque),
              figure('steering-pull', 'pull of its belt', 'F', 'force', steering.pull),
              given(steering.spare, 'idle-torque', 'torque that idle can spare', 'Ts', 'torque'),
            ],
    },
  ]
}
