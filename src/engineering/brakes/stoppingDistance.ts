/**
 * Way to a stop.   s = t·v + v²/(2·d), E = m·v²/2
 *   v  speed                    m/s   0.1 … 100
 *   d  deceleration             m/s²  0.1 … 20
 *   t  until the brakes bite    s     0 … 5
 *   m  mass                     kg    50 … 4e4
 *   s  way                      m
 *   T  time                     s
 *   E  energy                   J
 * Errors: `out-of-range`. Limits: mean fully developed deceleration; the driver’s thinking comes before it.
 * Source: UN R13-H, annex 3, s = 0.1·v + 0.0060·v², 0.1·v being 0.36 s [from memory]; 49 CFR 571.135 S7.5, 70 m from 100 km/h [read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { POUND } from '../exactUnits.ts'
import { gillespie, unR13H } from './sources.ts'

const KMH = 1 / 3.6
const fmvss: Source = {
  title: '49 CFR 571.135, S7.5, as quoted in NHTSA interpretation 11409.MLS',
  where: '70 m from 100 km/h',
  how: 'read',
}
const contactPatch: Source = {
  title: 'The contact patch, C.0816 Stopping, the-contact-patch.com',
  where: '1.5 t, 120 km/h, 0.5 g: a little over 800 kJ, just under 7 s',
  how: 'read',
}

export const stoppingDistance = calculation({
  id: 'stopping-distance',
  title: 'Way, time and energy of a stop',
  inputs: {
    speed: quantity('speed', {
      symbol: 'v',
      min: 0.1,
      max: 100,
      plausible: [2, 70],
      about: 'speed at the pedal’s touch',
    }),
    deceleration: quantity('acceleration', {
      symbol: 'd',
      min: 0.1,
      max: 20,
      plausible: [1, 11],
      about: 'mean fully developed deceleration',
    }),
    delay: quantity('time', {
      symbol: 't',
      min: 0,
      max: 5,
      plausible: [0, 1],
      about: 'from the pedal’s touch until the brakes bite; 0.36 s in R13-H, the driver’s thinking not counted',
    }),
    mass: quantity('mass', { symbol: 'm', min: 50, max: 4e4, plausible: [400, 5000], about: 'mass of the car' }),
  },
  outputs: {
    distance: result('length', { symbol: 's', about: 'way until it stands' }),
    time: result('time', { symbol: 'T', about: 'time until it stands' }),
    energy: result('energy', { symbol: 'E', about: 'energy that becomes heat, turning parts not counted' }),
  },
  formula:
    '{distance} = {delay} × {speed} + {speed}² / (2 × {deceleration})\n{time} = {delay} + {speed} / {deceleration}\n{energy} = {mass} × {speed}² / 2',
  sources: [unR13H, fmvss, gillespie],
  cautions: [],
  limits: ['Dry, level, straight; a wet road or locked wheels take far longer. Thinking time comes on top.'],
  checks: [
    {
      inputs: { speed: 100 * KMH, deceleration: 6.43, delay: 0.36, mass: 1500 },
      output: 'distance',
      expected: 70,
      tolerance: { abs: 0.1 },
      because: '6.43 is rounded',
      source: fmvss,
      evidence: 'published',
    },
    {
      inputs: { speed: 100 * KMH, deceleration: 2.44, delay: 0.36, mass: 1500 },
      output: 'distance',
      expected: 168,
      tolerance: { abs: 0.3 },
      because: '2.44 is rounded',
      source: { ...unR13H, where: 'secondary: 168 m from 100 km/h' },
      evidence: 'published',
    },
    {
      inputs: { speed: 88 * 0.3048, deceleration: 17.72 * 0.3048, delay: 0, mass: 3635 * POUND },
      output: 'distance',
      expected: 218.6 * 0.3048,
      tolerance: { rel: 1e-3 },
      because: 'four digits',
      source: { ...gillespie, where: 'example 1: 60 mile/h at 17.72 ft/s², 218.6 ft' },
      evidence: 'published',
    },
    {
      inputs: { speed: 134 * KMH, deceleration: 0.81 * 9.80665, delay: 0, mass: 1690 },
      output: 'energy',
      expected: 1.17e6,
      tolerance: { rel: 2e-3 },
      because: 'printed to three digits',
      source: {
        title: 'Disc rotors, sib.ru/sibblog/notes/40060',
        where: '1690 kg from 134 km/h: 1170 kJ, 87 m at 0.81 g',
        how: 'read',
      },
      evidence: 'published',
    },
    {
      inputs: { speed: 120 * KMH, deceleration: 0.5 * 9.80665, delay: 0, mass: 1500 },
      output: 'time',
      expected: 6.8,
      tolerance: { abs: 0.1 },
      because: 'printed as just under 7 s',
      source: contactPatch,
      evidence: 'published',
    },
  ],
  compute: ({ speed, deceleration, delay, mass }) => ({
    distance: delay * speed + (speed * speed) / (2 * deceleration),
    time: delay + speed / deceleration,
    energy: 0.5 * mass * speed * speed,
  }),
})
