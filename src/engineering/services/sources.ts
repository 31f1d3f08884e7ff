/** Sources that the calculations of oil, exhaust and cabin services share. */
import type { Source } from '../calculation.ts'

export const incropera: Source = { title: 'Incropera & DeWitt, Fundamentals of Heat and Mass Transfer', how: 'memory' }

/** Kinematic viscosity at 100 °C by the second number of an engine oil’s grade, m²/s: at least, and below. */
export const J300 = {
  source: {
    title: 'SAE J300 (2015), kinematic viscosity at 100 °C by grade',
    where: 'as printed at raso.name and matarama.com, sheet 211.0',
    how: 'read',
  },
  grades: {
    '16': [6.1e-6, 8.2e-6],
    '20': [6.9e-6, 9.3e-6],
    '30': [9.3e-6, 12.5e-6],
    '40': [12.5e-6, 16.3e-6],
    '50': [16.3e-6, 21.9e-6],
    '60': [21.9e-6, 26.1e-6],
  },
} as const
