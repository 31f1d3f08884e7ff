/** Sources that several fuel calculations rest on, and the trade's units in SI. */
import type { Source } from '../calculation.ts'

/** lb/h, hp (mechanical), lb/(hp·h), cm³/min and psi in SI: exact factors, NIST SP 811 appendix B. */
export const LB_PER_HOUR = 0.45359237 / 3600
export const HORSEPOWER = 745.6998715822702
export const LB_PER_HP_HOUR = LB_PER_HOUR / HORSEPOWER
export const CC_PER_MINUTE = 1e-6 / 60
export const US_GALLON = 3.785411784e-3

export const workshopSheet: Source = {
  title: 'Workshop formula sheet “Horsepower & Torque … Choosing Fuel Injectors”',
  where: 'tech.mirage-performance.com/formulas.html, worked examples',
  how: 'read',
}
export const boschInjectors: Source = {
  title: 'Bosch Motorsport “Special (Basic Information)”',
  where: 'injector flow conversion, document 1410387 at doczz.fr',
  how: 'read',
}
export const heywood: Source = {
  title: 'Heywood, Internal Combustion Engine Fundamentals',
  where: 'section 2.8',
  how: 'memory',
}
export const definition: Source = {
  title: 'Definition of brake specific fuel consumption: fuel mass flow over brake power',
  where: 'Heywood section 2.8',
  how: 'memory',
}
export const tradeRule: Source = {
  title: 'Petrol six-cylinder: about one horsepower per cc/min of each injector at 100 % duty, very rough',
  how: 'common practice',
}
export const tradeDuty: Source = { title: 'Plan for about 80 % injector duty', how: 'common practice' }

export const LAMBDA_LIMIT =
  'BSFC is the fuel really burnt per work at the stated lambda. Lambda turns fuel into air; it never multiplies this fuel again.'
export const DUTY_CAUTION =
  'Near 100 % duty an injector no longer closes between pulses and loses its control of fuel; 80 % is what the trade plans for (common practice, no published source).'
