/**
 * Two exchangers joined by a loop of liquid, as charge cooler and front exchanger.   Q = (T1 − T0)/(1/(ε1·C1m) + 1/(ε2·C2m) − 1/Cw)
 *   UA1  charge cooler                   W/K  0 … 1e5
 *   UA2  front exchanger                 W/K  0 … 1e5
 *   Ca   charge air                      W/K  0.1 … 1e6
 *   Cw   loop                            W/K  0.1 … 1e6
 *   C0   air through the front           W/K  0.1 … 1e6
 *   T1   charge into the cooler          K    220 … 700
 *   T0   air into the front              K    220 … 700
 *   Q    heat                            W
 *   Twc  liquid into the cooler          K
 *   Twh  liquid out of the cooler        K
 *   T2   charge out                      K
 *   εw   effectiveness on the water      1
 *   εa   effectiveness on outside air    1
 * Errors: `out-of-range`, `inconsistent-inputs`, `no-answer` (nothing exchanges). Limits: steady, both crossflow unmixed, hoses lose nothing.
 * Source: Kays & London, liquid-coupled indirect-transfer exchangers [from memory].
 */
import { calculation, result, type Source } from '../calculation.ts'
import { effectivenessOf } from './effectiveness.ts'
import { conductanceInput, kaysLondon, rateInput, temperatureInput } from './sources.ts'

/** Kept value: scipy.optimize.fsolve on the three balances; ε of each core by scipy.integrate.quad of Nusselt’s Bessel form. */
const scipy: Source = {
  title:
    'SciPy 1.17.1: fsolve on the balances of both cores, each core’s ε by scipy.special and quad (Nusselt’s solution)',
  how: 'computed',
}

export const coupledExchangers = calculation({
  id: 'coupled-exchangers',
  title: 'Charge cooler and front exchanger on one water loop, steady',
  inputs: {
    coolerConductance: conductanceInput('UA1', 'conductance of the charge cooler'),
    frontConductance: conductanceInput('UA2', 'conductance of the front exchanger'),
    chargeRate: rateInput('Ca', 'charge air: mass flow times specific heat'),
    loopRate: rateInput('Cw', 'loop: mass flow of the liquid times its specific heat'),
    frontRate: rateInput('C0', 'air through the front exchanger: mass flow times specific heat'),
    chargeIn: temperatureInput('T1', 'charge into the cooler'),
    outside: temperatureInput('T0', 'air into the front exchanger'),
  },
  outputs: {
    heat: result('power', { symbol: 'Q', about: 'heat carried off in steady state' }),
    waterIn: result('temperature', { symbol: 'Twc', about: 'liquid into the cooler' }),
    waterOut: result('temperature', { symbol: 'Twh', about: 'liquid out of the cooler' }),
    chargeOut: result('temperature', { symbol: 'T2', about: 'charge out of the cooler' }),
    againstWater: result('ratio', { symbol: 'εw', about: 'effectiveness against the water into the cooler' }),
    againstAir: result('ratio', { symbol: 'εa', about: 'effectiveness against the air into the front exchanger' }),
  },
  formula:
    '{heat} = ({chargeIn} − {outside}) / (1/(ε1 × min({chargeRate}, {loopRate})) + 1/(ε2 × min({loopRate}, {frontRate})) − 1/{loopRate}), ε1 from {coolerConductance}, ε2 from {frontConductance}\n{waterOut} = {outside} + {heat} / (ε2 × min({loopRate}, {frontRate}))\n{waterIn} = {waterOut} − {heat} / {loopRate}\n{chargeOut} = {chargeIn} − {heat} / {chargeRate}\n{againstWater} = ({chargeIn} − {chargeOut}) / ({chargeIn} − {waterIn})\n{againstAir} = ({chargeIn} − {chargeOut}) / ({chargeIn} − {outside})',
  sources: [kaysLondon],
  cautions: ['Open no hot loop: let it cool first.'],
  limits: [
    'Steady state: minutes of load. In a short pull the water stores the heat and the charge stays cooler than this.',
    'Both cores crossflow, both streams unmixed; hoses and tank lose nothing.',
  ],
  conditions: [
    {
      at: 'outside',
      holds: (given) => given.chargeIn > given.outside,
      says: 'The charge is no hotter than the air into the front exchanger.',
      todo: 'Look whether the two sensors are swapped.',
    },
  ],
  checks: [
    {
      inputs: {
        coolerConductance: 400,
        frontConductance: 350,
        chargeRate: 150,
        loopRate: 800,
        frontRate: 600,
        chargeIn: 400,
        outside: 300,
      },
      output: 'chargeOut',
      expected: 337.8216900747665,
      tolerance: { abs: 1e-3 },
      because: 'integrals and iteration to 1e-9',
      source: scipy,
      evidence: 'library',
    },
  ],
  compute: ({ coolerConductance, frontConductance, chargeRate, loopRate, frontRate, chargeIn, outside }) => {
    const through = (conductance: number, a: number, b: number): number => {
      const lesser = Math.min(a, b)
      return effectivenessOf('crossflow, both unmixed', conductance / lesser, lesser / Math.max(a, b)) * lesser
    }
    const cooler = through(coolerConductance, chargeRate, loopRate)
    const front = through(frontConductance, loopRate, frontRate)
    const heat = (chargeIn - outside) / (1 / cooler + 1 / front - 1 / loopRate)
    const waterOut = outside + heat / front
    const waterIn = waterOut - heat / loopRate
    const chargeOut = chargeIn - heat / chargeRate
    return {
      heat,
      waterIn,
      waterOut,
      chargeOut,
      againstWater: (chargeIn - chargeOut) / (chargeIn - waterIn),
      againstAir: (chargeIn - chargeOut) / (chargeIn - outside),
    }
  },
})
