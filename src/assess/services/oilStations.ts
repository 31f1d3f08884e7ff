/** The stations of the oil: itself, its pressure by speed, the turbocharger’s feed and drain, the breather. */
import { entered, type Figure, figure, type Station } from '../chain/chain.ts'
import { supersede } from '../chain/readings.ts'
import type { Breather } from './breather.ts'
import type { ServiceFacts } from './facts.ts'
import type { OilPressure } from './oilPressure.ts'
import type { Oil, TurboOil } from './turboOil.ts'
import { BELT_CAUTION, HOT_CAUTION, OIL_CAUTION, revs } from './words.ts'

export interface OilShown {
  readonly facts: ServiceFacts
  readonly oil: Oil
  readonly pressure: OilPressure
  readonly turbo: TurboOil
  readonly breather: Breather
}

const inLitres = (made: Figure): Figure => ({ ...made, unit: 'l/min' })

export const oilStations = ({ facts, oil, pressure, turbo, breather }: OilShown): readonly Station[] => {
  const { oil: sheet, readings } = facts
  return [
    {
      id: 'oil',
      name: 'Engine oil',
      about: sheet.grade ? `grade ending in ${sheet.grade}` : 'its grade is not entered',
      sensor: 'Oil temperature in the sump, tip clear of its floor, or in the filter’s head.',
      figures: [
        supersede(
          'oil-temperature',
          'hot, in the sump',
          'T',
          'temperature',
          entered(sheet.hotTemperature, 'temperature of the hot oil'),
          readings['oil-temperature'],
          'entered',
        ),
        figure(
          'oil-at-100',
          'viscosity at 100 °C',
          'ν100',
          'kinematicViscosity',
          oil.at100,
          sheet.viscosity100 ? 'entered' : 'computed',
        ),
        figure('oil-hot', 'viscosity when hot', 'νh', 'kinematicViscosity', oil.hot),
        figure('oil-cold', 'viscosity at the coldest start', 'νc', 'kinematicViscosity', oil.cold),
        figure('oil-density', 'density when hot', 'ρ', 'density', oil.hotDensity),
        figure('oil-rise', 'rise through the engine at full load', 'ΔT', 'temperatureDifference', oil.rise),
      ],
    },
    {
      id: 'pressure',
      name: 'Oil pressure',
      about:
        pressure.by === 'maker'
          ? 'hot, against the maker’s least'
          : 'hot, against a rule of thumb: the maker’s least is not entered',
      sensor:
        'Pressure at the main gallery, not behind the turbocharger’s feed; logged with engine speed and oil temperature.',
      cautions: [HOT_CAUTION, BELT_CAUTION],
      figures: pressure.points.flatMap(({ speed, pressure: read, need, idle: idling }, index) => {
        const at = revs(speed)
        const idle = idling && readings['hot idle oil pressure']
        return [
          {
            ...figure(
              idling ? 'oil-pressure-idle' : `oil-pressure-${index}`,
              `at ${at}`,
              `p${index + 1}`,
              'pressureGauge',
              read,
              idle ? 'measured' : 'entered',
            ),
            unit: 'bar',
            ...(idle ? { reading: idle.id } : {}),
          },
          {
            ...figure(
              `oil-need-${index}`,
              `least at ${at}`,
              `n${index + 1}`,
              'pressureGauge',
              need,
              pressure.by === 'maker' ? 'entered' : 'computed',
            ),
            unit: 'bar',
          },
        ]
      }),
    },
    ...(facts.turbo
      ? ([
          {
            id: 'feed',
            name: 'Turbocharger’s oil feed',
            about: sheet.turboRestrictor ? 'with a restrictor' : 'no restrictor is entered',
            cautions: [OIL_CAUTION],
            figures: [
              inLitres(
                supersede(
                  'turbo-need',
                  'oil that it takes hot',
                  'Q',
                  'volumeFlow',
                  turbo.neededOnSheet,
                  readings['turbo-oil-flow'],
                  'entered',
                ),
              ),
              figure('feed-loss', 'lost in the pipe', 'Δp', 'pressureDifference', turbo.feedLoss),
              figure(
                'restrictor-loss',
                sheet.turboRestrictor ? 'lost in the restrictor' : 'lost at its entry',
                'Δr',
                'pressureDifference',
                turbo.restrictorLoss,
              ),
              figure('at-inlet', 'left at the turbocharger', 'pt', 'pressureGauge', turbo.atInlet),
              inLitres(
                figure('feed-hot', 'most that it passes hot, nothing behind it', 'Qh', 'volumeFlow', turbo.mostHot),
              ),
              inLitres(
                figure('feed-cold', 'most that it passes at the coldest start', 'Qc', 'volumeFlow', turbo.mostCold),
              ),
              figure('feed-reynolds', 'Reynolds number, hot; laminar below 2300', 'Re', 'ratio', turbo.reynolds),
            ],
          },
          {
            id: 'drain',
            name: 'Turbocharger’s oil drain',
            about: 'runs by its weight alone',
            cautions: [OIL_CAUTION],
            figures: [
              figure('drain-slope', 'fall over its length', 's', 'ratio', turbo.slope),
              inLitres(figure('drain-hot', 'takes half full, hot, without foam', 'Qd', 'volumeFlow', turbo.drainHot)),
              inLitres(
                figure('drain-cold', 'takes half full at the coldest start', 'Qk', 'volumeFlow', turbo.drainCold),
              ),
              figure('drain-in-hand', 'over the oil that comes', 'x', 'ratio', turbo.inHand),
              figure(
                'drain-above',
                'its end above the oil’s level',
                'h',
                'length',
                entered(sheet.turboDrainAbove, 'height of the drain’s end above the oil'),
                'entered',
              ),
            ],
          },
        ] as const)
      : []),
    {
      id: 'breather',
      name: 'Crankcase breather',
      about: sheet.breather ?? 'where it goes is not entered',
      sensor: 'Pressure in the crankcase at the dipstick’s tube, at full load, against the outside.',
      cautions: ['What it breathes out is oil mist and fuel: keep it from hot metal, sparks and the cabin.'],
      figures: [
        figure(
          'blow-by-share',
          'of the engine’s air',
          'x',
          'ratio',
          breather.share,
          sheet.blowByShare ? 'entered' : 'computed',
        ),
        inLitres(
          supersede(
            'blow-by',
            'blow-by at target power',
            'Qb',
            'volumeFlow',
            breather.reckonedFlow,
            readings['blow-by-flow'],
          ),
        ),
        figure('breather-speed', 'velocity in the hose', 'v', 'speed', breather.velocity),
        supersede(
          'crankcase-pressure',
          'pressure that it leaves in the crankcase',
          'pk',
          'pressureDifference',
          breather.reckonedPressure,
          readings['crankcase-pressure'],
        ),
      ],
    },
  ]
}
