/** Sources and inputs that the calculations of heat share. */
import { choice, quantity, type Source } from '../calculation.ts'
import { ARRANGEMENTS } from './effectiveness.ts'

export const incropera: Source = {
  title: 'Incropera & DeWitt, Fundamentals of Heat and Mass Transfer',
  where: 'chapter 11, table 11.3',
  how: 'memory',
}
export const kaysLondon: Source = {
  title: 'Kays & London, Compact Heat Exchangers',
  where: 'effectiveness tables; liquid-coupled exchangers',
  how: 'memory',
}
export const fChart: Source = {
  title: 'F-Chart Software, heat exchanger library, crossflow both unmixed, examples',
  where: 'fchartsoftware.com, hs30.htm',
  how: 'read',
}

export const arrangementInput = choice(ARRANGEMENTS, {
  symbol: 'flow',
  about: 'how the streams pass each other; a finned core under a straight air stream is crossflow, both unmixed',
})
export const conductanceInput = (symbol: string, what: string) =>
  quantity('heatCapacityRate', { symbol, min: 0, max: 1e5, plausible: [20, 5000], about: what })
export const rateInput = (symbol: string, what: string) =>
  quantity('heatCapacityRate', { symbol, min: 0.1, max: 1e6, plausible: [20, 2e4], about: what })
export const temperatureInput = (symbol: string, what: string) =>
  quantity('temperature', { symbol, min: 220, max: 700, plausible: [250, 500], about: what })
